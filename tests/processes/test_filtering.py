"""Muddy water: every grain is found again where its size puts it, and the paper clogs as Ruth's law has it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given, settings

from sonify.processes import conditions_si, find
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.liquid_water import water_density, water_viscosity
from sonify.science.settling import settling_speed
from tests.processes.stories import any_conditions, at, check_advice, check_story, near_usual, stage_of

SPEC = find("filtering")
USUAL = conditions_si(SPEC, ())
EMPTY = {**USUAL, "gravel": 0.0, "sand": 0.0, "silt": 0.0, "clay": 0.0}
KINDS = ("gravel", "sand", "silt", "clay")


def run_of(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


@pytest.fixture(scope="module")
def usual() -> Timeline:
    return run_of()


def names(timeline: Timeline) -> list[str]:
    return [stage.name for stage in timeline.stages]


def test_all_six_stages_in_order(usual: Timeline) -> None:
    check_story(SPEC, usual)
    assert names(usual) == ["sieving", "sand", "silt", "dripping", "clogging", "clear"]
    assert not usual.missing


def test_the_sieve_holds_what_is_wider_than_its_openings(usual: Timeline) -> None:
    """All gravel, and of the sand the topmost of ln(2/0.063)/ln 2 = 4.99 doublings."""
    assert at(usual, "gravel in the water", 31.0) == pytest.approx(0.0, abs=1e-9)
    assert at(usual, "sand in the water", 30.0) == pytest.approx(40.0 * (1 - np.log(2) / np.log(2 / 0.063)), rel=1e-9)
    assert at(usual, "caught by the sieve", 31.0) == pytest.approx(
        40.0 + 40.0 * np.log(2) / np.log(2 / 0.063), rel=1e-9
    )
    for kind in ("silt", "clay"):
        assert at(usual, f"{kind} in the water", 30.0) == pytest.approx(at(usual, f"{kind} in the water", 0.0))


def test_layers_fall_silent_one_by_one(usual: Timeline) -> None:
    """When each kind has lost nine tenths: gravel, then sand; the silt only in the paper; the clay never."""
    lost = {}
    for kind in KINDS:
        left = usual.quantity(f"{kind} in the water").values
        gone = np.flatnonzero(left <= 0.12 * left[0])
        lost[kind] = float(usual.time_s[gone[0]]) if gone.size else np.inf
    assert lost["gravel"] < lost["sand"] < 60.0 < 330.0 < lost["silt"]
    assert lost["clay"] == np.inf


def test_sand_is_down_when_its_finest_grains_have_sunk_the_depth(usual: Timeline) -> None:
    """The finest sand, 0.063 mm, sinks 12 cm in 40 s at 15 °C by Stokes' law or next to it."""
    slowest = 0.12 / float(settling_speed(63e-6, 2650.0, water_density(288.15), water_viscosity(288.15)))
    assert slowest == pytest.approx(0.12 * 18 * 1.1375e-3 / (1651 * 9.80665 * 63e-6**2), rel=0.08)
    assert at(usual, "sand in the water", 30.0 + 1.01 * slowest) == pytest.approx(0.0, abs=1e-6)
    assert at(usual, "sand in the water", 30.0 + 0.8 * slowest) > 0.0
    begin, end = stage_of(usual, "sand")
    assert at(usual, "sand in the water", end) == pytest.approx(0.05 * at(usual, "sand in the water", begin), rel=0.03)


def test_a_deeper_jar_takes_in_proportion_longer_and_warm_water_less_long(usual: Timeline) -> None:
    usual_s, deep_s, warm_s = (
        float(np.ptp(stage_of(timeline, "sand")))
        for timeline in (usual, run_of(jar_depth=0.24), run_of(temperature=298.15))
    )
    assert deep_s == pytest.approx(2 * usual_s, rel=0.03)
    thinner = float(water_viscosity(298.15) / water_viscosity(288.15))
    assert warm_s == pytest.approx(thinner * usual_s, rel=0.05)


def test_the_filter_clogs_by_ruths_law(usual: Timeline) -> None:
    """t/V is a straight line of V: a script of effects would not know."""
    begin, _ = stage_of(usual, "dripping")
    _, end = stage_of(usual, "clogging")
    times = np.linspace(begin + 100.0, end - 1.0, 30)
    volumes = np.array([at(usual, "filtered water", t) for t in times])
    over = (times - begin) / volumes
    slope, intercept = np.polyfit(volumes, over, 1)
    np.testing.assert_allclose(over, slope * volumes + intercept, rtol=2e-4)
    assert slope > 0.0 and intercept > 0.0


