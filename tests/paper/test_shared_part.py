"""Groups that share a part, in a jar that nobody stirs: what cards, cues and aims say is held against the notes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

import pytest

from sonify import lesson
from sonify.paper.brief import sentences
from sonify.paper.facts import playing
from sonify.paper.rules import rule_rows, rules_for
from sonify.records.classroom import Classroom, Stock
from sonify.records.lesson import Lesson
from sonify.records.score import Part
from sonify.say import say
from tests.studies import SCENES

COUNTS = {"claves": 6, "tambourine": 4, "soprano-xylophone": 2, "recorder": 8, "hand-drum": 3, "triangle": 2}
CLASS = Classroom(
    year=5,
    pupils=27,
    groups=5,
    minutes=45,
    cupboard=tuple(Stock(instrument=row, count=count) for row, count in COUNTS.items()),
)


@lru_cache
def unstirred() -> Lesson:
    return lesson.study(lesson.load("salt-in-the-jar", ["stirring=0 rpm", "grain=3 mm"]), CLASS, seed=31)


def sharing(found: Lesson) -> Iterator[tuple[Part, str]]:
    """Each second and further group of a part, with the part's name in the scene."""
    for part in found.score.group_parts:
        plan = found.scene.plan_name(part.name)
        if not part.pulse and plan != part.name:
            yield part, plan


@pytest.mark.parametrize("scene", SCENES)
def test_every_group_of_a_part_is_told_what_the_part_follows(scene: str) -> None:
    found = unstirred() if scene == "salt-in-the-jar" else lesson.study(scene, CLASS, seed=31)
    for part, plan in sharing(found):
        own = {key for key in found.controls.keys if key.rule.part == plan}
        told = {key for key in rules_for(part, found) if key.rule.part is not None}
        # Without notes a height, and with beaters that all sound alike a brightness, cannot be shown.
        hidden = {key for key in own - told if key.rule.control not in ("pitch", "brightness")}
        assert told <= own and not hidden
        pitched = found.score.instrument(part.instrument).pitched
        assert all((key in told) is pitched for key in own if key.rule.control == "pitch")
        assert all(rule_rows(key, part, found)["rows"] for key in told)


def test_the_jar_that_nobody_stirs_has_groups_that_share() -> None:
    assert {plan for _, plan in sharing(unstirred())} == {"The salty bottom", "The room in the water"}


def test_who_rests_so_that_the_beat_can_be_heard_is_told_so() -> None:
    found = unstirred()
    (cue,) = {
        cue for cue in found.score.cues if cue.action == "rest" and cue.part.startswith("The room in the water")
    } & {cue for cue in found.score.cues if cue.reason.music}
    after = cue.bar + 1
    sounding = [
        part
        for part in found.score.group_parts
        if any(first <= after < first + bars for first, bars in playing(part, found.score))
    ]
    assert {found.scene.plan_name(part.name) for part in sounding if not part.pulse} == {"The salty bottom"}
    assert any(part.pulse for part in sounding)
    assert "somebody has to keep the beat" in say(cue.reason.words)


def test_who_has_one_sound_is_not_told_how_bright_it_is() -> None:
    counts = {"alto-xylophone": 1, "chime-bars": 2, "bucket": 5, "cajon": 2, "ukulele": 8}
    stock = tuple(Stock(instrument=row, count=count) for row, count in counts.items())
    room = replace(CLASS, year=3, pupils=31, groups=7, minutes=50, cupboard=stock)
    found = lesson.study("desert-island-water", room, seed=9)
    struck, plucked = (part for part in found.score.group_parts if found.scene.plan_name(part.name) == "The sunshine")
    assert {seat.instrument for seat in plucked.seats} == {"ukulele"}
    assert [key.rule.control for key in rules_for(plucked, found)] == ["tempo"]
    (bright,) = (key for key in rules_for(struck, found) if key.rule.control == "brightness")
    # beside a xylophone and a bucket, which have beaters, two play cajons with their hands
    assert "beater" not in str(rule_rows(bright, struck, found)["rows"])


def test_pupils_are_not_to_say_what_does_not_come() -> None:
    found = unstirred()
    assert [section.name for section in found.score.sections] == ["resting"]
    told = "\n".join(sentences(found))
    assert "stirring" not in told and "taps" not in told
    assert "evaporate" in told
