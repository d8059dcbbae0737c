"""The rhythm bank, and the hands that play it."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from sonify.arrange.hands import burst_per_s, too_fast_at, within_reach
from sonify.arrange.rhythms import breathed, rhythm, rhythms
from tests.catalogue import catalogue

BEATS_YEARS = [(beats, year) for beats in (2, 3, 4) for year in (3, 4, 5, 6)]
ROWS = catalogue()


@pytest.mark.parametrize(("beats", "year"), BEATS_YEARS)
def test_every_bar_is_full_and_in_order(beats: int, year: int) -> None:
    for bar in rhythms(beats, year):
        assert bar.hits[0][0] >= 0 and all(
            a + length <= b for (a, length), (b, _) in zip(bar.hits, bar.hits[1:], strict=False)
        )
        assert sum(len(bar.hits) for _ in "x") > 0 and bar.hits[-1][0] + bar.hits[-1][1] <= beats
        assert rhythm(bar.text).hits == bar.hits


@pytest.mark.parametrize("beats", [2, 3, 4])
def test_years_3_and_4_have_only_minims_crotchets_and_quavers(beats: int) -> None:
    lengths = {length for bar in rhythms(beats, 4) for _, length in bar.hits}
    assert lengths <= {F(4), F(3), F(2), F(1), F(1, 2)}
    quavers = [start for bar in rhythms(beats, 4) for start, length in bar.hits if length == F(1, 2)]
    assert all(start % F(1, 2) == 0 for start in quavers)


@pytest.mark.parametrize("beats", [2, 3, 4])
def test_older_years_add_dots_and_at_most_a_pair_of_semiquavers(beats: int) -> None:
    older = set(rhythms(beats, 5)) - set(rhythms(beats, 4))
    assert any(length == F(3, 2) for bar in older for _, length in bar.hits)
    assert all(sum(length == F(1, 4) for _, length in bar.hits) <= 2 for bar in older)


@pytest.mark.parametrize(("beats", "year"), BEATS_YEARS)
def test_a_breath_is_the_last_beat(beats: int, year: int) -> None:
    for bar in rhythms(beats, year):
        ending = breathed(bar, beats)
        if len(bar.hits) > 1:
            assert ending.hits[-1][0] + ending.hits[-1][1] <= beats - 1
            assert [start for start, _ in ending.hits] == [start for start, _ in bar.hits if start < beats - 1]


def test_two_a_second_for_long_and_four_for_a_moment() -> None:
    # Reference table 5.7, derived design limits (b): our own, not published.
    drum = ROWS["triangle"]
    assert (drum.fastest_per_s, burst_per_s(drum)) == (2.0, 4.0)
    assert too_fast_at([i * 0.5 for i in range(100)], drum) is None
    assert too_fast_at([i * 0.45 for i in range(100)], drum) is not None
    assert too_fast_at([i * 0.25 for i in range(8)], drum) is None
    assert too_fast_at([0.0, 0.24], drum) == 0.24


def test_even_a_quick_instrument_has_no_more_than_four_a_second() -> None:
    assert (ROWS["bongos"].fastest_per_s, burst_per_s(ROWS["bongos"])) == (3.0, 4.0)


def test_a_slow_instrument_is_slower() -> None:
    cymbals = ROWS["finger-cymbals"]
    assert too_fast_at([i * 1.0 for i in range(50)], cymbals) is None
    assert too_fast_at([i * 0.5 for i in range(50)], cymbals) is not None


def test_within_reach_keeps_what_can_be_played() -> None:
    drum = ROWS["triangle"]
    times = [i * 0.125 for i in range(200)]
    kept = [time for time, can in zip(times, within_reach(times, drum), strict=True) if can]
    assert too_fast_at(kept, drum) is None
    assert len(kept) == pytest.approx(2.0 * times[-1], rel=0.15)
