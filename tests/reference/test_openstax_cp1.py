"""OpenStax, College Physics: worked examples, read in stored copies of the text.

The Simple Pendulum: "75.000 cm", "1.7357 s", answer 9.8281 m/s².
"""

from __future__ import annotations

import pytest

from sonify.science.pendulum import small_swing_period
from tests.reference.tolerance import half_last_digit

LENGTH_CM, PERIOD_S, GRAVITY = "75.000", "1.7357", "9.8281"


def test_the_pendulum_that_measures_gravity() -> None:
    found = small_swing_period(float(LENGTH_CM) / 100.0, float(GRAVITY))
    assert found == pytest.approx(float(PERIOD_S), abs=half_last_digit(PERIOD_S))
