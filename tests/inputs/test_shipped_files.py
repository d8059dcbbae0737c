"""Every scene and class file that ships: complete as a lesson, and its names known."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from sonify.inputs.class_file import read_class
from sonify.inputs.experiment import read_experiment
from sonify.inputs.logger import read_table
from sonify.inputs.scene_file import read_scene
from sonify.inputs.template import new_scene_text
from sonify.inputs.text import text_of
from sonify.kinds.textures import TEXTURES
from sonify.mapping import map_scene
from sonify.processes import conditions_si, process_of
from sonify.records.scene import Scene
from tests.catalogue import ROOT, catalogue

SCENES = sorted((ROOT / "scenes").glob("*.toml"))
CLASSES = sorted((ROOT / "examples").glob("*.toml"))


def scene_at(path: Path) -> Scene:
    made = read_scene(text_of(path.read_bytes(), file=path.name), file=path.name, name=path.stem)
    if not made.data:
        return made
    data = path.with_name(made.data).read_bytes()
    if made.roles is None:
        return replace(made, table=read_table(data, file=made.data))
    experiment = read_experiment(data, file=made.data, roles=made.roles)
    return replace(made, table=experiment.table, experiment=experiment)


@pytest.fixture(params=SCENES, ids=[path.stem for path in SCENES])
def scene(request: pytest.FixtureRequest) -> Scene:
    return scene_at(request.param)


def test_there_are_scenes_and_classes_to_check() -> None:
    assert [path.stem for path in CLASSES] == ["few-instruments", "well-stocked"]
    assert "harbour-water-cycle" in [path.stem for path in SCENES]


def test_a_scene_is_complete_as_a_lesson(scene: Scene) -> None:
    assert 4 <= len(scene.parts) <= 6
    # A first lesson shows every texture; the others choose, so that pieces differ.
    every = scene.name == "harbour-water-cycle"
    assert len({part.texture for part in scene.parts}) >= (len(TEXTURES) if every else 3)
    assert len(scene.misconceptions) >= 5 and all(row.ask for row in scene.misconceptions)
    assert len(scene.vocabulary) >= 8
    assert len(scene.questions) >= 5
    assert scene.teacher_notes
    assert all(part.meaning.startswith("You are ") for part in scene.parts)
    assert any("risk assessment" in caution for caution in scene.cautions)
    assert any("2013 programmes of study" in pointer for pointer in scene.curriculum)


def test_every_part_has_instruments_that_suit_it_and_one_that_needs_no_cupboard(scene: Scene) -> None:
    for part in scene.parts:
        rows = [catalogue().find(sound) for sound in part.sounds]
        assert len(rows) >= 4, part.name
        assert all(part.texture in row.textures for row in rows), part.name
        assert rows[-1].bodily and len({row.id for row in rows}) == len(rows), part.name


def test_what_pupils_read_is_in_short_sentences(scene: Scene) -> None:
    """At most 18 words a sentence on average over a text, for readers of about nine (our own limit)."""
    texts = [part.meaning for part in scene.parts] + [note.caption for note in scene.stages]
    for text in texts + [rule.why for rule in scene.rules] + [row.meaning for row in scene.vocabulary]:
        sentences = [part for part in re.split(r"[.!?:;]", text) if part.strip()]
        assert len(text.split()) / len(sentences) <= 18, text


def test_a_words_meaning_does_not_use_the_word(scene: Scene) -> None:
    for row in scene.vocabulary:
        assert row.word not in row.meaning
    assert len({row.word for row in scene.vocabulary}) == len(scene.vocabulary)


NEW = read_scene(new_scene_text(), file="new.toml", name="new")


@pytest.mark.parametrize("made", [*map(scene_at, SCENES), NEW], ids=lambda made: made.name)
def test_a_scenes_rules_fit_what_its_process_computes_and_can_be_heard(made: Scene) -> None:
    process = process_of(made)
    timeline = process.run(conditions_si(process, made.conditions))
    assert [stage.name for stage in timeline.stages] == [note.stage for note in made.stages]
    controls, findings = map_scene(made, timeline, process)
    assert [finding.message for finding in findings if finding.serious] == []
    assert all(key.audible for key in controls.keys)
    assert all(curve.held == 0 for curve in controls.curves)
    assert {bed.quantity for bed in made.background} <= {quantity.name for quantity in timeline.quantities}


@pytest.mark.parametrize("path", CLASSES, ids=[path.stem for path in CLASSES])
def test_a_class_file_is_read(path: Path) -> None:
    found = read_class(path.read_text(encoding="utf-8"), file=path.name, name=path.stem, catalogue=catalogue())
    assert 3 <= found.pupils / found.groups < 7
    assert found.cupboard


def test_the_poor_cupboard_has_no_tuned_instrument_and_the_rich_one_has_enough_for_all() -> None:
    poor, rich = (
        read_class(path.read_text(encoding="utf-8"), file=path.name, name=path.stem, catalogue=catalogue())
        for path in CLASSES
    )
    assert not any(catalogue()[stock.instrument].pitched for stock in poor.cupboard)
    assert set(poor.needs) == {"no sudden loud sounds", "large print"}
    assert sum(stock.count for stock in rich.cupboard) > rich.pupils
