"""Held by breath: pipes and voices, as loops made in the frequency domain, so that they repeat without a seam."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from sonify.sound.rate import RATE_HZ, Floats, Samples
from sonify.sound.transform import bins_hz
from sonify.sound.voices.noise import LOOP, Rng, band, loop_of
from sonify.sound.voices.records import Blown
from sonify.sound.weighting import weighted_energy


def _formant_gain(row: Blown, hz: Floats) -> Floats:
    """Sum of resonance curves: level at the centre, half power half a bandwidth away."""
    gain = np.zeros_like(hz)
    for centre, width, level_db in row.formants:
        gain += 10.0 ** (level_db / 20.0) / np.sqrt(1.0 + ((hz - centre) / (0.5 * width)) ** 2)
    return gain


def harmonic_gains(row: Blown, first_hz: float, strength: float, brightness: float) -> Floats:
    """Level of each harmonic below the top of hearing."""
    count = int(min(0.42 * RATE_HZ / first_hz, len(row.harmonics_db) or 60))
    number = np.arange(1, count + 1, dtype=float)
    tilt_db = row.tilt_db * (math.sqrt(strength) - 0.55 + 0.6 * (brightness - 0.5)) * np.log2(number)
    if row.harmonics_db:
        return np.asarray(10.0 ** ((np.array(row.harmonics_db[:count]) + tilt_db) / 20.0))
    glottal_db = -12.0 * np.log2(number) + 6.0 * np.log2(number)  # the source falls 12 dB an octave, the mouth lifts 6
    return np.asarray(10.0 ** ((glottal_db + tilt_db) / 20.0) * _formant_gain(row, number * first_hz))


def _tone(row: Blown, first_hz: float, strength: float, brightness: float, rng: Rng) -> NDArray[np.complex128]:
    """Complex spectrum of the tone. A pipe has a line a harmonic; a choir a cluster, its middle on the pitch and as
    wide as the singers are apart, each of them blurred as live pitch is."""
    spectrum = np.zeros(LOOP // 2 + 1, dtype=np.complex128)
    gains = harmonic_gains(row, first_hz, strength, brightness)
    centre = round(first_hz * LOOP / RATE_HZ)
    for number, gain in enumerate(gains, start=1):
        if row.singers == 1:
            spectrum[centre * number] = gain * np.exp(2j * np.pi * rng.random())
            continue
        apart = centre * number * (2.0 ** (row.spread_cents / 1200.0) - 1.0)
        singers = apart * np.linspace(-1.0, 1.0, row.singers)
        blur = 0.7 + 0.5 * apart
        reach = int(apart + 3.0 * blur)
        bins = np.arange(-reach, reach + 1)
        power = np.exp(-(((bins[:, None] - singers) / blur) ** 2)).sum(axis=1)
        phases = np.exp(2j * np.pi * rng.random(bins.size))
        spectrum[centre * number + bins] += gain * np.sqrt(power / power.sum()) * phases
    return spectrum


TUBE_END_M = 0.75  # how far from the hand the end of a whirled tube flies
SOUND_M_S = 343.2  # dry air at 20 degC


def _whirled(row: Blown, lowest: int, highest: int, strength: float, rng: Rng) -> NDArray[np.float64]:
    """A whirled tube: half of its sound from the end in the hand, half from the one that flies and is shifted by it.

    Once a loop it is whirled faster, and jumps to the next harmonic and back.
    """
    turn = np.arange(LOOP) / LOOP
    turns = max(1, round(row.wobble_hz * LOOP / RATE_HZ))
    number = lowest + round((highest - lowest) * math.sqrt(strength))
    faster = np.clip((0.5 - 0.5 * np.cos(2.0 * np.pi * turn) - 0.6) / 0.15, 0.0, 1.0)
    faster = faster * faster * (3.0 - 2.0 * faster) * 0.5 * np.pi
    out = np.zeros(LOOP)
    for sounding, share in ((number, np.cos(faster)), (number + 1, np.sin(faster))):
        for overtone, level_db in enumerate(row.harmonics_db, start=1):
            cycles = round(row.first_hz * sounding * LOOP / RATE_HZ) * overtone
            phase = 2.0 * np.pi * (cycles * turn + rng.random())
            # n turns a second are v = 2 pi r n and shift f by f v / c: a swing of the phase by that over n.
            swing = 2.0 * np.pi * TUBE_END_M * (cycles * RATE_HZ / LOOP) / SOUND_M_S
            flying = phase + swing * np.sin(2.0 * np.pi * turns * turn)
            out += share * 10.0 ** (level_db / 20.0) * (np.sin(phase) + np.sin(flying))
    return out


def _slid(row: Blown, first_hz: float, strength: float, brightness: float, rng: Rng) -> NDArray[np.float64]:
    """A pipe whose pitch is drawn up and back, once a loop; a whole number of cycles go into it."""
    height = 0.5 - 0.5 * np.cos(2.0 * np.pi * np.arange(LOOP) / LOOP)
    cycles = np.cumsum(first_hz * 2.0 ** (row.slide_octaves * height) / RATE_HZ)
    cycles *= round(float(cycles[-1])) / float(cycles[-1])
    gains = harmonic_gains(row, first_hz * 2.0**row.slide_octaves, strength, brightness)
    phases = rng.random(gains.size)
    return sum(
        (
            gain * np.sin(2.0 * np.pi * (number * cycles + phase))
            for number, (gain, phase) in enumerate(zip(gains, phases, strict=True), 1)
        ),
        np.zeros(LOOP),
    )


def held_loop(row: Blown, first_hz: float, strength: float, brightness: float, rng: Rng) -> Samples:
    """The held sound at one pitch and strength."""
    hz = bins_hz(LOOP)
    noise = np.zeros(LOOP, dtype=np.float32)
    if row.noise_bands:
        shape = np.zeros_like(hz)
        lift = 0.7 * (brightness - 0.5) + 0.5 * (math.sqrt(strength) - 0.55)  # more breath, higher noise
        for centre, octaves, level_db in row.noise_bands:
            shape += 10.0 ** (level_db / 20.0) * band(hz, centre * 2.0**lift, octaves)
        noise = loop_of(shape, rng)
        noise /= np.float32(np.sqrt(np.mean(noise**2)))
    if row.overblown:
        tone = _whirled(row, *row.overblown, strength, rng)
        out = tone / np.sqrt(np.mean(tone**2)) + 10.0 ** (row.breath_db / 20.0) * noise
    elif row.slide_octaves:
        tone = _slid(row, first_hz, strength, brightness, rng)
        out = tone / np.sqrt(np.mean(tone**2)) + 10.0 ** (row.breath_db / 20.0) * noise
    elif row.harmonics_db or row.formants and first_hz:
        tone = np.fft.irfft(_tone(row, first_hz, strength, brightness, rng), LOOP)
        tone /= np.sqrt(np.mean(tone**2))
        out = tone + 10.0 ** (row.breath_db / 20.0) * noise
    else:
        out = noise
    if row.wobble_hz:
        turns = max(1, round(row.wobble_hz * LOOP / RATE_HZ))
        out = out * (1.0 - row.wobble_depth * (0.5 + 0.5 * np.cos(2.0 * np.pi * turns * np.arange(LOOP) / LOOP)))
    level = math.sqrt(weighted_energy(out) / out.size)
    return np.asarray(out / level, dtype=np.float32)
