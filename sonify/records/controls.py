"""The mapped piece before it is arranged.

Which bars each stage gets, each control beat by beat, and the trace of every number.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sonify.records.scene import Metre, Rule
from sonify.records.timeline import FloatArray, frozen


@dataclass(frozen=True, slots=True, kw_only=True)
class StageBars:
    """A stage's bars: from `bar` (counted from 1) for `bars` bars, over model time start_s to end_s, at one tempo."""

    stage: str
    title: str
    bar: int
    bars: int
    start_s: float
    end_s: float
    bpm: float
    caption: str = ""


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
    """One rule at work: for every beat the quantity's value (SI), and the control it became (CONTROL_UNITS).

    part None: the whole piece. held: beats at which the quantity lay outside the rule and its end value was held.
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
class Key:
    """How one rule reads on paper: the sentence, the exaggeration and the verdict of the ear.

    exaggeration: ln(ratio of sound) / ln(ratio of quantity), or None where a ratio means nothing.
    exaggeration_words: always there: "real molecules speed up by 4 %, the beat by 70 %" or why there is none.
    audible: False where neighbouring stages differ by less than the just-noticeable difference.
    values: the key's table: (quantity text, sound text) pairs, low to high.
    """

    rule: Rule
    sentence: str
    exaggeration: float | None
    exaggeration_words: str
    audible: bool
    verdict: str
    values: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Controls:
    """Everything the rules decided. `curve(control, part)` falls back from the part to the whole piece."""

    time_map: TimeMap
    curves: tuple[ControlCurve, ...]
    keys: tuple[Key, ...]

    def curve(self, control: str, part: str | None = None) -> ControlCurve | None:
        for wanted in (part, None):
            for curve in self.curves:
                if curve.rule.control == control and curve.part == wanted:
                    return curve
        return None
