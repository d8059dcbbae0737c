"""Sentences that hold only for some classes and settings: told where they hold, otherwise elsewhere, refused where they
stand nowhere."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sonify import lesson
from sonify.errors import BadFile
from sonify.facts.evidence import Evidence
from sonify.facts.tied import tied_to_music, without
from sonify.inputs.scene_edits import edited, scene_edits
from sonify.records.classroom import Classroom
from sonify.records.lesson import Lesson
from sonify.records.scene import Scene
from sonify.say import say
from sonify.storage.shelf import scene_path
from sonify.web import drafts
from tests.campaign.claims import classroom
from tests.studies import SCENES, studied

TIED = [name for name in SCENES if "[[sentence]]" in scene_path(name).read_text(encoding="utf-8")]
HAIR = 'The wind lifts her hair. "All round you," says the wind.'


def said(scene: Scene) -> str:
    return "\n".join(" ".join(text.split()) for text in scene.texts())


@pytest.mark.parametrize("name", TIED)
def test_a_scene_as_it_is_shipped_says_all_that_it_is_tied_to(name: str) -> None:
    told = said(studied(name).scene)
    assert [each.text for each in lesson.load(name).sentences if each.text not in told] == []


@pytest.mark.parametrize(
    ("name", "setting", "gone", "instead"),
    [
        ("playground-puddle", "wind=0 m/s", HAIR, "says the caretaker"),
        ("salt-in-the-jar", "stirring=0 rpm", "The spoon sweeps you away.", "so slowly that nobody sees it"),
        ("two-cups", "start_temperature=4 degC", "All the heat ends up in you.", "All the heat comes from you."),
        ("valley-snow-melt", "days=9", "two weeks of melting snow", "The valley wakes: melting snow"),
        ("harbour-water-cycle", "day=10", "Early on a summer morning", "Early one morning"),
    ],
)
def test_a_sentence_goes_where_its_condition_is_another(name: str, setting: str, gone: str, instead: str) -> None:
    assert gone in said(studied(name).scene) and instead not in said(studied(name).scene)
    told = said(lesson.study(lesson.load(name, [setting])).scene)
    assert gone not in told and instead in told


def test_a_title_is_tied_as_any_text_and_goes_where_it_is_written_anew() -> None:
    longer = lesson.study(lesson.load("playground-pulse", ["exercise=5 min"]))
    assert longer.score.title == longer.scene.title == "A game of tag: the tune that is a pulse"
    edits = scene_edits({"title": "Our tag"}, file="the page")
    edited_text = edited(drafts.shipped_scene_text("playground-pulse"), edits, file="my.toml")
    assert drafts.scene_of(edited_text.text, file="my.toml").title == "Our tag"


def test_nobody_is_told_to_change_beaters_where_nothing_gets_brighter() -> None:
    dim = lesson.study(lesson.load("playground-puddle", ["sunlight=150 W/m**2"]))
    (sun,) = [part for part in dim.score.group_parts if part.name == "The sun"]
    assert len({note.brightness for note in sun.notes}) == 1
    assert "Begin with soft beaters" in said(studied("playground-puddle").scene)
    assert sun.meaning == "You are the sun on the puddle." and "soft beaters" not in said(dim.scene)


def test_what_a_sentence_claimed_that_is_told_otherwise_is_no_problem() -> None:
    """ "It is brighter" is not said of fewer cells, and was reported as a false sentence that is printed anyway."""
    fewer = lesson.load("the-cardboard-lighthouse", ["cells=3", "other_cells=1"])
    found = lesson.study(fewer)
    assert "One bulb, and another number of cells. Listen: is it brighter?" in said(found.scene)
    assert [say(each.message) for each in found.findings if each.message and "authored-false" in repr(each)] == []
    written = studied("the-cardboard-lighthouse").scene.claims
    assert {c.key for c in written} - {c.key for c in found.scene.claims} >= {"stage.1.claims.0", "stage.1.claims.1"}


def test_chocolate_is_not_spoken_of_where_butter_melts() -> None:
    found = lesson.study(lesson.load("chocolate-in-warm-water", ["substance=butter"]))
    texts = [each.meaning for each in found.scene.parts] + [each.caption for each in found.scene.stages]
    texts += [each.why for each in found.scene.rules] + [say(each.caption) for each in found.score.sections]
    assert [text for text in texts if "hocolate" in text] == []


def test_the_very_value_is_within() -> None:
    # "at most 0 degC" of a night of 0 °C, which is 273.15 K once converted; "at least 0.5 m/s" of 0.5 m/s
    frosty = lesson.load("valley-snow-melt", ["night_temperature=0 degC"])
    assert "Every night you freeze." in said(lesson.study(frosty).scene)
    assert HAIR in said(lesson.study(lesson.load("playground-puddle", ["wind=0.5 m/s"])).scene)


#: Classes whose music once contradicted a sentence that was printed for them.
CONTRADICTED = [
    ("ice-on-the-hob", "well-stocked", 3),
    pytest.param("rain-garden-storm", "well-stocked", 3, marks=pytest.mark.long),
    pytest.param("a-year-of-sunlight", "well-stocked", 3, marks=pytest.mark.long),
    pytest.param("valley-snow-melt", "few-instruments", 3, marks=pytest.mark.long),
    pytest.param("harbour-water-cycle", "well-stocked", 3, marks=pytest.mark.long),
    ("magnet-and-paper", "few-instruments", 4),
    pytest.param("playground-pulse", "empty", 4, marks=pytest.mark.long),
]


def of_year(name: str, year: int) -> Classroom:
    return replace(classroom(name), year=year)


@pytest.mark.parametrize(("name", "room", "year"), CONTRADICTED)
def test_what_a_class_does_not_play_is_neither_told_nor_warned_of(name: str, room: str, year: int) -> None:
    found = lesson.study(name, of_year(room, year))
    assert [say(each.message) for each in found.findings if each.kind == "claim"] == []
    told = "\n".join([said(found.scene), *(part.meaning for part in found.score.group_parts)])
    untrue = loose(name, found)
    for each in lesson.load(name).sentences:
        assert (each.text in told) is (each.text not in untrue), each.text


def loose(name: str, found: Lesson) -> set[str]:
    """The sentences of a scene that do not hold of a lesson's music."""
    music = Evidence(timeline=found.timeline, score=found.score)
    stages = [stage.name for stage in found.process.stages]
    return {each.text for each in tied_to_music(lesson.load(name), stages, music)}


