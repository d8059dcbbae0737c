"""The mapped piece before it is arranged.

Which bars each stage gets, each control beat by beat, and the trace of every number.
"""

from __future__ import annotations

import numpy as np

from sonify.frozen import dataclass
from sonify.records.clock import Clock, Tempo
from sonify.records.fact import Words
from sonify.records.scene import Metre, Rule
from sonify.records.telling_apart import OLDER
from sonify.records.timeline import FloatArray, frozen


@dataclass(frozen=True, slots=True, kw_only=True)
class StageBars:
    """A stage's bars: from `bar` (counted from 1) for `bars` bars, over model time start_s to end_s, at one tempo.

    bar_bpms: where the tempo glides, the tempo of each bar (then `bpm` is their mean); () where it is held.
    asked_bpm: what the rule gives; `bpm` is that of the stage before where the step would be too small to hear.
    """

    stage: str
    title: Words
    bar: int
    bars: int
    start_s: float
    end_s: float
    bpm: float
    caption: Words = ""
    bar_bpms: tuple[float, ...] = ()
    asked_bpm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeMap:
    """Model time to bars: not uniform, and the sheets say so. Stages follow each other without gaps from bar 1."""

    metre: Metre
    stages: tuple[StageBars, ...]

    @property
    def bars(self) -> int:
        return sum(stage.bars for stage in self.stages)

    @property
    def beats(self) -> int:
        return self.bars * self.metre.beats

    @property
    def tempi(self) -> tuple[Tempo, ...]:
        """Each change of tempo, the first at bar 1."""
        found: list[Tempo] = []
        for stage in self.stages:
            for offset, bpm in enumerate(stage.bar_bpms or (stage.bpm,)):
                if not found or found[-1].bpm != bpm:
                    found.append(Tempo(bar=stage.bar + offset, bpm=bpm))
        return tuple(found)

    @property
    def length_s(self) -> float:
        """How long the bars last, without the count-in."""
        return float(Clock(beats_a_bar=self.metre.beats, count_in_bars=0, tempi=self.tempi).seconds(self.beats))

    def model_time_s(self, beats: FloatArray) -> FloatArray:
        """Model time at absolute beats (0 at bar 1): linear within each stage."""
        edges, times = [], []
        for stage in self.stages:
            first = (stage.bar - 1) * self.metre.beats
            edges += [first, first + stage.bars * self.metre.beats - 1e-9]
            times += [stage.start_s, stage.end_s]
        return np.interp(beats, edges, times)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ControlCurve:
    """One rule at work: for every beat the quantity's value (SI), and the control it became (kinds.controls).

    A tempo that steps is made from the stage's mean, so every beat of a stage holds that mean and that tempo; a
    gliding tempo likewise bar by bar. Pitch is a number between notes: `arrange` finds the note.
    part None: the whole piece. held: beats at which the quantity lay outside the rule and its end value was held.
    A rule of no quantity ("") is a scene's author saying how each stage sounds: then the values are where it lies
    between the rule's two words, 0 to 1.
    """

    rule: Rule
    part: str | None
    quantity_values: FloatArray
    results: FloatArray
    held: int = 0

    def __post_init__(self) -> None:
        object.__setattr__(self, "quantity_values", frozen(self.quantity_values))
        object.__setattr__(self, "results", frozen(self.results))


@dataclass(frozen=True, slots=True, kw_only=True)
class Threshold:
    """How small a difference in one control can be heard, and how large a one we ask for: a row of a printed table.

    asked: in `unit`; young: of 7 to 8 year-olds, 0 where no evidence parts them. published: the just-noticeable
    difference as its source has it, in words. status: how far that was checked ("read in the abstract", "from memory,
    not verified", "our own design limit, not published").
    """

    control: str
    measure: str
    asked: float
    unit: str
    published: str
    source: str
    status: str
    young: float = 0.0

    def asked_of(self, youngest: int) -> float:
        """What is asked for where this is the age of the youngest."""
        return self.young if self.young and youngest < OLDER else self.asked


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """How one rule reads on paper: the sentence, the exaggeration and the verdict of the ear.

    exaggeration: ln(ratio of sound) / ln(ratio of quantity), or None where a ratio means nothing.
    exaggeration_words: both changes side by side, "rises by 4 %, our beat rises by 70 %", or why there is no ratio.
    audible: False where neighbouring stages differ by less than the just-noticeable difference.
    values: the key's table: (quantity text, sound text) pairs, low to high.
    stages: what is heard in this piece: (stage title, quantity text, sound text), means over the stage.
    for_pupils: both changes in a child's words, where the sound changes a good deal more than the science.
    """

    rule: Rule
    sentence: Words
    exaggeration: float | None
    exaggeration_words: Words
    audible: bool
    verdict: Words
    values: tuple[tuple[Words, Words], ...]
    stages: tuple[tuple[Words, Words, Words], ...] = ()
    for_pupils: Words = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Controls:
    """Everything the rules decided. `curve(control, part)` falls back from the part to the whole piece.

    thresholds: the rows of the table that the audibility check used, for the controls that have rules.
    """

    time_map: TimeMap
    curves: tuple[ControlCurve, ...]
    keys: tuple[Key, ...]
    thresholds: tuple[Threshold, ...] = ()

    def curve(self, control: str, part: str | None = None) -> ControlCurve | None:
        for wanted in (part, None):
            for curve in self.curves:
                if curve.rule.control == control and curve.part == wanted:
                    return curve
        return None
