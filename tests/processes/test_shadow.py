"""The shadow of a stick through a day: against a library of solar positions, and by what a right-angled triangle is."""

from __future__ import annotations

import warnings
from math import radians

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.sun import fitted_shadow
from tests.processes.stories import any_conditions, at, check_story
from tests.processes.truth import check_told, judged

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import pandas as pd
    import pvlib

SPEC = find("shadow")
USUAL = conditions_si(SPEC, ())
HOUR_S = 3600.0


def run(latitude: float = 52.5, longitude: float = -1.5, clock: float = 1.0, **changes: float) -> Timeline:
    place = {"latitude": radians(latitude), "longitude": radians(longitude), "clock": clock * HOUR_S}
    return SPEC.run({**USUAL, **place, **changes})


def event(found: Timeline, name: str) -> tuple[float, str]:
    """When it happens, in hours of the clock, and what is told of it."""
    one = next(each for each in found.events if each.name == name)
    assert found.clock_start is not None
    return found.clock_start + one.time_s / HOUR_S, say(one.text)


def placed(longitude: float, hours: int) -> float:
    """A clock as people keep it: that of the longitude, or `hours` more."""
    return min(max(round(longitude / 15.0) + hours, -12), 14)


@pytest.mark.parametrize(
    ("latitude", "longitude", "clock", "month", "day"),
    [(52.5, -1.5, 1, 6, 21), (52.5, -1.5, 0, 11, 3), (-34.0, 151.0, 10, 4, 9), (10.0, 76.5, 5.5, 2, 11)],
)
def test_height_and_length_by_the_solar_position_algorithm(
    latitude: float, longitude: float, clock: float, month: int, day: int
) -> None:
    """pvlib's SPA (NREL), at sea level and 10 °C; its transit too, from which the highest Sun may lie 20 seconds."""
    found = run(latitude, longitude, clock, month=float(month), day=float(day), stick=1.3)
    assert found.clock_start is not None
    begins = pd.Timestamp(2026, month, day, tz="UTC") + pd.Timedelta(hours=found.clock_start - clock)
    moments = pd.DatetimeIndex([begins + pd.Timedelta(seconds=float(t)) for t in found.time_s])
    spa = pvlib.solarposition.spa_python(moments, latitude, longitude, pressure=101_000.0, temperature=10.0)
    theirs = spa["apparent_elevation"].to_numpy()
    np.testing.assert_allclose(found.quantity("height of the Sun").in_unit(), theirs, atol=0.02)
    np.testing.assert_allclose(found.quantity("shadow").values, 1.3 / np.tan(np.radians(theirs)), atol=0.006)
    transit = pvlib.solarposition.sun_rise_set_transit_spa(
        pd.DatetimeIndex([pd.Timestamp(2026, month, day, tz="UTC")]), latitude, longitude
    )["transit"].iloc[0]
    utc_h = transit.hour + transit.minute / 60.0 + transit.second / HOUR_S
    assert event(found, "shortest shadow")[0] == pytest.approx((utc_h + clock) % 24.0, abs=30.0 / HOUR_S)


@pytest.mark.parametrize("stick", [0.1, 1.0, 2.37])
def test_a_shadow_as_long_as_its_stick_means_45_degrees(stick: float) -> None:
    found = run(stick=stick)
    seen, length = found.quantity("height of the Sun").values, found.quantity("shadow").values
    for name in ("as long as the stick", "as long as the stick again"):
        moment = next(each.time_s for each in found.events if each.name == name)
        sample = int(np.flatnonzero(found.time_s == moment)[0])
        assert seen[sample] == pytest.approx(radians(45.0), abs=1e-7)
        assert length[sample] == pytest.approx(stick, rel=1e-6)
    np.testing.assert_allclose(np.hypot(length, stick) * np.sin(seen), stick, rtol=1e-12)  # the same triangle


def test_in_summer_time_the_shortest_shadow_comes_after_one() -> None:
    hour, told = event(run(), "shortest shadow")
    assert 13.0 < hour < 13.25 and "68 minutes after twelve" in told
    hour, told = event(run(clock=0, month=11.0, day=3.0), "shortest shadow")
    assert hour < 12.0 and "11 minutes before twelve" in told
    assert "at twelve by the clock, to the minute" in event(run(longitude=0.0, clock=0, day=13.0), "shortest shadow")[1]


