"""Heating and cooling: what must hold without any table, and two stores against a stepped solution."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from sonify.errors import OutOfRange
from sonify.science.cooling import newton_rate, newton_temperature, newton_time, two_store_decay, wall_conductance
from sonify.science.heating import heated_rise, heated_time, iced_temperature

KELVIN = st.floats(250.0, 400.0)


@given(start=KELVIN, room=KELVIN, rate=st.floats(1e-6, 1.0), time=st.floats(0.1, 20.0))
def test_newton_s_three_forms_undo_each_other(start: float, room: float, rate: float, time: float) -> None:
    if abs(start - room) < 1.0:
        return
    time_s = time / rate / 5.0
    later = float(newton_temperature(time_s, start, room, rate))
    assert abs(later - room) < abs(start - room)
    assert float(newton_rate(time_s, start, later, room)) == pytest.approx(rate, rel=1e-9)
    assert float(newton_time(start, later, room, rate)) == pytest.approx(time_s, rel=1e-9)


def test_half_the_difference_is_gone_in_each_half_life() -> None:
    half_s = float(newton_time(360.0, 326.5, 293.0, 1e-3))
    assert half_s == pytest.approx(np.log(2.0) / 1e-3)
    assert float(newton_temperature(2.0 * half_s, 360.0, 293.0, 1e-3)) == pytest.approx(293.0 + 67.0 / 4.0)


def test_nothing_cools_at_no_rate_and_nothing_is_past_the_room() -> None:
    assert float(newton_time(350.0, 320.0, 293.0, 0.0)) == np.inf
    assert float(newton_time(350.0, 350.0, 293.0, 0.0)) == 0.0
    for later in (290.0, 293.0, 360.0):
        with pytest.raises(OutOfRange, match="share of the warmth left"):
            newton_time(350.0, later, 293.0, 1e-3)
    with pytest.raises(OutOfRange, match="differs from the room"):
        newton_rate(10.0, 293.0, 293.0, 293.0)


def test_twice_the_wall_and_no_film_halves_what_passes() -> None:
    thin, thick = (float(wall_conductance(1.0, wall, 0.04, 1e9)) for wall in (0.01, 0.02))
    assert thin / thick == pytest.approx(2.0, rel=1e-6)
    assert float(wall_conductance(2.0, 0.0, 0.04, 10.0)) == pytest.approx(20.0)


@given(gain=st.floats(1e-4, 10.0), rate=st.floats(0.0, 1e-2), share=st.floats(0.0, 0.99))
def test_a_heater_s_time_and_rise_undo_each_other(gain: float, rate: float, share: float) -> None:
    most = gain / rate if rate > 1e-9 else 1000.0
    rise = share * min(most, 1000.0)
    time_s = float(heated_time(rise, gain, rate))
    assert float(heated_rise(time_s, gain, rate)) == pytest.approx(rise, rel=1e-9, abs=1e-12)


def test_small_losses_go_over_into_none() -> None:
    times = np.linspace(0.0, 1e4, 11)
    np.testing.assert_allclose(heated_rise(times, 0.01, 1e-15), 0.01 * times, rtol=1e-9)
    assert float(heated_time(50.0, 0.01, 1e-18)) == pytest.approx(5000.0)
    assert float(heated_time(50.0, 0.01, 1e-3)) == np.inf, "it settles 10 K above its start"
    assert float(heated_time(50.0, -0.01, 0.0)) == np.inf


def test_more_ice_than_the_water_can_melt_is_refused() -> None:
    assert float(iced_temperature(0.0, 260.0, 1.0, 300.0)) == pytest.approx(300.0)
    with pytest.raises(OutOfRange, match="ice that all melts"):
        iced_temperature(1.0, 260.0, 0.1, 300.0)


@given(
    capacities=st.tuples(st.floats(10.0, 2000.0), st.floats(10.0, 2000.0)),
    between=st.floats(0.1, 50.0),
    outward=st.tuples(st.floats(0.0, 5.0), st.floats(0.0, 5.0)),
)
def test_two_stores_cool_as_stepped_through_time(
    capacities: tuple[float, float], between: float, outward: tuple[float, float]
) -> None:
    rates, shapes = two_store_decay(capacities, between, outward)
    assert 0.0 <= rates[0] <= rates[1]
    start = np.array([70.0, 0.0])
    times = np.linspace(0.0, 5.0 * max(capacities) / (between + sum(outward)), 20)
    ours = (shapes * np.linalg.solve(shapes, start)) @ np.exp(-np.outer(rates, times))

    def slope(_: float, t: np.ndarray) -> list[float]:
        flow = between * (t[0] - t[1])
        return [(-flow - outward[0] * t[0]) / capacities[0], (flow - outward[1] * t[1]) / capacities[1]]

    stepped = solve_ivp(slope, (0.0, times[-1]), start, t_eval=times, method="LSODA", rtol=1e-9, atol=1e-9).y
    np.testing.assert_allclose(ours, stepped, rtol=0.0, atol=1e-5)
