"""Lucas (1918) and Washburn (1921): water creeping into fine tubes.

Numbers computed from the law with IAPWS properties. With gravity, against the closed form of Fries and Dreyer (2008) by
scipy's Lambert function, and against scipy's integration of the equation itself.
"""

from __future__ import annotations

from math import radians

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.special import lambertw

from sonify.science.capillarity import Gap, climbed_height, climbing_time, jurin_height, washburn_height
from sonify.science.liquid_water import water_density, water_viscosity
from tests.reference.tolerance import half_last_digit

FINE = Gap(radius_m=10e-6, temperature_k=293.15)


@pytest.mark.parametrize(("seconds", "printed"), [(1, "1.906"), (10, "6.026"), (60, "14.76")])
def test_washburns_law_at_20_degrees(seconds: float, printed: str) -> None:
    assert 100 * washburn_height(seconds, FINE) == pytest.approx(float(printed), abs=half_last_digit(printed))


def test_four_times_the_time_is_twice_the_height_until_gravity_matters() -> None:
    assert washburn_height(40.0, FINE) == pytest.approx(2 * washburn_height(10.0, FINE))
    early, late = (float(climbed_height(4 * t, FINE) / climbed_height(t, FINE)) for t in (0.01, 20_000.0))
    assert early == pytest.approx(2.0, rel=0.002)
    assert late < 1.4


def test_against_lamberts_function() -> None:
    rng = np.random.default_rng(11)
    for _ in range(30):
        gap = Gap(
            radius_m=float(10 ** rng.uniform(-5.5, -3.3)),
            temperature_k=float(rng.uniform(275.0, 350.0)),
            contact_angle_rad=float(rng.uniform(0.0, 1.4)),
            winding=float(rng.uniform(1.0, 6.0)),
        )
        limit = float(jurin_height(gap.radius_m, gap.temperature_k, gap.contact_angle_rad))
        weight = float(water_density(gap.temperature_k)) * 9.80665
        scale = 8 * float(water_viscosity(gap.temperature_k)) * gap.winding**2 * limit / (weight * gap.radius_m**2)
        times = scale * np.geomspace(1e-5, 40.0, 60)
        closed = limit * (1.0 + lambertw(-np.exp(-1.0 - times / scale)).real)
        np.testing.assert_allclose(climbed_height(times, gap), closed, rtol=1e-7)


def test_against_the_equation_integrated() -> None:
    gap = Gap(radius_m=120e-6, temperature_k=293.15, contact_angle_rad=radians(30.0), winding=3.0)
    weight = float(water_density(293.15)) * 9.80665
    pull = 2 * 0.0727361 * np.cos(radians(30.0)) / 120e-6
    drag = 8 * 1.00157e-3 * 9.0 / 120e-6**2
    start = 1e-4
    begin = float(climbing_time(start, gap))
    times = np.linspace(begin, 400.0, 50)
    solved = solve_ivp(
        lambda _, h: (pull - weight * h) / (drag * h), (begin, 400.0), [start], t_eval=times, rtol=1e-9, atol=1e-12
    )
    np.testing.assert_allclose(climbed_height(times, gap), solved.y[0], rtol=2e-5)


def test_time_and_height_are_each_others_inverse() -> None:
    times = np.geomspace(0.1, 2000.0, 40)
    gap = Gap(radius_m=100e-6, temperature_k=290.0, winding=4.0)
    np.testing.assert_allclose(climbing_time(climbed_height(times, gap), gap), times, rtol=1e-6)
