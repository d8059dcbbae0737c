"""Melody: one tune shape, moved up and down as the quantity moves.

The first note of every bar is the pitch rule's own, on the nearest note of the scale. What follows in the bar is the
tune: a few scale steps around that note, one shape while the quantity rises, the same upside down while it falls,
question and answer while it stays. So each note can be traced, and the whole is a tune and not a staircase. Every
second bar ends with a breath.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

import numpy as np

from sonify.arrange.blocks import Block, stretches
from sonify.arrange.compared import of_one_height
from sonify.arrange.hands import BREATH_S, BREATHING, too_fast_at
from sonify.arrange.pitches import Fitted, Tuning, fitted
from sonify.arrange.rhythms import Rhythm, rhythm
from sonify.arrange.textures import contour
from sonify.arrange.textures.task import (
    Played,
    Stroke,
    Task,
    answer_words,
    breath_words,
    capital,
    doubled,
    finding,
    octave_of,
)
from sonify.records.fact import Claim, Fact, Named, Note, Reading, Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry, Pattern

#: The tune's two bars in each metre, plainer and livelier ones: the second bar comes to rest and ends with a breath.
#: (Our own: crotchets and minims, from Year 5 one pair of quavers, so that a nine-year-old reads it from a strip.)
_TUNES: dict[int, tuple[tuple[str, str, int], ...]] = {
    4: (("h h", "H r", 3), ("q q h", "h q r", 3), ("q q q q", "h q r", 3), ("q ee q q", "q q q r", 5)),
    3: (("H", "h r", 3), ("h q", "h r", 3), ("q q q", "h r", 3), ("q ee q", "q q r", 5)),
    2: (("h", "q r", 3), ("q q", "q r", 3), ("q ee", "q r", 5)),
}
#: Above this tempo a tune has no quavers (our own limit).
_QUAVERS_BPM = 104.0
_CLOSING = {4: "H r", 3: "h r", 2: "q r"}
#: Scale steps from the bar's first note, for a bar of so many notes; cut short where there are fewer.
_SHAPES: dict[str, tuple[tuple[int, ...], tuple[int, ...]]] = {
    "rising": ((0, 1, 0, 1, 2), (0, 1, 1)),
    "steady": ((0, 1, 2, 1, 0), (0, -1, 0)),
    "falling": ((0, -1, 0, -1, -2), (0, -1, -1)),
    "answering": ((0, -1, 1, 0, -1), (0, 1, 0)),
}
#: Leaps wider than this come after a breath (our own limits): voices a sixth, the recorder an octave.
_WIDEST_LEAP = {"voice": 9, "wind": 12}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Unit:
    """Two bars of the tune (or one, at the end of an odd block): the bar, how many, its shape."""

    bar: int
    bars: int
    shape: str


def played(task: Task) -> Played:
    """The tune over the line's blocks; on instruments without notes a contour of high and low sounds."""
    if not task.main.pitched:
        return contour.played(task)
    anchors, fit = _anchors(task)
    units = _units(task, anchors)
    tune = _tune(task)
    # Question and answer: every second time the tune comes to rest on one long note.
    closing = rhythm(_CLOSING[task.beats])
    strokes: list[Stroke] = []
    for number, unit in enumerate(units):
        strokes += _unit_strokes(task, unit, anchors, tune if number % 2 == 0 else (tune[0], closing))
    strokes = _breathed(task, strokes)
    return Played(
        strokes=tuple(doubled(task, strokes, strong=True)),
        entries=_entries(task),
        words=_words(task, strokes),
        patterns=_patterns(task, units, strokes),
        findings=tuple(_held(task, fit)),
        octaves=fit.octaves,
        difficulty="stretch",
    )


def _anchors(task: Task) -> tuple[dict[int, tuple[int, float | None]], Fitted]:
    """For each bar that the line plays: the place of the rule's note, and what was asked.

    Without a pitch rule the tune climbs with the piece's own arc over a fifth from the tonic, and nothing is "asked".
    """
    bars = task.bars
    pitch, notes = task.results("pitch"), task.tuning
    if pitch is None:
        low = notes.notes[notes.tonics[0]]
        values = [low + 7.0 * task.shape.arc(bar) for bar in bars]
        fit = fitted(values, notes)
        return {bar: (place, None) for bar, place in zip(bars, fit.places, strict=True)}, fit
    asked = [float(pitch[(bar - 1) * task.beats]) for bar in bars]
    beside = list(_asked_of_mates(task))
    fit = fitted(asked, notes, beside)
    return {bar: (place, value) for bar, place, value in zip(bars, fit.places, asked, strict=True)}, fit


