"""Numbers as people read them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import OutOfRange
from sonify.kinds.marks import DYNAMICS, PACES, TEMPO_TERMS
from sonify.records.fact import fact
from sonify.records.words import (
    clock_text,
    measure_text,
    note_name,
    number_text,
    pace,
    tempo_term,
    velocity_mark,
)
from sonify.say import say
from sonify.say.parts import dynamic_with_mark, dynamic_words


@pytest.mark.parametrize(
    ("bpm", "italian"),
    # the traditional metronome scale; the upper bands from memory, not verified (reference table 5.3)
    [(50, "Largo"), (63, "Larghetto"), (70, "Adagio"), (100, "Andante"), (112, "Moderato"), (130, "Allegro")]
    + [(180, "Presto"), (204, "Prestissimo"), (30, "Largo"), (59.999, "Largo"), (60, "Larghetto")],
)
def test_a_tempo_has_the_word_of_its_band(bpm: float, italian: str) -> None:
    assert tempo_term(bpm) == italian.lower()


@pytest.mark.parametrize("bands", [TEMPO_TERMS, PACES])
def test_tempo_bands_rise_and_every_word_is_used_once(bands: tuple[tuple[float, str], ...]) -> None:
    least = [row[0] for row in bands]
    assert least == sorted(set(least))
    assert len({row[1] for row in bands}) == len(bands)


#: What a beat must change by to be heard at once, between single intervals: Drake and Botte 1993, 6 %.
HEARD = 1.06


@given(st.floats(40.0, 208.0 / (HEARD + 0.001)))
def test_two_tempi_that_differ_to_the_ear_have_two_words(bpm: float) -> None:
    assert pace(bpm) != pace(bpm * (HEARD + 0.001))
    assert say(fact(f"tempo-{pace(bpm)}")) != say(fact(f"tempo-{pace(bpm * (HEARD + 0.001))}"))


@pytest.mark.parametrize("bpm", [0, -3, float("nan"), float("inf")])
def test_a_tempo_that_is_none_is_refused(bpm: float) -> None:
    with pytest.raises(OutOfRange, match="tempo"):
        tempo_term(bpm)


@given(st.integers(0, 127))
def test_note_names_are_those_of_a_second_library(midi: int) -> None:
    import pretty_midi

    written = note_name(midi).replace("♯", "#").replace("B♭", "A#").replace("E♭", "D#")
    assert written == pretty_midi.note_number_to_name(midi)


def test_a_note_off_the_keyboard_is_refused() -> None:
    with pytest.raises(OutOfRange, match="note is 128"):
        note_name(128)


def test_every_mark_has_its_words_and_is_found_from_its_velocity() -> None:
    for mark, velocity in DYNAMICS.items():
        assert velocity_mark(velocity) == mark
        assert dynamic_words(mark) and dynamic_with_mark(mark) == f"{dynamic_words(mark)} ({mark})"
    with pytest.raises(LookupError, match="dynamic-loud"):
        dynamic_words("loud")


@given(st.floats(1, 127), st.floats(1, 127))
def test_a_louder_velocity_never_has_a_softer_mark(one: float, other: float) -> None:
    order = list(DYNAMICS)
    softer, louder = sorted((one, other))
    assert order.index(velocity_mark(softer)) <= order.index(velocity_mark(louder))


def test_velocity_nought_has_no_mark() -> None:
    with pytest.raises(OutOfRange, match="velocity is 0"):
        velocity_mark(0)


def test_clock_times_round_to_the_second_and_carry() -> None:
    assert [clock_text(t) for t in (0, 0.4, 59.5, 61, 600, 3599.6)] == [
        "0:00",
        "0:00",
        "1:00",
        "1:01",
        "10:00",
        "60:00",
    ]
    with pytest.raises(OutOfRange, match="time is -1"):
        clock_text(-1)


@given(st.floats(1e-4, 9.9e6))
def test_a_written_number_is_right_to_its_digits(value: float) -> None:
    assert float(number_text(value)) == pytest.approx(value, rel=0.5e-2)
    assert number_text(-value) == "−" + number_text(value)


def test_very_large_and_small_numbers_use_powers_of_ten() -> None:
    assert number_text(2.55e25) == "2.55 × 10^25"
    assert number_text(6.6e-8) == "6.6 × 10^−8"
    assert number_text(0.0) == number_text(-0.0) == "0"


def test_measures_carry_their_unit_as_people_read_it() -> None:
    assert measure_text(22.04, "degC") == "22 °C"
    assert measure_text(3.25, "mm/h") == "3.25 mm/h"
