"""Halliday, Resnick and Walker, Fundamentals of Physics, table 19-1: rms speeds at 300 K, m/s.

Nitrogen's 517 was read on a page that quotes the table; the rest from memory, not verified, hence the 1 %.
"""

from __future__ import annotations

import pytest

from sonify.science.kinetic import rms_speed

READ = [("nitrogen", 0.0280134, 517.0)]
FROM_MEMORY = [
    ("hydrogen", 0.00201588, 1920.0),
    ("helium", 0.004002602, 1370.0),
    ("water vapour", 0.01801528, 645.0),
    ("oxygen", 0.0319988, 483.0),
    ("carbon dioxide", 0.0440095, 412.0),
]


@pytest.mark.parametrize(("gas", "molar", "printed"), READ)
def test_rms_speed_gives_the_table(gas: str, molar: float, printed: float) -> None:
    assert rms_speed(300.0, molar) == pytest.approx(printed, abs=1.0), gas


@pytest.mark.parametrize(("gas", "molar", "printed"), FROM_MEMORY)
def test_rms_speed_is_near_the_table_as_remembered(gas: str, molar: float, printed: float) -> None:
    assert rms_speed(300.0, molar) == pytest.approx(printed, rel=0.01), gas
