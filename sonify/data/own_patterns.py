"""For each part of a piece what a group can make a pattern of, what it made, and what that means: for the page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sonify.kinds.textures import OSTINATO
from sonify.records.fact import Fact
from sonify.records.lesson import Lesson
from sonify.records.own_pattern import BOXES_A_BEAT, MOST_BARS, OwnPattern, boxes_of, spaced
from sonify.records.score import Part
from sonify.records.words import note_name
from sonify.say import say

#: What the arranger tells of a pattern of pupils' own is called so.
TOLD = "play-own-"


def pattern_facts(lesson: Lesson) -> dict[str, Any]:
    return {
        "beats": lesson.score.metre.beats,
        "boxes_a_beat": list(BOXES_A_BEAT),
        "most_bars": MOST_BARS,
        "parts": list(_rows(lesson)),
    }


def _rows(lesson: Lesson) -> Iterator[dict[str, Any]]:
    seen: set[str] = set()
    for part in lesson.score.group_parts:
        plan = lesson.scene.plan_name(part.name)
        if part.pulse or plan in seen:
            continue
        seen.add(plan)
        row, own = lesson.score.instrument(part.instrument), lesson.scene.pattern_of(plan)
        yield {
            "part": plan,
            "group": part.group,
            "instrument": row.called,
            "held": row.sustains,
            "notes": _notes(part, lesson) if row.pitched else [],
            "bpm": round(max(lesson.score.bpm_at(bar) for bar in _bars(part)), 1),
            "own": None if own is None else {"boxes": _texts(own), "notes": _named(own.notes), "name": own.name},
            "played": None if own is None else _played(own, part, pitched=row.pitched),
            "told": [] if own is None else list(_told(part, lesson)),
        }


def _bars(part: Part) -> list[int]:
    return [bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars)] or [1]


def _notes(part: Part, lesson: Lesson) -> list[str]:
    """The notes of the key that the part's main instrument has, low to high."""
    row, tones = lesson.score.instrument(part.instrument), set(lesson.score.scale.pitch_classes)
    has = {*row.bars, *part.bars_on} if row.bars else set(range(12))
    return _named(tuple(note for note in range(row.low, row.high + 1) if note % 12 in tones & has))


def _named(notes: tuple[int, ...]) -> list[str]:
    return [note_name(note).replace("♯", "#").replace("♭", "b") for note in notes]


def _texts(own: OwnPattern) -> list[str]:
    return [spaced(bar, own.beats) for bar in own.boxes]


def _played(own: OwnPattern, part: Part, *, pitched: bool) -> dict[str, Any] | None:
    """The pattern as it is played, where that is another than was made; None where it is the same."""
    if part.texture != OSTINATO or not part.patterns:
        return None
    sounding = {start: midi for start, _, midi in part.patterns[0].hits}
    kept = tuple(hit for hit in own.hits if hit[0] in sounding)
    notes = tuple(sounding[start] for start, _ in kept) if own.notes and pitched else ()
    if (kept, notes) == (own.hits, own.notes if pitched else ()):
        return None
    each = len(own.boxes[0]) // own.beats
    boxes = boxes_of(kept, own.bars, own.beats, max(each, *(len(bar) // own.beats for bar in own.boxes)))
    return {"boxes": [spaced(bar, own.beats) for bar in boxes], "notes": _named(notes), "name": own.name}


def _told(part: Part, lesson: Lesson) -> Iterator[dict[str, str]]:
    for finding in lesson.findings:
        message = finding.message
        if finding.part == part.name and isinstance(message, Fact) and message.message.startswith(TOLD):
            yield {"message": say(message), "fix": say(finding.fix)}
