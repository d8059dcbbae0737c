"""Note names and scales against the music21 library (10.x): scientific pitch, C4 = 60; its scale classes."""

from __future__ import annotations

import warnings

import pytest

from sonify.inputs.readings import MODES, note_number, scale

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from music21 import pitch
    from music21 import scale as scales

NOTES = ["A0", "C4", "B3", "C#4", "Bb3", "Cb4", "B#3", "F#5", "Eb6", "E#2", "C8"]

#: Ours -> theirs. The pentatonics are not classes of the library: common practice, a major scale without its fourth
#: and seventh degree, a natural minor without its second and sixth.
CLASSES = {
    "major": scales.MajorScale,
    "minor": scales.MinorScale,
    "dorian": scales.DorianScale,
    "phrygian": scales.PhrygianScale,
    "lydian": scales.LydianScale,
    "mixolydian": scales.MixolydianScale,
    "whole tone": scales.WholeToneScale,
}
TONICS = ["C", "F#", "Bb", "A"]


@pytest.mark.parametrize("name", NOTES)
def test_a_note_name_has_the_librarys_midi_number(name: str) -> None:
    assert note_number(name) == pitch.Pitch(name.replace("b", "-")).midi


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize("mode", CLASSES)
def test_a_mode_has_the_librarys_pitch_classes_in_order(mode: str, tonic: str) -> None:
    degrees = CLASSES[mode](pitch.Pitch(tonic.replace("b", "-"))).getPitches()[:-1]
    assert scale(f"{tonic} {mode}").pitch_classes == tuple(degree.pitchClass for degree in degrees)


@pytest.mark.parametrize("tonic", TONICS)
def test_a_pentatonic_is_its_seven_note_mode_without_two_degrees(tonic: str) -> None:
    major, minor = scale(f"{tonic} major").pitch_classes, scale(f"{tonic} minor").pitch_classes
    assert scale(f"{tonic} pentatonic").pitch_classes == tuple(major[degree - 1] for degree in (1, 2, 3, 5, 6))
    assert scale(f"{tonic} minor pentatonic").pitch_classes == tuple(minor[degree - 1] for degree in (1, 3, 4, 5, 7))


def test_every_mode_is_checked_here() -> None:
    assert set(CLASSES) | {"pentatonic", "minor pentatonic"} == set(MODES)
