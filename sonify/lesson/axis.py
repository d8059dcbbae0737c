"""A rule to be heard before the piece: each value of its key in turn, low to high, by whoever plays it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil
from statistics import median_low

from sonify.kinds.marks import DYNAMICS
from sonify.mapping.piece import said_sounds
from sonify.records.clock import Tempo
from sonify.records.lesson import Lesson
from sonify.records.scene import Rule
from sonify.records.score import Note, Part, Score
from sonify.records.sounds import PageSounds
from sonify.sound.page import page_sounds
from sonify.units import convert

#: Each value is heard for so many beats at least, in whole bars, the last beat silent, so that it ends.
BEATS_EACH = 3
#: More strokes in a beat than this are a roll.
MOST_STROKES = 8


def rule_sounds(lesson: Lesson, rule: Rule) -> tuple[PageSounds, tuple[float, ...]]:
    """The sounds of a rule's key, row after row, and where each begins in seconds, the end behind them."""
    score = lesson.score
    part = _who(lesson, rule)
    levels = said_sounds(rule.control, *_ends(lesson, rule), lesson.scene.music)
    bars = ceil(BEATS_EACH / score.metre.beats)
    beats = bars * score.metre.beats
    usual = score.tempi[0].bpm
    tempi = [level if rule.control == "tempo" else usual for level in levels]
    notes = tuple(
        note
        for number, level in enumerate(levels)
        for note in _notes(rule.control, level, part, score, Fraction(number * beats), beats - 1)
    )
    row = score.instrument(part.instrument)
    heard = Part(name=part.name, group=1, instrument=row.id, texture=part.texture, notes=notes, seats=part.seats[:1])
    made = replace(
        score,
        bars=bars * len(levels),
        tempi=tuple(Tempo(bar=1 + bars * number, bpm=bpm) for number, bpm in enumerate(tempi)),
        sections=(),
        parts=(heard,),
        cues=(),
        beds=(),
        swaps=(),
        instruments=(row,),
        count_in_bars=0,
        levels=None,
    )
    starts = [float(made.clock.seconds(number * beats)) for number in range(len(levels) + 1)]
    return replace(page_sounds(made), room=None), tuple(starts)


def _ends(lesson: Lesson, rule: Rule) -> tuple[float, float]:
    """What the least and the most of the quantity sound like: a rule may be written from high to low."""
    unit = lesson.timeline.quantity(rule.quantity).si_unit
    turned = convert(rule.low.value, rule.low.unit, unit) > convert(rule.high.value, rule.high.unit, unit)
    return (rule.to_high, rule.to_low) if turned else (rule.to_low, rule.to_high)


def _who(lesson: Lesson, rule: Rule) -> Part:
    """The part that a rule is of; of one for the whole piece, the count-in for a beat and else whoever comes first."""
    parts = lesson.score.group_parts
    own = [part for part in parts if lesson.scene.plan_name(part.name) == rule.part]
    if rule.control == "tempo" or not parts:
        return lesson.score.parts[0]
    return (own or [part for part in parts if part.texture == "melody"] or list(parts))[0]


def _notes(control: str, level: float, part: Part, score: Score, first: Fraction, beats: int) -> Iterator[Note]:
    row = score.instrument(part.instrument)
    own = [note.midi for note in part.notes if note.instrument in ("", row.id)]
    midi = (median_low(own) if own else (row.low + row.high) // 2) if row.pitched else row.gm_key
    plain = Note(beat=first, beats=Fraction(1), midi=midi, velocity=DYNAMICS["mf"])
    if control == "density":
        step = 1 / Fraction(min(level, MOST_STROKES)).limit_denominator(16)
        for stroke in range(int(Fraction(beats) / step - Fraction(1, 1000)) + 1):
            yield replace(plain, beat=first + stroke * step, beats=min(step, Fraction(1)))
        return
    if control == "pitch" and row.pitched:
        plain = replace(plain, midi=round(level) + 12 * part.octaves)
    elif control == "dynamics":
        plain = replace(plain, velocity=max(1, min(127, round(level))))
    elif control == "brightness":
        plain = replace(plain, brightness=level)
    if part.texture in ("drone", "tremolo") and row.sustains:
        yield replace(plain, beats=Fraction(beats))
        return
    for beat in range(beats):
        yield replace(plain, beat=first + beat)
