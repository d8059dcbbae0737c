"""Key signatures and spelling, against the circle of fifths and music21."""

from __future__ import annotations

import music21
import pytest

from sonify.notation.keys import key_fifths, name, signature_alteration, spelling
from sonify.records.scene import Scale

# Scale, tonic, pitch classes, sharps (+) or flats (-): the circle of fifths
SIGNATURES = [
    ("C pentatonic", 0, (0, 2, 4, 7, 9), 0),
    ("G major", 7, (7, 9, 11, 0, 2, 4, 6), 1),
    ("F major", 5, (5, 7, 9, 10, 0, 2, 4), -1),
    ("D dorian", 2, (2, 4, 5, 7, 9, 11, 0), 0),
    ("E minor pentatonic", 4, (4, 7, 9, 11, 2), 1),
    ("A minor", 9, (9, 11, 0, 2, 4, 5, 7), 0),
    ("D flat major", 1, (1, 3, 5, 6, 8, 10, 0), -5),
    ("B major", 11, (11, 1, 3, 4, 6, 8, 10), 5),
]


@pytest.mark.parametrize(("scale", "tonic", "classes", "fifths"), SIGNATURES)
def test_signature_fits_the_scale(scale: str, tonic: int, classes: tuple[int, ...], fifths: int) -> None:
    assert key_fifths(Scale(name=scale, tonic=tonic, pitch_classes=classes)) == fifths


@pytest.mark.parametrize("fifths", range(-6, 7))
def test_scale_notes_are_spelt_as_music21_spells_them(fifths: int) -> None:
    key = music21.key.KeySignature(fifths)
    for pitch in key.asKey("major").getPitches("C3", "B5"):
        letter, alteration, octave = spelling(pitch.midi, fifths)
        assert (letter, alteration, octave) == (pitch.step, pitch.alter, pitch.octave)
        assert signature_alteration(letter, fifths) == alteration


@pytest.mark.parametrize("midi", range(0, 128, 5))
@pytest.mark.parametrize("fifths", [-6, 0, 3, 6])
def test_every_spelling_sounds_as_it_should(midi: int, fifths: int) -> None:
    letter, alteration, octave = spelling(midi, fifths)
    pitch = music21.pitch.Pitch(f"{letter}4")
    pitch.octave, pitch.accidental = octave, alteration or None
    assert pitch.midi % 12 == midi % 12
    assert pitch.ps == midi


def test_black_keys_are_named_as_on_classroom_bars() -> None:
    assert [name(midi, 0) for midi in (66, 70, 60)] == ["F♯", "B♭", "C"]
