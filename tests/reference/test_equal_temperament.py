"""Equal temperament at A4 = 440 Hz (ISO 16:1975, from memory, not verified; every library at hand agrees): frequencies
as pretty_midi prints them, reference table 5.1."""

from __future__ import annotations

import pretty_midi
import pytest

from sonify.sound.voices.bank import note_hz

from .tolerance import half_last_digit

# MIDI note, printed frequency in Hz
PRINTED = [
    (21, "27.500"),
    (48, "130.8128"),
    (57, "220"),
    (60, "261.6256"),
    (69, "440"),
    (72, "523.2511"),
    (84, "1046.5023"),
    (108, "4186.0090"),
]


@pytest.mark.parametrize(("midi", "printed"), PRINTED)
def test_a_note_has_its_printed_frequency(midi: int, printed: str) -> None:
    assert note_hz(midi) == pytest.approx(float(printed), rel=0, abs=half_last_digit(printed))


@pytest.mark.parametrize("midi", range(128))
def test_every_note_has_the_librarys_frequency(midi: int) -> None:
    assert note_hz(midi) == pytest.approx(float(pretty_midi.note_number_to_hz(midi)), rel=1e-12)


def test_a_semitone_is_the_twelfth_root_of_two() -> None:
    assert note_hz(70) / note_hz(69) == pytest.approx(1.0594631, rel=0, abs=half_last_digit("1.0594631"))
