"""Claims of the scene's author: each form true and false of shipped lessons, and mistakes that were made put back."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest

from sonify import lesson
from sonify.facts.authored import holds
from sonify.facts.evidence import Evidence
from sonify.inputs.authored import authored
from sonify.kinds.authored import FORMS
from sonify.records.lesson import Lesson
from sonify.records.scene import AuthoredClaim, Scene
from sonify.records.score import Note
from sonify.say import say
from tests.studies import SCENES, studied

#: Of each form: what is so, and what is not, in which scene. What the tables of issue 11 found is among them.
EITHER_WAY = [
    ("two-cups", "the gap rises in apart", "the gap rises in closing"),
    ("two-cups", "the gap grows in apart", "the gap grows in home"),
    ("two-cups", "the gap falls in closing", "the gap falls in apart"),
    ("two-cups", "the gap shrinks in home", "the gap shrinks in apart"),
    ("ice-on-the-hob", "the temperature hardly changes in melting", "the temperature hardly changes in water"),
    ("desert-island-water", "the fresh water never falls", "the brine temperature never falls"),
    ("two-cups", "the gap is more in closing than in home", "the gap is more in home than in closing"),
    ("two-cups", "the gap is less in home than in closing", "the gap is less in closing than in home"),
    (
        "two-cups",
        "the temperature of cup B is more than the temperature of cup A",
        "the temperature of cup A is more than the temperature of cup B",
    ),
    (
        "ice-on-the-hob",
        "the temperature is at least 99.5 degC in boiling",
        "the temperature is at least 99.5 degC in water",
    ),
    ("ice-on-the-hob", "the temperature is at most 0 degC in melting", "the temperature is at most 0 degC in water"),
    ("harbour-water-cycle", "the rain rate is greatest in precipitation", "the rain rate is greatest in warming"),
    ("two-cups", "the gap is widest in closing", "the gap is widest in level"),
    ("stretch-test", "the stretch is least in cotton string", "the stretch is least in tights"),
    ("ice-rink-particles", "the beat is quicker in melting than in solid", "the beat is quicker in solid than in gas"),
    ("two-cups", "the beat is slower in home than in level", "the beat is slower in level than in home"),
    (
        "stretch-test",
        "the beat is as quick in tights as in wool yarn",
        None,
    ),
    ("ice-rink-particles", None, "the beat is as quick in melting as in solid"),
    ("ice-rink-particles", "the beat is quickest in gas", "the beat is quickest in liquid"),
    ("two-cups", "the beat is slowest in home", "the beat is slowest in level"),
    ("playground-pulse", "every beat is one beat of the heart in resting", "every beat is one beat of the heart"),
    ("two-cups", "Cup A and Cup B play together", None),
    (
        "the-sea-that-stayed-warm",
        "The sea as it was and The sea as it usually is play together in stretch 3",
        "The sea as it was and The nets play together in stretch 3",
    ),
    (
        "the-sea-that-stayed-warm",
        "The strange rain and The nets never play together in stretch 1",
        "The sea as it was and The sea as it usually is never play together in stretch 3",
    ),
    ("two-cups", None, "Cup A and Cup B begin on the same note"),
    ("two-cups", "Cup A and Cup A begin on the same note", None),
    (
        "two-cups",
        "Cup A and Cup B sound alike at the same value",
        None,
    ),
    ("rain-garden-storm", None, "The pond and The soil sound alike at the same value"),
    ("stretch-test", None, "The ruler keeps one pattern"),
    (
        "harbour-water-cycle",
        "no two of The rain strike at one moment",
        "no two of The river strike at one moment in collection",
    ),
    ("two-cups", "The room plays", "The sleeve plays in level"),
    ("playground-pulse", "The heart plays in every bar", "The muscles play in every bar"),
    ("playground-pulse", "The muscles are silent in rested", "The heart is silent in rested"),
    ("ice-on-the-hob", "The ice is softer in melting than in ice", "The ice is softer in ice than in melting"),
    ("ice-on-the-hob", "The ice is louder in ice than in melting", "The ice is louder in melting than in ice"),
    ("ice-on-the-hob", "The water grows brighter in water", "The water grows darker in water"),
    ("ice-on-the-hob", "The water begins dark in water", "The water begins bright in water"),
    (
        "a-year-of-sunlight",
        "The shadow grows darker in darkness grows",
        "The shadow grows brighter in darkness grows",
    ),
    (
        "a-year-of-sunlight",
        "The shadow begins bright in darkness grows",
        "The shadow begins dark in darkness grows",
    ),
    (
        "ice-rink-particles",
        "The free ones are brighter in gas than in evaporating",
        "The free ones are brighter in evaporating than in gas",
    ),
    (
        "desert-island-water",
        "The sunshine is darker in evening than in dripping",
        "The sunshine is darker in dripping than in evening",
    ),
    ("desert-island-water", "The sunshine is brightest in dripping", "The sunshine is brightest in evening"),
    ("desert-island-water", "The sunshine is darkest in evening", "The sunshine is darkest in misting"),
    ("two-cups", "Cup A is higher in level than in home", "Cup A is higher in home than in level"),
    ("two-cups", "Cup A is lower in home than in level", "Cup A is lower in level than in home"),
    ("two-cups", "The gap is busier in closing than in home", "The gap is busier in home than in closing"),
    ("two-cups", "The gap is sparser in home than in closing", "The gap is sparser in closing than in home"),
    ("rain-garden-storm", "The ground is loudest in ground", "The ground is loudest in first-drops"),
    ("rain-garden-storm", "The ground is softest in first-drops", "The ground is softest in ground"),
    ("two-cups", "Cup A is highest in level", "Cup A is highest in home"),
    ("two-cups", "Cup A is lowest in home", "Cup A is lowest in level"),
    ("two-cups", "Cup B ends higher than Cup A", "Cup A ends higher than Cup B"),
    ("two-cups", None, "The gap ends higher than Cup A"),  # its last note was sooner
    ("salt-in-the-jar", "The grains play in full", "The grains play in resting"),
]


def settled(scene: str, text: str) -> bool:
    found = studied(scene)
    parts = [part.name for part in found.scene.parts]
    claim = authored(text, key="stage.0.claims.0", stage="", parts=parts)
    assert isinstance(claim, AuthoredClaim), claim
    quantities = [quantity.name for quantity in found.timeline.quantities]
    known = claim.known(quantities, [stage.name for stage in found.process.stages])
    assert known is not None, text
    return holds(known, Evidence(timeline=found.timeline, score=found.score))


@pytest.mark.parametrize(("scene", "so", "not_so"), EITHER_WAY)
def test_a_claim_is_true_where_it_is_so_and_false_where_it_is_not(
    scene: str, so: str | None, not_so: str | None
) -> None:
    assert so is None or settled(scene, so)
    assert not_so is None or not settled(scene, not_so)


def test_every_kind_of_claim_is_tried_both_ways() -> None:
    parts = {scene: [part.name for part in lesson.load(scene).parts] for scene in {row[0] for row in EITHER_WAY}}
    for column in (1, 2):
        tried = set()
        for row in EITHER_WAY:
            text = row[column]
            if text is not None:
                claim = authored(text, key="k", stage="", parts=parts[row[0]])
                assert isinstance(claim, AuthoredClaim)
                tried |= {(way.kind, way.how) for way in (claim, *claim.otherwise)}
        lacking = {(form.kind, form.how) for form in FORMS} - tried
        # A beat that is the same, and one pattern, are true of no shipped part and false of no scene with one beat.
        assert lacking <= {("one pattern", "patterns")}, lacking


@pytest.mark.parametrize("name", SCENES)
def test_every_shipped_scene_says_what_it_claims_and_it_is_so(name: str) -> None:
    found = studied(name)
    assert len(found.scene.claims) >= 4
    false = [say(finding.message) for finding in found.findings if finding.kind == "claim"]
    assert not false, false[0]


@cache
def _written(name: str) -> Scene:
    return lesson.load(name)


def _with(name: str, text: str, stage: str) -> Lesson:
    scene = _written(name)
    claim = authored(text, key="stage.2.claims.0", stage=stage, parts=[part.name for part in scene.parts])
    assert isinstance(claim, AuthoredClaim)
    return lesson.study(replace(scene, claims=(claim,)))


@pytest.mark.parametrize(
    ("name", "text", "stage"),
    [
        # "listen to the two together" where one of them is silent all through the stage
        (
            "the-sea-that-stayed-warm",
            "The sea as it was and The nets play together",
            "stretch 3",
        ),
        # "the beat hardly quickens" in melting: 63 to 74 a minute
        ("ice-rink-particles", "the beat is as quick as in solid", "melting"),
        # "each beat of the music is one beat of the heart": from bar 17 on every second one
        ("playground-pulse", "every beat is one beat of the heart", "working"),
    ],
)
def test_a_mistake_that_was_printed_once_is_told_as_a_problem_and_the_sentence_stays(
    name: str, text: str, stage: str
) -> None:
    found = _with(name, text, stage)
    (told,) = [finding for finding in found.findings if finding.kind == "claim"]
    assert told.serious and text in say(told.message)
    assert [section.caption for section in found.score.sections] == [
        section.caption for section in studied(name).score.sections
    ]


def test_what_is_left_to_pupils_is_not_judged() -> None:
    scene = replace(
        _written("playground-pulse"), claims=_with("playground-pulse", "The heart is silent", "").scene.claims
    )
    kinds = [finding.kind for finding in lesson.study(scene, scaffold="open").findings]
    assert "claim" not in kinds


@pytest.mark.parametrize("last", [False, True])
def test_a_claim_of_a_stage_reads_it_from_its_first_bar_to_its_last(last: bool) -> None:
    found = studied("two-cups")
    section = next(each for each in found.score.sections if each.name == "apart")
    bar = section.bar + (section.bars - 1 if last else 0)
    note = Note(beat=Fraction((bar - 1) * found.score.metre.beats), beats=Fraction(1), midi=62, velocity=64)
    parts = tuple(replace(part, notes=(note,) if part.name == "Cup A" else ()) for part in found.score.parts)
    evidence = Evidence(timeline=found.timeline, score=replace(found.score, parts=parts))
    for text, so in (("Cup A plays in apart", True), ("Cup A is silent in apart", False)):
        claim = authored(text, key="k", stage="", parts=["Cup A", "Cup B"])
        assert isinstance(claim, AuthoredClaim)
        assert holds(claim, evidence) is so
