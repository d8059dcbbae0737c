"""Marshall and Palmer (1948), Journal of Meteorology 5, 165: drop sizes.

The constants (8000 per m³ and mm; 4.1 R^-0.21 per mm) are from memory; the rows were computed from them apart from our
code. The law is not consistent with itself: put back through fall speeds it returns up to 18 % more rain.
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.science.rain import (
    DROP_INTERCEPT_PER_M4,
    MM_PER_HOUR,
    drop_arrivals,
    drop_fall_speed,
    drop_size_slope,
    drops_in_the_air,
    median_drop_diameter,
    rain_water_in_the_air,
)
from tests.reference.tolerance import half_last_digit

# R in mm/h, slope per mm, median drop in mm, drops in a m³, water in g/m³, drops over 0.5 mm on a m² in a second
ROWS = [
    (1.0, "4.100", "0.895", "1951", "0.089", 750),
    (5.0, "2.924", "1.255", "2736", "0.344", 2110),
    (10.0, "2.528", "1.452", "3165", "0.615", 3120),
    (25.0, "2.086", "1.760", "3836", "1.329", 5040),
]


@pytest.mark.parametrize(("rate", "slope", "median", "drops", "water", "arrivals"), ROWS)
def test_rows(rate: float, slope: str, median: str, drops: str, water: str, arrivals: float) -> None:
    r = rate * MM_PER_HOUR
    ours = {
        slope: drop_size_slope(r) / 1000,
        median: median_drop_diameter(r) * 1000,
        drops: drops_in_the_air(r),
        water: rain_water_in_the_air(r) * 1000,
    }
    for printed, value in ours.items():
        assert value == pytest.approx(float(printed), abs=1.001 * half_last_digit(printed))
    assert drop_arrivals(r) == pytest.approx(arrivals, rel=0.02)


def test_half_the_water_is_in_drops_larger_than_the_median() -> None:
    r = 5.0 * MM_PER_HOUR
    size = np.linspace(0.0, 0.02, 40_001)
    water = size**3 * np.exp(-float(drop_size_slope(r)) * size)
    above = np.trapezoid(np.where(size >= float(median_drop_diameter(r)), water, 0.0), size)
    assert above / np.trapezoid(water, size) == pytest.approx(0.5, abs=0.001)


def test_the_arrivals_are_the_integral_they_claim_to_be() -> None:
    r = 10.0 * MM_PER_HOUR
    size = np.linspace(0.6e-3, 5.8e-3, 20_001)
    landing = DROP_INTERCEPT_PER_M4 * np.exp(-float(drop_size_slope(r)) * size) * drop_fall_speed(size)
    assert drop_arrivals(r, 0.6e-3) == pytest.approx(np.trapezoid(landing, size), rel=1e-3)


@pytest.mark.parametrize("rate", [1.0, 10.0, 50.0])
def test_the_rain_put_back_together_is_within_20_per_cent(rate: float) -> None:
    """The known flaw: 18, 16 and 10 % too much at 1, 10 and 50 mm/h (drops under 0.6 mm left out here)."""
    r = rate * MM_PER_HOUR
    size = np.linspace(0.6e-3, 5.8e-3, 20_001)
    volume = np.pi / 6 * size**3 * DROP_INTERCEPT_PER_M4 * np.exp(-float(drop_size_slope(r)) * size)
    assert np.trapezoid(volume * drop_fall_speed(size), size) == pytest.approx(r, rel=0.20)
