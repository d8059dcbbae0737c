"""A plant that grows: cut by its own growth, quickest in the middle."""

from __future__ import annotations

from math import e

import pytest
from hypothesis import given

from sonify.processes import conditions_si, find
from sonify.records.timeline import Timeline
from tests.processes.stories import any_conditions, at, check_advice, check_story, stage_of
from tests.processes.truth import check_told

SPEC = find("plant-growth")
USUAL = conditions_si(SPEC, ())
STAGES = [stage.name for stage in SPEC.stages]
DAY_S = 86_400.0


def run(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def test_the_usual_summer_has_all_four_stages() -> None:
    found = run()
    assert [stage.name for stage in found.stages] == STAGES
    check_story(SPEC, found)


@pytest.mark.parametrize(("curve", "share"), [(0.0, 50.0), (1.0, 100.0 / e)])
def test_it_grows_fastest_at_half_of_its_height_or_a_little_over_a_third(curve: float, share: float) -> None:
    """The two curves' points of inflection: H / 2 and H / e."""
    found = run(curve=curve)
    fastest = float(found.time_s[found.quantity("growth a day").values.argmax()])
    assert fastest == USUAL["fastest_day"]
    assert at(found, "share of full height", fastest) == pytest.approx(share, abs=1e-6)


def test_the_middle_is_where_it_grows_by_half_of_its_fastest_or_more() -> None:
    found = run()
    start, end = stage_of(found, "quick middle")
    most = found.quantity("growth a day").in_unit().max()
    assert at(found, "growth a day", start) == pytest.approx(0.5 * most, rel=0.03)
    assert at(found, "growth a day", end) == pytest.approx(0.5 * most, rel=0.03)
    assert start < USUAL["fastest_day"] < end


@given(any_conditions(SPEC))
def test_any_conditions(conditions: dict[str, float]) -> None:
    found = SPEC.run(conditions)
    check_story(SPEC, found, conditions)
    check_advice(SPEC, conditions, found)
    check_told(found, conditions)
