"""The listening check as records: a question on a clip or two, its answers to tick, and the right one."""

from __future__ import annotations

from sonify.frozen import dataclass
from sonify.records.fact import Words

#: A small curve: x and y from 0 to 1.
Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Clip:
    """Bars to play, the first counted from 1."""

    bar: int
    bars: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One answer to tick. points: a small curve (x from 0 to 1, y from 0 to 1), () for none; shaded: the stretch of x
    that is meant, where the curve is the whole piece's. group: a group's number, drawn as its badge; 0 for none."""

    words: Words
    points: Points = ()
    shaded: tuple[float, float] | None = None
    group: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class ListeningItem:
    """One question. kind: "stage", "tempo" or "pair" (two clips to compare), "entry" or "change". answer: a place in
    `choices`.

    part: whom to listen to, "" for everybody. quantity: what the curves show, "" for none. why: for the teacher.
    """

    kind: str
    clips: tuple[Clip, ...]
    question: Words
    choices: tuple[Choice, ...]
    answer: int
    why: Words
    part: str = ""
    quantity: str = ""
