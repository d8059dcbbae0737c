"""Every fact that a lesson tells, wherever in its records it stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from sonify.facts.evidence import Evidence
from sonify.facts.listening import listening_items
from sonify.records.fact import Fact
from sonify.records.lesson import Lesson


def whole_facts(lesson: Lesson) -> Iterator[Fact]:
    """Each fact as it is told, those of the listening check included; not the weaker ones that wait behind it.

    The records are walked, field by field, so that a field nobody thought of is held to the same. Of what the process
    declares before it is run (meanings of conditions, what its model leaves out) nothing is told of this lesson.
    """
    yield from facts_within((lesson.timeline, lesson.controls, lesson.score, lesson.findings))
    for item in listening_items(lesson):
        yield from facts_within((item.question, item.choices[item.answer].words, item.why))


def facts_of(lesson: Lesson) -> list[Fact]:
    """Every fact of a lesson, those inside others included."""
    return [each for told in whole_facts(lesson) for each in (told, *inner_facts(told))]


def evidence_of(lesson: Lesson) -> Evidence:
    return Evidence(timeline=lesson.timeline, score=lesson.score, rules=lesson.scene.rules)


def inner_facts(told: Fact) -> Iterator[Fact]:
    for _, arg in told.args:
        for each in facts_within(arg):
            yield each
            yield from inner_facts(each)


def facts_within(value: object) -> Iterator[Fact]:
    """The facts of a record, in the order of its fields, the outermost only."""
    if isinstance(value, Fact):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from facts_within(each)
    elif is_dataclass(value):
        for field in fields(value):
            yield from facts_within(getattr(value, field.name))
