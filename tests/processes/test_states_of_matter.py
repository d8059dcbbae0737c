"""Solid, liquid, gas: the states are found in what the particles do, and their physics is that of the flat."""

from __future__ import annotations

import re
from functools import lru_cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sonify.constants import GAS_CONSTANT_J_PER_MOL_K
from sonify.errors import BadCondition
from sonify.kinds.timelines import TIMELINES
from sonify.processes import conditions_si, find
from sonify.processes.states_of_matter import box_params, simulated
from sonify.processes.states_of_matter_stages import averaged, found, wandered
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.kinetic import mean_speed
from sonify.science.particles import ARGON_KG_PER_MOL
from tests.processes.test_registry import condition
from tests.processes.truth import check_told, judged

SPEC = find("states-of-matter")
STAGES = ["solid", "melting", "liquid", "evaporating", "gas"]
DEFAULTS = {one.name: one.default for one in SPEC.conditions}
#: Quick: a small crystal, heated fast.
QUICK = {**DEFAULTS, "particles": 80.0, "box_width": 8.0e-9, "duration": 60e-12}


@lru_cache(maxsize=1)
def usual() -> Timeline:
    return SPEC.run(DEFAULTS)


def mean(timeline: Timeline, name: str, stage: str) -> float:
    span = next(s for s in timeline.stages if s.name == stage)
    inside = (timeline.time_s >= span.start_s) & (timeline.time_s <= span.end_s)
    return float(timeline.quantity(name).values[inside].mean())


def rise(timeline: Timeline, name: str, stage: str) -> float:
    span = next(s for s in timeline.stages if s.name == stage)
    first, last = timeline.at(name, np.array([span.start_s, span.end_s]))
    return float(last - first)


def test_all_states_come_one_after_the_other_and_the_record_says_so() -> None:
    timeline = usual()
    assert [stage.name for stage in timeline.stages] == STAGES
    assert timeline.missing == ()
    assert timeline.stages[0].start_s == 0.0
    assert timeline.stages[-1].end_s == pytest.approx(DEFAULTS["duration"])
    for before, after in zip(timeline.stages, timeline.stages[1:], strict=False):
        assert before.end_s == after.start_s
    assert [event.name for event in timeline.events] == [f"{name} begins" for name in STAGES[1:]]


def test_melting_takes_heat_without_much_warming() -> None:
    # The heating curve: how many degrees a joule buys, in the melting and evaporating against the solid and the gas.
    warming = {name: rise(usual(), "temperature", name) / rise(usual(), "heat given", name) for name in STAGES}
    assert warming["melting"] < 0.7 * warming["solid"]
    assert warming["evaporating"] < 0.7 * warming["gas"]


def test_the_crystal_melts_where_flat_argon_does() -> None:
    # BARKER-1981: triple point of the flat at 0.415 depths (from memory, not verified), 49.7 K for argon. A crystal of
    # 200 has a rim and melts a little colder; heated in a rush, a little later.
    assert mean(usual(), "temperature", "melting") == pytest.approx(49.7, rel=0.15)


def test_half_the_heat_of_the_cold_solid_is_motion_and_nearly_all_of_the_gas_s() -> None:
    # Equipartition in the flat: a crystal holds R T in motion and as much in stretched pulls; a thin gas only R T.
    quick = SPEC.run({**QUICK, "start_temperature": 12.15, "heat": 200.0, "duration": 100e-12})
    moved = GAS_CONSTANT_J_PER_MOL_K * float(np.ptp(quick.quantity("temperature").values))
    assert moved / 200.0 == pytest.approx(0.5, abs=0.1)
    gas = SPEC.run({**QUICK, "box_width": 25.0e-9, "heat": 6000.0})
    start = next(stage.start_s for stage in gas.stages if stage.name == "gas")
    late = gas.time_s > start + 0.5 * (gas.time_s[-1] - start)
    temperature, heat = (gas.quantity(name).values[late] for name in ("temperature", "heat given"))
    slope = float(np.polyfit(heat, temperature, 1)[0])
    assert GAS_CONSTANT_J_PER_MOL_K * slope == pytest.approx(1.0, abs=0.2)


def test_speed_goes_with_warmth_and_not_with_the_state() -> None:
    # at one temperature one mean speed, whatever the state: the counted speed over the one that kinetic theory has
    timeline = usual()
    real = mean_speed(timeline.quantity("temperature").values, ARGON_KG_PER_MOL)
    np.testing.assert_array_equal(timeline.quantity("speed of real argon atoms").values, real)
    for name in STAGES:
        flat = mean(timeline, "mean speed", name) / mean(timeline, "speed of real argon atoms", name)
        assert flat == pytest.approx(np.pi / 4.0, rel=0.03), name


def test_liquid_particles_jostle_and_get_nowhere() -> None:
    timeline = usual()
    path_m = {name: mean(timeline, "mean speed", name) * 10e-12 for name in STAGES}
    got = {name: mean(timeline, "wandering", name) / path_m[name] for name in STAGES}
    assert got["solid"] < 0.15 < got["liquid"] < 0.55 < got["gas"] < 1.2
    assert mean(timeline, "spacing", "liquid") < 1.4 * mean(timeline, "spacing", "solid")
    assert mean(timeline, "spacing", "gas") > 1.7 * mean(timeline, "spacing", "solid")


