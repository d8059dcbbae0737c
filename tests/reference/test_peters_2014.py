"""Peters and others (2014), resting pulse of UK children aged 9 to 11, 1980 to 2008: means in the abstract."""

from __future__ import annotations

import pytest

from sonify.processes import find
from sonify.science.pulse import RESTING_BOYS_PER_MIN, RESTING_GIRLS_PER_MIN
from tests.reference.tolerance import half_last_digit

BOYS, GIRLS = "78.7", "82.2"  # beats a minute


def test_the_printed_means() -> None:
    assert pytest.approx(float(BOYS), abs=half_last_digit(BOYS)) == RESTING_BOYS_PER_MIN
    assert pytest.approx(float(GIRLS), abs=half_last_digit(GIRLS)) == RESTING_GIRLS_PER_MIN


def test_the_process_rests_between_them_unless_the_scene_says_otherwise() -> None:
    (resting,) = (one for one in find("pulse").conditions if one.name == "resting_pulse")
    assert resting.default * 60.0 == pytest.approx((float(BOYS) + float(GIRLS)) / 2.0)
