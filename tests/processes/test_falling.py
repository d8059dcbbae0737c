"""A fall through air: its stages, what it would be without air, and that it is told truly."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given

from sonify.processes import conditions_si, find
from sonify.records.timeline import Timeline
from tests.processes.stories import any_conditions, at, check_advice, check_story, stage_of
from tests.processes.truth import check_told

SPEC = find("falling")
USUAL = conditions_si(SPEC, ())
STAGES = [stage.name for stage in SPEC.stages]


def run(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def test_the_usual_fall_has_three_stages_and_ends_on_the_ground() -> None:
    found = run()
    assert [stage.name for stage in found.stages] == STAGES
    assert found.quantity("height left").values[-1] == 0.0
    check_story(SPEC, found)


def test_in_the_steady_stage_it_falls_on_at_nearly_one_speed() -> None:
    found = run()
    start, end = stage_of(found, "steady fall")
    assert at(found, "speed", start) == pytest.approx(0.95 * at(found, "speed", end), rel=1e-4)
    assert at(found, "height left", start) > 1000.0 and at(found, "gain of speed", end) < 0.001


def test_on_an_airless_world_nearly_it_falls_as_galilei_says_and_never_comes_to_its_speed() -> None:
    found = run(air_density=0.02, mass=500.0, area=0.01, height=100.0)
    assert [stage.name for stage in found.stages] == STAGES[:1]
    np.testing.assert_allclose(found.quantity("speed").values, found.quantity("speed with no air").values, rtol=1e-3)


def test_a_stack_of_four_cake_cases_comes_to_twice_the_speed_of_one() -> None:
    case = {"area": 0.002, "drag": 0.9, "height": 20.0}
    one, four = (run(mass=mass, **case).quantity("speed").values.max() for mass in (0.0004, 0.0016))
    assert four == pytest.approx(2.0 * one, rel=1e-3)


@given(any_conditions(SPEC))
def test_any_conditions(conditions: dict[str, float]) -> None:
    found = SPEC.run(conditions)
    check_story(SPEC, found, conditions)
    check_advice(SPEC, conditions, found)
    check_told(found, conditions)