def test_a_liquid_is_nearly_as_close_as_its_solid_away_from_every_edge() -> None:
    """Counted over all, the rim of the drop and those that got away pass for room between liquid particles."""
    timeline = usual()
    inside, all_ = (
        mean(timeline, name, "liquid") / mean(timeline, name, "solid") for name in ("spacing inside", "spacing")
    )
    assert 1.05 < inside < 1.2 < all_
    told = say(next(stage.science for stage in timeline.stages if stage.name == "liquid"))
    assert (
        f"nearly as close as in the solid: their six nearest are only {100 * (inside - 1):.0f} % further away" in told
    )


def test_no_reader_of_the_box_meets_its_time() -> None:
    timeline = usual()
    assert not TIMELINES[timeline.kind].timed
    told = " ".join(text for _, text in judged(timeline, DEFAULTS)[0])
    assert not re.search(r"second|\bps\b|\bnm\b", told.replace("m/s", ""))


def test_more_room_means_fewer_knocks_for_a_gas() -> None:
    narrow, wide = (SPEC.run({**QUICK, "box_width": width, "heat": 5000.0}) for width in (7.5e-9, 20e-9))
    late = narrow.time_s > 0.7 * narrow.time_s[-1]
    each = [
        t.quantity("knock rate").values[late].mean() / t.quantity("mean speed").values[late].mean()
        for t in (narrow, wide)
    ]
    assert each[1] < 0.5 * each[0]


def test_wandering_is_how_far_apart_two_frames_are() -> None:
    box = simulated(box_params(QUICK))
    step_s = float(box.time_s[1] - box.time_s[0])
    over = 7
    by_hand = np.sqrt(np.mean(np.sum((box.width_m * (box.places[60].astype(float) - box.places[53])) ** 2, axis=1)))
    assert wandered(box, over * step_s)[53 + over // 2] == pytest.approx(float(by_hand))


def test_averages_keep_a_level_and_a_slope() -> None:
    line = np.arange(50.0)
    np.testing.assert_allclose(averaged(np.full(50, 3.0), 4), 3.0)
    np.testing.assert_allclose(averaged(line, 4)[4:-4], line[4:-4])


def test_stages_are_found_by_order_and_isolation_alone() -> None:
    last = 100
    order = np.linspace(1.0, -0.001, last + 1)
    isolated = np.concatenate([np.zeros(81), np.linspace(0.3, 1.0, 20)])
    assert found(order, isolated) == {
        "solid": (0, 20),
        "melting": (20, 70),
        "liquid": (70, 81),
        "evaporating": (81, 87),
        "gas": (87, 100),
    }
    assert found(np.ones(101), np.zeros(101)) == {"solid": (0, 100)}
    # particles break free before the crystal has melted: no liquid
    early = np.concatenate([np.zeros(31), np.full(70, 0.4)])
    assert list(found(order, early)) == ["solid", "melting", "evaporating"]


@pytest.mark.parametrize(
    ("changed", "stage", "named"),
    [
        ({"heat": 300.0}, "melting", "heat"),
        ({"heat": 900.0}, "gas", "heat"),
        ({"particles": 100.0, "box_width": 4.7e-9}, "gas", "box_width"),
    ],
)
def test_a_missing_state_names_the_condition_to_change_and_the_advice_works(
    changed: dict[str, float], stage: str, named: str
) -> None:
    values = {**QUICK, **changed}
    lacking = {m.stage: m for m in SPEC.run(values).missing}
    assert lacking[stage].condition == named
    written = re.fullmatch(r'Set (\w+) = "?([^"]+?)"?\.', say(lacking[stage].fix))
    assert written and written[1] == named
    better = conditions_si(SPEC, (condition(written[1], written[2]),))[named]
    assert stage in [s.name for s in SPEC.run({**values, named: better}).stages]


def test_too_narrow_a_box_is_refused_with_what_is_allowed() -> None:
    with pytest.raises(BadCondition, match="box_width: 4 nm is no width for 200 particles.* 6.3 nm to 30.0 nm") as bad:
        SPEC.run({**DEFAULTS, "box_width": 4.0e-9})
    assert bad.value.key == "box_width"


@st.composite
def conditions(draw: st.DrawFn) -> dict[str, float]:
    particles = draw(st.integers(60, 90))
    return {
        "particles": float(particles),
        "box_width": draw(st.floats(7.0e-9, 30e-9)),
        "start_temperature": draw(st.floats(12.15, 35.15)),
        "heat": draw(st.floats(200.0, 6000.0)),
        "duration": draw(st.floats(60e-12, 70e-12)),
        "shuffle": float(draw(st.integers(0, 9999))),
    }


@settings(max_examples=8)
@given(conditions())
def test_any_box(values: dict[str, float]) -> None:
    timeline = SPEC.run(values)  # the record itself refuses what is not finite, and stages that overlap
    names = [stage.name for stage in timeline.stages]
    assert names == [name for name in STAGES if name in names] and names[0] == "solid"
    assert sorted(names + [m.stage for m in timeline.missing]) == sorted(STAGES)
    assert timeline.stages[0].start_s == 0.0 and timeline.stages[-1].end_s == timeline.time_s[-1]
    for before, after in zip(timeline.stages, timeline.stages[1:], strict=False):
        assert before.end_s == after.start_s
    (energy,) = timeline.conserved
    assert energy.name == "energy" and energy.relative_drift < energy.allowed
    for name in ("order", "isolated share"):
        share = timeline.quantity(name).values
        assert share.min() >= 0.0 and share.max() <= 1.0
    assert timeline.quantity("temperature").values.min() > 0.0
    check_told(timeline, values)
