"""What the class was to play, as a listener needs it: read from a pack's score.json."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from sonify.errors import SonifyError
from sonify.frozen import dataclass
from sonify.records.fact import wrong

Floats = NDArray[np.float64]
#: The largest piece that is listened for: an hour at 150 beats a minute.
MOST_BARS, MOST_NOTES = 4_000, 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A stage as bars, from 0. bpm: its beats divided by its minutes, as written."""

    name: str
    title: str
    letter: str
    bar: int
    bars: int
    bpm: float

    @property
    def end(self) -> int:
        return self.bar + self.bars


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Line:
    """A part: a row for every note. beats: absolute, 0 at bar 1. midi: percussion keys where it is not pitched."""

    name: str
    group: int
    texture: str
    beats: Floats
    midi: NDArray[np.intp]
    velocity: Floats
    pitched: NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plan:
    """bpm: of every bar."""

    title: str
    beats_a_bar: int
    bpm: Floats
    stages: tuple[Stage, ...]
    lines: tuple[Line, ...]

    @property
    def bars(self) -> int:
        return len(self.bpm)

    @property
    def bar_s(self) -> Floats:
        """How long every bar lasts as written."""
        return 60.0 * self.beats_a_bar / self.bpm

    def stage_of(self, bar: int) -> int:
        return max(n for n, stage in enumerate(self.stages) if stage.bar <= bar)


def plan_of(score: Mapping[str, Any]) -> Plan:
    """The plan in a score.json. Raises SonifyError where it is none."""
    try:
        return _plan(score)
    except (KeyError, TypeError, ValueError, IndexError, AttributeError, OverflowError) as error:
        raise SonifyError(wrong("error_listen-not-a-score")) from error


def _plan(score: Mapping[str, Any]) -> Plan:
    beats, bars = int(str(score["metre"]).split("/")[0]), int(score["bars"])
    if not (1 <= beats <= 16 and 1 <= bars <= MOST_BARS) or sum(len(p["notes"]) for p in score["parts"]) > MOST_NOTES:
        raise ValueError
    tempi = sorted((int(row["bar"]), float(row["bpm"])) for row in score["tempo"])
    if not tempi or not all(10.0 <= bpm <= 400.0 for _, bpm in tempi):
        raise ValueError
    starts = np.array([bar for bar, _ in tempi])
    at = np.maximum(np.searchsorted(starts, np.arange(1, bars + 1), side="right") - 1, 0)
    bpm = np.array([row[1] for row in tempi])[at]
    stages = tuple(_stage(row, bpm) for row in score["sections"])
    ends = [stage.end for stage in stages]
    if not stages or [stage.bar for stage in stages] != [0, *ends[:-1]] or ends[-1] != bars:
        raise ValueError
    pitched = {str(row["id"]): bool(row["pitched"]) for row in score["instruments"]}
    lines = tuple(_line(part, pitched) for part in score["parts"] if part["group"] and part["notes"])
    if not lines:
        raise ValueError
    return Plan(
        title=str(score["title"]),
        beats_a_bar=beats,
        bpm=bpm,
        stages=stages,
        lines=lines,
    )


def _stage(row: Mapping[str, Any], bpm: Floats) -> Stage:
    bar, bars = int(row["bar"]) - 1, int(row["bars"])
    if bars < 1:
        raise ValueError
    return Stage(
        name=str(row["name"]),
        title=str(row["title"]),
        letter=str(row["letter"]),
        bar=bar,
        bars=bars,
        bpm=float(bars / np.sum(1.0 / bpm[bar : bar + bars])),
    )


def _line(part: Mapping[str, Any], pitched: Mapping[str, bool]) -> Line:
    notes = part["notes"]
    main = str(part["instrument"])
    beats = np.array([float(note["beat"]) for note in notes])
    if not np.all((beats >= 0.0) & (beats <= MOST_BARS * 16)):  # nan and infinities, which JSON has not, with them
        raise ValueError
    return Line(
        name=str(part["name"]),
        group=int(part["group"]),
        texture=str(part["texture"]),
        beats=beats,
        midi=np.clip(np.array([int(note["midi"]) for note in notes], dtype=np.intp), 0, 127),
        velocity=np.array([min(127.0, max(1.0, float(note["velocity"]))) for note in notes]),
        pitched=np.array([pitched.get(str(note.get("instrument") or main), False) for note in notes]),
    )
