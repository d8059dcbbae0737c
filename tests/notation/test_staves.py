"""The Score as staves: nothing struck is lost, bars are full, voices never overlap."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import OutOfRange
from sonify.notation.lines import lines_of
from sonify.notation.staves import Staff, staff
from sonify.records.score import Note, Part, Score
from tests.catalogue import catalogue
from tests.sample import sample_score

STROKES = st.lists(
    st.tuples(st.integers(0, 95), st.integers(1, 80), st.integers(60, 63), st.integers(0, 3)), max_size=12
)


def score_of(instrument: str, *notes: Note) -> Score:
    part = Part(name="part", group=1, instrument=instrument, texture="melody", notes=notes)
    return replace(sample_score(), parts=(part,), instruments=catalogue().instruments, count_in_bars=0, bars=3)


def staff_of(score: Score) -> Staff:
    return staff(score, lines_of(score, score.parts[0])[0])


def struck(found: Staff) -> set[tuple[F, int]]:
    return {
        ((bar.number - 1) * 4 + piece.start, midi)
        for bar in found.bars
        for piece in bar.pieces
        for midi in piece.notes
        if midi not in piece.tied_in
    }


def written(found: Staff, bar: int) -> list[tuple[str, str]]:
    pieces = next(b.pieces for b in found.bars if b.number == bar)
    return [(" ".join(map(str, piece.notes)) or "rest", str(piece.beats)) for piece in pieces]


@pytest.mark.parametrize("instrument", ["alto-xylophone", "recorder", "egg-shaker"])
@given(strokes=STROKES)
def test_every_stroke_is_written_once_and_bars_are_full(
    instrument: str, strokes: list[tuple[int, int, int, int]]
) -> None:
    notes = [
        Note(beat=F(start, 8), beats=F(length, 8), midi=midi, velocity=64, player=player)
        for start, length, midi, player in sorted(strokes)
    ]
    found = staff_of(score_of(instrument, *notes))
    assert struck(found) == {(note.beat, note.midi) for note in notes}
    tied: frozenset[int] = frozenset()
    for bar in found.bars:
        at = F(0)
        for piece in bar.pieces:
            assert piece.start == at
            assert piece.tied_in == tied, "every tie arrives at the very next note"
            tied = piece.tied_out
            at += piece.beats
        assert at == 4
    assert not tied


def test_players_together_are_one_notehead() -> None:
    together = [Note(beat=F(0), beats=F(1, 4), midi=70, velocity=64, player=player) for player in (1, 2, 3)]
    assert written(staff_of(score_of("egg-shaker", *together)), 1)[0] == ("70", "1")


def test_taps_are_written_up_to_the_next_without_clutter() -> None:
    taps = [Note(beat=F(s, 4), beats=F(1, 4), midi=70, velocity=64) for s in (0, 1, 3, 6)]
    assert written(staff_of(score_of("egg-shaker", *taps)), 1) == [
        ("70", "1/4"),
        ("70", "1/2"),
        ("70", "1/4"),
        ("rest", "1/2"),
        ("70", "1/2"),
        ("rest", "2"),
    ]


def test_a_held_note_is_tied_on_below_a_moving_one_but_a_struck_bar_is_not() -> None:
    low = Note(beat=F(0), beats=F(2), midi=60, velocity=64)
    high = Note(beat=F(1), beats=F(1), midi=64, velocity=64)
    assert written(staff_of(score_of("keyboard", low, high)), 1)[:2] == [("60", "1"), ("60 64", "1")]
    assert written(staff_of(score_of("alto-xylophone", low, high)), 1)[:2] == [("60", "1"), ("64", "1")]


def test_a_drone_is_tied_over_the_bar_line() -> None:
    found = staff_of(score_of("keyboard", Note(beat=F(2), beats=F(7), midi=48, velocity=64)))
    assert [written(found, bar) for bar in (1, 2, 3)] == [
        [("rest", "2"), ("48", "2")],
        [("48", "4")],
        [("48", "1"), ("rest", "1"), ("rest", "2")],
    ]


def test_lengths_off_the_grid_are_rounded_but_onsets_off_it_refused() -> None:
    tapped = Note(beat=F(0), beats=F(9, 10), midi=60, velocity=64)
    assert written(staff_of(score_of("alto-xylophone", tapped)), 1)[0] == ("60", "3/4")
    uneven = replace(tapped, beat=F(13, 3))
    with pytest.raises(OutOfRange, match=r"beat of a note of part in bar 2 is 1\.33.*eighths of a beat"):
        staff_of(score_of("alto-xylophone", uneven))


def test_blank_bars_are_marked_and_silent() -> None:
    score = sample_score(with_blank=True)
    cloud = staff(score, lines_of(score, score.parts[3])[0])
    assert [bar.number for bar in cloud.bars if bar.blank] == [9, 10]
    assert all(bar.silent for bar in cloud.bars if bar.blank)


def test_count_in_bars_come_before_bar_one() -> None:
    score = sample_score()
    numbers = [bar.number for bar in staff(score, lines_of(score, score.parts[0])[0]).bars]
    assert numbers == list(range(-1, 13))