def test_clean_water_runs_through_as_fast_as_the_paper_lets_it() -> None:
    """1 ml/s at 20 °C; in colder water slower by the ratio of viscosities and, hardly, of weights."""
    at_20 = SPEC.run({**EMPTY, "temperature": 293.15})
    assert at_20.quantity("flow through the paper").in_unit().max() == pytest.approx(60.0, rel=1e-6)
    at_5 = SPEC.run({**EMPTY, "temperature": 278.15})
    ratio = float(water_viscosity(293.15) / water_viscosity(278.15) * water_density(278.15) / water_density(293.15))
    assert at_5.quantity("flow through the paper").in_unit().max() == pytest.approx(60.0 * ratio, rel=1e-6)
    assert "clogging" not in names(at_20)


def test_more_mud_clogs_more(usual: Timeline) -> None:
    thick = run_of(silt=24e-3)
    assert thick.time_s[-1] > 1.3 * usual.time_s[-1]
    thin = run_of(standing_time=7200.0)  # two hours of standing leave less for the paper
    assert thin.quantity("caught by the paper").values[-1] < 0.5 * usual.quantity("caught by the paper").values[-1]


def test_every_grain_is_somewhere(usual: Timeline) -> None:
    stores = ("caught by the sieve", "on the bottom of the jar", "caught by the paper")
    total = sum(usual.quantity(f"{kind} in the water").in_unit() for kind in KINDS)
    total = total + sum(usual.quantity(store).in_unit() for store in stores)
    np.testing.assert_allclose(total, 96.0, rtol=1e-12)
    water = usual.quantity("water to be filtered").in_unit() + usual.quantity("filtered water").in_unit()
    np.testing.assert_allclose(water, 500.0, rtol=1e-12)
    assert {kept.name for kept in usual.conserved} == {"grains", "water"}


def test_the_largest_grain_shrinks_and_is_what_has_not_sunk(usual: Timeline) -> None:
    sizes = usual.quantity("largest grain in the water").values
    assert np.all(np.diff(sizes) <= 1e-12)
    assert 1e3 * sizes[0] == pytest.approx(20.0) and 1e6 * sizes[-1] == pytest.approx(3.0)
    left = at(usual, "largest grain in the water", 330.0) * 1e-3
    speed = float(settling_speed(left, 2650.0, water_density(288.15), water_viscosity(288.15)))
    assert speed * 300.0 == pytest.approx(0.12, rel=0.02)


def test_it_says_that_clear_is_not_clean(usual: Timeline) -> None:
    assert "not to drink" in say(usual.stages[-1].science)
    assert "4.0 g of clay" in say(usual.stages[-1].science)
    assert any("drinking water" in say(sentence) for sentence in SPEC.honesty)


@pytest.mark.parametrize(
    ("changes", "lacking"),
    [
        ({"gravel": 0.0, "sieve_opening": 2e-3}, {"sieving"}),
        ({"sand": 0.0}, {"sand"}),
        ({"silt": 0.0}, {"silt", "clogging"}),
        ({"standing_time": 5.0}, {"silt"}),
        ({"patience": 60.0}, {"clogging", "clear"}),
        ({"gravel": 0.0, "sand": 0.0, "silt": 0.0, "clay": 0.0}, {"sieving", "sand", "silt", "clogging"}),
    ],
)
def test_stages_that_lack_say_why_and_what_to_change(changes: dict[str, float], lacking: set[str]) -> None:
    timeline = run_of(**changes)
    check_story(SPEC, timeline, {**USUAL, **changes})
    assert {missing.stage for missing in timeline.missing} == lacking
    check_advice(SPEC, {**USUAL, **changes}, timeline)


@example(EMPTY)
@example({one.name: one.high for one in SPEC.conditions})
@example({one.name: one.low for one in SPEC.conditions})
@given(any_conditions(SPEC))
def test_any_muddy_water(values: dict[str, float]) -> None:
    timeline = SPEC.run(values)
    check_story(SPEC, timeline, values)
    for quantity in timeline.quantities:
        assert quantity.values.min() >= -1e-12 * max(1.0, float(np.abs(quantity.values).max())), quantity.name


@settings(max_examples=15)
@given(near_usual(SPEC))
def test_advice_brings_what_was_missing(values: dict[str, float]) -> None:
    check_advice(SPEC, values, SPEC.run(values))


def test_a_kind_that_is_not_there_is_not_told_of() -> None:
    clean = run_of(gravel=0.0, sand=0.0, silt=0.0, clay=0.0)
    told = " ".join(say(words) for words in (*(s.science for s in clean.stages), *(e.text for e in clean.events)))
    assert "begin to sink" not in told and "clearer" not in told and "Hardly a grain" in told
    no_clay = run_of(clay=0.0)
    assert "lay" not in say(next(s.science for s in no_clay.stages if s.name == "silt"))
