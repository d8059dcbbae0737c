"""The half circle: where groups sit, what they play, and how they look."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sonify.page.document import group_rows, instruments_text, part_rows, seat
from sonify.page.hatching import TILES, pattern
from sonify.records.palette import HATCHINGS
from sonify.records.score import Seat
from tests.page.large import large_lesson
from tests.page.lessons import palette
from tests.sample import sample_score
from tests.studies import studied


@pytest.mark.parametrize("groups", [1, 2, 5, 10])
def test_groups_stand_on_a_half_circle_from_left_to_right(groups: int) -> None:
    seats = [seat(place, groups) for place in range(groups)]
    for (across, up), (mirrored, level) in zip(seats, reversed(seats), strict=True):
        assert (2 * across - 1) ** 2 + up**2 == pytest.approx(1.0, abs=1e-3)
        assert across == pytest.approx(1 - mirrored, abs=1e-4)
        assert up == pytest.approx(level, abs=1e-4)
    assert [across for across, _ in seats] == sorted(across for across, _ in seats)


def test_a_group_with_two_parts_is_one_group_with_all_its_instruments() -> None:
    rows = group_rows(sample_score(), palette())
    assert [row["number"] for row in rows] == [1, 2, 3, 4]
    assert rows[3]["name"] == "The rain and The storm"
    assert rows[3]["instruments"] == "4 egg shakers, suspended cymbal"
    assert rows[0]["hatching"] == "rising lines"


def test_fewer_instruments_than_players_say_who_shares() -> None:
    score = sample_score()
    sea = score.parts[1]
    two = replace(
        sea,
        seats=(Seat(instrument="ocean-drum", players=3, count=2), Seat(instrument="ocean-drum", players=1, count=1)),
    )
    parts = tuple(two if part is sea else part for part in score.parts)
    rows = group_rows(replace(score, parts=parts), palette())
    assert rows[0]["sharing"] == "3 players at 2 ocean drums: take turns"


def test_a_part_without_seats_still_names_its_instrument() -> None:
    score = sample_score()
    assert instruments_text([replace(score.parts[1], seats=())], score) == "ocean drum"


def test_parts_keep_the_scores_order_for_the_events_that_point_at_them() -> None:
    score = sample_score()
    assert [row["name"] for row in part_rows(score)] == [part.name for part in score.parts]
    assert part_rows(score)[0]["spans"] == []


def test_every_hatching_of_the_palette_can_be_drawn() -> None:
    assert set(TILES) == set(HATCHINGS)
    for style in palette():
        text = pattern(style, "hatch-1")
        assert style.colour in text
        assert text.count("<") == text.count(">") > 3


def test_ten_groups_can_be_told_apart_by_number() -> None:
    rows = group_rows(large_lesson().score, palette())
    assert [row["number"] for row in rows] == list(range(1, 11))


def test_a_group_is_named_by_its_parts_and_its_number_stands_beside_them_once() -> None:
    """ "The spoon and The pulse, group 6" stood beside the badge 6; four parts were joined by three "and"."""
    names = [row["name"] for row in group_rows(studied("ice-rink-particles", "few-instruments").score, palette())]
    assert "The knocks and The pulse" in names
    assert not any(", group" in name or name.count(" and The") > 1 for name in names)
