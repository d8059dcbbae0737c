"""The water's day: what the harbour day must bring, what changes it, and that no water is lost."""

from __future__ import annotations

import re
from dataclasses import fields
from typing import Any

import numpy as np
import pytest

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find, water_cycle_model
from sonify.processes.water_cycle_model import (
    KEPT,
    STEP_S,
    STEPS,
    STORES,
    Fluxes,
    Morning,
    apply,
    dawn,
    simulate,
)
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.evaporation import MM_PER_DAY, SEA_WATER_FACTOR, mass_transfer_evaporation
from sonify.science.runoff import released_share
from sonify.science.saturation import saturation_vapour_pressure

STAGES = ["warming", "evaporation", "condensation", "precipitation", "collection"]
STORE_NAMES = (
    "water in the sea",
    "water in the shallows",
    "water vapour",
    "cloud water",
    "falling rain",
    "water in the hillside",
    "water in the river",
)
SPEC = find("water-cycle")
USUAL = conditions_si(SPEC, ())


def day(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


@pytest.fixture(scope="module")
def harbour() -> Timeline:
    return day()


def celsius(timeline: Timeline, name: str) -> np.ndarray[Any, Any]:
    return timeline.quantity(name).values - 273.15


def total_mm(timeline: Timeline, rate: str) -> float:
    return float(timeline.quantity(rate).values.sum() * STEP_S * 1000.0)


def stage_mean(timeline: Timeline, stage: str, name: str) -> float:
    found = next(s for s in timeline.stages if s.name == stage)
    steps = slice(round(found.start_s / STEP_S), round(found.end_s / STEP_S))
    return float(timeline.quantity(name).values[steps].mean())


def names(timeline: Timeline) -> list[str]:
    return [stage.name for stage in timeline.stages]


# --- the harbour day -------------------------------------------------------------------------------------------------


def test_the_harbour_day_has_all_five_stages_in_order_without_a_gap(harbour: Timeline) -> None:
    assert names(harbour) == STAGES
    assert not harbour.missing
    for before, after in zip(harbour.stages, harbour.stages[1:], strict=False):
        assert before.end_s == after.start_s
    assert all(stage.end_s - stage.start_s >= 1200.0 for stage in harbour.stages)
    assert harbour.stages[-1].end_s == harbour.time_s[-1] == 86_400.0


def test_the_quantities_are_those_it_declares(harbour: Timeline) -> None:
    assert [q.name for q in harbour.quantities] == [q.name for q in SPEC.quantities]
    for ours, declared in zip(harbour.quantities, SPEC.quantities, strict=True):
        assert (ours.unit, ours.si_unit, ours.true_zero) == (declared.unit, declared.si_unit, declared.true_zero)
        assert declared.meaning and declared.symbol


def test_the_sun_sets_as_long_after_noon_as_it_rose_before_it(harbour: Timeline) -> None:
    """One horizon for both: the day is even about its noon (the declination stands still within it)."""
    (sunset,) = [event.time_s for event in harbour.events if event.name == "sunset"]
    rises, sets = harbour.clock_start, harbour.clock_start + sunset / 3600.0
    assert sets == pytest.approx(24.0 - rises, abs=0.06)


def test_the_day_begins_at_sunrise_and_noon_is_noon(harbour: Timeline) -> None:
    assert harbour.clock_start == pytest.approx(3.43, abs=0.05)  # 54° N on 21 June: the Sun is up for 17 h 8 min
    sun = np.degrees(harbour.quantity("sun height").values)
    noon_h = harbour.clock_start + harbour.time_s[int(sun.argmax())] / 3600.0
    assert noon_h == pytest.approx(12.0, abs=STEP_S / 3600.0)
    assert sun.max() == pytest.approx(90.0 - 54.0 + 23.43, abs=0.02)


def test_the_journey_goes_from_cool_sea_over_warm_shallows_and_cold_cloud_home(harbour: Timeline) -> None:
    water = celsius(harbour, "journey temperature")
    spans = {s.name: slice(round(s.start_s / STEP_S), round(s.end_s / STEP_S) + 1) for s in harbour.stages}
    assert water[0] == pytest.approx(14.0, abs=0.1)
    assert 20.0 < water[spans["evaporation"]].max() < 28.0
    assert 3.0 < water[spans["condensation"]].min() < 8.0
    assert 3.0 < water[spans["precipitation"]].min() < 8.0
    assert water[-1] == pytest.approx(float(celsius(harbour, "sea temperature")[-1]), abs=1e-6)
    assert np.abs(np.diff(water)).max() < 3.0  # K in two minutes: the climb takes twenty, and nothing jumps


def test_the_water_rises_to_the_cloud_and_falls_to_the_ground(harbour: Timeline) -> None:
    height = harbour.quantity("height of the water").values
    spans = {s.name: (round(s.start_s / STEP_S), round(s.end_s / STEP_S)) for s in harbour.stages}
    assert height[: spans["warming"][1]].max() == 0.0
    base = harbour.quantity("cloud base").values[spans["condensation"][0]]
    assert height[spans["condensation"][0]] == pytest.approx(base, rel=0.02)
    assert height.max() > base
    assert np.abs(height[spans["collection"][0] :]).max() < 1e-6


def test_neighbouring_stages_differ_in_molecule_speed_by_what_can_be_heard(harbour: Timeline) -> None:
    """At 2.2 beats a minute for each m/s and some 75 beats, two m/s are 6 %, a step that is heard."""
    speeds = [stage_mean(harbour, stage, "mean molecule speed") for stage in STAGES]
    assert all(abs(after - before) > 2.0 for before, after in zip(speeds, speeds[1:], strict=False)), speeds
    assert min(speeds) > 570.0 and max(speeds) < 592.0


def test_molecule_speed_is_that_of_the_journey_temperature(harbour: Timeline) -> None:
    kelvin = harbour.quantity("journey temperature").values
    expected = np.sqrt(8 * 8.31446261815324 * kelvin / (np.pi * 0.01801528))
    np.testing.assert_allclose(harbour.quantity("mean molecule speed").values, expected, rtol=1e-12)


def test_plausible_totals_for_a_summers_day(harbour: Timeline) -> None:
    assert 2.0 < total_mm(harbour, "evaporation rate") < 5.0
    assert 2.0 < total_mm(harbour, "rain rate") < 10.0
    assert 0.5 < harbour.quantity("rain rate").in_unit().max() < 5.0
    assert 0.0 < np.ptp(celsius(harbour, "sea temperature")) < 1.0
    assert 3.0 < np.ptp(celsius(harbour, "shallows temperature")) < 20.0
    rain = harbour.quantity("drop size").in_unit()
    assert 0.5 < rain.max() < 2.0
    assert 2.0 < harbour.quantity("drop fall speed").values.max() < 6.0
    assert harbour.quantity("relative humidity").values.min() >= 0.0
    assert harbour.quantity("relative humidity").values.max() < 1.0


def test_another_authors_formula_gives_about_as_much_evaporation_from_the_sea() -> None:
    """Dunne's mass transfer for the day's mean wind and deficit: within a factor of 1.6."""
    model = simulate(Morning.of(USUAL))
    vapour = model["vapour"] / water_cycle_model.AIR_KG_PER_M2 * 101_325.0 / 0.62198
    deficit = float(np.mean(SEA_WATER_FACTOR * saturation_vapour_pressure(model["sea_k"]) - vapour))
    dunne = float(mass_transfer_evaporation(USUAL["wind"], deficit)) / MM_PER_DAY
    sea_lost = USUAL["wind"] and float(evaporation_of_the_sea_mm(model))
    assert dunne / 1.6 < sea_lost < dunne * 1.6


def evaporation_of_the_sea_mm(model: dict[str, np.ndarray[Any, Any]]) -> float:
    """From the balance of the sea's own store: what left it and did not come back by river or go to the shallows."""
    given = model["sea"][0] - model["sea"][-1] + float(model["returning"][:-1].sum())
    shallows = float(model["shallows"][-1] - model["shallows"][0])
    evaporated = float(model["evaporation"][:-1].sum())
    assert given - shallows == pytest.approx(evaporated, abs=1e-9)  # sea and shallows together lost what rose
    share = water_cycle_model.SEA_SHARE
    cool = float(np.mean(saturation_vapour_pressure(model["sea_k"])))
    warm = float(np.mean(saturation_vapour_pressure(model["shallows_k"])))
    # split by saturation pressure, near enough for a factor of 1.6
    part = share * cool / (share * cool + water_cycle_model.SHALLOWS_SHARE * warm)
    return evaporated * part / share


def test_every_stage_says_what_happened_with_figures(harbour: Timeline) -> None:
    for stage in harbour.stages:
        assert say(stage.science).endswith(".") and sum(c.isdigit() for c in say(stage.science)) >= 6, say(
            stage.science
        )
        assert stage.title
    assert f"{total_mm(harbour, 'rain rate'):.1f} mm to town and hill" in say(harbour.stages[3].science)


def test_events_are_in_order_and_at_their_stages(harbour: Timeline) -> None:
    times = [event.time_s for event in harbour.events]
    assert times == sorted(times)
    events = {event.name: event.time_s for event in harbour.events}
    assert events["first cloud"] == harbour.stages[2].start_s
    assert events["first rain"] == harbour.stages[3].start_s
    assert {"noon", "sunset", "heaviest rain"} <= set(events)


# --- water is kept ---------------------------------------------------------------------------------------------------


def test_all_water_together_stays_the_same(harbour: Timeline) -> None:
    total = np.sum([harbour.quantity(name).values for name in STORE_NAMES], axis=0)
    moved = harbour.quantity("evaporation rate").values.clip(0).sum() * STEP_S * 0.65
    assert np.abs(total - total[0]).max() / moved < 1e-9
    assert harbour.conserved[0].name == "water"
    assert harbour.conserved[0].relative_drift < 1e-9


def test_rain_is_found_again_in_ground_river_and_sea(harbour: Timeline) -> None:
    back = total_mm(harbour, "river flow") * water_cycle_model.LAND_SHARE
    held = 1000 * sum(harbour.quantity(n).values[-1] for n in ("water in the hillside", "water in the river"))
    # the last step's fluxes are listed but belong to the next day: hence the spare
    assert back + held == pytest.approx(total_mm(harbour, "rain rate") * water_cycle_model.LAND_SHARE, rel=5e-3)


def test_each_flux_is_taken_from_one_store_and_given_to_another() -> None:
    """One flux at a time: the stores' sum stays, and just two stores change."""
    for field in fields(Fluxes):
        state = dawn(Morning.of(USUAL))
        before = {name: getattr(state, name) for name in STORES}
        apply(state, Fluxes(**{f.name: 0.5 if f.name == field.name else 0.0 for f in fields(Fluxes)}))
        changes = {name: getattr(state, name) - before[name] for name in STORES}
        if field.name == "rain":  # rain reaches the ground as run-off and soaking, which are fluxes of their own
            assert changes["falling"] == -0.5
            continue
        if field.name in ("runoff", "soaking"):
            assert sum(changes.values()) == 0.5
            continue
        assert sum(changes.values()) == pytest.approx(0.0, abs=1e-12), field.name
        assert sum(change != 0.0 for change in changes.values()) == 2, field.name


def test_a_leak_would_show(monkeypatch: pytest.MonkeyPatch) -> None:
    def leaking(state: Any, fluxes: Fluxes) -> None:
        apply(state, fluxes)
        state.cloud -= 1e-8 * fluxes.condensation

    monkeypatch.setattr(water_cycle_model, "apply", leaking)
    assert day().conserved[0].relative_drift > 1e-9


def test_rain_that_falls_is_split_between_runoff_and_soaking() -> None:
    state = dawn(Morning.of(USUAL))
    state.falling, state.rain_so_far = 2.0, 30.0
    fluxes = water_cycle_model.water_fluxes(state, np.zeros(2), 0.0)
    assert fluxes.rain > 0.0 and fluxes.runoff > 0.0
    assert fluxes.runoff + fluxes.soaking == pytest.approx(fluxes.rain, rel=1e-15)


def test_half_the_step_gives_the_same_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """The result is the model's, not the step's."""
    coarse = simulate(Morning.of(USUAL))
    half = STEP_S / 2
    monkeypatch.setattr(water_cycle_model, "STEP_S", half)
    monkeypatch.setattr(water_cycle_model, "STEPS", 2 * STEPS)
    for name in ("TIDE", "FOG", "CLOUD_GONE", "HILLSIDE", "RIVER"):
        share = float(released_share(half, getattr(water_cycle_model, f"{name}_S")))
        monkeypatch.setattr(water_cycle_model, f"{name}_STEP", share)
    fine = simulate(Morning.of(USUAL))
    for name in KEPT:
        if name in ("top_m", "top_k", "base_m"):  # held from the last cloud: they jump from nothing
            continue
        near = 0.03 if name == "falling" else 0.01  # rain falls in little more than a step
        assert np.abs(fine[name][::2] - coarse[name]).mean() < near * np.ptp(coarse[name]), name
    assert fine["rain_rate_m_s"].sum() * half == pytest.approx(coarse["rain_rate_m_s"].sum() * STEP_S, rel=0.02)
    assert fine["evaporation"].sum() == pytest.approx(coarse["evaporation"].sum(), rel=0.01)


def test_the_same_conditions_give_the_same_day(harbour: Timeline) -> None:
    again = day()
    for one, other in zip(harbour.quantities, again.quantities, strict=True):
        np.testing.assert_array_equal(one.values, other.values)


# --- what the conditions change --------------------------------------------------------------------------------------


def test_a_colder_sea_evaporates_less_and_a_warmer_one_more(harbour: Timeline) -> None:
    cold, warm = day(sea_temperature=282.15), day(sea_temperature=292.15)
    amounts = [total_mm(timeline, "evaporation rate") for timeline in (cold, harbour, warm)]
    assert amounts == sorted(amounts)
    assert amounts[1] > 1.2 * amounts[0]


def test_damp_air_takes_up_less(harbour: Timeline) -> None:
    dry, damp = day(humidity=0.5), day(humidity=0.85)
    amounts = [total_mm(timeline, "evaporation rate") for timeline in (damp, harbour, dry)]
    assert amounts == sorted(amounts)


def test_more_wind_evaporates_more(harbour: Timeline) -> None:
    calm, windy = day(wind=2.0), day(wind=8.0)
    amounts = [total_mm(timeline, "evaporation rate") for timeline in (calm, harbour, windy)]
    assert amounts == sorted(amounts)


def test_a_higher_hill_brings_more_rain(harbour: Timeline) -> None:
    low, high = day(hill_height=650.0), day(hill_height=1500.0)
    amounts = [total_mm(timeline, "rain rate") for timeline in (low, harbour, high)]
    assert amounts == sorted(amounts)
    assert amounts[0] < amounts[2]


def test_a_winter_sun_does_not_warm_the_shallows() -> None:
    winter = day(day=355.0)
    assert "warming" not in names(winter)
    lacking = {m.stage: m for m in winter.missing}
    assert lacking["warming"].condition == "day"
    assert "13°" in say(lacking["warming"].reason)


def test_a_low_hill_brings_no_cloud_and_says_which_hill_would() -> None:
    low = day(hill_height=300.0)
    assert names(low) == ["warming", "evaporation"]
    assert [m.stage for m in low.missing] == ["condensation", "precipitation", "collection"]
    assert {m.condition for m in low.missing} == {"hill_height"}
    assert "no cloud forms" in say(low.missing[1].reason)
    assert low.quantity("cloud water").values.max() == 0.0
    assert say(low.missing[0].fix) == 'Set hill_height = "650 m".'
    assert names(day(hill_height=650.0)) == STAGES


def test_dry_air_brings_no_cloud() -> None:
    dry = day(humidity=0.3)
    assert "condensation" not in names(dry)
    assert dry.missing[0].condition in ("humidity", "hill_height")


def test_fog_at_dawn_leaves_out_the_first_stages() -> None:
    fog = day(humidity=1.0)
    assert names(fog) == ["condensation", "precipitation", "collection"]
    assert {m.stage for m in fog.missing} == {"warming", "evaporation"}
    assert "fog" in say(fog.stages[0].science)


def test_a_sea_colder_than_the_dew_point_gathers_dew() -> None:
    dew = day(sea_temperature=275.15, air_temperature=293.15, humidity=0.7)
    lacking = {m.stage: m for m in dew.missing}
    assert "dew" in say(lacking["evaporation"].reason)
    assert lacking["evaporation"].condition == "sea_temperature"
    assert dew.quantity("evaporation rate").values.min() < 0.0


def test_the_southern_summer_is_in_december() -> None:
    south = {"latitude": -USUAL["latitude"]}
    assert names(day(**south, day=355.0)) == STAGES
    assert "warming" not in names(day(**south, day=172.0))


def test_a_day_on_which_nothing_happens_is_refused_with_what_to_change() -> None:
    with pytest.raises(BadCondition, match="nothing of the water cycle comes: .* Set day = 172"):
        day(
            latitude=np.radians(65.0),
            day=355.0,
            sea_temperature=273.3,
            air_temperature=284.0,
            humidity=0.5,
            wind=1.0,
            hill_height=0.0,
        )


def test_the_air_is_never_said_to_climb_past_where_cloud_forms_and_bring_none() -> None:
    """A cloud of next to no water was once told as "cloud would form at 143 m, but the air climbs to 150 m only"."""
    values = {"latitude": np.radians(-54.0), "day": 158.0, "sea_temperature": 283.15, "air_temperature": 278.15}
    thin = 0
    for percent in range(60, 72):
        almost = day(**values, humidity=percent / 100.0, wind=5.0, hill_height=1381.0)
        if "condensation" in names(almost):
            continue
        reason = say(next(m for m in almost.missing if m.stage == "condensation").reason)
        found = re.search(r"form at (\d+) m.* (\d+) m only", reason)
        assert found is None or int(found[2]) < int(found[1]), reason
        if almost.quantity("cloud water").values.max() > 0.0:
            assert "it never holds more than" in reason
            thin += 1
    assert thin
