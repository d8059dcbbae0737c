"""High and low, loud and soft: one thing changed in each trial, and nothing exaggerated."""

from __future__ import annotations

import pytest
from hypothesis import given

from sonify import lesson
from sonify.processes import conditions_si, find
from sonify.processes.pitch import BAR, KINDS, STRING, TUBE
from sonify.records.timeline import Timeline
from tests.processes.stories import any_conditions, at, check_advice
from tests.processes.truth import check_told

SPEC = find("pitch")
USUAL = conditions_si(SPEC, ())
STAGES = [stage.name for stage in SPEC.stages]


def run(kind: str, **changes: float) -> Timeline:
    return SPEC.run({**USUAL, "thing": float(KINDS.index(kind)), **changes})


def first(found: Timeline, name: str, trial: str) -> float:
    (stage,) = (each for each in found.stages if each.name == trial)
    return at(found, name, stage.start_s)


@pytest.mark.parametrize(("kind", "times"), [(STRING, 2.0), (TUBE, 2.0), (BAR, 4.0)])
def test_half_the_length_is_an_octave_and_of_a_bar_two(kind: str, times: float) -> None:
    found = run(kind)
    assert [stage.name for stage in found.stages] == STAGES
    assert first(found, "frequency", "shortest") == pytest.approx(times * first(found, "frequency", "whole"))


@pytest.mark.parametrize("kind", KINDS)
def test_softer_is_not_lower(kind: str) -> None:
    found = run(kind)
    assert first(found, "loudness", "softly") < first(found, "loudness", "whole")
    assert first(found, "frequency", "softly") == first(found, "frequency", "whole")


@given(any_conditions(SPEC))
def test_any_conditions(conditions: dict[str, float]) -> None:
    found = SPEC.run(conditions)
    names = [stage.name for stage in found.stages]
    assert sorted(names + [lacking.stage for lacking in found.missing]) == sorted(STAGES)
    assert all(kept.relative_drift < 1e-9 for kept in found.conserved)
    check_advice(SPEC, conditions, found)
    check_told(found, conditions)


def test_the_tune_is_the_string_with_no_exaggeration() -> None:
    (key,) = (key for key in lesson.study("one-string").controls.keys if key.rule.control == "pitch")
    assert key.exaggeration == pytest.approx(1.0, abs=0.01)
