"""What a listener is told beforehand: where bars, stages and strokes lie, and the printed key of each rule."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from sonify.records.controls import ControlCurve
from sonify.records.fact import Words
from sonify.records.heard import PrintedKey
from sonify.records.lesson import Lesson
from sonify.records.score import COUNT_IN, Part, Score
from sonify.records.timeline import FloatArray
from sonify.units import convert

#: Textures whose sound goes on, so that its level is heard all through a note.
GOING_ON = ("drone",)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strokes:
    """One part: when its notes begin. ruled_s: those that follow a pitch rule; going_on: its notes are long.

    octaves: added to the key's pitches, as the card says.
    """

    name: str
    onsets_s: FloatArray
    ruled_s: FloatArray
    going_on: bool
    octaves: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Told:
    """bars_s: where bars begin, and the last one ends. stages: (title, first bar from 0, bar after the last, beats a
    minute)."""

    bars_s: FloatArray
    beats_a_bar: int
    stages: tuple[tuple[Words, int, int, float], ...]
    strokes: tuple[Strokes, ...]
    keys: tuple[PrintedKey, ...]

    def bar_of(self, times_s: FloatArray) -> np.ndarray:
        return np.searchsorted(self.bars_s, np.asarray(times_s) + 1e-6, side="right") - 1


def told_of(lesson: Lesson) -> Told:
    score = lesson.score
    bars_s = np.array(
        [
            float(second)
            for second in score.clock.many_seconds([score.clock.beat_of_bar(b + 1) for b in range(score.bars + 1)])
        ]
    )
    strokes = tuple(_strokes(score, part) for part in score.parts if part.name != COUNT_IN and part.notes)
    stages = []
    for section in score.sections:
        first, last = section.bar - 1, section.bar - 1 + section.bars
        bpm = 60.0 * section.bars * score.metre.beats / (bars_s[last] - bars_s[first])
        stages.append((section.title, first, last, float(bpm)))
    told = Told(bars_s=bars_s, beats_a_bar=score.metre.beats, stages=tuple(stages), strokes=strokes, keys=())
    keys = tuple(key for curve in lesson.controls.curves for key in _keys(lesson, told, curve))
    return replace(told, keys=keys)


def _strokes(score: Score, part: Part) -> Strokes:
    beats = sorted({note.beat for note in part.notes})
    ruled = sorted({note.beat for note in part.notes if note.asked is not None})
    return Strokes(
        name=part.name,
        onsets_s=np.array([float(s) for s in score.clock.many_seconds(beats)]),
        ruled_s=np.array([float(s) for s in score.clock.many_seconds(ruled)]) if ruled else np.zeros(0),
        going_on=part.texture in GOING_ON,
        octaves=part.octaves,
    )


def _keys(lesson: Lesson, told: Told, curve: ControlCurve) -> list[PrintedKey]:
    """One for each part that the rule shapes; the tempo is everybody's."""
    rule, score = curve.rule, lesson.score
    if not rule.quantity:  # an author's idea of a sound: no key was printed, so nothing can be read back
        return []
    quantity = next(q for q in lesson.timeline.quantities if q.name == rule.quantity)
    by_bar = np.asarray(curve.quantity_values[: score.bars * score.metre.beats]).reshape(score.bars, -1).mean(axis=1)
    truth = convert(np.asarray(by_bar, dtype=float), quantity.si_unit, quantity.unit)
    low, high = (convert(end.value, end.unit, quantity.unit) for end in (rule.low, rule.high))
    if rule.control == "tempo":
        playing = {"": np.ones(score.bars, dtype=bool)}
    else:
        playing = {one.name: _plays(told, one) for one in told.strokes if _shapes(lesson, curve, one)}
    return [
        PrintedKey(
            quantity=rule.quantity,
            unit=quantity.unit,
            control=rule.control,
            part=name,
            low=float(low),
            high=float(high),
            to_low=rule.to_low,
            to_high=rule.to_high,
            curve=rule.curve,
            truth=np.where(plays, truth, np.nan),
        )
        for name, plays in playing.items()
    ]


def _shapes(lesson: Lesson, curve: ControlCurve, one: Strokes) -> bool:
    part = next(part for part in lesson.score.parts if part.name == one.name)
    if curve.rule.control not in part.ruled:
        return False
    if curve.rule.control == "pitch" and not one.ruled_s.size:
        return False
    return lesson.controls.curve(curve.rule.control, lesson.scene.plan_name(part.name)) is curve


def _plays(told: Told, one: Strokes) -> np.ndarray:
    out = np.zeros(len(told.bars_s) - 1, dtype=bool)
    bars = told.bar_of(one.onsets_s)
    out[bars[(bars >= 0) & (bars < out.size)]] = True
    return out
