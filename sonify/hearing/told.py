"""What a listener is told beforehand: where bars, stages and strokes lie, and the printed key of each rule."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np

from sonify.frozen import dataclass
from sonify.kinds.instruments import ONE_SOUND
from sonify.records.controls import ControlCurve
from sonify.records.fact import Words
from sonify.records.heard import PrintedKey
from sonify.records.lesson import Lesson
from sonify.records.score import COUNT_IN, Part, Score
from sonify.records.timeline import FloatArray
from sonify.units import convert

#: Textures whose sound goes on, so that its level is heard all through a note; so it is with what is blown or sung, and
#: with what can be shaken on where it is (a tambourine that is tapped is over at once, however long its note).
GOING_ON, SHAKEN_ON, SHAKEN = ("drone",), ("tremolo",), "shaken"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strokes:
    """One part: when its notes begin. ruled_s: those that follow a pitch rule; going_on: its notes are long.

    octaves: added to the key's pitches, as the card says; lowest: semitones from each ruled note to the lowest that is
    struck with it. kinds: a number for what is struck at each onset, in a group of several instruments. notes: the
    lowest note struck at each onset, 0 without one. shaded: whether
    it sounds darker and brighter with the beater. lasts_s: how long what begins at each onset is held; None: until the
    next.
    """

    name: str
    onsets_s: FloatArray
    ruled_s: FloatArray
    going_on: bool
    octaves: int
    lowest: np.ndarray | None = None
    kinds: np.ndarray | None = None
    shaded: np.ndarray | None = None
    lasts_s: FloatArray | None = None
    notes: np.ndarray | None = None


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

    def stage_of(self, times_s: FloatArray) -> np.ndarray:
        """The number of the stage at some times; -1 outside all."""
        bars = self.bar_of(times_s)
        return np.array(
            [next((n for n, (_, first, last, _) in enumerate(self.stages) if first <= b < last), -1) for b in bars]
        )


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
    struck: dict[Fraction, str] = {}
    low: dict[Fraction, int] = {}
    for note in part.notes:
        struck[note.beat] = min(struck.get(note.beat, "~"), note.instrument or part.instrument)
        if score.instrument(note.instrument or part.instrument).pitched:
            low[note.beat] = min(low.get(note.beat, note.midi), note.midi)
    beats, names = sorted(struck), sorted(set(struck.values()))
    asked = {note.beat: note.midi for note in part.notes if note.asked is not None}
    ruled = sorted(asked)
    held: dict[Fraction, Fraction] = {}
    for note in part.notes:
        held[note.beat] = max(held.get(note.beat, note.beat), note.beat + note.beats)
    both = (beats, [held[beat] for beat in beats])
    starts, ends = (np.array([float(s) for s in score.clock.many_seconds(at)]) for at in both)
    dull = {name for name in names if score.instrument(name).struck_with == ONE_SOUND}
    return Strokes(
        name=part.name,
        onsets_s=starts,
        lasts_s=ends - starts,
        ruled_s=np.array([float(s) for s in score.clock.many_seconds(ruled)]) if ruled else np.zeros(0),
        going_on=goes_on(score, part),
        octaves=part.octaves,
        lowest=np.array([min(0, low.get(beat, asked[beat]) - asked[beat]) for beat in ruled]),
        shaded=np.array([struck[beat] not in dull for beat in beats]),
        kinds=np.array([names.index(struck[beat]) for beat in beats]),
        notes=np.array([low.get(beat, 0) for beat in beats]),
    )


def goes_on(score: Score, part: Part) -> bool:
    row = score.instrument(part.instrument)
    held = row.sustains and (row.family != SHAKEN or part.texture in SHAKEN_ON)
    return part.texture in GOING_ON or held


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
            asked=_asked(lesson, rule.control),
            truth=np.where(plays, truth, np.nan),
        )
        for name, plays in playing.items()
    ]


def _asked(lesson: Lesson, control: str) -> float:
    """How far apart two sounds of a control are to be told apart, at the age of this class."""
    row = next((row for row in lesson.controls.thresholds if row.control == control), None)
    return row.asked_of(lesson.classroom.youngest_age) if row is not None else 0.0


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
