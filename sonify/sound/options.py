"""Recordings to play along with: some groups left out, or a click on every beat. A Score becomes another Score."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from sonify.errors import UnknownName
from sonify.records.score import COUNT_IN, Note, Part, Score

CLICK = "click"
CLICK_INSTRUMENT, CLICK_KEY = "claves", 75
ACCENT, PLAIN = 89, 64


def without_groups(score: Score, groups: Iterable[int | str]) -> Score:
    """The Score with these groups silent, for them to play themselves. A group is its number or a part's name.

    Raises UnknownName, naming the groups there are.
    """
    silent: set[int] = set()
    for wanted in groups:
        found = [part for part in score.group_parts if str(wanted) in (str(part.group), part.name)]
        if not found:
            known = {str(part.group) for part in score.group_parts} | {part.name for part in score.group_parts}
            raise UnknownName("group", str(wanted), known)
        silent |= {part.group for part in found}
    parts = tuple(replace(part, notes=()) if part.group in silent else part for part in score.parts)
    return replace(score, parts=parts)


def with_click(score: Score) -> Score:
    """The Score with a click on every beat, the first of each bar stronger. The count-in clicks already."""
    beats = range(int(score.end_beat))
    notes = tuple(
        Note(
            beat=Fraction(beat),
            beats=Fraction(1, 2),
            midi=CLICK_KEY,
            velocity=ACCENT if beat % score.metre.beats == 0 else PLAIN,
        )
        for beat in beats
    )
    group = next((part.group for part in score.parts if part.name == COUNT_IN), 0)
    click = Part(name=CLICK, group=group, instrument=CLICK_INSTRUMENT, texture="ostinato", notes=notes)
    return replace(score, parts=(*score.parts, click))
