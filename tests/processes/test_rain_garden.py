"""A storm over a rain garden: roofs first wet, soil that drinks ever more slowly, water that comes out much later."""

from __future__ import annotations

from math import exp

import numpy as np
import pytest
from hypothesis import given, settings

from sonify.processes import conditions_si, find
from sonify.processes.rain_garden_model import STORES, Garden, simulate
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.infiltration import SOILS, infiltration_rate
from sonify.science.runoff import direct_runoff
from tests.processes.stories import any_conditions, at, check_advice, check_story, near_usual, stage_of

SPEC = find("rain-garden")
USUAL = conditions_si(SPEC, ())
GARDEN = Garden.of(USUAL)
STAGES = ["first-drops", "drinking", "ponding", "overflow", "sinking", "ground"]
HOUR_S = 3600.0


def run_of(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def event_s(timeline: Timeline, name: str) -> float:
    return next(event.time_s for event in timeline.events if event.name == name)


def of_soil(name: str) -> dict[str, float]:
    soil = SOILS[name]
    return {
        "soil_conductivity": soil.conductivity_m_s,
        "soil_suction": soil.suction_m,
        "soil_pores": soil.pores,
    }


@pytest.fixture(scope="module")
def usual() -> Timeline:
    return run_of()


def test_all_six_stages_in_order(usual: Timeline) -> None:
    check_story(SPEC, usual)
    assert [stage.name for stage in usual.stages] == STAGES
    assert not usual.missing
    assert usual.stages[0].start_s == 0.0 and usual.stages[-1].end_s == 30 * HOUR_S


def test_stages_are_found_where_they_say(usual: Timeline) -> None:
    step = usual.time_s[1]
    arrives, _ = stage_of(usual, "drinking")
    assert at(usual, "run-off", arrives - step) < 0.1 <= at(usual, "run-off", arrives)
    puddle, _ = stage_of(usual, "ponding")
    assert at(usual, "pond depth", puddle - step) < 0.2 <= at(usual, "pond depth", puddle)
    spills, settles = stage_of(usual, "overflow")
    assert at(usual, "overflow", spills - step) == 0.0 < at(usual, "overflow", spills)
    assert at(usual, "overflow", settles) == 0.0 < at(usual, "overflow", settles - step)
    gone, _ = stage_of(usual, "ground")
    assert at(usual, "pond depth", gone) < 0.2 <= at(usual, "pond depth", gone - step)


def test_events_come_in_the_order_of_a_storm(usual: Timeline) -> None:
    names = [event.name for event in usual.events]
    assert names == [
        "first drops",
        "first puddle",
        "heaviest rain",
        "first overflow",
        "deepest pond",
        "last drops",
        "pond gone",
        "brook fullest",
    ]


def test_the_storm_is_a_triangle(usual: Timeline) -> None:
    """The peak is twice the mean, after 35 % of the hour and a half; 35 mm fall in all."""
    rain = usual.quantity("rain rate").in_unit()
    assert rain.max() == pytest.approx(2 * 35.0 / 1.5, rel=0.02)
    assert event_s(usual, "heaviest rain") == pytest.approx(0.35 * 5400.0, abs=60.0)
    assert usual.quantity("rain so far").in_unit()[-1] == pytest.approx(35.0)


def test_what_runs_off_is_what_the_table_of_curve_numbers_says(usual: Timeline) -> None:
    """TR-55: roofs 98, paths 89; the rest stays on them."""
    ran = 60.0 * float(direct_runoff(0.035, 98.0)) + 20.0 * float(direct_runoff(0.035, 89.0))
    kept = usual.quantity("water on roofs and paths").values[-1]
    assert kept == pytest.approx(0.035 * 80.0 - ran, rel=1e-9)
    by_step = usual.quantity("run-off").values.sum() * usual.time_s[1]
    assert by_step == pytest.approx(ran, rel=1e-6)


@pytest.mark.parametrize("hour", [1.0, 2.0, 4.0, 8.0])
def test_soil_under_a_pond_drinks_as_green_and_ampt_say(usual: Timeline, hour: float) -> None:
    """By what has soaked in so far, read off the stores, and by the depth of the pond; a script would not know."""
    soaked = sum(at(usual, name, hour * HOUR_S) for name in ("water in the soil", "ground water", "water in the brook"))
    inside_m = (soaked / 1000.0 - GARDEN.ground_m3) / GARDEN.garden_area
    pull_m = GARDEN.soil_suction + at(usual, "pond depth", hour * HOUR_S) / 100.0
    expected = 3.6e6 * float(infiltration_rate(inside_m, GARDEN.soil_conductivity, pull_m, GARDEN.room))
    assert at(usual, "soaking rate", hour * HOUR_S) == pytest.approx(expected, rel=0.02)


def test_the_soil_drinks_more_slowly_although_more_comes(usual: Timeline) -> None:
    drinking, _ = stage_of(usual, "ponding")
    _, later = stage_of(usual, "ponding")
    assert at(usual, "water coming in", later) > at(usual, "water coming in", drinking)
    assert at(usual, "soaking rate", later) < 0.75 * at(usual, "soaking rate", drinking)


def test_the_water_that_is_seen_last_is_the_ground_water(usual: Timeline) -> None:
    ends, gone, fullest = (event_s(usual, name) for name in ("last drops", "pond gone", "brook fullest"))
    assert ends == pytest.approx(1.5 * HOUR_S, abs=60.0)
    assert gone > ends + 5 * HOUR_S and fullest > gone + 5 * HOUR_S


def test_when_the_soil_has_drained_the_brook_dies_away_as_a_linear_reservoir() -> None:
    long = run_of(watched=120 * HOUR_S)
    ratio = at(long, "flow to the brook", 110 * HOUR_S) / at(long, "flow to the brook", 80 * HOUR_S)
    assert ratio == pytest.approx(exp(-30.0 / 36.0), rel=0.001)


def test_sand_swallows_the_storm_and_clay_keeps_a_pond_for_days() -> None:
    sand, clay = run_of(**of_soil("sand")), run_of(**of_soil("clay"))
    assert sand.quantity("water down the drain").values.max() == 0.0
    assert sand.quantity("pond depth").values.max() < 0.05
    assert at(clay, "pond depth", 30 * HOUR_S) > 5.0
    assert clay.quantity("water down the drain").values[-1] > 0.5


def test_soil_that_is_wet_already_lets_more_run_over() -> None:
    spilt = [run_of(soil_wetness=wet).quantity("water down the drain").values[-1] for wet in (0.2, 0.5, 0.9)]
    assert spilt == sorted(spilt) and spilt[2] > 1.5 * spilt[0]


def test_a_deeper_hollow_spills_nothing_and_says_how_deep_would() -> None:
    deep = run_of(garden_depth=0.30)
    assert deep.quantity("water down the drain").values.max() == 0.0
    lacking = {missing.stage: missing for missing in deep.missing}
    assert set(lacking) == {"overflow"} and lacking["overflow"].condition == "garden_depth"
    check_advice(SPEC, {**USUAL, "garden_depth": 0.30}, deep)


def test_a_garden_without_roofs_gets_only_its_own_rain() -> None:
    values = {**USUAL, "roof_area": 0.0, "path_area": 0.0}
    alone = SPEC.run(values)
    assert alone.quantity("run-off").values.max() == 0.0
    lacking = {missing.stage: missing for missing in alone.missing}
    assert "no roofs or paths" in say(lacking["drinking"].reason) and lacking["drinking"].condition == "roof_area"
    check_advice(SPEC, values, alone)


def test_a_drizzle_only_wets_the_roofs() -> None:
    values = {**USUAL, "rain": 0.0008}
    drizzle = SPEC.run(values)
    assert [stage.name for stage in drizzle.stages] == ["first-drops", "ground"]
    assert "only wets them" in say({missing.stage: missing for missing in drizzle.missing}["drinking"].reason)
    check_advice(SPEC, values, drizzle)


def test_every_store_keeps_its_own_account() -> None:
    _, model = simulate(GARDEN)
    total = np.sum([model[store] for store in STORES], axis=0)
    assert total[0] == pytest.approx(0.035 * 94.0 + 0.020 * 14.0)
    np.testing.assert_allclose(total, total[0], rtol=1e-12)
    assert min(model[store].min() for store in STORES) >= -1e-12


@settings(max_examples=20)
@given(any_conditions(SPEC))
def test_any_storm(values: dict[str, float]) -> None:
    timeline = SPEC.run(values)
    check_story(SPEC, timeline, values)
    for quantity in timeline.quantities:
        assert quantity.values.min() >= -1e-9, quantity.name
    assert timeline.quantity("pond depth").values.max() <= values["garden_depth"] + 1e-9


@settings(max_examples=10)
@given(near_usual(SPEC))
def test_advice_brings_what_was_missing(values: dict[str, float]) -> None:
    check_advice(SPEC, values, SPEC.run(values))


def test_a_garden_without_a_hollow_does_not_say_that_its_soil_drinks_all() -> None:
    flat = run_of(garden_depth=0.0)
    lacking = {missing.stage: missing for missing in flat.missing}
    spilt = flat.quantity("water down the drain").in_unit()[-1]
    assert (
        say(lacking["ponding"].reason)
        == f"there is no hollow for a pond to grow in: {spilt:.0f} litres run off into the drain"
    )
    assert lacking["ponding"].condition == "garden_depth"


def test_a_short_storm_is_not_said_to_rain_on() -> None:
    clay = run_of(storm_length=600.0, soil_conductivity=0.3e-3 / HOUR_S)
    reason = say({missing.stage: missing for missing in clay.missing}["ground"].reason)
    assert "rains" not in reason and "still stand in the garden" in reason


def test_a_storm_that_spills_from_its_first_moment_says_so() -> None:
    """It had no reason of its own once: the stage that always begins first was thought to be always there."""
    flood = run_of(rain=0.14, storm_length=600.0, garden_depth=0.0, soil_wetness=0.95, soil_conductivity=3e-8)
    lacking = {missing.stage: missing for missing in flood.missing}
    assert "from the first moment" in say(lacking["first-drops"].reason)


def test_a_pond_that_rounding_leaves_below_nothing_pulls_no_water_up() -> None:
    """Soil without suction under a pond of -4e-19 m³ once stopped the run."""
    values = USUAL | {
        "storm_length": 600.0,
        "watched": 318268.25238538027,
        "roof_area": 0.0,
        "path_curve": 98.0,
        "garden_area": 309.4887115475413,
        "garden_depth": 0.24002594727519086,
        "soil_conductivity": 2.5259657820539797e-05,
        "soil_suction": 0.0,
        "soil_wetness": 0.95,
        "soil_depth": 3.0,
        "soil_time": 657782.2395273463,
        "ground_water": 0.19365788924002825,
    }
    check_story(SPEC, SPEC.run(values), values)
