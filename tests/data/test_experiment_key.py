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
from sonify.facts.graphs import graphs
from sonify.inputs.scene_file import read_scene
from sonify.lesson import pack_facts
from sonify.page.graphs import paths, range_of
from sonify.paper.poster import drawn_on_poster
from sonify.records.experiment import Experiment, Roles
from sonify.records.lesson import Lesson
from sonify.say import say
from tests import experiments as made
from tests.paper.sheets import settings
from tests.studies import studied

SHIPPED = (
    "beans-in-three-places",
    "bouncing-balls",
    "magnet-and-paper",
    "parachute-sizes",
    "shadow-of-a-stick",
    "three-kinds-of-penguin",
    "woodlice-count",
)
METRES = np.arange(31.0)
WALK = made.experiment(
    "number", "distance", "m", METRES.tolist(), made.series("loudness", [90 - 20 * np.log10(1 + METRES)], "dB")
)
WRITTEN = {"balls": made.BALLS, "plants": made.PLANTS, "pulses": made.PULSES, "soils": made.SOILS, "walk": WALK}
GROUPS = ("bouncing-balls", "beans-in-three-places", "woodlice-count", "balls", "plants", "pulses", "soils")
#: More steps than this are walked without a stop.
STEPS = 12


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
    """What the table has at a moment of the walk, in its own unit: a step's value; over time, between two readings.

    Of categories each count has a minute, row by row, and at the end come the means, the least first.
    """
    series = next(each for each in experiment.series if each.name == quantity)
    if experiment.shape == "categories" and not experiment.groups:
        counts = [value for column in experiment.table.columns for value in [column.values]]
        turns = [*np.array(counts).T.ravel(), *sorted(series.values)]
        return float(turns[int(model_time_s / 60.0 + 0.001)])  # turns begin a hair before their minute
    if experiment.timed or experiment.steps.size > STEPS:
        return float(np.interp(model_time_s, experiment.steps - experiment.steps[0], series.values))
    return float(series.values[int(model_time_s)])


def heard(name: str) -> Iterator[tuple[dict, int, float]]:
    """Each bar of each tune: its rule, the note it begins with, and what the table has there."""
    found, experiment = piece(name)
    facts, score = json.loads(json.dumps(pack_facts(found))), json.loads(score_json(found.score))
    beats = int(score["metre"].split("/")[0])
    for rule in (each for each in facts["rules"] if each["as"] == "pitch"):
        for part in (each for each in score["parts"] if plays(rule, each)):
            for note in part["notes"]:
                if note["instrument"] in ("", part["instrument"]) and note["beat"] % beats == 0:
                    bar = facts["time_map"][int(note["beat"] // beats)]
                    yield rule, note["midi"], table_value(experiment, rule["quantity"], bar["model_time_s"])


def plays(rule: dict, part: dict) -> bool:
    """Whether a part is a tune that follows a rule, its own or that of the whole piece."""
    return part["texture"] == "melody" and rule["part"] in ("", part["name"].partition(", ")[0])


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
    assert {quantity for *_, quantity in rows} == {series.name for series in piece(name)[1].series}
    notes = np.array([midi for _, midi, _ in rows])
    values = np.array([value for value, *_ in rows])
    assert np.all(np.diff(notes)[np.diff(values) > 1e-9] >= 0)
    assert np.all(np.diff(notes)[np.diff(values) <= 1e-9] == 0)


def test_no_group_is_said_to_go_further_than_it_did() -> None:
    """One rule serves all groups, and its ends are reached by some of them alone: Ada's 110 is not Ben's 140."""
    found, _ = piece("pulses")
    told = [say(key.for_pupils) for key in found.controls.keys]
    assert len(told) == 2 and all(
        said.startswith("If it goes from 72 a minute to 140 a minute, the pulse") for said in told
    )


def test_what_was_not_read_is_not_heard() -> None:
    """Clay after five minutes: the cell is empty, so that group rests there, and nothing else is lost."""
    found, _ = piece("soils")
    clay = next(section for section in found.score.sections if section.name == "clay")
    beats = found.score.metre.beats
    inside = range(beats * (clay.bar - 1), beats * (clay.bar - 1 + clay.bars))
    playing = {part.name for part in found.score.parts for note in part.notes if int(note.beat) in inside}
    assert "After 1 minute" in playing and "After 5 minutes" not in playing


def test_repeats_are_heard_one_by_one_where_a_scene_asks_for_it() -> None:
    """The notes of a step, turned round by the rule, are its tries in order; the mean of them is what is told."""
    text = starting.experiment_text(made.MAGNET, Roles(), "ours").replace('repeats = "mean"', 'repeats = "one by one"')
    scene = replace(read_scene(text, file="ours.toml", name="ours"), table=made.MAGNET.table, experiment=made.MAGNET)
    found = lesson.study(scene)
    assert not found.problems
    facts, score = json.loads(json.dumps(pack_facts(found))), json.loads(score_json(found.score))
    rule = next(rule for rule in facts["rules"] if rule["as"] == "pitch")
    (tune,) = (part for part in score["parts"] if plays(rule, part))
    beats = int(score["metre"].split("/")[0])
    tones = [midi for midi in range(128) if midi % 12 in scene.music.scale.pitch_classes]
    heard: list[list[float]] = []
    for note in tune["notes"]:
        at = facts["time_map"][int(note["beat"] // beats)]["model_time_s"]
        every = made.MAGNET.series[0].every[int(at)]
        value = every[int((at - int(at)) * len(every) + 1e-6)]
        if note["beat"] % beats == 0:
            assert within_a_step(rule, note["midi"], value, tones)
            heard.append([int(at), value])
    wanted = {(step, value) for step, every in enumerate(made.MAGNET.series[0].every) for value in every}
    assert {(step, value) for step, value in heard} == wanted
    assert "unless the scene lets the tries be heard one by one" in " ".join(map(say, found.process.honesty))
    told = say(found.timeline.stages[0].science)
    assert "11.3" in told and "11, 12 and 11" in told


def test_what_was_not_read_has_no_bar() -> None:
    """On the poster and on the page: clay after five minutes."""
    found, _ = piece("soils")
    drawn = drawn_on_poster(found, settings())
    assert drawn is not None
    assert [[len(panel["bars"]) for panel in stage] for stage in drawn["stages"]] == [[1, 1], [1, 0], [1, 1], [1, 1]]
    assert "Clay 4 ml" in drawn["alt"] and drawn["alt"].count("Clay") == 1
    (graph,) = graphs(
        found, [found.timeline.quantity(name) for name in ("water: after 1 minute", "water: after 5 minutes")]
    )
    within = range_of(graph, found)
    assert [path.count("M") for path in paths(graph, found, within, np.array([0.0, 1.0]))] == [4, 3]
