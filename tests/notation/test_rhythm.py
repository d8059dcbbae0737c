"""Note values, rests and beams, against the rules of notation (common practice)."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.notation.rhythm import VALUES, beam_groups, beam_words, note_values, rest_values

EIGHTHS = st.integers(min_value=0, max_value=31)

# start, length -> values, all in beats
WRITTEN = [
    ("0", "4", "4"),
    ("0", "3", "3"),
    ("1", "2", "2"),
    ("0", "3/2", "3/2"),
    ("0", "5/2", "2 1/2"),
    ("0", "5/4", "1 1/4"),
    ("0", "7/4", "1 3/4"),
    ("1/2", "1", "1/2 1/2"),
    ("3/4", "1/2", "1/4 1/4"),
    ("1/4", "1/2", "1/2"),
    ("5/4", "3/4", "3/4"),
    ("0", "5/8", "1/2 1/8"),
]


@pytest.mark.parametrize(("start", "beats", "values"), WRITTEN)
def test_a_note_is_written_so_that_every_beat_can_be_seen(start: str, beats: str, values: str) -> None:
    assert [str(value) for value in note_values(F(start), F(beats))] == values.split()


@given(EIGHTHS, st.integers(min_value=1, max_value=32))
def test_values_add_up_and_exist(start: int, length: int) -> None:
    length = min(length, 32 - start)
    values = list(note_values(F(start, 8), F(length, 8)))
    assert sum(values) == F(length, 8)
    assert set(values) <= set(VALUES)
    at = F(start, 8)
    for value in values:
        assert at % 1 == 0 or at // 1 == (at + value - F(1, 8)) // 1, "crosses a beat it does not begin on"
        at += value


RESTS = [
    ("0", "4", 4, "2 2"),
    ("1", "3", 4, "1 2"),
    ("0", "2", 3, "1 1"),
    ("1/4", "3/4", 4, "1/4 1/2"),
    ("0", "3/4", 4, "1/2 1/4"),
    ("1/8", "7/8", 2, "1/8 1/4 1/2"),
]


@pytest.mark.parametrize(("start", "beats", "metre", "values"), RESTS)
def test_rests_begin_on_multiples_of_themselves(start: str, beats: str, metre: int, values: str) -> None:
    assert [str(value) for value in rest_values(F(start), F(beats), metre)] == values.split()


@given(EIGHTHS, st.integers(min_value=1, max_value=32))
def test_rests_fill_the_gap(start: int, length: int) -> None:
    length = min(length, 32 - start)
    at = F(start, 8)
    for value in rest_values(at, F(length, 8), 4):
        assert at % value == 0
        at += value
    assert at == F(start + length, 8)


def test_short_notes_of_a_beat_share_a_beam() -> None:
    quavers_then_crotchet = [(F(0), F(1, 2), False), (F(1, 2), F(1, 2), False), (F(1), F(1), False)]
    assert beam_groups(quavers_then_crotchet) == [[0, 1]]
    across_the_beat = [(F(1, 2), F(1, 2), False), (F(1), F(1, 2), False)]
    assert beam_groups(across_the_beat) == []
    round_a_rest = [
        (F(0), F(1, 4), False),
        (F(1, 4), F(1, 4), True),
        (F(1, 2), F(1, 4), False),
        (F(3, 4), F(1, 4), False),
    ]
    assert beam_groups(round_a_rest) == [[2, 3]]


@pytest.mark.parametrize(
    ("flags", "words"),
    [
        ([1, 1], [["begin"], ["end"]]),
        ([2, 2, 2, 2], [["begin", "begin"], ["continue"] * 2, ["continue"] * 2, ["end", "end"]]),
        ([2, 1, 2], [["begin", "forward hook"], ["continue"], ["end", "backward hook"]]),
    ],
)
def test_beams_begin_go_on_and_end(flags: list[int], words: list[list[str]]) -> None:
    assert beam_words(flags) == words
