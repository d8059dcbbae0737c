"""The whole piece, through the one door of the room."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from sonify.kinds.controls import CONTROLS
from sonify.mapping import MappedRules
from sonify.mapping import piece as mapping_piece
from sonify.mapping.hearing import hearing
from sonify.records.scene import Music
from sonify.records.timeline import Missing
from sonify.say import say
from tests.mapping.making import map_scene, map_to_facts, process, quantity, rule, scene, stepped, timeline
from tests.sample import sample_lesson


def test_the_sample_scene_maps() -> None:
    lesson = sample_lesson()
    controls, findings = map_scene(lesson.scene, lesson.timeline, lesson.process)
    assert [stage.stage for stage in controls.time_map.stages] == ["evaporation", "condensation", "precipitation"]
    assert controls.time_map.length_s == pytest.approx(lesson.scene.music.length_s, rel=0.10)
    (key,) = controls.keys
    assert "the journey temperature of the water on its journey is 14 °C" in key.sentence
    # 14 to 22 degC is 287.15 to 295.15 K
    assert key.exaggeration == pytest.approx(np.log(104.0 / 66.0) / np.log(295.15 / 287.15))
    assert [row.control for row in controls.thresholds] == ["tempo"]
    assert not [finding for finding in findings if finding.serious and finding.kind == "rule"]


def test_curves_and_keys_come_in_the_order_of_the_rules() -> None:
    found = timeline(quantity("warmth", stepped([280.0, 290.0, 285.0, 281.0, 286.0])))
    rules = (
        rule(control="brightness", to=(0.1, 0.9), key="hear.0"),
        rule(key="hear.1"),
        rule(control="pitch", to=(60.0, 84.0), part="The sea", key="hear.2"),
    )
    controls, _ = map_scene(scene(*rules), found, process(found))
    assert [curve.rule for curve in controls.curves] == [key.rule for key in controls.keys] == list(rules)
    assert controls.curve("pitch", "The sea") is controls.curves[2]
    assert controls.curve("pitch", "The rain") is None
    for curve in controls.curves:
        least, most = sorted((curve.rule.to_low, curve.rule.to_high))
        assert least <= curve.results.min() <= curve.results.max() <= most, CONTROLS[curve.rule.control].unit


def test_a_scene_without_rules_has_a_time_map_and_a_note() -> None:
    found = timeline(quantity("warmth", stepped([280.0, 290.0, 285.0, 281.0, 286.0])))
    controls, findings = map_scene(scene(), found, process(found))
    assert controls.curves == controls.keys == controls.thresholds == ()
    assert controls.time_map.beats > 0
    assert [finding.serious for finding in findings] == [False]


def test_a_stage_that_never_came_is_a_problem_of_science_with_what_to_change() -> None:
    missing = Missing(
        stage="precipitation",
        reason="the cloud holds too little water",
        condition="humidity",
        fix='Write humidity = "80 %" or more.',
    )
    found = timeline(
        quantity("warmth", stepped([280.0, 290.0])), stages=("sun warms", "evaporation"), missing=[missing]
    )
    spec = process(found, stages=("sun warms", "evaporation", "precipitation"))
    _, findings = map_scene(scene(rule()), found, spec)
    (finding,) = [finding for finding in findings if finding.kind == "science"]
    assert finding.serious
    assert say(finding.message) == "Precipitation never comes: the cloud holds too little water."
    assert (finding.where, finding.fix) == ("humidity", 'Write humidity = "80 %" or more.')


@pytest.mark.parametrize("calm", [False, True])
def test_what_a_class_that_needs_calm_cannot_hear_is_told_and_asked_of_nobody(calm: bool) -> None:
    """38 to 95 velocities are 16 dB; played with a tenth of them they are 1.6 dB, and nobody hears that."""
    found = timeline(quantity("warmth", stepped([280.0, 295.0, 280.0, 295.0, 280.0])))
    plain = scene(rule(control="dynamics", to=(32.0, 108.0), part="The sea"))
    written = map_scene(plain, found, process(found))[0].curves[0].results.reshape(-1, plain.music.metre.beats)
    played = {"The sea": 4.0 * np.log10(written.mean(axis=1) / 127.0)}
    controls, findings = map_to_facts(plain, found, process(found), played=played, calm=calm)
    (lost,) = [finding for finding in findings if finding.kind == "audibility"]
    assert not controls.keys[0].audible
    assert lost.serious != calm
    assert ("Nobody is asked to hear it" in say(lost.message)) == calm


def test_the_same_inputs_give_the_same_controls() -> None:
    found = timeline(quantity("warmth", stepped([280.0, 290.0, 285.0, 281.0, 286.0])))
    piece = scene(rule(), rule(control="pitch", to=(60.0, 84.0), key="hear.1"))
    one, other = (map_scene(piece, found, process(found)) for _ in range(2))
    assert one[1] == other[1] and one[0].keys == other[0].keys
    for a, b in zip(one[0].curves, other[0].curves, strict=True):
        np.testing.assert_array_equal(a.results, b.results)


def test_a_second_mapping_finds_what_one_made_anew_finds(monkeypatch: pytest.MonkeyPatch) -> None:
    found = timeline(quantity("warmth", stepped([280.0, 290.0, 285.0, 281.0, 286.0])))
    loud = rule(control="dynamics", to=(30.0, 110.0), part="The rain", key="hear.1")
    piece, spec = scene(rule(), loud), process(found)
    first: MappedRules = {}
    plain, _ = map_to_facts(piece, found, spec, once=first)
    played = {"The rain": np.linspace(-30.0, -20.0, plain.time_map.bars)}
    anew = map_to_facts(piece, found, spec, played=played)
    asked = []
    monkeypatch.setattr(
        mapping_piece, "hearing", lambda bound, *rest: asked.append(bound.rule) or hearing(bound, *rest)
    )
    again = map_to_facts(piece, found, spec, played=played, once=first)
    assert asked == [loud]
    assert again[1] == anew[1] and again[0].keys == anew[0].keys != plain.keys
    for a, b in zip(again[0].curves, anew[0].curves, strict=True):
        np.testing.assert_array_equal(a.results, b.results)


def test_an_hour_of_music_maps_too() -> None:
    found = timeline(quantity("warmth", list(np.linspace(278.15, 298.15, 20_000))))
    piece = scene(rule(), rule(control="pitch", to=(60.0, 61.0), key="hear.1"), music=Music(length_s=3600.0))
    controls, _ = map_scene(replace(piece), found, process(found))
    assert controls.time_map.length_s == pytest.approx(3600.0, rel=0.01)


def test_the_room_is_cheap_to_import() -> None:
    heavy = "{'pint', 'scipy', 'pydantic', 'music21', 'matplotlib'}"
    code = f"import sys, sonify.mapping; sys.exit(bool({heavy} & set(sys.modules)))"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
