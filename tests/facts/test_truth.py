"""What `lesson.study` lets through: with every fact of a lesson made false, wherever it stands, none is left."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import TypeVar

import pytest

from sonify.facts.truth import true_controls, true_findings, true_score, true_timeline
from sonify.records.fact import Claim, Fact, Reading, fact
from tests.facts.told import evidence_of, facts_within
from tests.studies import studied

#: What no run makes true: one is less than nothing.
NEVER = Claim(kind="less", left=Reading(how="fixed", level=1.0), right=Reading(how="fixed", level=0.0))
FALSE = fact("try-it", NEVER)
T = TypeVar("T")


def falsified(record: T) -> T:
    """The same record with something false in place of each fact."""
    if isinstance(record, Fact):
        return FALSE  # type: ignore[return-value]
    if isinstance(record, tuple):
        return tuple(map(falsified, record))  # type: ignore[return-value]
    if is_dataclass(record) and not isinstance(record, type):
        return replace(record, **{each.name: falsified(getattr(record, each.name)) for each in fields(record)})
    return record


@pytest.mark.parametrize("scene", ["two-cups", "playground-pulse", "stretch-test"])
def test_nothing_false_is_let_through_wherever_it_stands(scene: str) -> None:
    lesson = studied(scene, "few-instruments" if scene == "stretch-test" else "well-stocked", "part")
    evidence = evidence_of(lesson)
    false = falsified((lesson.timeline, lesson.controls.keys, lesson.score, lesson.findings))
    assert all(FALSE in facts_within(record) for record in false)
    timeline, keys, score, findings = false
    kept = (
        replace(true_timeline(timeline)[0], quantities=()),  # names and meanings: nothing of this run
        true_controls(replace(lesson.controls, keys=keys), evidence)[0].keys,
        true_score(score, lesson.timeline, lesson.scene.rules)[0],
        tuple(each for each in true_findings(findings, evidence) if each.kind != "claim"),
    )
    assert FALSE not in facts_within(kept)
