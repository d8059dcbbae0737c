"""The scale on an instrument. Bars supplied and swap bars: Schulwerk practice (reference table 5.4, from memory)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.arrange.pitches import bars_sentence, fitted, tuning
from sonify.records.scene import Scale
from sonify.say import say
from tests.catalogue import catalogue

PENTATONIC = Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9))
G_MAJOR = Scale(name="G major", tonic=7, pitch_classes=(7, 9, 11, 0, 2, 4, 6))
F_MAJOR = Scale(name="F major", tonic=5, pitch_classes=(5, 7, 9, 10, 0, 2, 4))
D_MAJOR = Scale(name="D major", tonic=2, pitch_classes=(2, 4, 6, 7, 9, 11, 1))
ROWS = catalogue()


@pytest.mark.parametrize(
    ("name", "scale", "sentence"),
    [
        ("alto-xylophone", PENTATONIC, "Alto xylophone: take off F and B."),
        ("chime-bars", PENTATONIC, "Set of chime bars: leave out F and B."),
        ("alto-xylophone", G_MAJOR, "Alto xylophone: put on F♯ in place of F."),
        ("alto-glockenspiel", F_MAJOR, "Alto glockenspiel: put on B♭ in place of B."),
        ("recorder", G_MAJOR, ""),
    ],
)
def test_bars_to_take_off_and_put_on(name: str, scale: Scale, sentence: str) -> None:
    assert say(bars_sentence(ROWS[name], tuning(ROWS[name], scale)) or "") == sentence


def test_the_pentatonic_on_an_alto_xylophone_is_c_d_e_g_a() -> None:
    assert tuning(ROWS["alto-xylophone"], PENTATONIC).notes == (60, 62, 64, 67, 69, 72, 74, 76, 79, 81)


def test_what_a_diatonic_set_lacks_is_said() -> None:
    assert tuning(ROWS["alto-xylophone"], D_MAJOR).missing == (1,)
    assert tuning(ROWS["tuned-tubes"], F_MAJOR).missing == ()
    assert tuning(ROWS["hand-bells"], F_MAJOR).missing == (10,)  # bells have no swap bars
    assert tuning(ROWS["keyboard"], D_MAJOR).missing == ()


def test_a_swap_bar_stays_off_where_the_scale_wants_its_neighbour() -> None:
    both = Scale(name="odd", tonic=0, pitch_classes=(0, 5, 6, 10))
    notes = tuning(ROWS["alto-xylophone"], both)
    assert notes.on == (10,) and notes.missing == (6,)
    assert {note % 12 for note in notes.notes} == {0, 5, 10}


def test_a_fifth_is_a_fifth() -> None:
    notes = tuning(ROWS["alto-xylophone"], PENTATONIC)
    assert notes.notes[notes.fifth_above(0)] == 67
    assert notes.notes[notes.fifth_above(len(notes.notes) - 1)] == 76  # A5: the fourth below


@given(st.lists(st.floats(24, 110), min_size=2, max_size=40), st.sampled_from(["alto-xylophone", "recorder"]))
def test_fitting_keeps_the_direction(asked: list[float], name: str) -> None:
    notes = tuning(ROWS[name], PENTATONIC)
    fit = fitted(asked, notes)
    for (a, place_a), (b, place_b) in zip(
        zip(asked, fit.places, strict=True), list(zip(asked, fit.places, strict=True))[1:], strict=False
    ):
        assert (place_b - place_a) * (b - a) >= 0
    low, high = notes.notes[0] - 0.5, notes.notes[-1] + 0.5
    assert fit.held == sum(not low <= value + 12 * fit.octaves <= high for value in asked)


def test_pitches_are_moved_by_whole_octaves_to_suit() -> None:
    fit = fitted([60.0, 64.2, 67.0], tuning(ROWS["soprano-glockenspiel"], PENTATONIC))
    notes = tuning(ROWS["soprano-glockenspiel"], PENTATONIC).notes
    assert (fit.octaves, fit.held) == (2, 0)
    assert [notes[place] for place in fit.places] == [84, 88, 91]
