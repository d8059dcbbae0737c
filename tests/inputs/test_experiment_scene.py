"""The scene written beside an experiment: one rule for all groups, nothing heard of what was changed. All invented."""

from __future__ import annotations

import tomllib
from dataclasses import replace

import numpy as np
import pytest

from sonify import lesson, starting
from sonify.facts.sheet import by_size, science_facts
from sonify.inputs.experiment_scene import experiment_scene_text, table_section, with_roles
from sonify.inputs.scene_file import read_scene
from sonify.records.experiment import Experiment, Roles
from sonify.records.lesson import Lesson
from sonify.records.scene import Scene
from sonify.say import say
from tests import experiments as made

ALL = {
    "magnet": made.MAGNET,
    "loudness": made.LOUDNESS,
    "balls": made.BALLS,
    "plants": made.PLANTS,
    "soils": made.SOILS,
}
ROLES = Roles(changed="What we changed", measured=("height",), repeats=("Test 1", "Test 2"), groups="Place")


def scene(given: Experiment, text: str) -> Scene:
    return replace(read_scene(text, file="ours.toml", name="ours"), table=given.table, experiment=given)


def studied(given: Experiment) -> Lesson:
    return lesson.study(scene(given, starting.experiment_text(given, ROLES, "ours")))


@pytest.mark.parametrize("name", ALL)
def test_the_scene_is_a_lesson_at_once_and_hears_only_what_was_measured(name: str) -> None:
    found = studied(ALL[name])
    assert [f"{say(each.message)} {say(each.fix)}" for each in found.problems] == []
    heard = {key.rule.quantity for key in found.controls.keys}
    assert heard <= {series.name for series in ALL[name].series}
    assert all(part.notes for part in found.score.parts)


@pytest.mark.parametrize("name", ["balls", "plants", "soils"])
def test_groups_have_one_rule_and_one_range(name: str) -> None:
    made_scene = scene(ALL[name], experiment_scene_text(ALL[name], ROLES, "ours"))
    rules = {(r.control, r.low.text, r.high.text, r.to_low, r.to_high, r.curve) for r in made_scene.rules}
    assert len(rules) == 1 and len(made_scene.rules) == len(ALL[name].groups)
    assert len({part.texture for part in made_scene.parts if part.name.lower() in ALL[name].groups}) == 1


def test_the_roles_are_recorded_as_they_were_said() -> None:
    table = tomllib.loads(experiment_scene_text(made.MAGNET, ROLES, "ours"))["table"]
    assert table == {
        "changed": "What we changed",
        "measured": ["height"],
        "repeats": ["Test 1", "Test 2"],
        "groups": "Place",
    }
    assert tomllib.loads(table_section(Roles(groups=("Sill", "Fridge"), across=True))) == {
        "groups": ["Sill", "Fridge"],
        "across": True,
    }
    text = with_roles('title = "x"\n\n# --- The music ---\n\n[music]\nlength = "2 min"\n', ROLES)
    assert list(tomllib.loads(text)) == ["title", "table", "music"]


def test_how_sure_we_are_sleeps_in_the_scene_until_it_is_woken() -> None:
    text = experiment_scene_text(made.MAGNET, ROLES, "ours")
    assert '# quantity = "paper clips spread"' in text
    blocks = [wake(block) if '"How sure?"' in block else block for block in text.split("\n\n")]
    woken = "\n\n".join(blocks)
    rule = next(rule for rule in scene(made.MAGNET, woken).rules if rule.quantity == "paper clips spread")
    assert (rule.control, rule.part) == ("dynamics", "How sure?")


def wake(block: str) -> str:
    """A rule or part that is written as remarks, without its marks."""
    return "\n".join(line.removeprefix("# ") for line in block.split("\n"))


def test_questions_are_true_to_the_ear() -> None:
    asked = {question.ask: question.answer for question in scene(made.MAGNET, written(made.MAGNET)).questions}
    assert next(iter(asked.values())).startswith("At 0 (layers of paper)")
    flat = made.experiment("number", "distance", "m", [1, 2, 3], made.series("loudness", [[60, 70, 70]], "dB"))
    assert not any("highest" in question.ask for question in scene(flat, written(flat)).questions)


def written(given: Experiment) -> str:
    return experiment_scene_text(given, ROLES, "ours")


def test_before_and_after_stay_in_their_order_and_are_told_in_figures() -> None:
    found = studied(made.PULSES)
    assert by_size(found) == ("", ())
    quantity = found.timeline.quantity("pulse: Ada")
    section = found.score.sections[1]
    assert say(science_facts(quantity, found, frozenset({section.name}))[section.name]) == "110 a minute"


def test_a_beat_goes_with_time_only() -> None:
    rules = {name: {rule.control for rule in scene(each, written(each)).rules} for name, each in ALL.items()}
    assert not any("tempo" in controls for controls in rules.values())
    alone = made.plants({"": np.arange(8.0).tolist()})
    assert "tempo" in {rule.control for rule in scene(alone, written(alone)).rules}
