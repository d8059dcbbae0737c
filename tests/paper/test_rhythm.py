"""Box notation and loudness lines."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest

from sonify.paper import loudness
from sonify.paper.rhythm import boxes, boxes_a_beat, letter, taps
from sonify.records.score import DynamicMark, Note
from tests.catalogue import catalogue
from tests.sample import sample_score

XYLOPHONE = catalogue()["alto-xylophone"]  # sounds C4 (60) to A5 (81)
SHAKER = catalogue()["egg-shaker"]


def labels(found: dict[str, Any]) -> list[list[str]]:
    return [cell["sounds"] for row in found["rows"] for cell in row]


@pytest.mark.parametrize(
    ("beats", "each"), [((F(0), F(1)), 1), ((F(0), F(1, 2)), 2), ((F(1, 3),), 3), ((F(1, 2), F(1, 4)), 4)]
)
def test_a_beat_has_as_few_boxes_as_its_sounds_need(beats: tuple[F, ...], each: int) -> None:
    assert boxes_a_beat([(beat, F(1), 60) for beat in beats]) == each


def test_boxes_are_counted_as_musicians_count() -> None:
    # common practice: "1 & 2 &" for halves, "1 e & a" for quarters of a beat
    halves = boxes([(F(1, 2), F(1, 2), 60)], 2, 4, XYLOPHONE)
    assert [cell["count"] for cell in halves["rows"][0]] == ["1", "&", "2", "&"]
    quarters = boxes([(F(1, 4), F(1, 4), 60)], 1, 4, XYLOPHONE)
    assert [cell["count"] for cell in quarters["rows"][0]] == ["1", "e", "&", "a"]


def test_sounds_stand_in_the_box_where_they_begin() -> None:
    found = boxes([(F(0), F(1), 60), (F(3, 2), F(1, 2), 67), (F(3, 2), F(1, 2), 64)], 2, 4, XYLOPHONE)
    assert labels(found) == [["C"], [], [], ["G", "E"]]


def test_the_higher_of_two_bars_with_one_letter_is_marked() -> None:
    assert letter(60, XYLOPHONE) == "C"
    assert letter(72, XYLOPHONE) == "C′"
    assert letter(81, XYLOPHONE) == "A′"
    assert letter(73, catalogue()["alto-glockenspiel"]) == "C♯"
    assert boxes([(F(0), F(1), 72)], 1, 4, XYLOPHONE)["marked"] is True


def test_an_instrument_of_many_octaves_has_them_numbered() -> None:
    assert letter(60, catalogue()["keyboard"]) == "C4"


def test_an_unpitched_sound_is_a_dot_without_a_letter() -> None:
    found = boxes([(F(0), F(1), 70)], 1, 4, SHAKER)
    assert labels(found) == [[""]] and found["pitched"] is False
    assert found["alt"] == "bar 1 count 1: a tap"


def test_only_instruments_that_can_hold_a_sound_show_it_held() -> None:
    def held(name: str) -> list[bool]:
        row = catalogue()[name]
        return [cell["held"] for cell in boxes([(F(0), F(3), 64)], 4, 4, row)["rows"][0]]

    assert held("voices-oo") == [False, True, True, False]
    assert held("alto-xylophone") == [False] * 4


@pytest.mark.parametrize(("each", "most", "in_row"), [(1, 16, 16), (2, 16, 16), (4, 16, 16), (4, 8, 8), (8, 16, 16)])
def test_rows_hold_whole_bars_or_whole_beats(each: int, most: int, in_row: int) -> None:
    found = boxes([(F(1, each), F(1, each), 60)], 16, 4, XYLOPHONE, most_in_row=most)
    assert found["in_row"] == in_row
    assert in_row % each == 0
    assert sum(len(row) for row in found["rows"]) == 16 * each


def test_every_free_tap_is_drawn_where_it_falls() -> None:
    rain = next(part for part in sample_score().parts if part.name == "The rain")
    bars = taps(rain, 7, 4, 4)
    assert sum(len(bar["dots"]) for bar in bars) == len(rain.notes)
    together = replace(rain, notes=(Note(beat=F(26), beats=F(1, 4), midi=70, velocity=80),))
    assert taps(together, 7, 1, 4) == [{"bar": 7, "dots": [[0.5, 0.5]]}]


def test_loudness_holds_its_mark_and_grows_along_a_hairpin() -> None:
    score = sample_score()
    part = replace(
        score.parts[1],
        dynamics=(
            DynamicMark(bar=1, mark="p"),
            DynamicMark(bar=5, mark="p", hairpin="cresc"),
            DynamicMark(bar=9, mark="f"),
        ),
    )
    line = loudness.corners(part, score)
    p, f = 44 / 108, 89 / 108  # the velocities that the marks stand for, as a share of ff
    assert loudness.levels(line, 1, 13) == [[1, p], [5, p], [5, p], [9, f], [13, f]]
    assert loudness.levels(line, 7, 9) == [[7, pytest.approx((p + f) / 2)], [9, f]]


def test_a_jump_of_loudness_is_upright() -> None:
    score = sample_score()
    part = replace(score.parts[1], dynamics=(DynamicMark(bar=1, mark="p"), DynamicMark(bar=3, mark="f")))
    line = loudness.corners(part, score)
    p, f = 44 / 108, 89 / 108
    assert loudness.levels(line, 1, 5) == [[1, p], [3, p], [3, f], [5, f]]
    assert loudness.levels(line, 1, 3)[-1] == [3, p]
    assert loudness.levels(line, 3, 5)[0] == [3, f]


def test_without_marks_the_line_is_even() -> None:
    assert loudness.levels([], 1, 3) == [[1, 70 / 108], [3, 70 / 108]]
