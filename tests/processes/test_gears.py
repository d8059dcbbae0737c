"""Gears: exact ratios, and work that is neither gained nor lost."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given

from sonify import lesson
from sonify.processes import conditions_si, find
from sonify.processes.gears import FORCE, HANDLE, HEAT, IN, OUT, WHEEL
from sonify.records.timeline import Timeline
from tests.processes.stories import any_conditions, check_advice
from tests.processes.truth import check_told

SPEC = find("gears")
USUAL = conditions_si(SPEC, ())
STAGES = [stage.name for stage in SPEC.stages]


def run(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def first(found: Timeline, name: str, trial: str) -> float:
    """In SI, at the beginning of a trial."""
    (stage,) = (each for each in found.stages if each.name == trial)
    return float(found.at(name, np.array([stage.start_s]))[0])


def test_12_teeth_and_18_turn_3_against_2() -> None:
    found = run()
    assert [stage.name for stage in found.stages] == STAGES
    turned = first(found, HANDLE, "larger wheel") / first(found, WHEEL, "larger wheel")
    assert Fraction(turned).limit_denominator(100) == Fraction(3, 2)
    assert first(found, WHEEL, "smaller wheel") == pytest.approx(2.0 * first(found, HANDLE, "smaller wheel"), rel=1e-12)


def test_half_as_fast_is_twice_as_strong_but_for_friction() -> None:
    found = run(larger=24.0, lost=0.0)
    assert first(found, WHEEL, "larger wheel") == pytest.approx(0.5 * first(found, WHEEL, "first pair"), rel=1e-12)
    assert first(found, FORCE, "larger wheel") == pytest.approx(2.0 * first(found, FORCE, "first pair"), rel=1e-12)


def test_friction_takes_force_and_no_pace() -> None:
    found = run(lost=0.05, more_lost=0.4)
    assert first(found, WHEEL, "more friction") == first(found, WHEEL, "first pair")
    assert first(found, FORCE, "more friction") == pytest.approx(
        0.6 / 0.95 * first(found, FORCE, "first pair"), rel=1e-12
    )
    for trial in STAGES:
        spent = first(found, OUT, trial) + first(found, HEAT, trial)
        assert spent == pytest.approx(first(found, IN, trial), rel=1e-12)


@given(any_conditions(SPEC))
def test_any_conditions(conditions: dict[str, float]) -> None:
    found = SPEC.run(conditions)
    names = [stage.name for stage in found.stages]
    assert sorted(names + [lacking.stage for lacking in found.missing]) == sorted(STAGES)
    assert all(kept.relative_drift < 1e-12 for kept in found.conserved)
    check_advice(SPEC, conditions, found)
    check_told(found, conditions)


def test_the_groups_play_three_against_two_at_equal_distances() -> None:
    """Nothing is exaggerated: as many strokes for each of the handle as the wheel makes turns."""
    studied = lesson.study("three-against-two")
    section = studied.score.sections[1]
    bars = {
        part.name: {float(note.beat) % 3.0 for note in part.notes if (note.beat // 3 + 1) == section.bar + 2}
        for part in studied.score.parts
    }
    assert bars["The handle"] == {0.0, 1.0, 2.0} and bars["The wheel"] == {0.0, 1.5}
    (key,) = (key for key in studied.controls.keys if key.rule.part == "The wheel")
    assert key.exaggeration == pytest.approx(1.0, rel=1e-9)
