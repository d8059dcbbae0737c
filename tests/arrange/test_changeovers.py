"""A group with two parts: the checker sees an overlap, and a change of instruments with no time for it."""

from __future__ import annotations

from dataclasses import replace

from sonify.arrange.changeovers import CHANGE_S, changeovers
from sonify.records.findings import Finding
from sonify.records.score import Entry, Score
from sonify.say import say
from tests.arrange.lessons import WATER

SCORE = WATER.score()


def shared(first_bars: int, second_bar: int, *, same: bool = False) -> list[Finding]:
    """The rain and the cloud at one desk: the rain from bar 1, the cloud from `second_bar` on, and nobody else."""
    rain, cloud = (next(p for p in SCORE.parts if p.name == name) for name in ("The rain", "The cloud"))
    parts = (
        SCORE.parts[0],
        replace(rain, group=1, team=0, entries=(Entry(bar=1, bars=first_bars),)),
        replace(
            cloud,
            group=1,
            team=0,
            entries=(Entry(bar=second_bar, bars=4),),
            seats=rain.seats if same else cloud.seats,
        ),
    )
    score: Score = replace(SCORE, parts=parts)
    return list(changeovers(score))


def test_two_parts_at_once_at_one_desk_are_a_fault() -> None:
    (found,) = shared(8, 8)
    assert (
        found.serious
        and say(found.where) == "bar 8"
        and "still plays The rain when The cloud begins" in say(found.message)
    )


def test_a_change_with_no_time_is_told_with_its_seconds() -> None:
    (found,) = shared(8, 9)
    assert not found.serious and "has 0 seconds" in say(found.message) and "lie ready" in say(found.message)


def test_a_rest_long_enough_for_the_change_is_fine() -> None:
    assert SCORE.clock.seconds(SCORE.clock.beat_of_bar(11)) - SCORE.clock.seconds(SCORE.clock.beat_of_bar(9)) > CHANGE_S
    assert shared(8, 11) == []


def test_the_same_instruments_need_no_change() -> None:
    assert shared(8, 9, same=True) == []
