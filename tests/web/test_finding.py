"""By what a ready-made scene is found, held against the table of topics that a person keeps (scenes/TOPICS.md)."""

from __future__ import annotations

import re
from typing import Any

import pytest

from sonify import lesson
from sonify.data.finding import found_by
from sonify.kinds.topics import TOPICS, topics_of
from sonify.page.document import told
from sonify.storage.shelf import shelf

#: Topics that the table calls otherwise than the curriculum does.
CALLED = {"materials": "properties and changes of materials"}
#: The table names it as a way to play a table of readings about friction: its own lines are about materials.
BESIDE = {("stretch-test", "forces and magnets")}


@pytest.fixture(scope="module")
def found() -> dict[str, dict[str, Any]]:
    return {name: found_by(lesson.load(name), lesson.catalogue()) for name in lesson.scene_names()}


def test_topics_and_years_are_those_of_the_table(found: dict[str, dict[str, Any]]) -> None:
    text = (shelf() / "scenes" / "TOPICS.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| (\d) \| ([^:|]+)[^|]*\| ([^|]*)\|", text, re.MULTILINE)
    named = [
        (int(year), topic.strip(), scene) for year, topic, scenes in rows for scene in re.findall("`(.+?)`", scenes)
    ]
    assert len(named) > 40
    wrong = [
        (year, topic, scene, found[scene]["topics"], found[scene]["years"])
        for year, topic, scene in named
        if (scene, topic) not in BESIDE
        and not (
            year in found[scene]["years"] and set(topics_of(CALLED.get(topic, topic))) & set(found[scene]["topics"])
        )
    ]
    assert wrong == []


def test_every_scene_can_be_found_and_says_what_pupils_learn(found: dict[str, dict[str, Any]]) -> None:
    for name, row in found.items():
        assert row["topics"] and row["years"] and 5 < len(row["learn"]) < 160, name
        assert row["sounds"] and all(isinstance(sounds, list) for sounds in row["sounds"]), name
    kinds = {
        kind: {name for name, row in found.items() if row["kind"] == kind} for kind in ("computed", "readings", "own")
    }
    assert {"harbour-water-cycle"} <= kinds["computed"] and {"stretch-test", "three-kinds-of-penguin"} <= kinds[
        "readings"
    ]
    assert kinds["own"] == {"a-frogs-life", "apple-tree-year", "bread-dough", "how-a-fossil-forms"}
    # Part by part as the scene's file has them: instruments stay, claps and voices need no cupboard.
    bells, taps = (found["two-cups"]["sounds"][part] for part in (0, 2))
    assert bells[0] == "alto-glockenspiel" and "voices-on-oo" not in bells
    assert taps == ["claves", "wood-block", "two-tone-block"]


def test_every_topic_has_its_words_and_a_scene(found: dict[str, dict[str, Any]]) -> None:
    assert {topic for row in found.values() for topic in row["topics"]} == set(TOPICS)
    assert all(told(f"topic-{topic}") for topic in TOPICS)
