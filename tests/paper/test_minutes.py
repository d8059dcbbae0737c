"""The plan of the lesson in minutes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sonify.paper.handouts import comparing
from sonify.paper.minutes import Things, apportioned, minute_plan
from sonify.say import say
from tests.sample import sample_lesson


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
    assert plan["Perform and listen"].minutes == 11  # twice three to play and one to settle, three to listen
    assert "twice" in plan["Perform and listen"].what
    long = {step.title: step for step in minute_plan(60, 900.0).steps}
    assert long["Perform and listen"].minutes == 31  # fifteen to play, one to settle, fifteen to listen
    assert "once" in long["Perform and listen"].what


def test_a_lesson_too_short_for_the_piece_says_so() -> None:
    plan = minute_plan(30, 1_500.0)
    assert "30 minutes hold no whole lesson" in plan.warning


@pytest.mark.parametrize("total", range(4, 40))
def test_shares_are_whole_numbers_that_add_up(total: int) -> None:
    found = apportioned(total, [1, 2, 3, 10])
    assert sum(found) == total and min(found) >= 1
    assert found == sorted(found)


def told(**changes: object) -> str:
    plan = minute_plan(60, 179.0, Things(**changes))  # type: ignore[arg-type]
    return " ".join(f"{step.title}: {step.what}" for step in plan.steps)


def test_a_story_is_told_where_there_is_one() -> None:
    assert "Start: Tell the story. Ask" in told()
    assert "story" not in told(story=False)


def test_what_is_silent_is_never_to_be_played() -> None:
    """Open: the groups' parts are all the pupils'; part: the teacher is told of the gaps."""
    lesson = sample_lesson()
    assert "Play a minute of the recording" in told()
    assert say(comparing(lesson)).startswith("page.html, Hear: play stage A (the slowest), then stage B (the quickest)")
    bare = told(given="open")
    assert "Play a minute" not in bare and "hears its own part" not in bare
    open_beat = say(comparing(replace(lesson, scaffold="open")))
    assert open_beat.startswith("Clap the beat of stage A (the slowest), then stage B (the quickest)")
    assert "it has gaps" in told(given="part") and "hears what is given of its part" in told(given="part")


def test_no_beats_are_compared_that_cannot_be_told_apart() -> None:
    # 80 and 84 differ by 5 %: the limit of `facts.verdicts` is 6
    lesson = sample_lesson()
    tempi = tuple(replace(tempo, bpm=bpm) for tempo, bpm in zip(lesson.score.tempi, (80, 84, 82), strict=True))
    told = say(comparing(replace(lesson, score=replace(lesson.score, tempi=tempi))))
    assert "beat" not in told and told.startswith("page.html, Hear: play stage A, then stage C.")


def test_one_of_chart_and_cut_outs_is_enough() -> None:
    assert "with one of the two: “Put it in order”, or the flow chart" in told()


def test_voices_and_hands_are_not_fetched() -> None:
    assert "fetches its instruments" in told() and "beaters" in told()
    bodies = told(fetched=False)
    assert "fetches" not in bodies and "beaters" not in bodies and "Take places, agree the stop signal" in bodies
