"""A scene file to start from, for every process: it makes a pack as it is, and says nothing that is not so."""

from __future__ import annotations

import re
import tomllib
from functools import cache

import pytest

from sonify import lesson
from sonify.errors import SonifyError, UnknownName
from sonify.inputs.scene_shape import SceneShape
from sonify.inputs.template import SAMPLES
from sonify.kinds.ideas import IDEAS
from sonify.kinds.shapes import SHAPES
from sonify.lesson import Start
from sonify.mapping.choosing import family
from sonify.processes import PROCESSES, find
from sonify.records.scene import Scene
from sonify.say import say
from sonify.web import drafts

OWN = sorted(name for name in PROCESSES if find(name).for_scene is not None)
TABLES = {name for name in PROCESSES if find(name).for_table is not None or find(name).for_experiment is not None}
COMPUTED = sorted(set(PROCESSES) - TABLES - set(OWN))
STARTED = sorted([*COMPUTED, *SAMPLES])
#: A table has one beat, that it be fair; and so have hunters and hunted, of whom two tunes tell.
STEADY = ("experiment", "food-chain", "results-table")


@cache
def started(process: str) -> tuple[Start, Scene]:
    return drafts.started_scene("bread-dough", process)


@pytest.mark.parametrize("process", STARTED)
def test_a_start_of_any_process_has_nothing_to_mend(process: str) -> None:
    _, scene = started(process)
    assert scene.process == process
    serious = [say(finding.message) for finding in lesson.study(scene).findings if finding.serious]
    assert not serious
    assert "tempo" in {rule.control for rule in scene.rules} or process in STEADY
    assert len({rule.control for rule in scene.rules}) > 1 or process == "food-chain"


@pytest.mark.parametrize("process", OWN)
def test_a_start_of_a_process_of_ones_own_shows_how_it_is_written_and_has_nothing_to_mend(process: str) -> None:
    start, scene = started(process)
    assert scene.process == process and scene.circle and 3 <= len(scene.stages) <= 12
    assert not [say(finding.message) for finding in lesson.study(scene).findings if finding.serious]
    assert max(len(row) for row in start.text.split("\n") if row.startswith("#")) <= 120
    words = SHAPES if process == "drawn" else IDEAS
    assert all(f'"{word}"' in start.text or f" {word} " in start.text for word in words)


@pytest.mark.parametrize("process", COMPUTED)
def test_a_start_shows_all_that_its_process_declares(process: str) -> None:
    start, scene = started(process)
    spec = find(process)
    assert scene.title == say(spec.title)
    assert [condition.name for condition in scene.conditions] == [condition.name for condition in spec.conditions]
    for each in (*spec.quantities, *spec.stages):
        assert f'"{each.name}"' in start.text
    rows = start.text.split("\n")
    assert max(len(row) for row in rows if row.startswith("#")) <= 120


@pytest.mark.parametrize("process", COMPUTED)
def test_a_start_invents_no_phrase(process: str) -> None:
    # A story, captions, aims, words, questions: hers to write, and left out of every sheet until she does.
    _, scene = started(process)
    assert not scene.story.strip()
    assert not (scene.stages or scene.curriculum or scene.vocabulary or scene.misconceptions or scene.questions)


def test_the_remarks_of_a_start_can_be_taken_away() -> None:
    # Every table that stands there as a remark is one that a scene may have, with all that it must have.
    text = started("heating-curve")[0].text
    bare = "\n".join(row.removeprefix("# ") if _in_a_table(row) else row for row in text.split("\n"))
    data = tomllib.loads(bare)
    without = {"data", "table", "experiment", "drawn", "event", "circle", "sentence", "pattern", "sound"}
    assert set(data) == set(SceneShape.model_fields) - without
    scene = drafts.scene_of(bare, file="x.toml")
    assert [note.stage for note in scene.stages] == [stage.name for stage in find("heating-curve").stages]


def _in_a_table(row: str) -> bool:
    return re.match(r'# (\[|\w+ *= ["\[\d])', row) is not None


def test_what_is_measured_of_several_alike_is_heard_by_one_rule() -> None:
    for process, alike in (("cooling", 2), ("soaking", 3)):
        scene = started(process)[1]
        tunes = [rule for rule in scene.rules if rule.control == "pitch"]
        assert len(tunes) == alike
        assert len({(rule.low, rule.high, rule.to_low, rule.to_high) for rule in tunes}) == 1


def test_quantities_are_alike_by_their_names_and_units() -> None:
    cups = {each.name: each for each in lesson.simulate(started("cooling")[1]).quantities}
    assert family("temperature of cup A", cups) == ["temperature of cup A", "temperature of cup B"]
    assert family("cup A by one exponential", cups) == ["cup A by one exponential", "cup B by one exponential"]
    assert family("gap", cups) == ["gap"]
    heat = {each.name: each for each in lesson.simulate(started("heating-curve")[1]).quantities}
    assert family("share melted", heat) == ["share melted"]  # one shared word is not enough


def test_an_unknown_process_is_refused_with_the_nearest_and_the_list() -> None:
    with pytest.raises(UnknownName, match=r'unknown process "water-cycel"; did you mean "water-cycle"\? Allowed: '):
        lesson.start("pond", "water-cycel")


def test_the_start_without_a_process_says_what_it_is() -> None:
    # Another name over the water cycle would be a false title.
    assert started("")[1].title == "A day of the water cycle"


def test_a_process_that_needs_a_table_first_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(SAMPLES, "measured")
    with pytest.raises(SonifyError, match="sonify measure FILE"):
        lesson.start("pond", "measured")
