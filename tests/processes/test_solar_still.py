"""The still's day: fresh water arrives, the salt stays, and heat, water and salt are all found again."""

from __future__ import annotations

import re
from math import radians

import numpy as np
import pytest
from hypothesis import example, given, settings

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find, solar_still_model
from sonify.processes.solar_still_model import Fluxes, Setup, State, apply, simulate
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.brine import salt_solubility
from sonify.science.runoff import released_share
from tests.processes.stories import any_conditions, at, check_advice, check_story, near_usual, stage_of

SPEC = find("solar-still")
USUAL = conditions_si(SPEC, ())


def run_of(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


@pytest.fixture(scope="module")
def usual() -> Timeline:
    return run_of()


def most(timeline: Timeline, name: str) -> float:
    return float(timeline.quantity(name).in_unit().max())


def last(timeline: Timeline, name: str) -> float:
    return float(timeline.quantity(name).in_unit()[-1])


def test_all_five_stages_in_order(usual: Timeline) -> None:
    check_story(SPEC, usual)
    assert [stage.name for stage in usual.stages] == ["warming", "misting", "dripping", "evening", "night"]
    assert not usual.missing
    assert usual.stages[0].start_s == 0.0 and usual.stages[-1].end_s == 86_400.0


def test_a_clear_day_gives_what_such_stills_give(usual: Timeline) -> None:
    """2 to 5 litres to a square metre, with 30 to 45 % of the sunlight's heat in the vapour: common practice."""
    assert 2.0 < last(usual, "fresh water") < 5.0
    sunlight = usual.quantity("sunlight").values.sum() * 120.0
    efficiency = 1e-3 * last(usual, "fresh water") * 1e3 * 2.36e6 / sunlight
    assert 0.30 < efficiency < 0.45
    assert 55.0 < most(usual, "brine temperature") < 80.0
    assert most(usual, "cover temperature") < most(usual, "brine temperature")


def test_stages_are_found_where_they_say(usual: Timeline) -> None:
    start, end = stage_of(usual, "dripping")
    assert at(usual, "fresh water", start) == pytest.approx(0.0, abs=1e-3)
    assert at(usual, "dripping rate", end) == pytest.approx(0.5 * most(usual, "dripping rate"), rel=0.05)
    assert at(usual, "evaporation rate", stage_of(usual, "misting")[0]) >= 0.1 * most(usual, "evaporation rate")
    assert at(usual, "drops on the cover", start) == pytest.approx(61.0, abs=2.0)  # 60 g to a square metre cling


def test_the_salt_never_leaves(usual: Timeline) -> None:
    salt = usual.quantity("salt in the basin").in_unit()
    np.testing.assert_array_equal(salt, salt[0])
    assert salt[0] == pytest.approx(20_000.0 * 0.035 / 0.965, rel=1e-12)
    saltier = 1000.0 * salt[0] / (salt[0] + 1000.0 * last(usual, "water in the basin"))
    assert last(usual, "saltiness") == pytest.approx(saltier, rel=1e-9)
    assert last(usual, "saltiness") > 1.2 * 35.0


def test_water_and_heat_are_found_again(usual: Timeline) -> None:
    litres = usual.quantity("water in the basin").in_unit() + usual.quantity("fresh water").in_unit()
    litres = litres + 1e-3 * usual.quantity("drops on the cover").in_unit()
    np.testing.assert_allclose(litres, 20.0, rtol=1e-12)
    heat = [usual.quantity(name).in_unit() for name in ("heat in the still", "heat taken in", "heat given off")]
    np.testing.assert_allclose(heat[0] - heat[1] + heat[2], heat[0][0], rtol=1e-12)
    assert {kept.name for kept in usual.conserved} == {"water", "salt", "energy"}


def test_a_leak_would_be_seen() -> None:
    """Each store adds up its own fluxes: what one gives and no other gets is missing from the sum."""
    state = State(brine=20.0, dissolved=0.7, basin_j=1e6, cover_j=1e5)
    honest = Fluxes(
        vapour=0.01,
        vapour_j=2.4e4,
        runs=0.0,
        runs_j=0.0,
        sun_basin=100.0,
        sun_cover=5.0,
        inside=50.0,
        ground=3.0,
        sky=60.0,
    )
    apply(state, honest)
    assert state.brine + state.film + state.cup == pytest.approx(20.0, abs=1e-12)
    assert state.basin_j + state.cover_j - state.taken_j + state.given_j == pytest.approx(1.1e6, abs=1e-6)
    state.film -= 0.001
    assert abs(state.brine + state.film + state.cup - 20.0) > 1e-6


def test_evaporation_pays_for_itself() -> None:
    """In a closed dark still nothing is gained: what evaporates is paid from the basin's heat alone."""
    dark = run_of(cloud=1.0, latitude=radians(60.0), day=355.0, air_by_night=ZERO + 20.0, air_by_day=ZERO + 20.0)
    assert last(dark, "fresh water") < 0.05
    assert np.abs(dark.quantity("brine temperature").in_unit() - 20.0).max() < 8.0


ZERO = 273.15


@pytest.mark.parametrize(
    ("changes", "more"),
    [
        ({"cloud": 0.9}, False),
        ({"insulation": 8.0}, False),
        ({"depth": 0.15}, False),
        ({"saltiness": 0.20}, False),
        ({"insulation": 0.5}, True),
        ({"day": 355.0, "latitude": radians(50.0), "air_by_night": ZERO + 12.0, "air_by_day": ZERO + 16.0}, False),
    ],
)
def test_conditions_change_the_day_as_they_should(usual: Timeline, changes: dict[str, float], more: bool) -> None:
    assert (last(run_of(**changes), "fresh water") > last(usual, "fresh water")) is more


def test_twice_the_basin_is_twice_the_water(usual: Timeline) -> None:
    twice = run_of(area=2.0)
    for name in ("fresh water", "salt in the basin", "heat taken in"):
        assert last(twice, name) == pytest.approx(2 * last(usual, name), rel=1e-12)
    np.testing.assert_allclose(twice.quantity("brine temperature").values, usual.quantity("brine temperature").values)


def test_evaporation_follows_heat_and_not_the_clock(usual: Timeline) -> None:
    """It peaks after noon, when the brine is hottest, and goes on after sunset: a script of the Sun would not."""
    times = usual.time_s
    noon = times[int(np.argmax(usual.quantity("sun height").values))]
    hottest = times[int(np.argmax(usual.quantity("brine temperature").values))]
    busiest = times[int(np.argmax(usual.quantity("evaporation rate").values))]
    assert 1800.0 < busiest - noon < 3 * 3600.0
    assert abs(busiest - hottest) < 1800.0
    sunset = next(event.time_s for event in usual.events if event.name == "sunset")
    assert at(usual, "evaporation rate", sunset + 1800.0) > 10.0
    deep = run_of(depth=0.1)
    assert times[int(np.argmax(deep.quantity("evaporation rate").values))] > busiest + 1800.0


def test_strong_brine_gives_crystals_at_what_water_can_hold() -> None:
    strong = run_of(saltiness=0.25, depth=0.01)
    assert last(strong, "salt crystals") > 0.0
    held = strong.quantity("dissolved salt").in_unit() / 1000.0 / strong.quantity("water in the basin").in_unit()
    full = strong.quantity("salt crystals").values > 1e-6
    limit = salt_solubility(strong.quantity("brine temperature").values)
    np.testing.assert_allclose(held[full], limit[full], rtol=2e-3)
    assert "first crystals" in [event.name for event in strong.events]
    total = strong.quantity("dissolved salt").values + strong.quantity("salt crystals").values
    np.testing.assert_allclose(total, total[0], rtol=1e-12)


def test_a_finer_step_gives_the_same_day(monkeypatch: pytest.MonkeyPatch) -> None:
    coarse = simulate(Setup.of(USUAL))
    monkeypatch.setattr(solar_still_model, "STEP_S", 15.0)
    monkeypatch.setattr(solar_still_model, "STEPS", 5760)
    monkeypatch.setattr(solar_still_model, "KEPT_EVERY", 8)
    monkeypatch.setattr(solar_still_model, "RUNS_DOWN_STEP", float(released_share(15.0, 300.0)))
    fine = simulate(Setup.of(USUAL))
    assert coarse["cup"][-1] == pytest.approx(fine["cup"][-1], rel=0.005)
    np.testing.assert_allclose(coarse["basin_k"], fine["basin_k"], atol=0.5)


@pytest.mark.parametrize(
    ("changes", "key", "said"),
    [
        ({"air_by_day": ZERO + 15.0}, "air_by_day", "colder than the night; allowed: 24 °C"),
        (
            {"wind": 0.5, "air_by_night": ZERO + 8.0, "air_by_day": ZERO + 12.0, "humidity": 0.2, "cloud": 0.0},
            "air_by_night",
            "freezes the drops",
        ),
        (
            {"wind": 0.5, "air_by_night": ZERO + 32.0, "air_by_day": ZERO + 42.0, "depth": 0.01, "insulation": 0.3},
            "depth",
            "would boil",
        ),
    ],
)
def test_impossible_days_are_refused(changes: dict[str, float], key: str, said: str) -> None:
    with pytest.raises(BadCondition, match=said) as caught:
        run_of(**changes)
    assert caught.value.key == key


def test_a_winter_day_says_what_lacks() -> None:
    winter = {"latitude": radians(60.0), "day": 355.0, "air_by_night": ZERO + 12.0, "air_by_day": ZERO + 14.0}
    dim = run_of(**winter)
    assert {missing.stage for missing in dim.missing} >= {"dripping", "evening", "night"}
    check_story(SPEC, dim, {**USUAL, **winter})
    check_advice(SPEC, {**USUAL, **winter}, dim)


@settings(max_examples=20)
@example({one.name: one.high for one in SPEC.conditions})
@example({**{one.name: one.low for one in SPEC.conditions}, "air_by_day": ZERO + 30.0, "air_by_night": ZERO + 20.0})
@given(any_conditions(SPEC))
def test_any_day(values: dict[str, float]) -> None:
    try:
        timeline = SPEC.run(values)
    except BadCondition as impossible:
        assert impossible.key in ("air_by_day", "air_by_night", "depth")
        return
    check_story(SPEC, timeline, values)
    for name in ("water in the basin", "drops on the cover", "fresh water", "salt crystals", "dissolved salt"):
        assert timeline.quantity(name).values.min() >= -1e-15, name
    assert np.all(np.diff(timeline.quantity("fresh water").values) >= 0.0)


@settings(max_examples=6)
@given(near_usual(SPEC))
def test_advice_brings_what_was_missing(values: dict[str, float]) -> None:
    try:
        timeline = SPEC.run(values)
    except BadCondition:
        return
    check_advice(SPEC, values, timeline)


def test_salt_water_that_is_as_warm_at_the_end_is_not_said_to_warm() -> None:
    """A short cold dawn: the stage ends before the Sun has done anything."""
    dull = run_of(latitude=radians(60.0), day=355.0, cloud=1.0, air_by_night=ZERO + 24.0, air_by_day=ZERO + 25.0)
    told = " ".join(say(stage.science) for stage in dull.stages)
    for before, after in re.findall(r"warms the salt water from (\S+) °C to (\S+) °C", told):
        assert float(before) < float(after)
    for after, before in re.findall(r"saltier: (\S+) g .* instead of (\S+) g", told):
        assert float(before) < float(after)


def test_fresh_water_is_no_salt_water() -> None:
    saltiness = next(one for one in SPEC.conditions if one.name == "saltiness")
    assert saltiness.low > 0.0
    barely = run_of(saltiness=saltiness.low)
    assert not re.search(r"(?<![\d.])0 g", say(barely.stages[-1].science))
