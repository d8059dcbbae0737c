"""A year of sunlight: against solar-position libraries, and by what the sky demands."""

from __future__ import annotations

import warnings
from datetime import UTC, datetime, timedelta
from math import degrees, radians

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find
from sonify.processes.day_length import shortest_day
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.processes.stories import any_conditions, at
from tests.processes.truth import check_told

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import pandas as pd
    import pvlib

SPEC = find("day-length")
USUAL = conditions_si(SPEC, ())
STAGES = [stage.name for stage in SPEC.stages]
DAY_S = 86_400.0
LATITUDES = st.floats(3.0, 65.0) | st.floats(-65.0, -3.0)


def run(latitude: float, **changes: float) -> Timeline:
    return SPEC.run({**USUAL, "latitude": radians(latitude), **changes})


def test_a_village_at_54_north_has_four_stages_and_comes_back_to_where_it_began() -> None:
    found = run(54.0)
    assert [stage.name for stage in found.stages] == STAGES
    for name in ("day length", "noon height of the Sun", "noon shadow"):
        values = found.quantity(name).values
        assert values[0] == pytest.approx(values[-1], rel=1e-3)


def test_greenwich_has_the_printed_days() -> None:
    """astral 3.2: 16 h 37.4 min on 21 June 2025, 7 h 49.2 min on 21 December, to two minutes."""
    hours = run(51.4779).quantity("day length").in_unit()
    assert hours.max() == pytest.approx(16.0 + 37.4 / 60.0, abs=2.0 / 60.0)
    assert hours.min() == pytest.approx(7.0 + 49.2 / 60.0, abs=2.0 / 60.0)


@pytest.mark.parametrize("latitude", [54.0, 20.0, -34.0, 64.0])
def test_every_look_is_the_true_height_at_its_moment(latitude: float) -> None:
    """pvlib 0.16, NREL algorithm, at the same moments; the first noon is where it has the Sun highest."""
    found = run(latitude)
    noon = datetime(2000, 1, 1, 12, tzinfo=UTC) + timedelta(days=shortest_day(radians(latitude), 2025))
    around = pd.DatetimeIndex([pd.Timestamp(noon) + pd.Timedelta(seconds=10 * k) for k in range(-180, 181)])
    begins = around[int(np.argmax(elevation(around, latitude)))]
    moments = pd.DatetimeIndex([begins + pd.Timedelta(seconds=float(t)) for t in found.time_s])
    ours = found.quantity("height of the Sun").in_unit()
    np.testing.assert_allclose(ours, elevation(moments, latitude), atol=0.05)


def elevation(moments: pd.DatetimeIndex, latitude: float) -> np.ndarray:
    return pvlib.solarposition.get_solarposition(moments, latitude, 0.0)["elevation"].to_numpy()


@given(LATITUDES)
def test_the_sky_is_the_sky(latitude: float) -> None:
    found = run(latitude)
    values = {quantity.name: quantity.values for quantity in found.quantities}
    assert [stage.name for stage in found.stages] == STAGES
    for before, after in zip(found.stages, found.stages[1:], strict=False):
        assert before.end_s == after.start_s
    np.testing.assert_allclose(values["day length"] + values["night length"], DAY_S)
    np.testing.assert_allclose(values["sunset"] - values["sunrise"], values["day length"])
    assert np.all(values["height of the Sun"] <= values["noon height of the Sun"] + 2e-3)
    assert np.all(values["Sun above the horizon"] >= 0.0) and np.all(values["noon shadow"] > 0.0)
    longest, shortest = values["day length"].max(), values["day length"].min()
    assert values["day length"][0] == pytest.approx(shortest, abs=60.0)
    # Long and short days mirror each other, but for the bending of the light, which lengthens all of them.
    assert DAY_S / 2.0 < (longest + shortest) / 2.0 < 1.1 * DAY_S / 2.0
    assert all(any(letter.isdigit() for letter in say(stage.science)) for stage in found.stages)


def test_the_year_turns_round_south_of_the_equator() -> None:
    north, south = run(40.0), run(-40.0)
    assert say(north.events[0].text).startswith("21 December") and say(south.events[0].text).startswith("21 June")
    assert north.quantity("day length").values.max() == pytest.approx(
        south.quantity("day length").values.max(), abs=60.0
    )


def test_arcs_are_longer_and_higher_in_summer() -> None:
    """Looks between two nights, as the pupils hear them: more of them, and higher, around the longest day."""
    up = run(54.0).quantity("Sun above the horizon").in_unit()
    edges = np.flatnonzero(np.diff((up > 0.0).astype(int)))
    arcs = [up[a + 1 : b + 1] for a, b in zip(edges[:-1], edges[1:], strict=True) if up[a + 1] > 0.0]
    assert 12 <= len(arcs) <= 15
    summer, winter = arcs[len(arcs) // 2], min(arcs, key=lambda arc: arc.max())
    assert len(summer) > 2 * len(winter) and summer.max() > 4 * winter.max()


def test_looking_at_one_hour_gives_other_arcs_and_the_same_sun() -> None:
    few, many = run(54.0, look_every=24.5 * 3600.0), run(54.0, look_every=28.0 * 3600.0)
    for found in (few, many):
        assert found.quantity("day length").in_unit().max() == pytest.approx(17.14, abs=0.01)
    assert at(few, "noon height of the Sun", 40 * DAY_S) == pytest.approx(
        at(many, "noon height of the Sun", 40 * DAY_S), abs=0.1
    )


@pytest.mark.parametrize(
    ("latitude", "message"),
    [
        (78.0, "at 78° north there is no sunrise and sunset on every day: on 111 days a year the Sun does not rise"),
        (-90.0, "at 90° south"),
        (90.0, r"allowed: 3° to 65°"),
        (0.0, "so near to the equator all days are alike"),
        (-2.0, r"allowed: 3° to 65°, or -65° to -3°"),
    ],
)
def test_sunrise_near_a_pole_and_seasons_at_the_equator_are_refused_with_the_range(
    latitude: float, message: str
) -> None:
    with pytest.raises(BadCondition, match=message) as caught:
        run(latitude)
    assert caught.value.key == "latitude"


@given(any_conditions(SPEC))
def test_what_is_told_of_any_year_is_so(conditions: dict[str, float]) -> None:
    try:
        found = SPEC.run(conditions)
    except BadCondition:
        return
    check_told(found, conditions)


def test_an_hour_later_each_time_is_24_times_to_an_arc() -> None:
    """25 hours apart, 24 times: 25 days, after which the Sun is at the same hour again."""
    height, noon = (run(54.0).quantity(name).in_unit() for name in ("height of the Sun", "noon height of the Sun"))
    tops = np.flatnonzero(height >= noon - 0.3)
    assert set(np.diff(tops[tops > 0])) <= {23, 24, 25} and round(float(np.mean(np.diff(tops)))) == 24


def test_the_sun_is_straight_above_only_between_the_tropics() -> None:
    assert degrees(run(54.0).quantity("noon height of the Sun").values.max()) == pytest.approx(
        90.0 - 54.0 + 23.44, abs=0.02
    )
    assert degrees(run(10.0).quantity("noon height of the Sun").values.max()) > 89.5
