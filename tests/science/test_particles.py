"""Particles: what must hold without any table."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import OutOfRange
from sonify.science.kinetic import mean_speed
from sonify.science.particles import (
    ARGON_DEPTH_J,
    ARGON_DIAMETER_M,
    ARGON_KG_PER_MOL,
    coupling_factor,
    flat_mean_speed,
    heating_factor,
    pair_energy,
    pair_force,
    six_fold_order,
)


@given(st.floats(0.8, 4.0))
def test_force_is_the_slope_of_the_energy(diameters: float) -> None:
    r, step = diameters * ARGON_DIAMETER_M, 1e-6 * ARGON_DIAMETER_M
    slope = float(pair_energy(r + step) - pair_energy(r - step)) / (2.0 * step)
    scale = ARGON_DEPTH_J / ARGON_DIAMETER_M
    assert float(pair_force(r)) == pytest.approx(-slope, rel=1e-7, abs=1e-8 * scale)


def test_least_energy_is_the_depth_where_nothing_pushes() -> None:
    there = 2.0 ** (1.0 / 6.0) * ARGON_DIAMETER_M
    assert float(pair_energy(there)) == pytest.approx(-ARGON_DEPTH_J, rel=1e-12)
    assert abs(float(pair_force(there))) < 1e-12 * ARGON_DEPTH_J / ARGON_DIAMETER_M
    assert float(pair_force(0.99 * there)) > 0.0 > float(pair_force(1.01 * there))


def test_flat_speed_is_a_fixed_share_of_the_real_one() -> None:
    # mean speeds: sqrt(pi/2) against sqrt(8/pi) of sqrt(R T / M)
    flat = flat_mean_speed(np.array([20.0, 300.0]), ARGON_KG_PER_MOL)
    real = mean_speed(np.array([20.0, 300.0]), ARGON_KG_PER_MOL)
    np.testing.assert_allclose(flat / real, math.pi / 4.0, rtol=1e-12)


@given(kinetic=st.floats(1e-3, 1e3), heat=st.floats(-1e-3, 1e3))
def test_heating_adds_just_the_heat(kinetic: float, heat: float) -> None:
    after = kinetic * float(heating_factor(kinetic, heat)) ** 2
    assert after - kinetic == pytest.approx(heat, rel=1e-9, abs=1e-12 * kinetic)


def test_coupling_goes_the_share_of_the_way() -> None:
    for share in (0.0, 0.25, 1.0):
        assert 100.0 * float(coupling_factor(100.0, 60.0, share)) ** 2 == pytest.approx(100.0 - 40.0 * share)


def test_order_tells_a_honeycomb_from_chance_and_from_two_crystals() -> None:
    hexagon = np.arange(6) * math.pi / 3.0
    rng = np.random.default_rng(0)
    assert float(six_fold_order(hexagon + 0.7)) == pytest.approx(1.0)
    assert float(six_fold_order(rng.uniform(-math.pi, math.pi, 60_000))) < 0.02
    turned = np.array([hexagon, hexagon + math.pi / 6.0])
    assert float(six_fold_order(turned)) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    "call",
    [
        lambda: pair_energy(0.0),
        lambda: pair_force(-1e-10),
        lambda: pair_energy(np.nan),
        lambda: flat_mean_speed(-1.0, 0.04),
        lambda: heating_factor(1.0, -1.5),
        lambda: heating_factor(0.0, 1.0),
        lambda: coupling_factor(0.0, 1.0, 0.5),
        lambda: coupling_factor(1.0, 1.0, 1.5),
        lambda: six_fold_order(np.empty(0)),
    ],
)
def test_what_lies_outside_is_refused(call: object) -> None:
    assert callable(call)
    with pytest.raises(OutOfRange, match="covers"):
        call()
