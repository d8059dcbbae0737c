"""Yen and Chow 1980, the triangular hyetograph: peak 2 P/T at r T (read in several programs, one of which tests that
50 mm an hour at the top of an hour's triangle is 25 mm of rain, half of it before the peak)."""

from __future__ import annotations

import numpy as np
import pytest

from sonify.science.runoff import storm_rain


def test_an_hour_of_triangle_with_50_mm_an_hour_at_its_top() -> None:
    assert 1000 * storm_rain(3600.0, 3600.0, 0.025, 0.5) == pytest.approx(25.0)
    assert 1000 * storm_rain(1800.0, 3600.0, 0.025, 0.5) == pytest.approx(12.5)
    rate = (storm_rain(1800.5, 3600.0, 0.025, 0.5) - storm_rain(1799.5, 3600.0, 0.025, 0.5)) * 3.6e6
    assert rate == pytest.approx(50.0, rel=1e-3)


@pytest.mark.parametrize("peak", [0.0, 0.1, 0.375, 0.8, 1.0])
def test_all_the_rain_falls_and_hardest_at_the_peak(peak: float) -> None:
    time_s = np.linspace(0.0, 9000.0, 9001)
    fallen = storm_rain(time_s, 7200.0, 0.03, peak)
    assert fallen[0] == 0.0 and np.all(fallen[time_s >= 7200.0] == pytest.approx(0.03))
    rate = np.diff(fallen)
    assert np.all(rate >= -1e-18)
    assert rate.max() == pytest.approx(2 * 0.03 / 7200.0, rel=1e-3)
    assert np.argmax(rate) == pytest.approx(peak * 7200.0, abs=1.5)
