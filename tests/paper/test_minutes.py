"""The plan of the lesson in minutes."""

from __future__ import annotations

import pytest

from sonify.paper.minutes import apportioned, minute_plan


@pytest.mark.parametrize("minutes", range(5, 181, 5))
@pytest.mark.parametrize("piece_s", [30.0, 180.0, 600.0, 3600.0])
def test_the_steps_add_up_to_the_lesson(minutes: int, piece_s: float) -> None:
    plan = minute_plan(minutes, piece_s)
    assert sum(step.minutes for step in plan.steps) == minutes
    assert all(step.minutes > 0 for step in plan.steps)


@pytest.mark.parametrize("minutes", [45, 50, 60, 75, 90])
def test_an_ordinary_lesson_has_a_quarter_of_an_hour_to_explore(minutes: int) -> None:
    plan = minute_plan(minutes, 180.0)
    assert {step.title: step.minutes for step in plan.steps}["Explore in groups"] == 15
    assert not plan.warning


def test_performing_leaves_room_for_the_piece_itself() -> None:
    plan = {step.title: step for step in minute_plan(60, 179.0).steps}
    assert plan["Perform and listen"].minutes == 8  # twice: three minutes to play, one to settle
    assert "twice" in plan["Perform and listen"].what
    long = {step.title: step for step in minute_plan(60, 900.0).steps}
    assert long["Perform and listen"].minutes == 16
    assert "once" in long["Perform and listen"].what


def test_a_lesson_too_short_for_the_piece_says_so() -> None:
    plan = minute_plan(30, 1_500.0)
    assert "30 minutes hold no whole lesson" in plan.warning


@pytest.mark.parametrize("total", range(4, 40))
def test_shares_are_whole_numbers_that_add_up(total: int) -> None:
    found = apportioned(total, [1, 2, 3, 10])
    assert sum(found) == total and min(found) >= 1
    assert found == sorted(found)