def _asked_of_mates(task: Task) -> Iterator[float]:
    """What the rule asks, bar by bar, of the parts in which the same value is to be the same note."""
    piece, own = task.piece, task.piece.curve("pitch", task.line.plan.name)
    for name in of_one_height(piece.scene, task.line.plan.name):
        curve = piece.curve("pitch", name)
        if curve is not None:
            bars = range(1, piece.bars + 1) if curve is own else task.bars
            yield from (float(curve.results[(bar - 1) * task.beats]) for bar in bars)


def _units(task: Task, anchors: dict[int, tuple[int, float | None]]) -> list[_Unit]:
    """The blocks cut into units of two bars, each with the shape of where the quantity goes next."""
    found: list[_Unit] = []
    for stretch in stretches(task.blocks):
        starts = [(bar, min(2, block.end - bar)) for block in stretch for bar in range(block.bar, block.end, 2)]
        for i, (bar, bars) in enumerate(starts):
            here = anchors[bar][0]
            after = anchors[starts[i + 1][0]][0] if i + 1 < len(starts) else anchors[bar + bars - 1][0]
            # On one note question and answer alternate, so that a long wait is still a tune.
            shape = ("steady", "answering")[i % 2] if after == here else "rising" if after > here else "falling"
            found.append(_Unit(bar=bar, bars=bars, shape=shape))
    return found


def _tune(task: Task) -> tuple[Rhythm, Rhythm]:
    """The tune's rhythm: as lively as hands can be at every tempo; with a density rule, the nearest to it."""
    year, density = task.piece.classroom.year, task.results("density", own=True)
    fastest = max((task.piece.fastest_bpm(block.bar, block.bars) for block in task.blocks), default=0.0)
    able = []
    for first, second, since in _TUNES[task.beats]:
        tune = (rhythm(first), rhythm(second))
        if "e" in first and fastest > _QUAVERS_BPM:
            continue
        if year >= since and all(_reachable(task, tune, block) for block in task.blocks):
            able.append(tune)
    able = able or [(rhythm(_TUNES[task.beats][0][0]), rhythm(_TUNES[task.beats][0][1]))]
    if density is not None:
        bars = task.bars
        want = float(np.mean([density[(bar - 1) * task.beats : bar * task.beats].sum() for bar in bars]))
        return min(able, key=lambda tune: abs(len(tune[0].hits) + len(tune[1].hits) - 2 * want))
    lively = able[-2:]
    return lively[int(task.generator(shared=True).integers(len(lively)))]


def _reachable(task: Task, tune: tuple[Rhythm, Rhythm], block: Block) -> bool:
    second = 60.0 / task.piece.fastest_bpm(block.bar, block.bars)
    times = [
        (float(start) + task.beats * (2 * turn + number)) * second
        for turn in range(4)
        for number, bar in enumerate(tune)
        for start, _ in bar.hits
    ]
    return too_fast_at(times, task.main) is None


def _unit_strokes(
    task: Task, unit: _Unit, anchors: dict[int, tuple[int, float | None]], tune: tuple[Rhythm, Rhythm]
) -> list[Stroke]:
    found = []
    for number in range(unit.bars):
        bar = unit.bar + number
        if not task.answers(bar):
            continue
        place, asked = anchors[bar]
        # A single bar at the end of a block comes to rest.
        rhythm_bar = tune[1] if unit.bars == 1 else tune[number]
        steps = _SHAPES[unit.shape][1 if unit.bars == 1 else number]
        for i, (start, beats) in enumerate(rhythm_bar.hits):
            step = steps[min(i, len(steps) - 1)]
            found.append(
                Stroke(
                    beat=task.first_beat(bar) + start,
                    beats=beats,
                    midi=_stepped(task.tuning, place, step),
                    row=task.main,
                    asked=asked if i == 0 else None,
                    accent=3 if i == 0 else 0,
                )
            )
    return found


def _stepped(notes: Tuning, place: int, step: int) -> int:
    """A note some scale steps from a place; at the ends of the range the step goes the other way."""
    if not 0 <= place + step < len(notes.notes):
        step = -step
    return notes.notes[min(max(place + step, 0), len(notes.notes) - 1)]


