"""Cautions that a scene's science needs and its author has not written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sonify.kinds.cautions import CAUTIONS
from sonify.records.fact import Fact, Words, fact
from sonify.records.findings import Finding
from sonify.records.lesson import Lesson
from sonify.records.process import ProcessSpec


def needed(process: ProcessSpec, conditions: Mapping[str, float], said: Iterable[str] = ()) -> tuple[Fact, ...]:
    """What has to be said under these conditions and is not among the cautions that are said."""
    rows = (CAUTIONS[name] for name in process.cautions(conditions))
    said = tuple(said)
    return tuple(fact(f"caution-{row.id}") for row in rows if not row.is_said(said))


def all_cautions(lesson: Lesson) -> tuple[Words, ...]:
    """What the scene says, and what it should have said besides."""
    written = lesson.scene.cautions
    return (*written, *needed(lesson.process, dict(lesson.timeline.conditions), written))


def caution_findings(lacking: Iterable[Fact]) -> tuple[Finding, ...]:
    return tuple(
        Finding(kind="caution", message=fact("caution-missing", caution=each), fix=fact("caution-write"))
        for each in lacking
    )
