"""Exact time: beats to seconds and back."""

from __future__ import annotations

from fractions import Fraction as F

import mido
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.records.clock import Clock, Tempo, microseconds

CLOCK = Clock(beats_a_bar=4, count_in_bars=2, tempi=(Tempo(bar=1, bpm=60), Tempo(bar=3, bpm=120)))


@pytest.mark.parametrize("bpm", [40, 60, 66, 90, 112, 132, 208])
def test_a_tempo_is_stored_as_the_mido_library_stores_it(bpm: float) -> None:
    assert microseconds(bpm) == mido.bpm2tempo(bpm)


def test_seconds_by_hand() -> None:
    # eight count-in beats and two bars at 60 take 16 s; then half a second a beat
    assert CLOCK.seconds(-8) == 0
    assert CLOCK.seconds(0) == 8
    assert CLOCK.seconds(8) == 16
    assert CLOCK.seconds(F(17, 2)) == F(65, 4)


@given(st.fractions(min_value=-8, max_value=64, max_denominator=16))
def test_beat_at_undoes_seconds(beat: F) -> None:
    assert CLOCK.beat_at(CLOCK.seconds(beat)) == beat


@given(st.lists(st.fractions(min_value=-8, max_value=64, max_denominator=16), min_size=2, max_size=20))
def test_time_never_runs_backwards(beats: list[F]) -> None:
    ordered = sorted(beats)
    assert CLOCK.many_seconds(ordered) == sorted(CLOCK.many_seconds(ordered))


@given(st.lists(st.fractions(min_value=-8, max_value=64, max_denominator=16), max_size=20))
def test_floats_are_the_nearest_to_the_exact_seconds(beats: list[F]) -> None:
    # Fraction.__float__ divides whole numbers, which Python rounds correctly: an outside witness of our shorter way.
    assert CLOCK.float_seconds(beats) == [float(second) for second in CLOCK.many_seconds(beats)]


def test_bars_count_from_one_and_the_count_in_lies_before() -> None:
    assert CLOCK.bar_and_beat(0) == (1, 1)
    assert CLOCK.bar_and_beat(F(23, 2)) == (3, F(9, 2))
    assert CLOCK.bar_and_beat(-1) == (0, 4)
    assert CLOCK.beat_of_bar(3) == 8


def test_a_clock_without_a_tempo_at_bar_one_is_refused() -> None:
    with pytest.raises(ValueError, match="bar 1"):
        Clock(beats_a_bar=4, count_in_bars=2, tempi=(Tempo(bar=2, bpm=60),))
