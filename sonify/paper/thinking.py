""" "Our sound, and why" in three versions: for everyone, with help, and with more to think about."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sonify.facts.sheet import KNOWN_UNITS, beat_of, by_size, held, stage_facts
from sonify.facts.sounding import controls_of, soundings, unmeasured
from sonify.kinds.timelines import AXIS, TABLE
from sonify.paper.rules import choose, rule_rows, rules_for, subject_of
from sonify.records.controls import Key
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Section
from sonify.records.timeline import Quantity
from sonify.say import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """One dimension of music. control: which calls for it ("": always). starts, choices, end: messages of `think`."""

    id: str
    choices: tuple[str, str]
    control: str = ""
    starts: tuple[str, str] = ("start-ours", "start-shows")
    end: str = "end-shows"


DIMENSIONS = (
    Dimension(id="tempo", choices=("fast", "slow")),
    Dimension(id="pitch", choices=("high", "low"), control="pitch"),
    Dimension(id="dynamics", choices=("loud", "soft"), control="dynamics"),
    Dimension(id="taps", choices=("many", "few"), control="density"),
    Dimension(id="brightness", choices=("bright", "dark"), control="brightness"),
    Dimension(id="timbre", choices=("ringing", "short"), starts=("start-fits", "start-like"), end="end-fits"),
)
#: Always on the sheet, whatever the rules of a lesson use.
ALWAYS = ("tempo", "pitch", "dynamics", "timbre")


def _word(name: str) -> str:
    return say(fact(f"think-{name}"))


def starters(lesson: Lesson) -> list[dict[str, Any]]:
    """Tempo, pitch, dynamics and timbre for everyone, and what else the rules of this lesson's groups use."""
    used = _controls(lesson)
    return [
        {
            "id": row.id,
            "name": _word(row.id),
            "meaning": _word(f"{row.id}-means"),
            "starts": [_word(name) for name in row.starts],
            "all": not row.control,
            "choices": [_word(name) for name in row.choices],
            "alts": [say(fact("pupils-picture-for-word", words=_word(name))) for name in row.choices],
            "end": _word(row.end),
        }
        for row in DIMENSIONS
        if row.id in ALWAYS or row.control in used
    ]


def _controls(lesson: Lesson) -> set[str]:
    if unmeasured(lesson.scene):
        return controls_of(soundings(lesson.scene, lesson.score))
    return {key.rule.control for part in lesson.score.group_parts for key in rules_for(part, lesson)}


def support(lesson: Lesson) -> dict[str, Any]:
    """With help: two words to tick and a sentence to end, with the science words that it needs."""
    told = [subject_of(key, lesson) for key, _ in _heard(lesson)]
    bank = [*dict.fromkeys(quantity.name for quantity in told), *compared(told)]
    if unmeasured(lesson.scene):
        bank = [say(section.title).lower() for section in lesson.score.sections]
    return {
        "rows": starters(lesson),
        "bank": bank,
        "stages": [{"letter": s.letter, "title": say(s.title)} for s in lesson.score.sections],
    }


def compared(told: list[Quantity]) -> list[str]:
    """Words to compare these quantities with: those of warmth and of size only where one is measured so."""
    units = {quantity.unit for quantity in told}
    warmth = ("warmer", "colder") if "degC" in units else ()
    size = ("bigger", "smaller") if units & {"m", "km", "cm", "mm", "g", "kg"} else ()
    return [_word(name) for name in ("more", "less", *warmth, *size)]


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
    for key, part in _heard(lesson):
        rows = _figures(key, part, lesson)
        if len({figure for _, figure, _ in rows}) > 1:
            name = subject_of(key, lesson).name
            heard = next((stage for stage, _, sound in rows if sound != _word("not-played")), rows[0][0])
            change = say(fact("think-most-apart" if by_size(lesson)[0] else "think-most-change", quantity=name))
            what_if = say(fact("think-what-if", quantity=name, stage=heard))
            return {
                "head": [say(fact("sheet-stage")), name, say(fact(f"meaning-head-{key.rule.control}"))],
                "rows": rows,
                "ask": [change, *(_fair(key) or [what_if]), *words, _word("not-real")],
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
