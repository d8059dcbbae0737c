"""What a recording of the class came to, measured against the Score. No pupil is in it, and none of the sound."""

from __future__ import annotations

from sonify.frozen import dataclass
from sonify.records.fact import Words

#: A question is answered so, and no otherwise.
YES, NO, CANNOT_TELL = ANSWERS = ("yes", "no", "cannot tell")


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A measured value and the interval that holds it, as sure as the measuring is."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StageHeard:
    """A stage in the best take. None where it cannot be told; why says why not, "" where it can.

    wander: how far bars stray from a smooth beat, a share. level_db: against the whole take.
    """

    name: str
    title: str
    letter: str
    bar: int
    bars: int
    planned_bpm: float
    start_s: float | None = None
    bpm: Span | None = None
    wander: float | None = None
    level_db: Span | None = None
    why: Words = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryHeard:
    """When a part came in, in bars of the score from 1; heard None where it cannot be told from this recording."""

    part: str
    group: int
    planned_bar: int
    heard: Span | None = None
    why: Words = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """kind: "tempo", "level", "crescendo", "entry" (which of two came in first) or "came" (where it is written).
    stage: a letter; part: its name; "" where it is of neither."""

    kind: str
    stage: str
    part: str
    asked: Words
    answer: str
    why: Words
    planned: str = YES


@dataclass(frozen=True, slots=True, kw_only=True)
class BarHeard:
    """A bar of the best take, from 1."""

    bar: int
    start_s: float
    bpm: float
    level_db: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StageRead:
    """What the key makes of a stage's beat, and what the science has there.

    beyond: "quicker" or "slower" where all of the beat's interval lies beyond the key's end, else "". The key says
    nothing there: `ours` is that end alone.
    """

    letter: str
    title: str
    bar: int
    bars: int
    science: float
    ours: Span | None
    beyond: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadBack:
    """The quantity that sets the tempo, in `unit`. science: of every bar. falls: a quicker beat is less of it."""

    quantity: str
    unit: str
    science: tuple[float, ...]
    stages: tuple[StageRead, ...]
    falls: bool = False

    def above(self, row: StageRead) -> bool | None:
        """Whether a stage's beat lies above the key's upper end (False: below its lower one); None where within."""
        return (row.beyond == "quicker") != self.falls if row.beyond else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Listened:
    """recognised False: nothing else is told but why. start_s: of bar 1 (or the first that was played) in the take."""

    recognised: bool
    seconds: float
    why: Words = ""
    start_s: float | None = None
    end_s: float | None = None
    takes: int = 0
    stages: tuple[StageHeard, ...] = ()
    entries: tuple[EntryHeard, ...] = ()
    questions: tuple[Question, ...] = ()
    bars: tuple[BarHeard, ...] = ()
    feedback: tuple[Words, ...] = ()
    clipped: bool = False
