"""Three cloths drinking: a fair test with a different reason to stop for each, and no water lost."""

from __future__ import annotations

from math import radians

import numpy as np
import pytest
from hypothesis import given, settings

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find
from sonify.processes.soaking_model import OWN
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.liquid_water import surface_tension, water_viscosity
from tests.processes.stories import any_conditions, at, check_advice, check_story, near_usual, stage_of

SPEC = find("soaking")
USUAL = conditions_si(SPEC, ())
CLOTHS = ("kitchen paper", "cotton towel", "sponge cloth")


def run_of(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


@pytest.fixture(scope="module")
def usual() -> Timeline:
    return run_of()


def test_all_four_stages_in_order(usual: Timeline) -> None:
    check_story(SPEC, usual)
    assert [stage.name for stage in usual.stages] == ["rushing", "slowing", "parting", "settled"]
    assert not usual.missing
    assert usual.stages[-1].end_s == 720.0


def test_stages_are_found_where_they_say(usual: Timeline) -> None:
    drunk = usual.quantity("water drunk").in_unit()
    _, half = stage_of(usual, "rushing")
    assert at(usual, "water drunk", half) == pytest.approx(0.5 * drunk[-1], rel=0.01)
    full, _ = stage_of(usual, "parting")
    assert at(usual, "water in the kitchen paper", full) == pytest.approx(0.95 * 12.15, rel=0.01)


def test_the_quickest_is_not_the_thirstiest(usual: Timeline) -> None:
    early = {cloth: at(usual, f"water in the {cloth}", 60.0) for cloth in CLOTHS}
    late = {cloth: at(usual, f"water in the {cloth}", 720.0) for cloth in CLOTHS}
    assert max(early, key=lambda c: early[c]) == "sponge cloth"
    assert min(early, key=lambda c: early[c]) == "cotton towel"
    assert max(late, key=lambda c: late[c]) == "cotton towel"
    names = [event.name for event in usual.events]
    assert "cotton towel overtakes sponge cloth" in names


def test_each_stops_for_its_own_reason(usual: Timeline) -> None:
    """Paper is full at width x length x thickness x open share; the sponge cloth at Jurin's height, 7.43 cm."""
    assert at(usual, "water in the kitchen paper", 720.0) == pytest.approx(10 * 15 * 0.09 * 0.90, rel=1e-9)
    jurin_cm = 100 * 2 * 0.072736 / (998.2 * 9.80665 * 200e-6)
    assert at(usual, "wet height of the sponge cloth", 720.0) == pytest.approx(jurin_cm, rel=0.01)
    assert at(usual, "wet height of the kitchen paper", 720.0) == pytest.approx(15.0, rel=1e-9)
    told = " ".join(say(stage.science) for stage in usual.stages)
    assert "all but full" in told and "against its weight" in told


def test_four_times_the_time_is_twice_the_water(usual: Timeline) -> None:
    """Washburn's law, which no script of effects would give; the towel is far below the height it can reach."""
    for cloth in ("kitchen paper", "cotton towel"):
        ratio = at(usual, f"water in the {cloth}", 20.0) / at(usual, f"water in the {cloth}", 5.0)
        assert 1.8 < ratio < 2.0
    assert at(usual, "drinking rate", 5.0) > 1.6 * at(usual, "drinking rate", 20.0)


def test_warm_water_climbs_faster_as_its_stickiness_and_tension_say() -> None:
    """Early on, volume goes as sqrt(tension / viscosity)."""
    cold, warm = run_of(temperature=283.15), run_of(temperature=313.15)
    expected = np.sqrt(
        float(surface_tension(313.15) / surface_tension(283.15))
        * float(water_viscosity(283.15) / water_viscosity(313.15))
    )
    found = at(warm, "water in the cotton towel", 3.0) / at(cold, "water in the cotton towel", 3.0)
    assert found == pytest.approx(float(expected), rel=0.01)


def test_wider_gaps_reach_less_high() -> None:
    heights = [
        at(run_of(sponge_gap=gap, test_time=7200.0), "wet height of the sponge cloth", 7200.0) for gap in (4e-4, 8e-4)
    ]
    assert heights[1] == pytest.approx(heights[0] / 2, rel=0.01)


def test_the_test_is_fair() -> None:
    """Three cloths of one make drink alike to the last digit."""
    alike = {
        f"{key}_{word}": USUAL[f"towel_{word}"]
        for key in ("paper", "sponge")
        for word in ("gap", "winding", "thickness", "open", "angle")
    }
    same = run_of(**alike)
    for cloth in CLOTHS[1:]:
        np.testing.assert_array_equal(
            same.quantity(f"water in the {cloth}").values, same.quantity(f"water in the {CLOTHS[0]}").values
        )


def test_water_in_cloth_and_jar_together_stays_the_same(usual: Timeline) -> None:
    for cloth in CLOTHS:
        total = usual.quantity(f"water in the {cloth}").in_unit() + usual.quantity(f"jar of the {cloth}").in_unit()
        np.testing.assert_allclose(total, 60.0, rtol=1e-12)
    assert usual.conserved[0].name == "water"


def test_an_empty_jar_stops_it() -> None:
    short = run_of(jar=5e-6)
    assert at(short, "jar of the cotton towel", 720.0) == pytest.approx(0.0, abs=1e-9)
    assert "emptied its jar" in " ".join(say(stage.science) for stage in short.stages)


def test_a_cloth_that_water_does_not_wet_stays_dry() -> None:
    dry = run_of(paper_angle=radians(90.0))
    assert at(dry, "water in the kitchen paper", 720.0) == 0.0
    assert dry.events[0].name == "kitchen paper stays dry"
    with pytest.raises(BadCondition, match="wets none of the three cloths"):
        run_of(paper_angle=radians(90.0), towel_angle=radians(90.0), sponge_angle=radians(90.0))


def test_too_short_a_test_says_so_and_how_long_is_enough() -> None:
    short = run_of(test_time=60.0)
    lacking = {missing.stage: missing for missing in short.missing}
    assert set(lacking) == {"parting", "settled"}
    assert say(lacking["settled"].fix) == 'Set test_time = "30 min".'
    check_advice(SPEC, {**USUAL, "test_time": 60.0}, short)


@given(any_conditions(SPEC))
def test_any_three_cloths(values: dict[str, float]) -> None:
    try:
        timeline = SPEC.run(values)
    except BadCondition as dry:
        assert dry.key == "paper_angle"
        return
    check_story(SPEC, timeline, values)
    for cloth in CLOTHS:
        assert np.all(np.diff(timeline.quantity(f"water in the {cloth}").values) >= 0.0)
        assert timeline.quantity(f"jar of the {cloth}").values.min() >= -1e-15
        assert timeline.quantity(f"wet height of the {cloth}").values.max() <= values["strip_length"] * (1 + 1e-9)


@settings(max_examples=15)
@given(near_usual(SPEC))
def test_advice_brings_what_was_missing(values: dict[str, float]) -> None:
    check_advice(SPEC, values, SPEC.run(values))


def test_three_equal_cloths_have_no_winner(usual: Timeline) -> None:
    own = {f"{cloth}_{word}": USUAL[f"paper_{word}"] for cloth in ("towel", "sponge") for word in OWN}
    alike = run_of(**own)
    check_story(SPEC, alike, {**USUAL, **own})
    told = say(alike.stages[-1].science)
    assert "No cloth has drunk clearly more" in told and "has drunk most" not in told
    assert "The cotton towel has drunk most" in say(usual.stages[-1].science)
