"""One quantity of the science over the bars of the piece, to be drawn above what is played."""

from __future__ import annotations

from math import log10

import numpy as np

from sonify.frozen import dataclass
from sonify.kinds.timelines import AXIS, TABLE
from sonify.records.lesson import Lesson
from sonify.records.timeline import Quantity, Timeline

POINTS_A_BEAT = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A quantity at rising beats (0 at bar 1). values: in `unit`, which is written as units are in records.

    tenfold: drawn so that each step up is ten times as much, as a logarithmic rule hears it.
    """

    name: str
    unit: str
    beats: tuple[float, ...]
    values: tuple[float, ...]
    tenfold: bool = False
    joined: bool = True  # False: each value is held, and nothing lies between two
    drawn: bool = False  # by the scene's author, not measured or computed
    groups: tuple[int, ...] = ()  # who plays it, and each of `beside`; () where nothing is compared
    beside: tuple[tuple[float, ...], ...] = ()  # what it is compared with, at the same beats and in the same unit

    def __post_init__(self) -> None:
        if len(self.beats) != len(self.values):
            raise ValueError(f"{self.name} has {len(self.values)} values at {len(self.beats)} beats")
        if self.tenfold and min(self.values) <= 0:
            raise ValueError(f"{self.name} falls to {min(self.values)}: no steps of ten lead there")

    @property
    def ends(self) -> tuple[float, float]:
        """The least and the greatest of all that is drawn."""
        every = [value for values in (self.values, *self.beside) for value in values]
        return min(every), max(every)

    @property
    def heights(self) -> tuple[float, ...]:
        """What the line's height follows: the values, or their logarithms."""
        return tuple(log10(value) for value in self.values) if self.tenfold else self.values


def is_joined(timeline: Timeline, quantity: Quantity) -> bool:
    """Whether a line between two values of a quantity means something: not where each is held for a turn of its own."""
    held = np.array_equal(quantity.values[::2], quantity.values[1::2])
    return timeline.kind not in (TABLE, AXIS) or not held


def science_curve(lesson: Lesson, quantity: str = "") -> Curve | None:
    """A quantity over the piece's beats; left out: the one the tempo follows, else the first that is heard.

    None where the scene makes nothing heard. Raises UnknownName for a quantity the process lacks.
    """
    curve = lesson.controls.curve("tempo") or next(iter(lesson.controls.curves), None)
    if not quantity and curve is None:
        return None
    name = quantity or (curve.rule.quantity if curve else "")
    if not name:  # an author's idea of a sound follows nothing that could be drawn
        return None
    found = lesson.timeline.quantity(name)
    beats = np.linspace(0.0, float(lesson.score.end_beat), int(lesson.score.end_beat) * POINTS_A_BEAT + 1)
    times = lesson.controls.time_map.model_time_s(beats)
    values = np.interp(times, lesson.timeline.time_s, found.in_unit())
    tempo = lesson.controls.curve("tempo")
    return Curve(
        name=found.name,
        unit=found.unit,
        beats=tuple(beats.tolist()),
        values=tuple(values.tolist()),
        joined=is_joined(lesson.timeline, found),
        drawn=found.drawn,
        tenfold=tempo is not None and tempo.rule.curve == "logarithmic" and float(values.min()) > 0,
    )
