"""The plan of the lessons in minutes, from stated assumptions: sums by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sonify.paper.handouts import comparing
from sonify.paper.minutes import Things, lesson_minutes, minute_plan, not_in, offered
from sonify.say import say
from tests.sample import sample_lesson

MANY = (Things(), Things(stages=2, groups=2), Things(stages=8, groups=8, practical_min=30, clips=6))


@pytest.mark.parametrize("minutes", range(10, 181, 10))
@pytest.mark.parametrize("lessons", [1, 2, 4])
def test_the_steps_add_up_to_the_lesson(minutes: int, lessons: int) -> None:
    for things in MANY:
        for piece_s in (30.0, 180.0, 600.0, 3600.0):
            plan = minute_plan(minutes, lessons, replace(things, piece_s=piece_s))
            assert len(plan.lessons) == lessons
            for one in plan.lessons:
                assert sum(step.minutes for step in one.steps) == one.minutes == lesson_minutes(minutes, lessons)
                assert all(step.minutes > 0 for step in one.steps)
            assert bool(plan.warning) is any(one.short for one in plan.lessons)


def test_an_hour_is_one_lesson_that_fits_and_says_what_it_leaves_out() -> None:
    """By hand, five groups, five stages, three minutes of music: 3 + 3 + 6 + 3 + 7 + 15 + 7 + 4 + 4 + 6 = 58."""
    things = Things(practical_min=20, clips=6)
    (one,) = minute_plan(60, 1, things).lessons
    took = {step.title: step.minutes for step in one.steps}
    assert took["Explore in groups"] == 15
    assert took["Fetch instruments, stop signal"] == 7  # a minute a group, two for the signal
    assert took["Perform and record"] == 4  # three to play, one to settle
    assert took["Bring back, come together"] == 4  # half a minute a group, and one
    left = not_in(1, minute_plan(60, 1, things), things)
    assert {"The practical", "Put it in order", "Words to know", "Listening check", "Listen back"} <= set(left)


def test_two_lessons_hold_the_practical_then_the_music() -> None:
    things = Things(practical_min=25)
    first, second = minute_plan(60, 2, things).lessons
    titles = [[step.title for step in one.steps] for one in (first, second)]
    assert {"The practical", "Put it in order", "Hear the rules"} <= set(titles[0])
    assert {"Explore in groups", "Rehearse", "Perform and record", "Our sound, and why"} <= set(titles[1])
    assert {step.title: step.minutes for step in first.steps}["The practical"] == 25
    assert not set(titles[0]) & {"Perform and record", "Explore in groups"}


def test_four_lessons_are_short_ones() -> None:
    assert [one.minutes for one in minute_plan(60, 4, Things()).lessons] == [30] * 4
    assert [one.minutes for one in minute_plan(35, 4, Things()).lessons] == [35] * 4  # short already
    assert len(offered(60, 1)) == 2 and "four short ones of 30 minutes" in offered(60, 1)[1]


def test_a_lesson_too_short_for_the_piece_says_so() -> None:
    plan = minute_plan(30, 1, Things(piece_s=1_500.0))
    assert "30 minutes hold no whole lesson" in plan.warning


def told(**changes: object) -> str:
    (one,) = minute_plan(60, 1, Things(**changes)).lessons  # type: ignore[arg-type]
    return " ".join(f"{step.title}: {step.what}" for step in one.steps)


def test_a_story_is_told_where_there_is_one() -> None:
    assert "The story: Tell it" in told()
    assert "story" not in told(story=False)


def test_what_is_silent_is_never_to_be_played() -> None:
    """Open: the groups' parts are all the pupils'."""
    lesson = sample_lesson()
    assert "half a minute of soundscape.wav" in told()
    assert say(comparing(lesson)).startswith("page.html, Hear: play stage A (the slowest), then stage B (the quickest)")
    bare = told(given="open")
    assert "soundscape.wav" not in bare and "Hear your part" not in bare
    open_beat = say(comparing(replace(lesson, scaffold="open")))
    assert open_beat.startswith("Clap the beat of stage A (the slowest), then stage B (the quickest)")
    assert "Where the box is empty" in told(given="part")


def test_no_beats_are_compared_that_cannot_be_told_apart() -> None:
    # 80 and 84 differ by 5 %: the limit of `facts.verdicts` is 6
    lesson = sample_lesson()
    tempi = tuple(replace(tempo, bpm=bpm) for tempo, bpm in zip(lesson.score.tempi, (80, 84, 82), strict=True))
    told = say(comparing(replace(lesson, score=replace(lesson.score, tempi=tempi))))
    assert "beat" not in told and told.startswith("page.html, Hear: play stage A, then stage C.")


def test_voices_and_hands_are_not_fetched() -> None:
    assert "fetch, sit, beaters down" in told()
    bodies = told(fetched=False)
    assert "fetch" not in bodies and "beaters" not in bodies and "Take places, stop signal" in bodies
