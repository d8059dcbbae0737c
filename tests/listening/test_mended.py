"""Faults that the campaign of simulated classes found (`tests.campaign.listen`), each with the class it was in."""

from __future__ import annotations

import json
from functools import lru_cache

import pytest

from sonify.listening import measured, plan_of
from tests.campaign.listen import Simulated, score_of, simulated
from tests.listening.judged import judged


@lru_cache(maxsize=1)
def a_class(number: int, seed: int) -> Simulated:
    return simulated(number, seed, {})


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
