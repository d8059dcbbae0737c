"""The empty boxes of a card: what pupils invent, stage by stage, with the science it is for and the notes to use."""

from __future__ import annotations

from typing import Any

from sonify.paper.rules import is_own, rule_rows, rules_for
from sonify.records.fact import Words, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Blank, Part, Score
from sonify.records.words import NOTE_LETTERS
from sonify.say import say
from sonify.say.parts import bars as bars_words


def ideas(part: Part, lesson: Lesson) -> list[dict[str, Any]]:
    """Each blank cut where stages begin. What is asked, and with which notes, is told where it is new."""
    science = _science(part, lesson) if part.blanks else {}
    many = sum(blank.bars for blank in part.blanks) > 8
    found: list[dict[str, Any]] = []
    asked: Words = ""
    for blank in part.blanks:
        for bar, bars in _by_stage(blank, lesson.score):
            section = lesson.score.section_at(bar)
            found.append(
                {
                    "where": _where(bar, bars, section.letter if section else ""),
                    "science": science.get(section.letter, "") if section else "",
                    "ask": say(blank.ask) if blank.ask != asked else "",
                    "notes": _notes_text(part, lesson.score) if blank.ask != asked else "",
                    "taps": part.texture == "scatter" and blank.ask != asked,
                    "bar": bar,
                    "bars": bars,
                    "many": many,
                }
            )
            asked = blank.ask
    return found


def _where(bar: int, bars: int, letter: str) -> str:
    where = bars_words(bar, bars)
    return say(fact("card-idea-in-stage", letter=letter, where=where)) if letter else f"{where}."


def _by_stage(blank: Blank, score: Score) -> list[tuple[int, int]]:
    end = blank.bar + blank.bars
    inside = [section.bar for section in score.sections if blank.bar < section.bar < end]
    starts = [blank.bar, *inside]
    return [(first, last - first) for first, last in zip(starts, [*inside, end], strict=True)]


def _science(part: Part, lesson: Lesson) -> dict[str, str]:
    """By a stage's letter, what the science does there: of the part's own rules, else of the first it shares."""
    keys = rules_for(part, lesson)
    own = [key for key in keys if is_own(key, part, lesson)] or keys[:1]
    found: dict[str, list[str]] = {}
    for rule in (rule_rows(key, part, lesson) for key in own):
        for row in rule["rows"]:
            if (words := say(fact("meaning-all", of=rule["of"], science=row["science"]))) not in found.setdefault(
                row["letter"], []
            ):
                found[row["letter"]].append(words)
    return {letter: "; ".join(words) for letter, words in found.items()}


def _notes_text(part: Part, score: Score) -> str:
    """The notes of the scale that the part's instrument has, as a sentence; "" where it has no notes."""
    row = score.instrument(part.instrument)
    if not row.pitched:
        return ""
    has = {*(row.bars or range(12)), *part.bars_on}
    notes = [pitch for pitch in score.scale.pitch_classes if pitch in has] or sorted(has)
    return say(fact("card-use-notes", notes=" ".join(NOTE_LETTERS[pitch] for pitch in notes)))
