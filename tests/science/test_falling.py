"""A fall through air: against stepping through its equation of motion, and by what energy demands."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from sonify.science.falling import fall_time, fallen, falling_speed, heat_of_fall, terminal_speed

TOPS, PULLS, TIMES = st.floats(0.05, 500.0), st.floats(1.0, 30.0), st.floats(0.0, 500.0)


def test_stepping_through_the_motion_comes_to_the_same() -> None:
    """v' = g - g (v / v_t)², s' = v, by a Runge-Kutta of order 8 (scipy)."""
    top, pull = 44.4, 9.81
    times = np.linspace(0.0, 20.0, 40)
    stepped = solve_ivp(
        lambda _, y: [pull * (1.0 - (y[0] / top) ** 2), y[0]],
        (0.0, 20.0),
        [0.0, 0.0],
        method="DOP853",
        t_eval=times,
        rtol=1e-11,
        atol=1e-11,
    )
    np.testing.assert_allclose(falling_speed(times, top, pull), stepped.y[0], rtol=1e-8, atol=1e-8)
    np.testing.assert_allclose(fallen(times, top, pull), stepped.y[1], rtol=1e-8, atol=1e-8)


def test_the_heat_is_the_push_of_the_air_added_up() -> None:
    """By quadrature (scipy) of the power of the air, g v³ / v_t² a kilogram."""
    top, pull = 7.0, 9.81
    added, _ = quad(lambda t: pull / top**2 * float(falling_speed(t, top, pull)) ** 3, 0.0, 3.0, epsabs=1e-12)
    assert float(heat_of_fall(3.0, top, pull)) == pytest.approx(added, rel=1e-10)


@given(TOPS, PULLS, TIMES)
def test_what_is_lost_in_height_is_motion_and_heat(top: float, pull: float, seconds: float) -> None:
    lost = pull * float(fallen(seconds, top, pull))
    found = 0.5 * float(falling_speed(seconds, top, pull)) ** 2 + float(heat_of_fall(seconds, top, pull))
    assert found == pytest.approx(lost, rel=1e-9, abs=1e-12)


@given(TOPS, PULLS, TIMES)
def test_the_time_of_a_fall_is_the_fall_backwards(top: float, pull: float, seconds: float) -> None:
    way = float(fallen(seconds, top, pull))
    assert float(fall_time(way, top, pull)) == pytest.approx(seconds, rel=1e-6, abs=1e-7 * top / pull)


def test_four_times_the_mass_comes_to_twice_the_speed() -> None:
    one, four = (float(terminal_speed(mass, 0.002, 0.9, 1.21, 9.81)) for mass in (0.0004, 0.0016))
    assert four == pytest.approx(2.0 * one, rel=1e-12)


def test_where_the_air_does_nothing_galilei_holds() -> None:
    np.testing.assert_allclose(fallen(np.array([0.1, 1.0, 2.0]), 1e6, 9.81), 9.81 * np.array([0.01, 1.0, 4.0]) / 2.0)
