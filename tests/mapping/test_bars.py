"""Bars for stages: the length is met, a stage has four bars where there is room, shares are kept."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.mapping.timemap import LEAST_BARS, length_for_least_bars, seconds, stage_bars

STAGES = st.integers(1, 9).flatmap(
    lambda n: st.tuples(
        st.lists(st.floats(30, 240), min_size=n, max_size=n),
        st.lists(st.floats(0.2, 5.0), min_size=n, max_size=n),
    )
)


@given(STAGES, st.sampled_from([2, 3, 4]), st.floats(30, 3600))
def test_length_is_met_within_ten_per_cent_wherever_whole_bars_can(
    drawn: tuple[list[float], list[float]], beats: int, length_s: float
) -> None:
    bpms, shares = drawn
    bar_s = [60.0 * beats / bpm for bpm in bpms]
    bars = stage_bars(bar_s, shares, length_s)
    assert all(count >= 1 for count in bars)
    missed = abs(seconds(bars, bar_s) / length_s - 1.0)
    # One bar a stage may be too long already; apart from that, whole bars come within half the longest bar.
    shortest = sum(bar_s)
    assert missed <= 0.10 or shortest > 1.05 * length_s or max(bar_s) / 2.0 > 0.05 * length_s


@given(STAGES, st.floats(30, 3600))
def test_every_stage_has_four_bars_where_there_is_room(drawn: tuple[list[float], list[float]], length_s: float) -> None:
    bpms, shares = drawn
    bar_s = [240.0 / bpm for bpm in bpms]
    if LEAST_BARS * sum(bar_s) <= length_s:
        bars = stage_bars(bar_s, shares, length_s)
        assert min(bars) >= LEAST_BARS


@given(STAGES)
def test_the_length_offered_for_four_bars_gives_four_bars(drawn: tuple[list[float], list[float]]) -> None:
    bar_s = [240.0 / bpm for bpm in drawn[0]]
    assert min(stage_bars(bar_s, drawn[1], length_for_least_bars(bar_s))) >= LEAST_BARS


def test_stages_come_in_phrases_of_two_bars_where_they_can() -> None:
    bars = stage_bars([3.0, 2.5, 2.5, 3.5, 2.0], [1, 1, 1, 1, 1], 180.0)
    assert all(count % 2 == 0 for count in bars)


def test_a_stage_of_twice_the_share_has_about_twice_the_bars() -> None:
    bars = stage_bars([2.5] * 4, [1, 2, 1, 1], 300.0)
    assert bars == (24, 48, 24, 24)


@given(STAGES, st.floats(300, 3600))
def test_bars_follow_the_shares_within_a_phrase(drawn: tuple[list[float], list[float]], length_s: float) -> None:
    bpms, shares = drawn
    bars = stage_bars([240.0 / bpm for bpm in bpms], shares, length_s)
    ideal = [share / sum(shares) * sum(bars) for share in shares]
    if min(ideal) >= LEAST_BARS:
        assert max(abs(have - want) for have, want in zip(bars, ideal, strict=True)) <= 2.0 + 1e-9


def test_a_length_too_short_for_four_bars_comes_before_the_bars() -> None:
    # five stages of two-second bars in 30 s: three bars each
    assert stage_bars([2.0] * 5, [1] * 5, 30.0) == (3, 3, 3, 3, 3)


def test_a_length_too_short_for_any_bars_gives_one_each() -> None:
    assert stage_bars([8.0] * 9, [1] * 9, 30.0) == (1,) * 9


def test_one_stage_takes_it_all() -> None:
    assert stage_bars([2.0], [3.0], 60.0) == (30,)


def test_the_length_for_four_bars_is_rounded_up() -> None:
    # four bars each of 2.5 and 2.6 s are 20.4 s
    assert length_for_least_bars([2.5, 2.6]) == 25


@pytest.mark.parametrize("stages", [1, 5, 12])
def test_an_hour_is_divided_too(stages: int) -> None:
    bar_s = [2.0 + 0.1 * n for n in range(stages)]
    assert seconds(stage_bars(bar_s, [1.0] * stages, 3600.0), bar_s) == pytest.approx(3600.0, rel=0.01)
