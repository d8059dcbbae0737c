"""From the notes of score.json and the rules of pack.json back to the class's table, in every shape of experiment."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from sonify import lesson, starting
from sonify.data.exports import score_json
from sonify.inputs.scene_file import read_scene
from sonify.lesson import pack_facts
from sonify.records.experiment import Experiment, Roles
from sonify.records.lesson import Lesson
from tests import experiments as made
from tests.studies import studied

SHIPPED = ("magnet-and-paper", "parachute-sizes", "bouncing-balls", "beans-in-three-places", "shadow-of-a-stick")
WRITTEN = {"pulses": made.PULSES, "plants": made.PLANTS, "balls": made.BALLS}
GROUPS = ("bouncing-balls", "beans-in-three-places", *WRITTEN)


@lru_cache
def piece(name: str) -> tuple[Lesson, Experiment]:
    if name not in WRITTEN:
        found = studied(name)
        assert found.scene.experiment is not None
        return found, found.scene.experiment
    given = WRITTEN[name]
    text = starting.experiment_text(given, Roles(), "ours")
    scene = replace(read_scene(text, file="ours.toml", name="ours"), table=given.table, experiment=given)
    return lesson.study(scene), given


def table_value(experiment: Experiment, quantity: str, model_time_s: float) -> float:
    """What the table has at a moment of the walk, in its own unit: a step's value; over time, between two readings."""
    series = next(each for each in experiment.series if each.name == quantity)
    if experiment.timed:
        return float(np.interp(model_time_s, experiment.steps - experiment.steps[0], series.values))
    return float(series.values[int(model_time_s)])


def heard(name: str) -> Iterator[tuple[dict, int, float]]:
    """Each bar of each tune: its rule, the note it begins with, and what the table has there."""
    found, experiment = piece(name)
    facts, score = json.loads(json.dumps(pack_facts(found))), json.loads(score_json(found.score))
    beats = int(score["metre"].split("/")[0])
    for rule in (each for each in facts["rules"] if each["as"] == "pitch"):
        for part in (each for each in score["parts"] if each["name"].partition(", ")[0] == rule["part"]):
            for note in part["notes"]:
                if note["instrument"] in ("", part["instrument"]) and note["beat"] % beats == 0:
                    bar = facts["time_map"][int(note["beat"] // beats)]
                    yield rule, note["midi"], table_value(experiment, rule["quantity"], bar["model_time_s"])


def turned_round(rule: dict, midi: float) -> float:
    """The value that a note stands for, in the unit in which the rule is written."""
    low, high = (float(end["text"].split()[0]) for end in rule["from"])
    to_low, to_high = (end["value"] for end in rule["to"])
    return low + (midi - to_low) / (to_high - to_low) * (high - low)


def within_a_step(rule: dict, midi: int, value: float, tones: list[int]) -> bool:
    at = tones.index(midi)
    low, high = sorted(turned_round(rule, tone) for tone in (tones[at - 1], tones[at + 1]))
    return low <= value <= high


@pytest.mark.parametrize("name", [*SHIPPED, *WRITTEN])
def test_the_notes_give_back_the_table_within_a_step_of_the_scale(name: str) -> None:
    """A lone tune may lie whole octaves higher, on a glockenspiel; compared tunes are all where the rule has them."""
    tones = [midi for midi in range(128) if midi % 12 in piece(name)[0].scene.music.scale.pitch_classes]
    rows = list(heard(name))
    assert len(rows) >= 8
    octaves = (0,) if name in GROUPS else (0, 12, 24)
    fits = [all(within_a_step(rule, midi - up, value, tones) for rule, midi, value in rows) for up in octaves]
    assert any(fits)


@pytest.mark.parametrize("name", GROUPS)
def test_the_same_value_is_the_same_note_in_every_group_and_more_is_never_lower(name: str) -> None:
    rows = sorted((value, midi, rule["quantity"]) for rule, midi, value in heard(name))
    assert len({quantity for *_, quantity in rows}) == len(piece(name)[1].series)
    notes = np.array([midi for _, midi, _ in rows])
    values = np.array([value for value, *_ in rows])
    assert np.all(np.diff(notes)[np.diff(values) > 1e-9] >= 0)
    assert np.all(np.diff(notes)[np.diff(values) <= 1e-9] == 0)
