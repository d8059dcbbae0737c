"""Melt by degrees and days, and the warmth of snow's surface.

Degree-day factors: 1 to 7 mm a day for each degree on a university's snow hydrology page, 1.7 to 8 in the snowmelt
chapter of a storm-water model's manual: read. 2.74 (0.060 inch for each degree Fahrenheit) in the US National
Engineering Handbook, part 630, chapter 11: from memory.
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.science.snow import degree_day_melt, snow_surface_temperature


def test_degree_days() -> None:
    """0.060 inch for each degree Fahrenheit and day is 2.74 mm for each degree Celsius and day."""
    factor = 0.060 * 25.4e-3 * 1.8 / 86400.0
    assert factor * 86400.0 == pytest.approx(2.74e-3, abs=0.005e-3)
    assert degree_day_melt(283.15, factor) * 86400.0 == pytest.approx(27.4e-3, abs=0.05e-3)
    assert degree_day_melt(273.15, factor) == 0.0 and degree_day_melt(260.0, factor) == 0.0
    assert degree_day_melt(275.15, factor, 274.15) == pytest.approx(factor)


def test_snow_is_never_warmer_than_its_melting_point() -> None:
    dew_k = np.linspace(240.0, 290.0, 101)
    surface_k = snow_surface_temperature(dew_k)
    assert surface_k.max() == 273.15
    np.testing.assert_array_equal(surface_k[dew_k < 273.15], dew_k[dew_k < 273.15])
