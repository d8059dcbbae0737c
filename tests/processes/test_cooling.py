"""Two cups: both links of each obey Newton, heat is kept, the gap opens and closes, sleeves work both ways."""

from __future__ import annotations

import re

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find
from sonify.processes.cooling_model import Race
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.cooling import newton_temperature, wall_conductance
from tests.processes.test_registry import condition

SPEC = find("cooling")
STAGES = ["level", "apart", "closing", "home"]
DEFAULTS = {one.name: one.default for one in SPEC.conditions}


def values(timeline: Timeline, name: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return timeline.quantity(name).values


def test_the_race_has_its_four_stages_in_order() -> None:
    timeline = SPEC.run(DEFAULTS)
    assert [stage.name for stage in timeline.stages] == STAGES
    assert timeline.missing == ()
    assert [event.name for event in timeline.events] == ["half way, cup A", "half way, cup B"]
    gap = values(timeline, "gap")
    widest = next(stage.end_s for stage in timeline.stages if stage.name == "apart")
    assert timeline.time_s[int(np.argmax(gap))] == widest
    halves = [stage.end_s for stage in timeline.stages if stage.name in ("level", "closing")]
    np.testing.assert_allclose(timeline.at("gap", np.array(halves)), 0.5 * gap.max(), rtol=0.08)


@pytest.mark.parametrize("start_c", [80.0, 4.0])
def test_the_temperatures_are_those_of_the_equations_stepped_through_time(start_c: float) -> None:
    given_ = {**DEFAULTS, "start_temperature": 273.15 + start_c}
    timeline, race = SPEC.run(given_), Race.of(given_)
    drink_j_k, cup_j_k = race.capacities_j_k
    for which, name in enumerate("AB"):
        through_wall = float(wall_conductance(race.wall_area, *race.wraps[which], race.air_film))

        def slope(_: float, t: np.ndarray, g: float = through_wall) -> list[float]:
            inside = race.contact * (t[0] - t[1])
            room = race.room_temperature
            return [
                (-inside - race.top_loss * (t[0] - room)) / drink_j_k,
                (inside - g * (t[1] - room)) / cup_j_k,
                race.top_loss * (t[0] - room) + g * (t[1] - room),
            ]

        start = [race.start_temperature, race.room_temperature, 0.0]
        stepped = solve_ivp(
            slope, (0.0, race.duration), start, t_eval=timeline.time_s, method="LSODA", rtol=1e-10, atol=1e-8
        ).y
        np.testing.assert_allclose(values(timeline, f"temperature of cup {name}"), stepped[0], atol=1e-4)
        np.testing.assert_allclose(values(timeline, f"wall temperature of cup {name}"), stepped[1], atol=1e-4)
        np.testing.assert_allclose(values(timeline, f"heat from cup {name}"), stepped[2], atol=0.5)


def test_pace_and_loss_are_the_slopes_of_temperature_and_heat() -> None:
    timeline = SPEC.run({**DEFAULTS, "duration": 3600.0})
    middle = slice(100, -1)
    slopes = [-np.gradient(values(timeline, f"temperature of cup {name}"), timeline.time_s) for name in "AB"]
    pace = values(timeline, "pace of the race")
    np.testing.assert_allclose(pace[middle], np.mean(slopes, axis=0)[middle], rtol=1e-3)
    for name in "AB":
        loss = np.gradient(values(timeline, f"heat from cup {name}"), timeline.time_s)
        np.testing.assert_allclose(values(timeline, f"heat loss of cup {name}")[middle], loss[middle], rtol=1e-3)


def test_a_cup_that_takes_no_heat_cools_by_newton_s_law_alone() -> None:
    timeline = SPEC.run({**DEFAULTS, "cup_heat": 1.0, "contact": 100.0})
    outward = DEFAULTS["top_loss"] + float(wall_conductance(DEFAULTS["wall_area"], 0.0, 0.04, DEFAULTS["air_film"]))
    rate = outward / (DEFAULTS["drink"] * 4186.0)
    newton = newton_temperature(timeline.time_s, DEFAULTS["start_temperature"], DEFAULTS["room_temperature"], rate)
    np.testing.assert_allclose(values(timeline, "temperature of cup A"), newton, atol=0.1)


def test_a_thick_cup_misses_one_exponential_at_the_start_as_real_mugs_do() -> None:
    timeline = SPEC.run(DEFAULTS)
    off = values(timeline, "cup A by one exponential") - values(timeline, "temperature of cup A")
    assert off[0] == pytest.approx(0.0, abs=1e-9)
    assert 5.0 < off.max() < 15.0
    assert timeline.time_s[int(np.argmax(off))] < 600.0


def test_the_sleeve_keeps_a_cold_drink_cold() -> None:
    timeline = SPEC.run({**DEFAULTS, "start_temperature": 277.15})
    bare, wrapped = (values(timeline, f"temperature of cup {name}") for name in "AB")
    assert np.all(wrapped[10:] < bare[10:]) and bare[-1] < DEFAULTS["room_temperature"]
    assert [stage.name for stage in timeline.stages] == STAGES
    assert "warm fastest now" in say(timeline.stages[0].science)


def test_copper_insulates_nothing() -> None:
    timeline = SPEC.run({**DEFAULTS, "wrap_b_conductivity": 400.0})
    assert values(timeline, "gap").max() < 0.1
    assert [m.stage for m in timeline.missing] == ["apart", "closing", "home"]


@pytest.mark.parametrize(
    ("changed", "stage", "named"),
    [
        ({"wrap_b": 0.0}, "apart", "wrap_b"),
        ({"duration": 1800.0}, "closing", "duration"),
        ({"duration": 4.0 * 3600.0}, "home", "duration"),
    ],
)
def test_the_advice_on_a_missing_stage_brings_it(changed: dict[str, float], stage: str, named: str) -> None:
    start = {**DEFAULTS, **changed}
    lacking = next(m for m in SPEC.run(start).missing if m.stage == stage)
    assert lacking.condition == named
    written = re.fullmatch(r'Set (\w+) = "?([^"]+?)"?\.', say(lacking.fix))
    assert written and written[1] == named
    better = conditions_si(SPEC, (condition(written[1], written[2]),))[named]
    assert stage in [s.name for s in SPEC.run({**start, named: better}).stages]


def test_a_drink_as_warm_as_the_room_is_no_race() -> None:
    with pytest.raises(BadCondition, match="start_temperature: 22.0 °C is too near the room's 20.0 °C") as caught:
        SPEC.run({**DEFAULTS, "start_temperature": 295.15})
    assert caught.value.key == "start_temperature"


@st.composite
def conditions(draw: st.DrawFn) -> dict[str, float]:
    return {one.name: draw(st.floats(one.low, one.high)) for one in SPEC.conditions}


@given(conditions())
@example({one.name: one.low for one in SPEC.conditions})
@example({one.name: one.high for one in SPEC.conditions})
@example({**DEFAULTS, "wrap_a": 0.02})
@example({**DEFAULTS, "contact": 0.1, "cup_heat": 3000.0, "top_loss": 2.0})
def test_any_race(given_: dict[str, float]) -> None:
    if abs(given_["start_temperature"] - given_["room_temperature"]) < 5.0:
        with pytest.raises(BadCondition, match="start_temperature"):
            SPEC.run(given_)
        return
    timeline = SPEC.run(given_)  # the record itself refuses what is not finite, and stages that overlap
    names = [stage.name for stage in timeline.stages]
    assert names == [name for name in STAGES if name in names] and names
    assert sorted(names + [m.stage for m in timeline.missing]) == sorted(STAGES)
    assert timeline.stages[0].start_s == 0.0 and timeline.stages[-1].end_s == timeline.time_s[-1]
    for before, after in zip(timeline.stages, timeline.stages[1:], strict=False):
        assert before.end_s == after.start_s
    (energy,) = timeline.conserved
    assert energy.relative_drift < 1e-9
    low, high = sorted((given_["start_temperature"], given_["room_temperature"]))
    for name in "AB":
        drink = values(timeline, f"temperature of cup {name}")
        assert low - 1e-6 <= drink.min() and drink.max() <= high + 1e-6
        assert np.all(np.diff(np.abs(drink - given_["room_temperature"])) <= 1e-6), "never away from the room"
    assert all("nan" not in say(stage.science) and "inf" not in say(stage.science) for stage in timeline.stages)
