"""ISO 9613-2: geometrical divergence 20 lg(d / 1 m) + 11 dB. The standard is from memory; "Adiv 57.0" at 200 m was read
in a printed report of a program that follows it."""

from __future__ import annotations

import pytest

from sonify.science.vibration import level_at
from tests.reference.tolerance import half_last_digit

AT_200_M, ELEVEN = "57.0", 11.0


def test_what_200_metres_take_off() -> None:
    taken_off = float(level_at(0.0, 1.0, 1.0) - level_at(0.0, 1.0, 200.0)) + ELEVEN
    assert taken_off == pytest.approx(float(AT_200_M), abs=half_last_digit(AT_200_M))
