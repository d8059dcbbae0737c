"""What sheets say of tables and classes that no ready-made scene was written for. All readings are invented."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from sonify import starting
from sonify.inputs.scene_file import read_scene
from sonify.lesson import study
from sonify.paper.frames import ticket
from sonify.paper.handouts import pages_of
from sonify.paper.links import all_links
from sonify.paper.room import shelf
from sonify.records.fact import Fact, fact
from sonify.records.lesson import Lesson
from sonify.say import say
from tests.catalogue import catalogue

CLASSES = Path(__file__).resolve().parent.parent / "classes"
SPROUTED = b"""Soil,Sprouted
sand,yes
sand,no
sand,no
sand,no
clay,yes
clay,no
clay,yes
clay,no
compost,yes
compost,yes
compost,yes
compost,no
compost,yes
"""
BEANS = """Week,By the window (cm),In the cupboard (cm)
1,0.5,0.4
2,2.1,3.0
3,5.2,8.4
4,9.0,
5,13.1,17.2
6,16.4,18.0
7,18.0,{last}
"""


def made(table: bytes, classroom: str = "two-sixteens") -> Lesson:
    found = starting.measurement(table, file="ours.csv", stem="ours")
    scene = read_scene(found.text, file="ours.toml", name="ours")
    return study(replace(scene, table=found.table, experiment=found.experiment), CLASSES / f"{classroom}.toml")


def test_a_share_of_yes_is_no_yes() -> None:
    """Of the sand one in four came up, of the compost four in five: neither answer "changed to yes"."""
    lesson = made(SPROUTED)
    assert ticket(lesson)["ask"] == "For which is the answer to “sprouted” yes most often?"
    assert ticket(lesson)["answer"] == "Compost"
    told = [
        say(link.answer) for links in all_links(lesson).values() for link in links if "stage A to" in say(link.answer)
    ]
    assert told and all("where the answer to “sprouted” was yes more often" in each for each in told)


def test_one_answer_each_is_yes_or_no() -> None:
    lesson = made(b"Object,Floats\ncork,yes\nstone,no\nleaf,yes\nkey,no\napple,yes\n")
    told = " ".join(say(link.answer) for links in all_links(lesson).values() for link in links)
    assert "changed to" in told and "more often" not in told


def test_two_teams_that_play_at_once_fetch_an_instrument_each() -> None:
    """Group 1 is two teams with a set of chime bars each, and both play in the last stage."""
    lesson = made(SPROUTED)
    bars = [part for part in lesson.score.group_parts if part.instrument == "chime-bars"]
    assert {part.group for part in bars} == {1} and {part.team for part in bars} == {1, 2}
    assert [row["told"] for row in shelf(lesson) if "chime" in row["what"]] == ["2 sets of chime bars (of 2)"]


def test_all_cards_by_pictures_of_a_group_are_found() -> None:
    """A group with two parts has a card by pictures for each."""
    sheets = ("ticket", "picture 1", "picture 1", "picture 2", "")
    marks = pages_of([{"sheet": name, "page": min(page, 4), "up": 1} for page, name in enumerate(sheets, start=1)])
    assert marks.of(*marks.names("picture")) == (2, 3, 4) and marks.pages["picture 1"] == (2, 3)


@pytest.mark.parametrize(("last", "asked"), [("17.5", False), ("9.2", True)])
def test_whose_tune_is_highest_is_asked_where_it_can_be_heard(last: str, asked: bool) -> None:
    """17.5 cm and 18 cm are one note of the scale; 9.2 cm is a lower one."""
    lesson = made(BEANS.format(last=last).encode())
    questions = [question.ask for question in lesson.scene.questions]
    assert (
        any(ask.startswith("All tunes have the same rule. Whose was highest at the end") for ask in questions) is asked
    )
    assert ("Whose length was greatest at the end, and how do you know?" in questions) is not asked


@pytest.mark.parametrize("name", ["maracas", "claves", "bongos", "finger cymbals", "sleigh bells", "temple blocks"])
def test_what_comes_in_pairs_and_sets_is_counted_so(name: str) -> None:
    row = catalogue().find(name)
    assert row.of(1) == f"{row.of(2).split()[0].removesuffix('s')} of {name}" and row.of(2).endswith(f"s of {name}")
    assert catalogue().find(row.of(1)) == catalogue().find(row.of(2)) == row


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (fact("play-strokes-left-out", lost=1, all=291), "1 of 291 strokes is left out: it follows"),
        (fact("play-strokes-left-out", lost=2, all=291), "2 of 291 strokes are left out: they follow"),
        (fact("play-would-keep-them", lost=1), "would keep it."),
        (
            fact("play-short-share", short=1, all=16, group=1, parts="The rain", seconds="5", whole="60"),
            "(The rain) plays for",
        ),
        (
            fact("play-own-too-quick", instrument="gong", name="Pattern A", bpm="84", kept=1, all=4),
            "1 of its 4 sounds is played.",
        ),
    ],
)
def test_one_is_told_in_the_singular(words: Fact, told: str) -> None:
    assert told in say(words)
