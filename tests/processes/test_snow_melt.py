"""Two weeks of melting snow: heat that melts it, days that can be counted in the stream, no water and no heat lost."""

from __future__ import annotations

import re
from dataclasses import replace
from math import exp, radians

import numpy as np
import pytest
from hypothesis import given, settings

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find
from sonify.processes.snow_melt_model import (
    BANDS,
    STEP_S,
    STORES,
    WIND_OVER_SNOW,
    State,
    Valley,
    simulate,
    snow_step,
    weather,
)
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.evaporation import heat_to_air
from sonify.science.heating import ICE_J_PER_KG_K, MELTING_J_PER_KG
from tests.processes.stories import any_conditions, at, check_advice, check_story, near_usual, stage_of

SPEC = find("snow-melt")
USUAL = conditions_si(SPEC, ())
DAY_S = 86_400.0
ZERO_K = 273.15
STAGES = ["frost", "first-melt", "rushing", "patches", "springs"]


def run_of(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def event_s(timeline: Timeline, name: str) -> float:
    return next(event.time_s for event in timeline.events if event.name == name)


@pytest.fixture(scope="module")
def usual() -> Timeline:
    return run_of()


def test_all_five_stages_in_order(usual: Timeline) -> None:
    check_story(SPEC, usual)
    assert [stage.name for stage in usual.stages] == STAGES
    assert not usual.missing
    assert usual.stages[0].start_s == 0.0 and usual.stages[-1].end_s == 14 * DAY_S


def test_stages_are_found_where_they_say(usual: Timeline) -> None:
    _, runs = stage_of(usual, "frost")
    assert at(usual, "melt water running out", runs - 1200.0) < 0.01 <= at(usual, "melt water running out", runs)
    bare, half = stage_of(usual, "rushing")
    assert at(usual, "snow cover", bare) < 100.0 and at(usual, "snow cover", bare - 1200.0) == 100.0
    assert at(usual, "snow cover", half) == pytest.approx(50.0)
    gone, _ = stage_of(usual, "springs")
    assert at(usual, "snow cover", gone) == 0.0 < at(usual, "snow cover", gone - 1200.0)
    assert at(usual, "snow", gone) < 0.5


def test_events_are_the_firsts_and_the_lasts(usual: Timeline) -> None:
    names = [event.name for event in usual.events]
    assert names[0] == "first melt" and names[-1] == "last snow gone"
    assert {"first bare ground", "half bare", "fastest stream", "quickest melt"} <= set(names)


def test_snow_melts_by_day_and_freezes_by_night(usual: Timeline) -> None:
    hour = usual.time_s / 3600.0 % 24.0
    melt, freezing = (usual.quantity(name).values for name in ("melt rate", "freezing rate"))
    early = usual.time_s < 8 * DAY_S
    assert melt[early & (hour > 10.0) & (hour < 15.0)].min() > 0.0
    assert melt[(hour > 20.0) | (hour < 4.0)].max() == 0.0
    assert freezing[(hour > 9.0) & (hour < 15.0)].max() == 0.0 < freezing[early & (hour < 4.0)].max()


def test_the_stream_is_highest_hours_after_the_snow_melts_quickest(usual: Timeline) -> None:
    days = np.floor(usual.time_s[:-1] / DAY_S).astype(int)
    for day in range(1, 8):
        own = np.flatnonzero(days == day)
        melt, flow = (usual.quantity(name).values[own] for name in ("melt rate", "stream flow"))
        assert 1.0 <= (flow.argmax() - melt.argmax()) * 1200.0 / 3600.0 <= 6.0


def test_what_melted_is_what_the_heat_pays_for() -> None:
    """Heat taken up, less what making good the frost took, is 334 kJ for every kilogram of ice that is gone."""
    valley = Valley.of(USUAL)
    _, model = simulate(valley)
    cold_j, heat_j = model["cold"], model["heat"]
    gone_kg = model["snow"][0] - model["snow"][-1]
    assert gone_kg > 100.0
    assert heat_j[-1] - (cold_j[0] - cold_j[-1]) == pytest.approx(MELTING_J_PER_KG * gone_kg, rel=1e-9)


def test_the_melt_of_a_mild_day_is_a_published_degree_day_factor() -> None:
    """Deep old snow, mild days: 1 to 8 mm a day for each degree of the mean temperature (HOCK-2003 and others)."""
    for cloud in (0.0, 0.5, 1.0):
        deep = run_of(
            snow_low=1.0,
            snow_high=1.0,
            valley_depth=100.0,
            snow_temperature=ZERO_K,
            night_temperature=ZERO_K + 2.0,
            afternoon_temperature=ZERO_K + 14.0,
            warming=0.0,
            days=6.0,
            cloud=cloud,
        )
        days = deep.time_s >= 2 * DAY_S
        air = deep.quantity("air temperature").in_unit()[days].mean() - 0.3  # the slope is a little colder
        melted = 24.0 * deep.quantity("melt rate").in_unit()[days].mean()
        assert 1.0 < melted / air < 8.0, cloud


def test_frost_in_the_snow_has_to_go_first() -> None:
    first = [event_s(run_of(snow_temperature=ZERO_K - cold), "first melt") for cold in (0.5, 8.0, 20.0)]
    assert first == sorted(first) and first[2] > first[0] + 3600.0


def test_dark_snow_goes_before_white_snow() -> None:
    gone = [event_s(run_of(snow_whiteness=white, days=21.0, warming=5e-6), "last snow gone") for white in (0.45, 0.65)]
    assert gone[0] < gone[1] - 2 * DAY_S


def test_sunshine_melts_snow_in_air_below_freezing_and_moonlight_does_not() -> None:
    cold = {"afternoon_temperature": ZERO_K - 1.0, "night_temperature": ZERO_K - 6.0, "warming": 0.0}
    assert run_of(**cold, snow_whiteness=0.5).quantity("melt rate").values.max() > 0.0
    assert run_of(**cold, day=355.0, latitude=radians(60.0)).quantity("melt rate").values.max() == 0.0


def test_the_air_freezes_wet_snow_under_a_clear_sky_though_it_is_above_zero() -> None:
    mild = run_of(
        night_temperature=ZERO_K + 1.0, afternoon_temperature=ZERO_K + 6.0, warming=0.0, humidity=0.4, cloud=0.0
    )
    below = mild.quantity("air temperature").values.min()
    assert below > ZERO_K and mild.quantity("freezing rate").values.max() > 0.0


def test_after_the_snow_the_stream_dies_away_as_its_springs_do(usual: Timeline) -> None:
    """A linear reservoir: e^(-t/k), with k the four days of the ground."""
    gone, end = stage_of(usual, "springs")
    start = gone + 12 * 3600.0
    ratio = at(usual, "stream flow", end) / at(usual, "stream flow", start)
    assert ratio == pytest.approx(exp(-(end - start) / USUAL["ground_time"]), rel=0.02)


def test_ground_that_lets_nothing_in_leaves_the_stream_dry_afterwards() -> None:
    sealed, open_ = run_of(ground_intake=0.0, ground_water=0.0), run_of()
    end = 14 * DAY_S
    assert at(sealed, "stream flow", end) < 0.02 * at(open_, "stream flow", end)
    assert sealed.quantity("stream flow").values.max() > open_.quantity("stream flow").values.max()


def test_half_a_year_later_on_the_other_side_of_the_world_it_is_the_same_spring(usual: Timeline) -> None:
    south = run_of(latitude=-USUAL["latitude"], day=USUAL["day"] + 183.0)
    assert [stage.name for stage in south.stages] == STAGES
    assert event_s(south, "last snow gone") == pytest.approx(event_s(usual, "last snow gone"), abs=0.5 * DAY_S)


def test_the_snow_line_climbs_and_never_comes_back(usual: Timeline) -> None:
    line = usual.quantity("snow line").values
    assert line[0] == 0.0 and line[-1] == 900.0 and np.all(np.diff(line) >= 0.0)


def test_the_same_snow_everywhere_still_goes_from_below_because_it_is_colder_higher_up() -> None:
    even = run_of(snow_low=0.08, snow_high=0.08, valley_depth=1500.0)
    assert event_s(even, "half bare") > event_s(even, "first bare ground") + 0.5 * DAY_S
    line = even.quantity("snow line").values
    assert line[-1] > line[0] == 0.0


def test_ice_that_turns_to_vapour_takes_the_heat_of_sublimation() -> None:
    """What the wind adds to the heat of melting snow is warmth, and 2.834 MJ for each kilogram that dries off: the
    molar enthalpy of sublimation of MURPHY-KOOP-2005 at 0 °C, over 18.015 g/mol."""
    t = 273.15
    molar = 46782.5 + 35.8925 * t - 0.07414 * t**2 + 541.5 * exp(-((t / 123.75) ** 2))
    valley = Valley.of(USUAL)
    windy, still = weather(valley), weather(replace(valley, wind=0.0))
    warmth = STEP_S * heat_to_air(valley.wind, ZERO_K - windy.air_k, windy.air_k, WIND_OVER_SNOW)
    dried = windy.drying - still.drying
    some = np.abs(dried) > 1e-4
    for_a_kilogram = (still.melting - windy.melting - warmth)[some] / dried[some]
    np.testing.assert_allclose(for_a_kilogram, molar / 0.018015, rtol=0.003)


def test_snow_that_dries_off_takes_its_frost_along() -> None:
    """Snow that only dries, and gains and loses no other heat, stays as cold as it was."""
    sky = weather(Valley.of(USUAL))
    snow = np.full(BANDS, 50.0)
    state = State(snow=snow, wet=np.zeros(BANDS), cold=ICE_J_PER_KG_K * snow * 8.0, ground=0.0)
    nothing, dries = np.zeros_like(sky.frozen), np.full_like(sky.frosty, 5.0)
    snow_step(state, replace(sky, melting=nothing, frozen=nothing, drying=dries, frosty=dries), 0)
    assert state.snow == pytest.approx(np.full(BANDS, 45.0))
    np.testing.assert_allclose(state.cold / (ICE_J_PER_KG_K * state.snow), 8.0, rtol=1e-12)


def test_every_store_keeps_its_own_account() -> None:
    valley = Valley.of(USUAL)
    _, model = simulate(valley)
    total = np.sum([model[store] for store in STORES], axis=0)
    np.testing.assert_allclose(total, total[0], rtol=1e-13)
    assert min(model[store].min() for store in STORES if store != "air") >= -1e-12


@pytest.mark.parametrize(
    ("changes", "key", "told"),
    [
        ({"snow_low": 0.0, "snow_high": 0.0}, "snow_high", "no snow to melt"),
        ({"afternoon_temperature": 260.0}, "afternoon_temperature", "colder than the night"),
        ({"snow_low": 0.181}, "snow_low", "allowed with this ridge: 180 mm or less"),
        ({"warming": 4.0 / DAY_S, "days": 21.0}, "warming", "K/day or less"),
        ({"night_temperature": 243.15, "valley_depth": 2000.0}, "night_temperature", "cold as"),
    ],
)
def test_conditions_that_do_not_go_together_are_refused(changes: dict[str, float], key: str, told: str) -> None:
    with pytest.raises(BadCondition, match=told) as caught:
        run_of(**changes)
    assert caught.value.key == key


def test_too_deep_a_snow_says_what_to_change() -> None:
    deep = run_of(snow_low=0.8, snow_high=1.2)
    lacking = {missing.stage: missing for missing in deep.missing}
    assert set(lacking) == {"rushing", "patches", "springs"}
    assert re.match(
        r"after 14 days snow with \d+ mm of water still lies on \d+ % of the valley", say(lacking["springs"].reason)
    )
    check_advice(SPEC, {**USUAL, "snow_low": 0.8, "snow_high": 1.2}, deep)


def test_midwinter_has_one_stage_and_says_why_no_other_comes() -> None:
    values = {**USUAL, "day": 15.0, "afternoon_temperature": ZERO_K - 8.0, "night_temperature": ZERO_K - 15.0}
    winter = SPEC.run({**values, "warming": 0.0})
    assert [stage.name for stage in winter.stages] == ["frost"]
    assert "no melt water runs out" in say(winter.missing[0].reason)
    check_advice(SPEC, {**values, "warming": 0.0}, winter)


@settings(max_examples=10)
@given(any_conditions(SPEC))
def test_any_spring(values: dict[str, float]) -> None:
    try:
        timeline = SPEC.run(values)
    except BadCondition as refused:
        assert refused.key in ("snow_low", "snow_high", "afternoon_temperature", "warming", "night_temperature")
        return
    check_story(SPEC, timeline, values)
    for name in ("snow", "water in the snow", "ground water", "water in the stream", "stream flow", "melt rate"):
        assert timeline.quantity(name).values.min() >= -1e-12, name


@settings(max_examples=5)
@given(near_usual(SPEC))
def test_advice_brings_what_was_missing(values: dict[str, float]) -> None:
    try:
        timeline = SPEC.run(values)
    except BadCondition:
        return
    check_advice(SPEC, values, timeline)


def told(**changes: float) -> str:
    return " ".join(say(stage.science) for stage in run_of(**changes).stages)


def test_the_hours_after_noon_are_told_of_a_stream_that_peaks_after_noon_only() -> None:
    """Deep snow that melts day and night carries most at other hours: the sentence once said "hours after" of all."""
    for low in (0.0, 0.05, 0.18):
        for night in (-8.0, -1.0, 8.0):
            spring = run_of(snow_low=low, night_temperature=ZERO_K + night, afternoon_temperature=ZERO_K + 9.0)
            for stage in spring.stages:
                found = re.search(r"carries most at (\d+):(\d+), (?:(\d+) hours?)?", say(stage.science))
                if found:
                    inside = (spring.time_s >= stage.start_s) & (spring.time_s <= stage.end_s)
                    flow = np.where(inside, spring.quantity("stream flow").values, 0.0)
                    hour = spring.time_s[int(flow.argmax())] / 3600.0 % 24.0
                    assert hour >= 13.0 and int(found[1]) + int(found[2]) / 60.0 == pytest.approx(hour, abs=0.02)


def test_a_night_above_zero_is_not_called_cold() -> None:
    assert "as cold as −4.0 °C" in told()
    mild = told(night_temperature=ZERO_K + 8.1, afternoon_temperature=ZERO_K + 14.0)
    assert "For " in mild and "as cold as" not in mild


def test_days_are_counted_only_where_there_are_days() -> None:
    """A stage of some hours has no "every day"."""
    quick = run_of(
        snow_low=0.004, snow_high=0.03, night_temperature=ZERO_K + 6.0, afternoon_temperature=ZERO_K + 20.0, warming=0.0
    )
    for stage in quick.stages:
        if stage.end_s - stage.start_s < 2 * DAY_S:
            assert "Every day" not in say(stage.science)
    assert "Every day the stream carries most after noon" in told()
