"""Reed and Holland (1919): mean heights of 58 sunflowers, cm, each week. From memory, not found in stored texts.

The curve that fits them (261.0 cm, 0.0877 a day, day 34.3, 3.3 cm off) is our own, by scipy, and so a pin: that other
hands get the same from the same heights is what it shows.
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.processes import find
from sonify.science.growth import fitted_growth, logistic_height
from tests.reference.tolerance import half_last_digit

DAYS = np.arange(7.0, 85.0, 7.0)
HEIGHTS_CM = [
    *("17.93", "36.36", "67.76", "98.10", "131.00", "169.50"),
    *("205.50", "228.30", "247.10", "250.50", "253.80", "254.50"),
]
FITTED = ("261.0", "0.0877", "34.3")
MISSED_CM = "3.3"


def test_the_curve_that_fits_them() -> None:
    heights = np.array([float(each) for each in HEIGHTS_CM])
    found = fitted_growth(DAYS, heights, "logistic")
    for number, printed in zip(found, FITTED, strict=True):
        assert number == pytest.approx(float(printed), abs=half_last_digit(printed))
    missed = logistic_height(DAYS - found[2], found[0], found[1]) - heights
    assert float(np.sqrt(np.mean(missed**2))) == pytest.approx(float(MISSED_CM), abs=half_last_digit(MISSED_CM))


def test_the_process_grows_like_these_unless_the_scene_says_otherwise() -> None:
    usual = {one.name: one.default for one in find("plant-growth").conditions}
    tall = find("plant-growth").run(usual).quantity("height")
    ours = np.interp(DAYS, np.linspace(0.0, 84.0, tall.values.size), tall.in_unit())
    assert np.max(np.abs(ours - [float(each) for each in HEIGHTS_CM])) < 7.0
