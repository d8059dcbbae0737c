"""What a piece promises and a class cannot have is told as a problem, and what mends it does. Limits: ours."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sonify.arrange import promised
from sonify.records.findings import Finding
from sonify.records.score import Cue
from sonify.say import say
from tests.benchmarks.arranging import Take, classes, named_unheard, rests_without_cause, rules_untold, take

TOLD = {"play-named-unheard", "play-untold", "play-signs-at-once", "play-long-wait"}


def told(findings: tuple[Finding, ...]) -> set[tuple[str, object]]:
    return {(str(m), f.part) for f in findings if (m := getattr(f.message, "message", "")) in TOLD}


def two_groups(scene: str, label: str = "few-instruments", groups: int = 2) -> Take:
    return take(scene, replace(classes()[label], groups=groups))


@pytest.mark.parametrize(
    ("scene", "part"), [("desert-island-water", "The cup"), ("chocolate-in-warm-water", "The pool")]
)
def test_what_two_groups_cannot_play_is_told_and_as_many_groups_as_parts_mend_it(scene: str, part: str) -> None:
    one = two_groups(scene)
    assert named_unheard(one) and rules_untold(one), "the benchmark's own reading, by other code"
    assert {("play-named-unheard", part), ("play-untold", part)} <= told(one.findings)
    assert not told(two_groups(scene, groups=len(one.scene.parts)).findings)


def test_more_signs_than_two_hands_are_told() -> None:
    assert ("play-signs-at-once", "") in told(two_groups("valley-snow-melt", "empty cupboard").findings)


@pytest.mark.parametrize("label", list(classes()))
@pytest.mark.parametrize("scene", ["two-cups", "ice-rink-particles", "the-race-round-the-sun"])
def test_the_usual_classes_are_told_nothing(scene: str, label: str) -> None:
    assert not told(take(scene, classes()[label]).findings)


def test_a_group_that_waits_for_long_is_told() -> None:
    score = take("two-cups", classes()["well-stocked"]).score
    beats, first = score.metre.beats, score.group_parts[0].group
    parts = tuple(
        replace(part, notes=tuple(n for n in part.notes if not 10 * beats <= n.beat < 30 * beats and n.beats < 9))
        if part.group == first
        else part
        for part in score.parts
    )
    (wait,) = promised._waiting(replace(score, parts=parts))
    assert "20 bars" in say(wait.message)
    assert not [*promised._waiting(score)]


def test_louder_and_softer_are_no_signs_that_are_counted() -> None:
    score = take("two-cups", classes()["well-stocked"]).score
    like = next(cue for cue in score.cues if cue.action == "enter")

    def with_three(action: str) -> list[Finding]:
        cues = tuple(replace(like, bar=7, beat=Fraction(1), action=action) for _ in range(3))
        return [*promised._signs(replace(score, cues=cues))]

    assert isinstance(like, Cue) and with_three("enter") and not with_three("louder")


def test_a_heart_that_beats_every_second_time_for_a_slow_drum_is_told() -> None:
    slow = two_groups("playground-pulse", "well-stocked", groups=3)
    (told_of,) = [f for f in slow.findings if getattr(f.message, "message", "") == "play-second-beats"]
    assert told_of.part == "The heart" and not told_of.serious and "bass drums are slow" in say(told_of.message)
    for classroom in classes().values():
        found = take("playground-pulse", classroom).findings
        assert not [f for f in found if getattr(f.message, "message", "") == "play-second-beats"]


@pytest.mark.parametrize("scene", ["two-cups", "the-race-round-the-sun"])
def test_compared_parts_do_not_wait_at_the_start_for_one_that_could_be_heard_later(scene: str) -> None:
    assert rests_without_cause(take(scene, classes()["empty cupboard"])) == 0
