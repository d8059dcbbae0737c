"""Every ready-made scene is a complete lesson that needs no mending, for a rich cupboard and for an empty one."""

from __future__ import annotations

from itertools import combinations

import pytest

from sonify import lesson
from sonify.facts.sounding import unmeasured
from sonify.records.classroom import Classroom
from tests.lesson.conftest import ROOT
from tests.studies import A_FEW_OR_ALL

SCENES = lesson.scene_names()
NOTHING = Classroom(year=4, pupils=30, groups=5, minutes=60, name="nothing in the cupboard")


@pytest.mark.parametrize("scene", SCENES)
def test_a_scene_has_no_problem_for_the_well_stocked_class(scene: str) -> None:
    studied = lesson.study(scene)
    assert [f"{f.part} {f.where}: {f.message} {f.fix}" for f in studied.problems] == []
    assert all(kept.relative_drift < kept.allowed for kept in studied.timeline.conserved)
    assert not studied.timeline.missing, "a ready-made scene shows every stage"


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("kind", ["few-instruments", "nothing"])
def test_a_poor_cupboard_still_makes_a_piece_for_everybody(scene: str, kind: str) -> None:
    classroom = lesson.load_class(ROOT / "examples" / "few-instruments.toml") if kind != "nothing" else NOTHING
    studied = lesson.study(scene, classroom)
    assert sum(studied.score.group_pupils.values()) == classroom.pupils
    for section in studied.score.sections:
        beats = range(
            (section.bar - 1) * studied.score.metre.beats, (section.bar - 1 + section.bars) * studied.score.metre.beats
        )
        assert any(beats.start <= n.beat < beats.stop for part in studied.score.group_parts for n in part.notes), (
            f"nobody plays in {section.title}"
        )
    if kind == "nothing":
        assert all(row.bodily for row in studied.score.instruments if row.id != studied.score.parts[0].instrument)


@pytest.mark.parametrize("scene", SCENES)
def test_a_scene_is_a_complete_lesson(scene: str) -> None:
    read = lesson.load(scene)
    assert read.story and read.curriculum and read.cautions and read.questions
    assert len(read.vocabulary) >= 5 and len(read.misconceptions) >= 2
    assert all(rule.why for rule in read.rules) and all(part.meaning for part in read.parts)
    if unmeasured(read):
        assert all(note.sounds and note.why for note in read.stages)
    else:
        assert any(rule.control == "tempo" for rule in read.rules) or len(read.rules) >= 2


@A_FEW_OR_ALL
def test_the_pieces_really_differ(scenes: tuple[str, ...]) -> None:
    heard = {}
    for scene in scenes:
        score = lesson.compose(scene)
        heard[scene] = (
            tuple(tempo.bpm for tempo in score.tempi),
            tuple((part.texture, part.instrument) for part in score.parts),
        )
    alike = [(a, b) for a, b in combinations(scenes, 2) if heard[a] == heard[b]]
    assert alike == []
