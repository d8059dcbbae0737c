"""What there is to think about beyond the lesson: the computed figures of a rule that is heard, and questions."""

from __future__ import annotations

from typing import Any

from sonify.facts.sheet import KNOWN_UNITS, beat_of, by_size, held, stage_facts
from sonify.facts.sounding import soundings
from sonify.kinds.timelines import AXIS, TABLE
from sonify.paper.links import main_links
from sonify.paper.rules import choose, rule_rows, rules_for, subject_of
from sonify.records.controls import Key
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Section
from sonify.say import say


def _word(name: str) -> str:
    return say(fact(f"think-{name}"))


def stretch(lesson: Lesson) -> dict[str, Any]:
    """More to think about: the computed figures of one rule, and questions that they can answer."""
    found = _stretch(lesson)
    asked = enumerate(found["ask"], start=1)
    figures = "figures-drawn" if lesson.scene.own_stages else "figures"
    return found | {
        "figures": say(fact(f"pupils-{figures}")),
        "ask": [say(fact("pupils-numbered", number=n, words=words)) for n, words in asked],
    }


def _stretch(lesson: Lesson) -> dict[str, Any]:
    words = [_word("sentences")] if lesson.scene.vocabulary else []
    told = {(link.quantity, link.control) for link in main_links(lesson)}
    for key, part in _heard(lesson):
        if (subject_of(key, lesson), key.rule.control) not in told:  # a change that nobody hears
            continue
        rows = _figures(key, part, lesson)
        if len({figure for _, figure, _ in rows}) > 1:
            name = subject_of(key, lesson).name
            change = say(fact("think-most-apart" if by_size(lesson)[0] else "think-most-change", quantity=name))
            return {
                "head": [say(fact("sheet-stage")), name, say(fact(f"meaning-head-{key.rule.control}"))],
                "rows": rows,
                "ask": [change, *_fair(key), *words, _word("not-real")],
            }
    return {"rows": [], "head": [], "ask": [*_whys(lesson), _word("backwards"), *words, _word("not-real")]}


def _whys(lesson: Lesson) -> list[str]:
    """Where an author says how the stages sound: why one of them does, and what another is there for."""
    rows = soundings(lesson.scene, lesson.score)
    spoken = [row for row in rows if row.words]
    if not spoken:
        return []
    most = max(spoken, key=lambda row: len(row.words))
    other = next(row for row in rows[1:] if row is not most)
    return [
        say(fact("order-ask", stage=most.title, sounds=most.told)),
        say(fact("order-ask-without", stage=other.title)),
    ]


def _figures(key: Key, part: Part, lesson: Lesson) -> list[list[str]]:
    """Each stage with its average of the quantity, as the cards have it, and its sound.

    None in a unit that pupils do not know.
    """
    quantity = subject_of(key, lesson)
    if quantity.unit not in (*KNOWN_UNITS, "1") and lesson.timeline.kind not in (TABLE, AXIS):
        return []
    figures = stage_facts(quantity, lesson)
    return [
        [
            say(section.title),
            say(held(figures[section.name], lesson)),
            _sound(key, part, section, lesson),
        ]
        for section in lesson.score.sections
    ]


def _sound(key: Key, part: Part, section: Section, lesson: Lesson) -> str:
    """How a rule sounds in a stage: in the part asked for, or where that is silent in another that follows it."""
    if key.rule.control == "tempo":
        return say(held(fact("meaning-beats", bpm=beat_of(lesson, section)), lesson))
    if lesson.scaffold == "open":
        return choose()
    others = [other for other in lesson.score.group_parts if other is not part and key in rules_for(other, lesson)]
    for each in (part, *others):
        rows = rule_rows(key, each, lesson)["rows"]
        if found := list(dict.fromkeys(row["sound"] for row in rows if row["letter"] == section.letter)):
            return ", ".join(found)
    return _word("not-played")


def _fair(key: Key) -> list[str]:
    return [say(fact("think-fair", change=say(key.for_pupils)))] if key.for_pupils and key.audible else []


def _heard(lesson: Lesson) -> list[tuple[Key, Part]]:
    """The rules that somebody plays, each with the first part that does; the whole piece's first."""
    heard = [(key, part) for part in lesson.score.group_parts for key in rules_for(part, lesson)]
    first = [next((pair for pair in heard if pair[0] == key), None) for key in lesson.controls.keys]
    return sorted((pair for pair in first if pair is not None), key=lambda pair: pair[0].rule.part is not None)
