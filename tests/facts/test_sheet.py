"""What the sheets say of science and sound carries what it declares, and holds, in every shipped lesson."""

from __future__ import annotations

from dataclasses import replace
from itertools import chain

import numpy as np
import pytest

from sonify.facts import sheet, times
from sonify.facts.sounding import unmeasured
from sonify.facts.verdicts import falsehoods
from sonify.paper.handouts import comparing
from sonify.paper.poster import _alt
from sonify.paper.rules import rules_for
from sonify.records.fact import Claim, Fact, Words, facts_in
from sonify.records.lesson import Lesson
from sonify.say import say
from tests.facts.test_declared import declared, own_claims
from tests.studies import SCENES, studied


def told(lesson: Lesson) -> list[Fact]:
    """The facts of the sheets, before they are held against the evidence."""
    timeline, every = lesson.timeline, frozenset(section.name for section in lesson.score.sections)
    keys = lesson.controls.keys
    quantities = [sheet.subject_of(key, lesson) for key in keys]
    words: list[Words] = [
        sheet.busiest(lesson),
        times.uneven(lesson),
        comparing(lesson),
        *(times.when(stage.name, timeline) for stage in timeline.stages),
        *(times.squeezed(span, timeline) for span in lesson.controls.time_map.stages),
        *(sheet.curve_fact(quantity, timeline) for quantity in timeline.quantities if timeline.kind != "table"),
        *(_alt(quantity, lesson) for quantity in quantities if timeline.kind != "table"),
        *chain.from_iterable(sheet.science_facts(quantity, lesson, every).values() for quantity in quantities),
    ]
    return [found for each in words for found in facts_in(each)]


@pytest.mark.parametrize("scene", SCENES)
def test_what_the_sheets_say_claims_what_it_declares_and_holds(scene: str) -> None:
    lesson = studied(scene)
    found = told(lesson)
    rows = [(each, declared()[each.message]) for each in found]
    assert len(found) > (1 if unmeasured(lesson.scene) else 8)
    wrong = [(each.message, row.about) for each, row in rows if not row.is_met_by(own_claims(each))]
    assert wrong == []
    assert [fault for each in found for fault in falsehoods(each, sheet.evidence(lesson))] == []


@pytest.mark.parametrize("scene", SCENES)
def test_every_way_that_a_rule_is_said_to_go_is_the_way_it_goes(scene: str) -> None:
    lesson = studied(scene)
    for key in lesson.controls.keys:
        claim = sheet.way_claim(key, lesson)
        more, less = (sheet.evidence(lesson).value(reading) for reading in (claim.left, claim.right) if reading)
        way = dict(sheet.way_fact(key, lesson).args)["way"]
        assert (more > less) is (way == "up")
        assert claim.left.level > (claim.right.level if claim.right else np.inf)


def test_a_false_comparison_is_not_printed() -> None:
    """A stage whose word is compared with another's, upside down: the weaker word stands alone."""
    lesson = studied("harbour-water-cycle")
    part = next(part for part in lesson.score.group_parts if part.name == "The river")
    key = next(key for key in rules_for(part, lesson) if key.rule.control == "dynamics")
    every = frozenset(section.name for section in lesson.score.sections)
    facts = list(facts_in(tuple(sheet.science_facts(sheet.subject_of(key, lesson), lesson, every).values())))
    compared = next(each for each in facts if each.message == "meaning-amount-less")
    false = Fact(compared.message, compared.args, tuple(c if c.kind != "less" else _turned(c) for c in compared.claims))
    assert falsehoods(false, sheet.evidence(lesson))
    assert sheet.held(false.or_else(compared.otherwise or compared), lesson) == compared.otherwise


def test_what_halves_is_told_as_half() -> None:
    """A thread four times as long swings half as often: T = 2 pi sqrt(L / g), so its rate goes with 1 / sqrt(L)."""
    lesson = studied("one-swing-one-bar")
    every = frozenset(section.name for section in lesson.score.sections)
    length, rate = (lesson.timeline.quantity(name) for name in ("length", "crossing rate"))
    first, last = (sheet.stage_mean(length, lesson.score.sections[place], lesson) for place in (0, -1))
    assert last / first == pytest.approx(4.0, rel=0.02)
    told = [say(words) for words in sheet.science_facts(rate, lesson, every).values()]
    assert told[-1] == "about half as much as in A"
    assert not any("very little" in words for words in told)


def test_a_ratio_that_is_not_so_is_not_printed() -> None:
    lesson = studied("one-swing-one-bar")
    every = frozenset(section.name for section in lesson.score.sections)
    *_, told = sheet.science_facts(lesson.timeline.quantity("crossing rate"), lesson, every).values()
    half = next(facts_in(told))
    assert not falsehoods(half, sheet.evidence(lesson))
    fourfold = replace(half, claims=tuple(_of_four_times(claim) for claim in half.claims))
    assert falsehoods(fourfold, sheet.evidence(lesson))


def _of_four_times(claim: Claim) -> Claim:
    assert claim.right is not None
    return replace(claim, right=replace(claim.right, times=4.0 * claim.right.times))


def _turned(claim: object) -> object:
    assert isinstance(claim, Claim) and claim.right is not None
    return replace(claim, left=claim.right, right=claim.left)
