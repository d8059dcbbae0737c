"""The shipped harbour scene, mapped from the process it names."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import pytest

from sonify.inputs.scene_file import read_scene
from sonify.processes import conditions_si, find
from sonify.records.scene import Scene
from sonify.records.timeline import Timeline
from tests.mapping.making import map_scene
from tests.mapping.reading import taken

FILE = Path(__file__).resolve().parents[2] / "scenes" / "harbour-water-cycle.toml"


@lru_cache(maxsize=1)
def harbour() -> tuple[Scene, Timeline]:
    scene = read_scene(FILE.read_text(encoding="utf-8"), file=FILE.name, name=FILE.stem)
    process = find(scene.process)
    return scene, process.run(conditions_si(process, scene.conditions))


def test_the_harbour_scene_maps_to_its_length_with_the_beat_following_the_water() -> None:
    scene, timeline = harbour()
    controls, findings = map_scene(scene, timeline, find(scene.process))
    assert controls.time_map.length_s == pytest.approx(scene.music.length_s, rel=0.10)
    assert min(stage.bars for stage in controls.time_map.stages) >= 4
    tempo = next(key for key in controls.keys if key.rule.control == "tempo")
    assert "of the water on its journey is" in tempo.sentence
    assert tempo.audible and not [f for f in findings if f.serious and "as tempo" in f.where]
    # design: the beat slows where the water is cold, at the climax, and is quicker again on the way home
    bpm = {stage.stage: stage.bpm for stage in controls.time_map.stages}
    assert bpm["condensation"] < bpm["warming"] < bpm["evaporation"]
    assert bpm["precipitation"] < bpm["collection"]


def test_every_verdict_has_its_finding_and_what_it_says_to_write_mends_it() -> None:
    scene, timeline = harbour()
    process = find(scene.process)
    controls, findings = map_scene(scene, timeline, process)
    for key in controls.keys:
        problems = [f for f in findings if f.serious and f.where.startswith(f"{key.rule.key}, ")]
        assert key.audible == (not [f for f in problems if f.kind == "audibility"])
        for problem in problems:
            better = taken(key.rule, problem.fix)
            rules = tuple(better if rule is key.rule else rule for rule in scene.rules)
            left = map_scene(replace(scene, rules=rules), timeline, process)[1]
            assert not [f for f in left if f.serious and f.where.startswith(f"{key.rule.key}, ")]
