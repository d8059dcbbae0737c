"""Cautions that a scene's science or a class's instruments need and its author has not written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sonify.kinds.cautions import CAUTIONS
from sonify.records.fact import Fact, Words, fact
from sonify.records.findings import Finding
from sonify.records.lesson import Lesson
from sonify.records.process import ProcessSpec
from sonify.records.score import Score


def needed(process: ProcessSpec, conditions: Mapping[str, float], said: Iterable[str] = ()) -> tuple[Fact, ...]:
    """What has to be said under these conditions and is not among the cautions that are said."""
    rows = (CAUTIONS[name] for name in process.cautions(conditions))
    said = tuple(said)
    return tuple(fact(f"caution-{row.id}") for row in rows if not row.is_said(said))


def all_cautions(lesson: Lesson) -> tuple[Words, ...]:
    """What the scene says, and what it should have said besides."""
    written = lesson.scene.cautions
    science = needed(lesson.process, dict(lesson.timeline.conditions), written)
    return (*written, *science, *of_instruments(lesson.score, written))


def of_instruments(score: Score, said: Iterable[str]) -> tuple[Fact, ...]:
    """What has to be said of the instruments that are played and is not among the cautions that are said."""
    said = tuple(said)
    names = dict.fromkeys(name for row in score.instruments for name in row.cautions)
    return tuple(fact(f"caution-{name}") for name in names if not CAUTIONS[name].is_said(said))


def caution_findings(lacking: Iterable[Fact]) -> tuple[Finding, ...]:
    return tuple(
        Finding(kind="caution", message=fact("caution-missing", caution=each), fix=fact("caution-write"))
        for each in lacking
    )
