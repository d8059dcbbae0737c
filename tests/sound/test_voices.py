from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from sonify.errors import UnknownName
from sonify.records.instrument import Instrument
from sonify.sound.voices.bank import VOICES, Bank, note_hz, stroke_of, voice_of
from sonify.sound.voices.records import Blown, Shaken
from sonify.sound.weighting import weighted_energy
from tests.catalogue import catalogue

ROWS = catalogue().instruments


def sound(row: Instrument, *, midi: int = 0, velocity: int = 80, brightness: float = 0.5, turn: int = 0, seed: int = 1):
    voice = VOICES[row.id]
    held = isinstance(voice, Blown) or (isinstance(voice, Shaken) and voice.always_held)
    key = midi or (row.low + row.high) // 2 if row.pitched else row.gm_key
    shot = Bank(seed).shot(stroke_of(row.id, key, velocity, brightness, turn=turn, held=held))
    return shot.loop if held else shot.samples


def spectrum(samples: NDArray[np.float32], size: int = 1 << 19) -> NDArray[np.float64]:
    if samples.size < size and samples.size == 131_072:  # a loop goes round and round
        samples = np.tile(samples, size // samples.size)
    return np.abs(np.fft.rfft(samples * np.hanning(samples.size), size))


def centroid_hz(samples: NDArray[np.float32]) -> float:
    power = spectrum(samples[:8820]) ** 2
    return float(np.sum(np.arange(power.size) * power) / power.sum() * 44_100 / (1 << 19))


def test_every_instrument_of_the_catalogue_has_a_voice_and_no_other() -> None:
    assert set(VOICES) == {row.id for row in ROWS}


def test_an_unknown_voice_is_named_with_the_nearest() -> None:
    with pytest.raises(UnknownName, match='did you mean "triangle"'):
        voice_of("triangel")


def test_a_classs_own_instrument_has_its_stand_ins_voice() -> None:
    assert voice_of("triangle.3") is voice_of("triangle")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_every_voice_is_as_loud_as_every_other(row: Instrument) -> None:
    samples = sound(row)
    looped = samples.size == 131_072
    pieces = [samples] if looped else [samples[at : at + 4096] for at in range(0, samples.size, 4096)]
    db = 10 * np.log10(max(weighted_energy(piece) / (piece.size if looped else 4096) for piece in pieces))
    assert abs(db) < 0.7


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_strokes_differ_a_little_and_come_again_with_the_seed(row: Instrument) -> None:
    np.testing.assert_array_equal(sound(row), sound(row))
    assert not np.array_equal(sound(row, seed=2), sound(row))


def test_notes_are_in_equal_temperament() -> None:
    # pretty_midi and librosa print these
    for midi, printed in ((21, "27.500"), (48, "130.8128"), (57, "220"), (60, "261.6256"), (108, "4186.0090")):
        assert note_hz(midi) == pytest.approx(float(printed), abs=1e-4)
