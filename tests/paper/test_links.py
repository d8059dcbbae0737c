"""The link between science and sound: each side is taken again from science and notes, by hand or by other code."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify import starting
from sonify.facts.sheet import evidence
from sonify.facts.verdicts import falsehoods
from sonify.inputs.scene_file import read_scene
from sonify.lesson import study
from sonify.paper.frames import links_of, sound_sheets, ticket
from sonify.paper.links import all_links, main_links
from sonify.paper.rules import rules_for
from sonify.paper.steps import turning_points
from sonify.records.fact import Fact
from sonify.say import say
from tests.inputs.tables import FOLDER
from tests.paper.sheets import settings
from tests.studies import SCENES, studied

CONTROLS = {"quicker": 1, "slower": -1, "higher": 1, "lower": -1, "louder": 1, "softer": -1, "busier": 1, "sparser": -1}


def test_two_cups_fall_as_they_cool_and_the_gap_opens() -> None:
    """Known without a model: a drink cools, and cup B, in its sleeve, stays behind."""
    lesson = studied("two-cups")
    cup = all_links(lesson)["Cup A"][0]
    assert (cup.quantity.name if cup.quantity else "", cup.up, cup.became) == ("temperature of cup A", False, "lower")
    assert say(cup.answer).startswith(
        "From stage A to stage D: when the temperature of cup A went down, our notes became lower, because: "
    )
    gap = all_links(lesson)["The gap"][0]
    assert gap.up and gap.became == "busier"


def test_what_is_heard_is_told_only_where_it_goes_the_way_of_its_rule() -> None:
    """A plant in a fridge grows a little: where its tune happens to end on lower notes, the rule is not why."""
    found = starting.measurement((FOLDER / "plants-titled.csv").read_bytes(), file="plants-titled.csv", stem="ours")
    scene = read_scene(found.text, file="ours.toml", name="ours")
    lesson = study(replace(scene, table=found.table, experiment=found.experiment))
    told = {name: [(link.up, link.more) for link in links] for name, links in all_links(lesson).items()}
    assert told["Sill"] == [(True, True)] and told["Cupboard"] == [(True, True)]
    assert (True, False) not in told["Fridge"]


@pytest.mark.parametrize("scene", SCENES)
def test_every_model_answer_holds_and_is_of_a_rule_that_the_part_follows(scene: str) -> None:
    lesson = studied(scene)
    for part in lesson.score.group_parts:
        if part.pulse:
            continue
        links = all_links(lesson)[part.name]
        assert links, part.name
        for link in links:
            if isinstance(link.answer, Fact):
                assert not falsehoods(link.answer, evidence(lesson)), say(link.answer)
            if link.kind == "change":
                assert link.control in {key.rule.control for key in rules_for(part, lesson)}


def test_what_is_said_of_a_stage_is_in_the_samples_and_the_notes() -> None:
    lesson = studied("harbour-water-cycle")
    told = [link for links in all_links(lesson).values() for link in links if link.became in CONTROLS]
    assert len(told) >= 8
    for link in told:
        assert link.quantity is not None and link.first is not None and link.last is not None
        time_s, means = lesson.timeline.time_s, []
        for span in (link.first, link.last):
            inside = (time_s >= span.start_s) & (time_s <= span.end_s)
            means.append(float(link.quantity.values[inside].mean()))
        assert bool(means[1] > means[0]) is bool(link.up), say(link.answer)
        if link.control == "dynamics":
            loud = [
                np.mean([n.velocity for n in span.player.notes if span.bar <= n.beat // 4 + 1 < span.bar + span.bars])
                for span in (link.first, link.last)
            ]
            assert (loud[1] - loud[0]) * CONTROLS[link.became] > 0


def test_a_part_tells_only_what_it_played() -> None:
    """The room of the two cups hums one note: it never speaks of high and low."""
    lesson = studied("two-cups")
    room = next(part for part in lesson.score.group_parts if part.name == "The room")
    assert {link.control for link in all_links(lesson)["The room"]} == {"dynamics", "tempo"}
    for level in next(g for g in sound_sheets(lesson, settings()) if g["group"] == room.group)["levels"]:
        assert "notes" not in " ".join(frame["words"] for frame in level["frames"])


def test_three_levels_ask_for_the_same_sentence() -> None:
    lesson = studied("two-cups")
    help_, all_, more = next(g for g in sound_sheets(lesson, settings()) if g["names"] == "Cup A")["levels"]
    assert help_["frames"][0]["words"] == (
        "When the temperature of cup A went [] up [] down, our notes became [] higher [] lower, because"
    )
    assert all_["frames"][0]["words"] == "When the ___ went down, our notes became ___, because"
    assert {"temperature of cup A", "higher", "lower"} <= set(all_["bank"])
    assert more["bank"] == [] and "___" in more["frames"][0]["numbers"]


@pytest.mark.parametrize("scene", ["two-cups", "woodlice-count", "a-frogs-life", "bread-dough"])
def test_the_question_has_one_right_answer_among_its_choices(scene: str) -> None:
    lesson = studied(scene)
    asked = ticket(lesson)
    assert asked["ask"].endswith("?") and len(asked["when"]) == 3
    assert len(set(asked["choices"])) == len(asked["choices"]) >= 2
    assert asked["answer"] == asked["choices"][asked["right"]]


def test_the_answers_to_the_question_by_hand() -> None:
    assert ticket(studied("two-cups"))["answer"] == "It goes down."  # the pace of a race between cooling cups
    assert ticket(studied("woodlice-count"))["answer"] == "Under logs"  # 11 to 16 in each frame of its table
    assert ticket(studied("a-frogs-life"))["answer"] == "Froglet"  # after legs


def test_a_groups_two_parts_are_both_asked_for() -> None:
    lesson = studied("woodlice-count")
    for group in {part.group for part in lesson.score.group_parts}:
        mine = [part for part in lesson.score.group_parts if part.group == group and not part.pulse]
        links = links_of(group, lesson)
        assert 1 <= len(links) <= 2
        if len(mine) == 2:
            assert {link.part for link in links} == {part.name for part in mine}


def test_without_a_rule_nobody_says_that_anything_changed() -> None:
    lesson = studied("two-cups")
    bare = replace(lesson, controls=replace(lesson.controls, keys=()))
    assert main_links(bare) == []
    assert {link.kind for links in all_links(bare).values() for link in links} == {"plays"}


@pytest.mark.parametrize(
    ("values", "kept"),
    [([1, 2, 3, 9], [0, 3]), ([1, 5, 9, 4, 0], [0, 2, 4]), ([9, 1, 8, 1], [0, 1, 2, 3]), ([2, 2.01, 2, 7], [0, 3])],
)
def test_the_fewest_steps_keep_start_turns_and_end(values: list[float], kept: list[int]) -> None:
    assert turning_points(values) == kept


@pytest.mark.parametrize("classroom", ["well-stocked", "few-instruments"])
@pytest.mark.parametrize("scene", SCENES)
def test_our_notes_became_higher_only_where_the_key_put_them_higher(scene: str, classroom: str) -> None:
    """The dough in the fridge hardly rose and kept its C; only the notes between, which tell of nothing, lay higher."""
    lesson = studied(scene, classroom)
    beats = lesson.score.metre.beats
    for link in (each for links in all_links(lesson).values() for each in links):
        if link.control != "pitch" or link.first is None or link.last is None:
            continue
        before, after = (
            [
                note.midi
                for note in span.player.notes
                if note.asked is not None and (span.bar - 1) * beats <= note.beat < (span.bar + span.bars - 1) * beats
            ]
            for span in (link.first, link.last)
        )
        rise = sum(after) / len(after) - sum(before) / len(before)
        assert rise > 0 if link.became == "higher" else rise < 0, say(link.answer)
