"""The checker finds each fault that is planted in a playable Score."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest

from sonify.arrange import playability
from sonify.arrange.arranging import repaired
from sonify.records.classroom import Classroom
from sonify.records.score import Entry, Note, Part, Pattern, Score, Seat
from sonify.records.score_invariants import faults
from sonify.say import say
from tests.arrange.lessons import WATER, cupboard, well_stocked
from tests.benchmarks.arranging import take
from tests.sample import sample_lesson

SCORE = WATER.score()
CLASS = WATER.classroom


def changed(name: str, **changes: Any) -> Score:
    assert any(p.name == name for p in SCORE.parts)
    return replace(SCORE, parts=tuple(replace(p, **changes) if p.name == name else p for p in SCORE.parts))


def without_pulse(score: Score) -> Score:
    return replace(score, parts=tuple(p for p in score.parts if not p.pulse))


def named(name: str) -> Part:
    return next(p for p in SCORE.parts if p.name == name)


def quick(count: int, gap: F, *, midi: int = 54, player: int = 1) -> tuple[Note, ...]:
    return tuple(
        Note(beat=F(160) + i * gap, beats=gap, midi=midi, velocity=60, instrument="tambourine", player=player)
        for i in range(count)
    )


def test_what_is_arranged_is_playable() -> None:
    assert [f for f in playability(SCORE, CLASS) if f.serious] == []


SEATS = named("The rain").seats
VAPOUR = named("Rising vapour")
CLOUD = named("The cloud")
PLANTED = [
    (without_pulse(changed("The rain", seats=(replace(SEATS[0], players=4),))), "hold 27 pupils", "groups"),
    (changed("The rain", seats=(replace(SEATS[0], players=9, count=9),)), "Groups of", "groups"),
    (changed("The rain", seats=(*SEATS, Seat(instrument="claves", players=0, count=1))), "0 pupils", "seats"),
    (changed("The rain", seats=(replace(SEATS[0], count=3),)), "5 pupils on 3 tambourines", "seats"),
    (
        changed("The rain", seats=(Seat(instrument="alto-xylophone", players=5, count=3),)),
        "need 6 alto xylophones; the cupboard has 3",
        "cupboard",
    ),
    (
        changed("The rain", patterns=tuple(Pattern(number=i + 1, bars=1, hits=((F(0), F(1), 54),)) for i in range(4))),
        "must learn 4 patterns",
        "group 4",
    ),
    (
        changed("Rising vapour", notes=(replace(VAPOUR.notes[0], midi=84), *VAPOUR.notes[1:])),
        "C6 is outside the alto xylophone (C4 to A5)",
        "bar 1",
    ),
    (
        changed("Rising vapour", notes=(replace(VAPOUR.notes[0], midi=61), *VAPOUR.notes[1:])),
        "C♯4 is not among the bars",
        "bar 1",
    ),
    (changed("The rain", notes=quick(30, F(1, 4))), "Too fast for one pupil on a tambourine", "bar 41"),
    (changed("The rain", notes=quick(60, F(1, 2))), "Too fast for one pupil on a tambourine", "bar 4"),
    (changed("The rain", notes=(*quick(1, F(1)), *quick(1, F(1), midi=55))), "2 sounds at once", "bar 41"),
    (
        changed("The rain", notes=(replace(quick(1, F(1))[0], instrument="claves", midi=75),)),
        "given a stroke on another",
        "bar 41",
    ),
    (
        changed(
            "The sea",
            notes=tuple(Note(beat=F(b), beats=F(4), midi=69, velocity=60, instrument="ocean-drum") for b in (0, 3)),
        ),
        "struck while it still sounds",
        "bar 1",
    ),
    (changed("The rain", entries=(Entry(bar=25, bars=12),)), "outside every entry", "bar 37"),
    (changed("The rain", entries=(*named("The rain").entries, Entry(bar=60, bars=9))), "leaves the piece", "bar 60"),
]


@pytest.mark.parametrize(("score", "words", "where"), PLANTED, ids=[words for _, words, _ in PLANTED])
def test_each_planted_fault_is_found_with_its_place_and_a_fix(score: Score, words: str, where: str) -> None:
    found = [finding for finding in playability(score, CLASS) if words in say(finding.message)]
    assert found, [say(finding.message) for finding in playability(score, CLASS)]
    assert found[0].serious and say(found[0].fix) and say(found[0].where).startswith(where)


def test_taking_turns_is_counted() -> None:
    fast = tuple(Note(beat=F(160) + F(i, 2), beats=F(1, 2), midi=54, velocity=60) for i in range(60))
    alone = changed("The rain", notes=fast)
    assert any("Too fast" in say(finding.message) for finding in playability(alone, CLASS))
    turns = changed("The rain", notes=fast, seats=(replace(SEATS[0], at_once=2, turn_bars=1),))
    assert not any("Too fast" in say(finding.message) for finding in playability(turns, CLASS))


def test_a_sudden_loud_sound_is_found() -> None:
    calm = replace(WATER, classroom=well_stocked(needs=("no sudden loud sounds",))).score()
    rain = next(p for p in calm.parts if p.name == "The rain")
    for at, velocity in ((0, 70), (len(rain.notes) // 2, 100)):
        notes = list(rain.notes)
        notes[at] = replace(notes[at], velocity=velocity)
        loud = replace(calm, parts=tuple(replace(p, notes=tuple(notes)) if p is rain else p for p in calm.parts))
        assert any("sudden loud sound" in say(finding.message) for finding in playability(loud, CLASS))


def test_a_tune_on_one_breath_is_found() -> None:
    long = tuple(
        Note(beat=F(40 + 2 * i), beats=F(2), midi=72, velocity=60, instrument="recorder", player=0) for i in range(20)
    )
    blown = changed(
        "The cloud", notes=long, instrument="recorder", seats=(Seat(instrument="recorder", players=6, count=6),)
    )
    row = next(r for r in sample_rows() if r.id == "recorder")
    blown = replace(blown, instruments=(*blown.instruments, row))
    class_with = replace(CLASS, cupboard=(*CLASS.cupboard, *cupboard(recorder=6)))
    assert any("on one breath" in say(finding.message) for finding in playability(blown, class_with))


@pytest.mark.parametrize("scene", ["desert-island-water", "which-cloth-drinks-most"])
def test_a_breath_is_left_where_a_short_trimming_leads_into_a_bar(scene: str) -> None:
    """Recorders on the stretch line held out for more than nine seconds (seed 78)."""
    held = {"alto-glockenspiel": 2, "recorder": 6, "hand-drum": 4, "wood-block": 3, "ukulele": 6, "egg-shaker": 8}
    stocks = cupboard(**{name.replace("-", "_"): count for name, count in held.items()})
    year6 = Classroom(year=6, pupils=29, groups=6, line="stretch", name="year 6", cupboard=stocks)
    one = take(scene, year6, 78)
    told = [say(finding.message) for finding in playability(one.score, year6) if finding.serious]
    assert not any("one breath" in each for each in told)


def sample_rows() -> tuple[Any, ...]:
    from tests.catalogue import catalogue

    return catalogue().instruments


def test_repairs_take_out_what_cannot_be_reached_and_say_so() -> None:
    broken = changed("The rain", notes=quick(30, F(1, 4)))
    mended, findings = repaired(broken)
    assert not any("Too fast" in say(finding.message) for finding in playability(mended, CLASS))
    assert "strokes are left out" in say(findings[0].message) and not findings[0].serious
    assert findings[0].part == "The rain" and say(findings[0].where) == "bar 41"
    assert not faults(mended)


def test_repairs_leave_a_playable_score_alone() -> None:
    mended, findings = repaired(SCORE)
    assert mended == SCORE and findings == ()


def test_a_hand_made_score_can_be_checked_too() -> None:
    """The sample of the output rooms was made by hand: its sea has five pupils on two drums, all at once."""
    lesson = sample_lesson()
    messages = [say(finding.message) for finding in playability(lesson.score, lesson.classroom)]
    assert "5 pupils on 2 ocean drums; one takes 1." in messages


def test_who_mostly_waits_is_said_and_is_no_fault() -> None:
    """The rain sounds in bars 37 to 52 at 72 beats a minute, 53 seconds: by turns, one of five, 11 seconds each."""
    turns = without_pulse(changed("The rain", seats=(replace(SEATS[0], at_once=1, turn_bars=2),)))
    told = [f for f in playability(turns, CLASS) if "pupils in group" in say(f.message) and f.part == "The rain"]
    assert told and not told[0].serious and "seconds" in say(told[0].message)
    assert not any("pupils in group" in say(f.message) and f.part == "The sea" for f in playability(SCORE, CLASS))