def _breathed(task: Task, strokes: list[Stroke]) -> list[Stroke]:
    """Time to breathe for voices and recorders: before a leap too wide for one breath, and at the bar line where two
    bars are too long for one. The note before is cut short."""
    if task.main.family not in BREATHING:
        return strokes
    widest, found = _WIDEST_LEAP[task.main.family], list(strokes)
    for i, (a, b) in enumerate(pairwise(strokes)):
        slow = b.beat % task.beats == 0 and 2.0 * task.piece.bar_seconds(int(b.beat // task.beats)) > BREATH_S
        if a.beat + a.beats == b.beat and a.beats >= 1 and (slow or abs(a.midi - b.midi) > widest):
            found[i] = replace(a, beats=Fraction(1, 2) if a.beats == 1 else a.beats - 1)
    return found


def _patterns(task: Task, units: Sequence[_Unit], strokes: Sequence[Stroke]) -> tuple[Pattern, ...]:
    """The tune's shapes as they first come, three at most: one that sinks is one that climbs, upside down."""
    found: list[Pattern] = []
    shapes = list(dict.fromkeys(unit.shape for unit in units))
    both = {"rising", "falling"} <= set(shapes)
    for shape in shapes:
        if len(found) == task.patterns or (both and shape == "falling"):
            continue
        starts = (task.first_beat(unit.bar) for unit in units if unit.shape == shape and unit.bars == 2)
        played = (
            tuple((s.beat - first, s.beats, s.midi) for s in strokes if first <= s.beat < first + 2 * task.beats)
            for first in starts
        )
        if hits := next(filter(None, played), None):
            words = _pattern_words(shape, [midi for _, _, midi in hits], both)
            found.append(Pattern(number=len(found) + 1, bars=2, hits=hits, words=words))
    return tuple(found)


def _pattern_words(shape: str, notes: Sequence[int], both: bool) -> Fact:
    """What a pattern does, in words that are true of its notes: at the end of the range a step goes the other way."""
    up, down, end = max(notes) > notes[0], min(notes) < notes[0], notes[-1] - notes[0]
    if shape in ("steady", "answering"):
        way = "both" if up and down else "up" if up else "down" if down else "none"
        home = "yes" if end == 0 and (up or down) else "no"
        return fact("part-tune-asks" if shape == "steady" else "part-tune-answers", way=way, home=home)
    if end > 0:
        return fact("part-tune-climbs", both="yes" if both else "no")
    return fact("part-tune-sinks" if end < 0 else "part-tune-turns")


def _entries(task: Task) -> tuple[Entry, ...]:
    """Where the tune sounds: what to play there are its notes, which the card prints."""
    return tuple(Entry(bar=stretch[0].bar, bars=stretch[-1].end - stretch[0].bar) for stretch in stretches(task.blocks))


def _words(task: Task, strokes: Sequence[Stroke]) -> tuple[Words, ...]:
    rule = task.piece.curve("pitch", task.line.plan.name)
    words: list[Words] = [fact("part-learn-slowly")]
    if rule is not None and rule.rule.quantity:
        at_most, at_least = (float(rule.results[each(rule.quantity_values)]) for each in (np.argmax, np.argmin))
        way = "lower" if at_most < at_least else "higher"
        ends = (Reading(how=f"sound at {end} end", of=rule.rule.key) for end in ("high", "low"))
        claim = Claim(kind="less" if way == "lower" else "more", left=next(ends), right=next(ends))
        words.append(fact("part-tune-follows", claim, quantity=Named("quantity", rule.rule.quantity), way=way))
    words.append(fact("part-breathe-every-second-bar"))
    if task.main.family in BREATHING:
        words += breath_words(task)
    return (*words, *(_along(task, strokes, row) for row in task.rows[1:]), *answer_words(task))


def _along(task: Task, strokes: Sequence[Stroke], row: Instrument) -> Fact:
    """What the line's other instruments do; of a tune that is compared, whether they lie in another octave."""
    told = {"who": capital(row.plural), "main": task.main.plural}
    if not row.pitched:
        return fact("part-first-beats", **told)
    shift = octave_of(task, strokes, row)
    if not shift or not of_one_height(task.piece.scene, task.line.plan.name):
        return fact("part-along", **told)
    return fact("part-along-octave", **told, way="higher" if shift > 0 else "lower")


def _held(task: Task, fit: Fitted) -> list[Finding]:
    if not fit.held:
        return []
    return [
        finding(
            task,
            fact(
                "play-beyond-range",
                bars=fit.held,
                instrument=task.main.called,
                low=Note(task.tuning.notes[0]),
                high=Note(task.tuning.notes[-1]),
            ),
            fact("play-narrow-pitches"),
        )
    ]