@pytest.mark.parametrize("changes", [{}, {"clock": 0.0, "month": 11.0, "day": 3.0}, {"month": 4.0, "day": 15.0}])
def test_nothing_that_is_told_has_to_be_left_out(changes: dict[str, float]) -> None:
    conditions = {**USUAL, **changes}
    assert judged(SPEC.run(conditions), conditions)[1] == []


def test_the_model_beside_a_class_s_readings_finds_the_same_day() -> None:
    """A class's seven marks, to the centimetre, and what is fitted to them, which knows no map and no almanac."""
    found = run()
    assert found.clock_start is not None
    clock_s = np.arange(9.0, 15.5) * HOUR_S
    shadow = found.at("shadow", clock_s - found.clock_start * HOUR_S)
    np.testing.assert_allclose(fitted_shadow(clock_s, np.round(shadow, 2), clock_s), shadow, atol=0.01)


def test_the_tip_goes_from_west_to_east_and_lies_north_of_the_stick_at_noon() -> None:
    found = run()
    east, north = (found.quantity(f"tip to the {side}").values for side in ("east", "north"))
    assert np.all(np.diff(east) > 0.0) and east[0] < -2.0 < 2.0 < east[-1]
    middle = int(np.argmin(found.quantity("shadow").values))
    assert abs(east[middle]) < 0.002 < 0.5 < north[middle]
    np.testing.assert_allclose(np.hypot(east, north), found.quantity("shadow").values, rtol=1e-9)
    south = run(-34.0, 151.0, 10)
    assert at(south, "tip to the north", south.time_s[-1] / 2.0) < 0.0


def test_under_a_sun_straight_above_there_is_no_shadow() -> None:
    """Within a tenth of a degree of the zenith on 15 April at 9.8° N, where the declination is 9.8°."""
    found = run(9.8, 15.0, 1, month=4.0, day=15.0)
    assert "next to no shadow" in event(found, "shortest shadow")[1]
    assert found.quantity("shadow").values.min() < 0.003


@given(any_conditions(SPEC), st.integers(-1, 2))
def test_any_day_at_any_place(conditions: dict[str, float], hours: int) -> None:
    clock = HOUR_S * placed(np.degrees(conditions["longitude"]), hours)
    try:
        found = SPEC.run({**conditions, "clock": clock})
    except BadCondition as refused:
        assert refused.key != "clock"
        return
    check_story(SPEC, found, {**conditions, "clock": clock})
    check_told(found, {**conditions, "clock": clock})


@given(any_conditions(SPEC))
def test_a_clock_of_elsewhere_is_refused_with_one_that_fits(conditions: dict[str, float]) -> None:
    refused = _refused({**conditions, "day": 15.0})
    assume(refused is not None and refused.key == "clock")
    fits = float(str(refused).split('clock = "')[1].split(" h")[0])
    assert -12.0 <= fits <= 14.0
    again = _refused({**conditions, "day": 15.0, "clock": HOUR_S * fits})
    assert again is None or again.key != "clock"


def _refused(conditions: dict[str, float]) -> BadCondition | None:
    try:
        SPEC.run(conditions)
    except BadCondition as refused:
        return refused
    return None


@pytest.mark.parametrize(
    ("changes", "key", "message"),
    [
        ({"month": 2.0, "day": 29.0}, "day", "that month has 28 days in that year; allowed: 1 to 28"),
        ({"month": 12.0, "clock": 0.0}, "lowest_sun", r"no more than 14.1° there; allowed: 5° to 11.1°"),
        ({"month": 12.0, "latitude": 65.0, "clock": 0.0}, "month", r"no more than 1.\d° there, too low"),
        ({"clock": 9.0}, "clock", 'highest at 21:08 there; with clock = "0 h" it comes nearest to twelve'),
    ],
)
def test_what_cannot_be_is_refused_with_what_can(changes: dict[str, float], key: str, message: str) -> None:
    with pytest.raises(BadCondition, match=message) as caught:
        run(**changes)
    assert caught.value.key == key


def test_a_leap_day_is_a_day() -> None:
    assert run(clock=0, year=2028.0, month=2.0, day=29.0).stages
