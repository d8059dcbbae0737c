"""The Lesson: all that paper and page may know."""

from __future__ import annotations

from sonify.frozen import dataclass
from sonify.records.classroom import Classroom
from sonify.records.controls import Controls
from sonify.records.findings import Finding
from sonify.records.process import ProcessSpec
from sonify.records.scene import Scene
from sonify.records.score import Score
from sonify.records.timeline import Timeline


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Source:
    """Where a formula or figure is published."""

    key: str
    text: str  # author, year, title, section, as a reference list prints it
    checked: str = ""  # how far it was verified


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, weakref_slot=True)
class Lesson:
    """One scene for one class, computed, mapped and arranged."""

    scene: Scene
    process: ProcessSpec
    timeline: Timeline
    controls: Controls
    classroom: Classroom
    score: Score
    findings: tuple[Finding, ...] = ()
    sources: tuple[Source, ...] = ()
    seed: int = 0
    scaffold: str = "full"

    @property
    def problems(self) -> tuple[Finding, ...]:
        return tuple(finding for finding in self.findings if finding.serious)
