"""Curves of growth obey their own equations, and the fit finds what it should."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import OutOfRange
from sonify.science.growth import (
    CURVES,
    fitted_growth,
    gompertz_growth,
    gompertz_height,
    logistic_growth,
    logistic_height,
)

SINCE, RATES = st.floats(-60.0, 120.0), st.floats(0.01, 0.4)


@given(SINCE, RATES)
def test_logistic_growth_is_k_h_times_what_is_left(since: float, rate: float) -> None:
    height = float(logistic_height(since, 2.6, rate))
    assert float(logistic_growth(since, 2.6, rate)) == pytest.approx(rate * height * (1.0 - height / 2.6), abs=1e-12)


@given(SINCE, RATES)
def test_gompertz_growth_is_k_h_times_the_logarithm_of_what_is_left(since: float, rate: float) -> None:
    height = float(gompertz_height(since, 2.6, rate))
    left = np.log(2.6 / height) if height > 0.0 else 0.0
    assert float(gompertz_growth(since, 2.6, rate)) == pytest.approx(rate * height * left, rel=1e-6, abs=1e-12)


@pytest.mark.parametrize(
    ("height", "growth"), [(logistic_height, logistic_growth), (gompertz_height, gompertz_growth)], ids=CURVES
)
def test_growth_added_up_is_the_height(height: object, growth: object) -> None:
    """Gauss's quadrature (numpy) over a season, against the difference of two heights."""
    nodes, weights = np.polynomial.legendre.leggauss(60)
    times = 42.0 + 42.0 * nodes - 34.0
    added = 42.0 * float(np.sum(weights * growth(times, 2.6, 0.09)))  # type: ignore[operator]
    apart = float(height(50.0, 2.6, 0.09) - height(-34.0, 2.6, 0.09))  # type: ignore[operator]
    assert added == pytest.approx(apart, rel=1e-9)


@given(st.floats(0.1, 4.0), st.floats(0.03, 0.2), st.floats(15.0, 50.0), st.sampled_from(CURVES))
def test_readings_of_a_curve_give_the_curve(final: float, rate: float, fastest: float, curve: str) -> None:
    days = np.arange(0.0, 100.0, 5.0)
    height = logistic_height if curve == CURVES[0] else gompertz_height
    found = fitted_growth(days, height(days - fastest, final, rate), curve)
    np.testing.assert_allclose(found, (final, rate, fastest), rtol=1e-4)


@pytest.mark.parametrize("heights", [[0.1, 0.2, 0.3], [0.4, 0.3, 0.2, 0.1]])
def test_too_few_readings_or_a_plant_that_shrinks_are_refused(heights: list[float]) -> None:
    with pytest.raises(OutOfRange):
        fitted_growth(np.arange(float(len(heights))), np.array(heights), CURVES[0])
