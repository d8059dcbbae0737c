"""Stages in order: nothing is measured, and what the author says of a stage's sound is what is played."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from sonify import lesson as lessons
from sonify.errors import BadFile
from sonify.facts.sounding import soundings, unmeasured
from sonify.inputs.scene_file import read_scene
from sonify.inputs.template import own_scene_text
from sonify.paper import poster, teacher
from sonify.paper.cards import cards
from sonify.paper.pupils import listening
from sonify.paper.thinking import stretch
from sonify.processes import process_of
from sonify.records.lesson import Lesson
from sonify.records.scene import Scene
from sonify.say import say

STAGE = '[[stage]]\nname = "{name}"\ncaption = "It is {name}."\n{sound}\n'
PARTS = """
[[part]]
name = "Ground"
texture = "ostinato"
rests = false
sounds = ["wood block", "claps"]
[[part]]
name = "Tune"
texture = "melody"
rests = false
sounds = ["alto xylophone", "voices on oo"]
[[part]]
name = "Rain"
texture = "scatter"
rests = false
sounds = ["claves", "finger snaps"]
"""
SOUNDS = {
    "egg": ["slow", "soft", "still", "low"],
    "larva": [],
    "pupa": ["soft", "still"],
    "moth": ["quick", "loud", "busy", "high"],
}


def written(sounds: dict[str, list[str]] = SOUNDS, more: str = "", parts: str = PARTS, why: str = "So it is.") -> str:
    rows = [
        STAGE.format(name=name, sound=f'sound = {list(words)!r}\nwhy = "{why}"'.replace("'", '"') if words else "")
        for name, words in sounds.items()
    ]
    return f'title = "A moth"\nprocess = "in-order"\n{more}\n{"".join(rows)}{parts}'


def scene(text: str) -> Scene:
    return read_scene(text, file="moth.toml", name="moth")


@cache
def studied() -> Lesson:
    return lessons.study(scene(written(more="circle = true")))


def in_stage(number: int, part: str) -> list[tuple[int, int]]:
    """(pitch, velocity) of the notes that a part of the scene begins in a stage, by the score alone."""
    found = studied()
    section, beats = found.score.sections[number], found.score.metre.beats
    first, end = (section.bar - 1) * beats, (section.bar - 1 + section.bars) * beats
    parts = [each for each in found.score.group_parts if found.scene.plan_name(each.name) == part]
    return [(note.midi, note.velocity) for each in parts for note in each.notes if first <= note.beat < end]


def test_nothing_is_measured_and_no_key_is_made() -> None:
    found = studied()
    assert unmeasured(found.scene)
    assert not found.timeline.quantities
    assert not found.controls.keys
    assert [stage.name for stage in found.timeline.stages] == list(SOUNDS)
    assert found.process.cycle


def test_slow_is_slower_and_quick_is_quicker_than_what_is_not_mentioned() -> None:
    score = studied().score
    egg, larva, _, moth = (score.bpm_at(section.bar) for section in score.sections)
    assert egg < larva < moth
    assert (egg, moth) == (60.0, 132.0)  # the scene's own limits


def test_loud_is_louder_high_is_higher_and_busy_is_busier_in_what_is_played() -> None:
    soft, loud = (np.mean([velocity for _, velocity in in_stage(number, "Ground")]) for number in (0, 3))
    assert loud > soft + 10
    low, high = (np.mean([pitch for pitch, _ in in_stage(number, "Tune")]) for number in (0, 3))
    assert high > low + 5
    bars = [section.bars for section in studied().score.sections]
    still, busy = (len(in_stage(number, "Rain")) / bars[number] for number in (0, 3))
    assert busy > 2 * still


def test_the_authors_reason_stands_on_the_sheets_and_no_graph_key_or_empty_table() -> None:
    found, settings = studied(), lessons.sheet_settings()
    rows = soundings(found.scene, found.score)
    assert [say(row.told) for row in rows] == [
        "slow, soft, still and low",
        "in between",
        "soft and still",
        "quick, loud, busy and high",
    ]
    placed = poster.sheet(found, settings)
    assert placed["curve"] is None
    assert [key["told"] for key in placed["keys"]][0] == "Egg: slow, soft, still and low. So it is."
    assert not teacher.plots(found)["plots"]
    assert teacher.beat_statements(found) == []
    for card in cards(found, settings):
        for part in card["parts"]:
            assert not part["rules"] and not part["table"]
    assert all(not item["about"] for item in listening(found, settings))
    asked = stretch(found)
    assert not asked["rows"]
    assert "Why is “Egg” slow, soft, still and low? What else would fit?" in asked["ask"][0]


def test_a_cue_gives_the_authors_reason_or_says_that_it_is_for_the_music() -> None:
    cues = [cue for cue in studied().score.cues if cue.action in ("quicker", "slower", "louder", "softer")]
    assert cues
    assert all(cue.reason.music or say(cue.reason.words) == "So it is." for cue in cues)


def test_stages_that_nothing_tells_apart_are_to_be_mended() -> None:
    alike = lessons.study(scene(written({**SOUNDS, "pupa": ["soft", "still"], "larva": ["still", "soft"]})))
    told = [say(finding.message) for finding in alike.findings if finding.serious]
    assert told == ["Nothing tells these stages apart by ear: from “Larva” to “Pupa”."]


HEARD = (
    '[[hear]]\nquantity = "x"\nas = "tempo"\nfrom = ["0 cm", "1 cm"]\nto = ["60 bpm", "90 bpm"]\nwhy = "So."\n' + PARTS
)
WRONG = [
    (written(parts=HEARD), r"line \d+: hear.0: follows a quantity, and nothing is measured here"),
    (written(why=" ").replace('why = " "', ""), "stage.0.why: missing; write why it sounds so"),
    (written().replace('caption = "It is egg."', ""), "stage.0.caption: missing; wanted: one line for pupils"),
    (written(dict.fromkeys(("a", "b", "c"), ["loud"])).replace('"in-order"', '"drawn"'), "belongs to process = "),
    (written({"a": ["loud"], "b": []}), "2 stages; a process of your own has 3 to 12"),
    (written(parts='[[background]]\nsound = "sea"\nfollows = "x"\n' + PARTS), "background.0: follows a quantity"),
]


@pytest.mark.parametrize(("text", "message"), WRONG)
def test_what_has_no_place_here_is_refused_with_its_line(text: str, message: str) -> None:
    with pytest.raises(BadFile, match=message):
        process_of(scene(text))


def test_a_scene_that_says_nothing_of_its_sounds_is_told_what_is_missing() -> None:
    with pytest.raises(BadFile, match="missing; no stage says how it sounds: give one of them"):
        scene(written(dict.fromkeys(("a", "b", "c"), [])))


def test_the_start_of_such_a_scene_explains_every_word() -> None:
    assert len(scene(own_scene_text("in-order")).stages) == 4