def test_a_part_that_is_silent_for_a_while_is_not_told_never_to_stop() -> None:
    found = studied("ice-on-the-hob")
    end = found.score.sections[-1].bar * found.score.metre.beats
    parts = tuple(
        replace(part, notes=tuple(n for n in part.notes if n.beat < end)) if part.name == "The hob" else part
        for part in found.score.parts
    )
    assert loose("ice-on-the-hob", found) == set()
    resting = replace(found, score=replace(found.score, parts=parts))
    assert "Never stop." in loose("ice-on-the-hob", resting)
    gone = [each for each in lesson.load("ice-on-the-hob").sentences if each.text == "Never stop."]
    scene, score = without(found.scene, resting.score, gone)
    assert "Never stop." not in said(scene) and all("Never stop." not in part.meaning for part in score.parts)


@pytest.mark.long
@pytest.mark.parametrize("room", ["well-stocked", "few-instruments", "empty"])
@pytest.mark.parametrize("name", SCENES)
def test_no_class_is_warned_of_a_shipped_sentence(name: str, room: str) -> None:
    for year in (3, 4, 6):
        found = lesson.study(name, of_year(room, year))
        assert [(year, say(each.message)) for each in found.findings if each.kind == "claim"] == []


def test_what_is_left_to_pupils_unties_nothing() -> None:
    assert "Never stop." in said(lesson.study("ice-on-the-hob", of_year("well-stocked", 3), scaffold="open").scene)


SENTENCE = '\n[[sentence]]\ntext = "{text}"\nonly_if = ["{tie}"]\n'


@pytest.mark.parametrize(
    ("text", "tie", "wrong"),
    [
        ("The wind lifts his hat.", "wind is at least 1 m/s", "no text of this scene has this sentence"),
        ("The edge creeps in.", "wind is at least 1 degC", "wind"),
        ("The edge creeps in.", "breeze is at least 1 m/s", "breeze"),
        ("The edge creeps in.", "The breeze plays", "no part is called"),
        ("The edge creeps in.", "windy", "a claim has one of these forms"),
        (
            "In the air, as water vapour. None of it is lost.",
            "wind is at least 1 m/s",
            "nothing without this sentence",
        ),
    ],
)
def test_a_sentence_that_cannot_be_tied_is_refused_with_its_line(text: str, tie: str, wrong: str) -> None:
    written = drafts.shipped_scene_text("playground-puddle") + SENTENCE.format(text=text, tie=tie)
    with pytest.raises(BadFile) as refused:
        drafts.scene_of(written, file="my.toml")
    assert wrong in str(refused.value) and "my.toml, line" in str(refused.value)


def test_whose_tune_is_highest_is_asked_only_where_one_value_is_one_note() -> None:
    found = studied("bouncing-balls")
    parts = tuple(
        replace(part, octaves=1) if part.name == "The tennis ball" else part for part in found.score.parts
    )  # as a cupboard with one soprano instrument would have it
    assert loose("bouncing-balls", found) == set()
    raised = replace(found, score=replace(found.score, parts=parts))
    assert [text[:25] for text in loose("bouncing-balls", raised)] == ["Whose tune was highest at"]
