"""Rules for pitch end where a class's instruments do: no height is held at an end, and key and notes tell the same.

That children of this age sing from about C4 to D5 is common practice; the catalogue has it so.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify import lesson
from sonify.arrange import bars_held
from sonify.arrange.reach import LEAST_SEMITONES, ruling
from sonify.data.plan import plan_facts, rule_rows
from sonify.records.classroom import Stock
from sonify.records.fact import Fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part
from tests.campaign.claims import classroom
from tests.studies import SCENES

VOICES = 60, 74


def named(found: Lesson, message: str) -> list[str]:
    return [f.part for f in found.findings if isinstance(f.message, Fact) and f.message.message == message]


def ruled_notes(part: Part, found: Lesson) -> tuple[list[float], list[int]]:
    """What the rule asks on strong beats, and what is played there."""
    notes = [note for note in part.notes if note.asked is not None]
    return [float(note.asked or 0.0) for note in notes], [note.midi - 12 * part.octaves for note in notes]


@pytest.mark.parametrize("scene", SCENES)
def test_with_voices_alone_no_note_is_held_at_an_end(scene: str) -> None:
    found = lesson.study(scene, classroom("empty"), seed=3)
    assert named(found, "play-beyond-range") == []
    for part in found.score.group_parts:
        rule = ruling(found.scene, part.name)
        if (
            rule is None
            or part.texture != "melody"
            or part.pulse
            or not found.score.instrument(part.instrument).pitched
        ):
            continue
        asked, played = ruled_notes(part, found)
        # a pentatonic scale has a note within two semitones of any pitch (three lie between neighbours at most)
        assert all(abs(a - p) <= 2.0 for a, p in zip(asked, played, strict=True)), part.name
        assert np.corrcoef(asked, played)[0, 1] > 0.9 if len(set(played)) > 2 else True


@pytest.mark.parametrize("scene", ["two-cups", "beans-in-three-places", "playground-puddle"])
def test_the_key_tells_the_rule_as_it_is_played(scene: str) -> None:
    found = lesson.study(scene, classroom("empty"))
    drawn = [rule for rule in found.scene.rules if rule.asked is not None]
    assert drawn and named(found, "play-rule-within-reach")
    for rule in drawn:
        least, most = sorted((rule.to_low, rule.to_high))
        assert VOICES[0] <= least and most <= VOICES[1] and most - least >= LEAST_SEMITONES
        assert (rule.to_low < rule.to_high) is (rule.as_asked.to_low < rule.as_asked.to_high)
        (key,) = (key for key in found.controls.keys if key.rule.key == rule.key)
        assert (key.rule.to_low, key.rule.to_high) == (rule.to_low, rule.to_high)
    heights = {(rule.to_low, rule.to_high) for rule in found.scene.rules if rule.control == "pitch"}
    assert len(heights) == 1  # where parts are compared, all are drawn in alike


def test_a_class_with_the_instruments_plays_the_rule_as_it_is_written() -> None:
    found = lesson.study("two-cups", classroom("well-stocked"))
    assert all(rule.asked is None for rule in found.scene.rules) and not named(found, "play-rule-within-reach")


@pytest.mark.parametrize("groups", [8, 10])
@pytest.mark.parametrize(
    "scene", ["three-against-two", "sunflower-summer", "the-shortest-shadow", "bars-on-two-ropes", "parachute-sizes"]
)
def test_no_group_loses_notes_that_it_had_to_another(scene: str, groups: int) -> None:
    """Groups that share a tune hum lower than they sing: the rule ends where all of them can follow."""
    room = replace(classroom("empty"), year=3, groups=groups, pupils=32)
    assert bars_held(lesson.study(scene, room).findings) == 0


@pytest.mark.parametrize(
    ("scene", "instrument", "count"), [("playground-puddle", "recorder", 6), ("bread-dough", "ocarina", 1)]
)
def test_instruments_an_octave_apart_are_one_range(scene: str, instrument: str, count: int) -> None:
    room = replace(
        classroom("empty"), year=5, groups=8, pupils=32, cupboard=(Stock(instrument=instrument, count=count),)
    )
    found = lesson.study(scene, room)
    assert any(rule.asked for rule in found.scene.rules) and bars_held(found.findings) == 0


def test_the_page_shows_what_is_written_and_calls_it_unchanged() -> None:
    found = lesson.study("two-cups", classroom("empty"))
    rows = rule_rows(found, lesson.load("two-cups"))
    pitched = [row for row in rows if row["control"] == "pitch"]
    assert plan_facts(found, before=lesson.load("two-cups"), compared=None)["changed"] == []
    assert pitched and all(row["to"] == ["D4", "A5"] and not row["changed"] for row in pitched)


def test_a_rule_of_hardly_a_tune_is_left_as_it_is_and_told() -> None:
    scene = lesson.load("two-cups")
    narrow = [replace(r, to_low=71.0, to_high=77.0) if r.control == "pitch" else r for r in scene.rules]
    found = lesson.study(replace(scene, rules=tuple(narrow)), classroom("empty"))
    assert all(rule.asked is None for rule in found.scene.rules)
    assert named(found, "play-beyond-range") and not named(found, "play-rule-within-reach")
