"""What must be true of every voice: in tune, brighter when stronger, no clicks, no direct current."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray

from sonify.records.instrument import Instrument
from sonify.sound.voices.bank import VOICES, Bank, note_hz, stroke_of, variants_of
from sonify.sound.voices.records import Blown, Shaken, Shot, Struck
from tests.catalogue import catalogue

ROWS = catalogue().instruments
TUNED = [row for row in ROWS if row.pitched]
STRUCK = [row for row in ROWS if isinstance(VOICES[row.id], Struck)]
LOOP = 131_072
BIN_HZ = 44_100 / LOOP
THIN_METAL = {"triangle", "finger-cymbals", "suspended-cymbal"}
AS_IN_A_MIX = 10 ** (-18 / 20)  # voices are made with a K-weighted mean square of 1; a mix has -18 LUFS


def named(row: Instrument) -> str:
    return row.id


def shot_of(
    row: Instrument, *, midi: int = 0, velocity: int = 80, brightness: float = 0.5, turn: int = 0, seed: int = 1
) -> Shot:
    voice = VOICES[row.id]
    held = isinstance(voice, Blown) or (isinstance(voice, Shaken) and voice.always_held)
    key = midi or ((row.low + row.high) // 2 if row.pitched else row.gm_key)
    return Bank(seed).shot(stroke_of(row.id, key, velocity, brightness, turn=turn, held=held))


def sounding(shot: Shot) -> NDArray[np.float64]:
    return (shot.loop if shot.loop.size else shot.samples).astype(float)


def cents_off(samples: NDArray[np.float64], hz: float) -> float:
    """How far the partial near `hz` is from it, by its place in a finely divided spectrum."""
    if samples.size == LOOP:  # goes round and round: a spectrum of its own bins, without a window
        found = np.abs(np.fft.rfft(samples))
    else:
        samples = samples[: LOOP - 1]
        found = np.abs(np.fft.rfft(samples * np.hanning(2 * samples.size)[samples.size :], LOOP))
    low, high = int(hz * 2 ** (-50 / 1200) / BIN_HZ), int(hz * 2 ** (50 / 1200) / BIN_HZ) + 2
    peak = low + int(np.argmax(found[low:high]))
    near = np.arange(peak - 6, peak + 7) if samples.size == LOOP else np.arange(peak - 1, peak + 2)
    if samples.size == LOOP:  # a choir is a cluster: its middle counts
        at = np.sum(near * found[near] ** 2) / np.sum(found[near] ** 2)
    else:
        a, b, c = np.log(found[near])
        at = peak + 0.5 * (a - c) / (a - 2 * b + c)
    return float(1200 * np.log2(at * BIN_HZ / hz))


@pytest.mark.parametrize("row", TUNED, ids=named)
def test_every_note_is_within_3_cents_of_equal_temperament(row: Instrument) -> None:
    """A4 = 440 Hz (ISO 16), every key of the instrument; the lowest, a middle and the highest from pp to ff."""
    ends = (row.low, (row.low + row.high) // 2, row.high)
    strengths = {midi: (24, 80, 120) if midi in ends else (80,) for midi in range(row.low, row.high + 1)}
    for midi, velocities in strengths.items():
        want = 440.0 * 2 ** ((midi - 69) / 12)
        assert note_hz(midi) == pytest.approx(want, rel=1e-12)
        for velocity in velocities:
            off = cents_off(sounding(shot_of(row, midi=midi, velocity=velocity)), want)
            assert abs(off) < 3.0, f"key {midi}, velocity {velocity}: {off:+.2f} cents"


def centroid_hz(row: Instrument, *, velocity: int = 80, brightness: float = 0.5) -> float:
    """Spectral centroid of the first 0.2 s of a stroke, or of a held loop: mean of four seeds, ten where each stroke is
    made of a few collisions at random."""
    centroids = []
    for seed in range(10 if isinstance(VOICES[row.id], Shaken) else 4):
        samples = sounding(shot_of(row, velocity=velocity, brightness=brightness, seed=seed))
        power = np.abs(np.fft.rfft(samples if samples.size == LOOP else samples[:8820], LOOP)) ** 2
        centroids.append(np.sum(np.arange(power.size) * power) / power.sum() * 44_100 / LOOP)
    return float(np.mean(centroids))


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_stronger_is_brighter_and_not_only_louder(row: Instrument) -> None:
    found = [centroid_hz(row, velocity=velocity) for velocity in (36, 66, 104)]
    assert all(b > a for a, b in pairwise(found)), found


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_a_harder_beater_or_a_brighter_breath_is_brighter(row: Instrument) -> None:
    found = [centroid_hz(row, brightness=brightness) for brightness in (0.0, 0.25, 0.5, 0.75, 1.0)]
    assert all(b > a for a, b in pairwise(found)), found


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_no_stroke_begins_or_ends_with_a_click(row: Instrument) -> None:
    """The steps into the first two samples are under three quarters of the sound's largest (where a hard beater strikes
    thin metal its sound may be there at once, but not in the first), that out of the last a thousandth of its peak."""
    for turn in range(variants_of(VOICES[row.id])):
        for brightness in (0.0, 1.0):
            samples = shot_of(row, turn=turn, brightness=brightness).samples.astype(float)
            if samples.size:
                largest = np.abs(np.diff(samples)).max()
                assert abs(samples[0]) < 0.01 * largest
                assert abs(samples[1] - samples[0]) < (1.01 if row.id in THIN_METAL else 0.75) * largest
                assert abs(samples[-1]) < 1e-3 * np.abs(samples).max()


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_held_sounds_come_round_without_a_step(row: Instrument) -> None:
    """The step from the last sample to the first is no larger than the 99.99 % largest within."""
    loop = shot_of(row).loop.astype(float)
    if loop.size:
        assert abs(loop[0] - loop[-1]) <= np.quantile(np.abs(np.diff(loop)), 0.9999)
    else:
        assert isinstance(VOICES[row.id], Struck | Shaken)


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_no_voice_has_direct_current(row: Instrument) -> None:
    for velocity in (24, 120):
        shot = shot_of(row, velocity=velocity)
        for samples in (shot.samples, shot.loop):
            if samples.size:
                assert abs(samples.mean(dtype=np.float64)) * AS_IN_A_MIX < 1e-6


@pytest.mark.parametrize("row", STRUCK, ids=named)
def test_repeated_strokes_differ_a_little(row: Instrument) -> None:
    """Not the same samples, but the same instrument: third-octave levels, where it sounds, within 9 dB."""
    first, second = (sounding(shot_of(row, turn=turn)) for turn in (0, variants_of(VOICES[row.id]) - 1))
    if len(VOICES[row.id].first_hz) < 2:  # type: ignore[union-attr]
        assert first[:500].tolist() != second[:500].tolist()
        edges = np.geomspace(100, 12_800, 22)
        levels = []
        for samples in (first, second):
            power = np.abs(np.fft.rfft(samples[:LOOP], LOOP)) ** 2
            band = np.digitize(np.fft.rfftfreq(LOOP, 1 / 44_100), edges)
            levels.append(np.array([power[band == k].sum() for k in range(1, edges.size)]))
        loud = levels[0] > 1e-2 * levels[0].max()
        assert np.abs(10 * np.log10(levels[1] / levels[0]))[loud].max() < 9.0
