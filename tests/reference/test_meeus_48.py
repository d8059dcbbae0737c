"""Meeus, Astronomical Algorithms, example 48.a (12 April 1992, 0 h): read in several programs' tests."""

from __future__ import annotations

from math import pi, radians

import numpy as np
import pytest

from sonify.science.moon import elongation, lit_share
from sonify.science.sun import days_since_2000
from tests.reference.tolerance import half_last_digit

PHASE_ANGLE, LIT = "69.0756", "0.6786"


def test_the_lit_share_of_the_example() -> None:
    assert float(lit_share(pi - radians(float(PHASE_ANGLE)))) == pytest.approx(float(LIT), abs=half_last_digit(LIT))


def test_the_short_formula_comes_near_the_examples_angle() -> None:
    """The example takes the Moon's full place; equation 48.4 leaves out its way north and south of the Sun's."""
    day = float(days_since_2000(1992, 103, 0.0))
    angle = 180.0 - float(np.degrees(elongation(day))) % 360.0
    assert abs(angle) == pytest.approx(float(PHASE_ANGLE), abs=0.4)
    assert float(lit_share(elongation(day))) == pytest.approx(float(LIT), abs=0.004)
