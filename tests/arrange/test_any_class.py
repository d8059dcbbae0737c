"""Any class and any scene: the Score is sound, playable, and has a place for every pupil."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sonify.arrange import playability
from sonify.records.fact import Fact
from sonify.records.score_invariants import faults
from tests.arrange.lessons import Sketch
from tests.arrange.strategies import sketches

FEW = settings(deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))


@FEW
@given(sketch=sketches(), scaffold=st.sampled_from(["full", "part", "open"]))
def test_every_score_is_sound_and_playable(sketch: Sketch, scaffold: str) -> None:
    score, findings = sketch.arranged(seed=3, scaffold=scaffold)
    assert faults(score) == []
    assert [f for f in playability(score, sketch.classroom) if f.serious] == []
    told = {f.message.message if isinstance(f.message, Fact) else f.message for f in findings if f.serious}
    # what a class or cupboard cannot have; a scene whose only rule asks for no stroke leaves groups waiting
    assert told <= {"group-left-out", "play-compared-octaves", "play-long-wait"}


@FEW
@given(sketch=sketches())
def test_every_pupil_has_a_place_in_even_groups(sketch: Sketch) -> None:
    groups = sketch.score().group_pupils
    assert sorted(groups) == list(range(1, len(groups) + 1))
    assert sum(groups.values()) == sketch.classroom.pupils
    assert max(groups.values()) - min(groups.values()) <= 1
    assert len(groups) == min(sketch.classroom.groups, sketch.classroom.pupils)


@FEW
@given(sketch=sketches())
def test_every_stage_is_heard(sketch: Sketch) -> None:
    score, findings = sketch.arranged()
    for section in score.sections:
        first, end = (section.bar - 1) * score.metre.beats, (section.bar - 1 + section.bars) * score.metre.beats
        heard = any(first <= note.beat < end for part in score.group_parts for note in part.notes)
        density_gone = any(rule.control == "density" for rule in sketch.scene.rules)
        assert heard or density_gone, section.name
