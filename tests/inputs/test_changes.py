"""Conditions set for one run, and what of them is refused. Invented scene."""

from __future__ import annotations

import pytest

from sonify import lesson
from sonify.errors import BadChange, BadName
from sonify.inputs.changes import read_changes, rule_changes, with_changes
from sonify.inputs.scene_file import read_scene
from sonify.records.scene import Scene
from tests.inputs.samples import SCENE


def scene() -> Scene:
    return read_scene(SCENE, file="small.toml", name="small")


def texts(found: Scene) -> dict[str, str]:
    return {condition.name: condition.measure.text for condition in found.conditions}


def test_a_condition_of_the_file_is_set_anew_and_the_file_is_remembered() -> None:
    found = with_changes(scene(), {"sea_temperature": "19 degC"})
    assert texts(found) == {"latitude": "54 deg", "day": "172", "sea_temperature": "19 degC"}
    (change,) = found.changes
    assert change.before is not None and (change.before.text, change.after.text) == ("14 degC", "19 degC")
    assert found.as_written() == scene()


def test_a_condition_that_the_file_leaves_out_is_added_and_taken_away_again() -> None:
    found = with_changes(scene(), {"wind": "6 m/s", "day": 355})
    assert texts(found) == {"latitude": "54 deg", "day": "355", "sea_temperature": "14 degC", "wind": "6 m/s"}
    assert found.changes[0].before is None
    assert found.as_written() == scene()


def test_no_change_is_the_scene_itself() -> None:
    made = scene()
    assert with_changes(made, {}) is made


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("sea_temperature", 'write NAME="VALUE"'),
        ("=19 degC", 'write NAME="VALUE"'),
        ("sea_temperature=", 'write NAME="VALUE"'),
    ],
)
def test_what_is_no_name_with_a_value_is_refused(text: str, message: str) -> None:
    with pytest.raises(BadName, match=message):
        read_changes([text])


def test_a_name_given_twice_is_refused() -> None:
    with pytest.raises(BadName, match="day is given twice"):
        read_changes(["day=1", "wind=4 m/s", "day = 2"])


@pytest.mark.parametrize("value", ["14.5", "9**9 m", "1e99 m"])
def test_a_value_that_is_no_measure_names_the_option(value: str) -> None:
    with pytest.raises(BadChange, match=r'^--set sea_temperature="'):
        with_changes(scene(), {"sea_temperature": value})


def test_the_ends_of_a_rule_are_set_for_one_run() -> None:
    found = lesson.load("playground-pulse", ['hear.3.to="pp, ff"', "hear.1.from=70 /min, 150 /min"])
    written = lesson.load("playground-pulse")
    heart, blood = found.rules[3], found.rules[1]
    assert (heart.to_low_text, heart.to_high_text) == ("pp", "ff")
    assert (blood.low.value, blood.high.value) == (70.0, 150.0)
    assert [rule.why for rule in found.rules] == [rule.why for rule in written.rules]
    assert found.rules[2] == written.rules[2] and not found.changes


@pytest.mark.parametrize("ends", ["pp", "pp, f, ff", ", ff"])
def test_ends_that_are_not_two_are_refused(ends: str) -> None:
    with pytest.raises(BadChange, match="write two ends"):
        rule_changes({"hear.3.to": ends})


def test_a_scene_without_its_text_has_no_ends_to_set() -> None:
    with pytest.raises(BadName, match="read from its file"):
        lesson.load(scene(), ["hear.0.to=pp, ff"])
