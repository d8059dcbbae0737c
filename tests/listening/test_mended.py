"""Faults that the campaign of simulated classes found (`tests.campaign.listen`), each with the class it was in."""

from __future__ import annotations

import json
from functools import lru_cache

import pytest

from sonify.listening import measured, plan_of
from sonify.records.listened import CANNOT_TELL
from sonify.say import say
from tests.campaign.listen import Simulated, score_of, simulated
from tests.listening.judged import judged


@lru_cache(maxsize=1)
def a_class(number: int, seed: int, sort: str = "") -> Simulated:
    return simulated(number, seed, {}, sort=sort)


@pytest.mark.long
@pytest.mark.parametrize(
    ("seed", "number", "told"),
    [
        # muddy water's first stage has the shortest bars and little but a pulse, which fits other stages twice over
        pytest.param(41, 24, 6, id="quick bars were taken for twice as many"),
        # the whole piece was found, and the stage that came again behind it was passed over
        pytest.param(12, 17, 0, id="a stage played again was told in the place of the last"),
        # its first stage was found too early, and then nothing for as long as the rest of it lasts
        pytest.param(12, 28, 3, id="a stage was told that went on behind its end"),
        # the second take's last stage was followed a beat too early from its fourth bar on, and told 3.8 % too quick
        pytest.param(12, 31, 5, id="a beat was lost where nothing held it"),
        # its third stage came again, and two takes were found, of which neither was sure to be the piece
        pytest.param(12, 56, 4, id="a stage played again made two takes of one"),
        # not the listener's: three bars late, its first stroke 24 ms before the bar, which was judged as two bars late
        pytest.param(41, 22, 5, id="a stroke just before its bar is that bar's"),
    ],
)
def test_no_stage_is_told_wrongly(seed: int, number: int, told: int) -> None:
    """Truth: the simulation's."""
    one = a_class(number, seed)
    found = judged(one.played, measured(plan_of(one.played.score), one.heard), one.levels_db)
    assert not found.faults
    assert found.counts["stages told"] >= told


@pytest.mark.long
def test_a_stretch_of_another_piece_is_not_this_one() -> None:
    """One swing, one bar is little but a pulse: muddy water has one, too, before the stretch that fits and after it."""
    found = measured(plan_of(json.loads(score_of("one-swing-one-bar", {}))), a_class(28, 12).heard)
    assert not found.recognised


@pytest.mark.long
def test_a_piece_that_was_being_played_when_the_recorder_was_started_is_told_from_there() -> None:
    """Salt in the jar, recorded from the middle of its second stage on."""
    one = a_class(36, 601, "middle")
    told = measured(plan_of(one.played.score), one.heard)
    found = judged(one.played, told, one.levels_db)
    assert told.recognised and not found.faults and found.counts["stages told"] >= 1
    first, second, *_ = told.stages
    assert say(first.why) == "what was found of the piece begins after this stage"
    assert first.bpm is None and second.bpm is None
    assert found.counts["questions of what was before"] >= 1


@pytest.mark.long
def test_a_class_that_begins_at_its_second_stage_is_recognised() -> None:
    """Playground puddle from bar 17, at 20 dB: three stages of four, and nothing told of the first."""
    one = a_class(4, 601, "middle")
    told = measured(plan_of(one.played.score), one.heard)
    found = judged(one.played, told, one.levels_db)
    assert told.recognised and not found.faults and found.counts["stages told"] == 3
    assert told.stages[0].bpm is None
    against_the_first = [one for one in told.questions if one.stage == "B" and one.kind in ("tempo", "level")]
    assert against_the_first and all(question.answer == CANNOT_TELL for question in against_the_first)
