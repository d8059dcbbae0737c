"""A card for each group: what it is, what its sound means, what to play, when to come in, how loud."""

from __future__ import annotations

import re
from typing import Any

from sonify.paper import loudness, rhythm
from sonify.paper.facts import (
    badge,
    bars_text,
    counted,
    dynamic_text,
    entries_of,
    groups,
    listed,
    playing,
    sentence_start,
)
from sonify.paper.settings import PaperSettings
from sonify.records.controls import Key
from sonify.records.lesson import Lesson
from sonify.records.scene import DYNAMICS, Rule
from sonify.records.score import DynamicMark, Entry, Part, Score, Seat
from sonify.records.words import NOTE_LETTERS, dynamic_word, number_text, velocity_mark

#: Each control as a pupil says it.
CONTROL_WORDS = {
    "tempo": "How fast",
    "pitch": "How high",
    "density": "How busy",
    "dynamics": "How loud",
    "brightness": "How bright",
}
#: Taps longer than a row of boxes on the card's paper, ordinary and large print.
BOXES_IN_ROW = (16, 8)
#: So many changes of loudness are told one by one; more are summed up, and the picture shows them all.
FEW_MARKS = 3
_NOTE = re.compile(r"\b([A-G][♯♭]?)([0-8])\b")


def cards(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """Every group's card, in order of groups."""
    return [
        {
            **badge(group, settings),
            "names": [part.name for part in parts],
            "parts": _parts(parts, lesson, settings),
            "stages": [{"letter": s.letter, "bar": s.bar, "bars": s.bars} for s in lesson.score.sections],
            "bars": lesson.score.bars,
        }
        for group, parts in groups(lesson.score).items()
    ]


def _parts(parts: list[Part], lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """The parts of one card: a rule that two of them share is told once."""
    told: list[Key] = []
    found = []
    for part in parts:
        new = [key for key in rules_for(part, lesson) if key not in told]
        told += new
        found.append(_part(part, new, lesson, settings))
    return found


def _part(part: Part, keys: list[Key], lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    score = lesson.score
    in_row = BOXES_IN_ROW[settings.large_print]
    return {
        "name": part.name,
        "meaning": part.meaning,
        "seats": [_seat(seat, score) for seat in part.seats],
        "rules": [_rule(key) for key in keys],
        "instructions": [lettered(words, part, score) for words in part.instructions],
        "patterns": _patterns(part, score, in_row),
        "tunes": _tunes(part, score, in_row),
        "busy": _busy(part, score),
        "entries": [_entry(entry, part, score) for entry in sorted(entries_of(part, score), key=lambda e: e.bar)],
        "loud": _loud(part),
        "marks": [{"bar": mark.bar, "mark": mark.mark} for mark in sorted(part.dynamics, key=lambda mark: mark.bar)],
        "runs": _runs(part, score),
        "runs_alt": f"{part.name} plays in {listed([bars_text(*run) for run in playing(part, score)])}.",
        "blanks": [{"where": bars_text(b.bar, b.bars), "ask": b.ask, "bars": b.bars} for b in part.blanks],
    }


def _seat(seat: Seat, score: Score) -> dict[str, str]:
    row = score.instrument(seat.instrument)
    what = row.name.lower() if seat.count == 1 else row.plural.lower()
    if row.bodily:
        return {"what": what, "who": counted(seat.players, "player"), "job": seat.job, "how": row.how}
    turns = f"{seat.at_once} at a time, changing every {counted(seat.turn_bars, 'bar')}" if seat.at_once else ""
    share = turns or ("" if seat.players <= seat.count else "share and take turns")
    return {
        "what": f"{seat.count} {what}",
        "who": counted(seat.players, "player"),
        "job": seat.job or share,
        "how": row.how,
    }


def rules_for(part: Part, lesson: Lesson) -> list[Key]:
    """The rules that this part can be heard to follow: its own, and the piece's that its instrument can show."""
    pitched = lesson.score.instrument(part.instrument).pitched
    shows = {"tempo", "dynamics", "brightness"}
    shows |= {"pitch"} if pitched and part.texture == "melody" else set()
    shows |= {"density"} if part.texture == "scatter" else set()
    own = [key for key in lesson.controls.keys if key.rule.part == part.name]
    taken = {key.rule.control for key in own}
    shared = [k for k in lesson.controls.keys if k.rule.part is None and k.rule.control in shows - taken]
    return own + shared


def _rule(key: Key) -> dict[str, Any]:
    (low, low_sound), (high, high_sound) = key.values[0], key.values[-1]
    return {
        "head": CONTROL_WORDS[key.rule.control],
        "why": key.rule.why,
        "low": low,
        "low_sound": sound_text(key.rule, key.rule.to_low, low_sound),
        "high": high,
        "high_sound": sound_text(key.rule, key.rule.to_high, high_sound),
    }


def _patterns(part: Part, score: Score, in_row: int) -> list[dict[str, Any]]:
    row = score.instrument(part.instrument)
    return [
        {
            "name": pattern.name,
            "words": pattern.words,
            "boxes": rhythm.boxes(
                list(pattern.hits), pattern.bars * score.metre.beats, score.metre.beats, row, most_in_row=in_row
            ),
        }
        for pattern in part.patterns
    ]


def _tunes(part: Part, score: Score, in_row: int) -> list[dict[str, Any]]:
    """A melody is written out bar by bar, for it has no pattern to repeat."""
    if part.texture != "melody" or part.patterns:
        return []
    beats = score.metre.beats
    found = []
    for first, bars in playing(part, score):
        start = score.clock.beat_of_bar(first)
        hits = rhythm.note_hits(part.notes, start, start + bars * beats)
        if hits:
            row = score.instrument(part.instrument)
            boxes = rhythm.boxes(hits, bars * beats, beats, row, most_in_row=in_row)
            found.append({"name": f"Your tune, {bars_text(first, bars)}", "words": "", "boxes": boxes})
    return found


def _busy(part: Part, score: Score) -> list[dict[str, Any]]:
    """For free taps: how many taps in each bar, as a picture of few and many."""
    if part.texture != "scatter":
        return []
    return [{"bars": rhythm.taps(part, first, bars, score.metre.beats)} for first, bars in playing(part, score)]


def _entry(entry: Entry, part: Part, score: Score) -> dict[str, Any]:
    section = score.section_at(entry.bar)
    goes_on = any(first < entry.bar < first + bars for first, bars in playing(part, score))
    return {
        "bar": entry.bar,
        "stage": f"{section.letter} {section.title}" if section else "",
        "into": entry.bar - section.bar if section else 0,
        "listen": "Keep going, with no gap." if goes_on else _listen(entry, part, score),
        "play": sentence_start(lettered(entry.instruction or entry.pattern, part, score)),
        "bars": counted(entry.bars, "bar"),
    }


def _listen(entry: Entry, part: Part, score: Score) -> str:
    """Whom to listen for: the part that came in last and still plays in the bar before."""
    if entry.bar == 1:
        return "Listen to the count-in."
    heard = [
        (first, other)
        for other in score.group_parts
        if other.name != part.name
        for first, bars in playing(other, score)
        if first <= entry.bar - 1 < first + bars
    ]
    if not heard:
        return "It is quiet before you. Watch the conductor."
    first, other = max(heard, key=lambda pair: (pair[0], -pair[1].group))
    return f"Listen for {other.name} (group {other.group}) in the bar before."


def _loud(part: Part) -> str:
    """How loud in a sentence or two: each mark where there are few, else the start, the loudest and the end."""
    marks = sorted(part.dynamics, key=lambda mark: mark.bar)
    if len(marks) <= FEW_MARKS:
        return " ".join(_mark(mark, following) for mark, following in zip(marks, [*marks[1:], None], strict=False))
    loudest = max(marks, key=lambda mark: (DYNAMICS[mark.mark], -mark.bar))
    return (
        f"Start {dynamic_text(marks[0].mark)}. You are loudest in bar {loudest.bar}: {dynamic_text(loudest.mark)}. "
        f"End {dynamic_text(marks[-1].mark)}."
    )


def _mark(mark: DynamicMark, following: DynamicMark | None) -> str:
    grows = {"cresc": ", then grow louder", "dim": ", then fade softer"}.get(mark.hairpin, "")
    until = f" until bar {following.bar}" if grows and following else ""
    return f"Bar {mark.bar}: {dynamic_text(mark.mark)}{grows}{until}."


def lettered(words: str, part: Part, score: Score) -> str:
    """Words in which notes are named as they are written on the part's own bars, as its boxes name them."""
    row = score.instrument(part.instrument)
    if not row.pitched:
        return words
    return _NOTE.sub(lambda note: rhythm.letter(_midi(note), row), words)


def _midi(note: re.Match[str]) -> int:
    return 12 * (int(note[2]) + 1) + NOTE_LETTERS.index(note[1])


def _runs(part: Part, score: Score) -> list[dict[str, Any]]:
    line = loudness.corners(part, score)
    return [
        {"bar": first, "bars": bars, "levels": loudness.levels(line, first, first + bars)}
        for first, bars in playing(part, score)
    ]


def sound_text(rule: Rule, value: float, text: str) -> str:
    """A sound as a pupil reads it, without abbreviations and foreign terms."""
    if rule.control == "tempo":
        return f"{number_text(value)} beats a minute"
    if rule.control == "dynamics":
        return dynamic_word(velocity_mark(value))[1]
    if rule.control == "pitch":
        return "low notes" if value == min(rule.to_low, rule.to_high) else "high notes"
    return text
