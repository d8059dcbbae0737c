"""In which thirds of an octave an instrument sounds, from its row of physical parameters: nothing is rendered."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from sonify.sound.rate import RATE_HZ, Floats
from sonify.sound.voices.bank import note_hz, voice_of
from sonify.sound.voices.blows import HIGHEST_HZ, MEZZO_FORTE, WINDOW, blow_gain, contact_s, ring_times
from sonify.sound.voices.breath import harmonic_gains
from sonify.sound.voices.grains import MINNAERT_MM_HZ
from sonify.sound.voices.modal import LN_1000
from sonify.sound.voices.noise import band
from sonify.sound.voices.recorded import band_powers
from sonify.sound.voices.records import Blown, Recorded, Shaken, Struck
from sonify.sound.weighting import power_response

#: Middles of the bands: about as wide as the ear's own from 500 Hz up (Zwicker & Fastl, from memory, not verified).
BANDS_HZ = np.array([1000.0 * 2.0 ** (n / 3.0) for n in range(-13, 13)])
_WEIGHTS = power_response(BANDS_HZ)
_WINDOW_S = WINDOW / RATE_HZ


@lru_cache(maxsize=4096)
def bands_of(instrument: str, midi: int) -> Floats:
    """Power of a sound in each band, at its beginning where it rings, for a K-weighted power of 1."""
    voice = voice_of(instrument)
    if isinstance(voice, Struck):
        power = _struck(voice, voice.first_hz[0] if voice.first_hz else note_hz(midi))
    elif isinstance(voice, Shaken):
        power = _shaken(voice)
    elif isinstance(voice, Recorded):
        power = band_powers(voice, BANDS_HZ)
    else:
        power = _blown(voice, voice.first_hz or note_hz(midi))
    return _weighted_to_one(power)


def even_bands() -> Floats:
    """A noise with as much in each band, for a K-weighted power of 1."""
    return _weighted_to_one(np.ones(BANDS_HZ.size))


def _weighted_to_one(power: Floats) -> Floats:
    return np.asarray(power / max(float(power @ _WEIGHTS), 1e-30))


def _lines(hz: Floats, power: Floats) -> Floats:
    """Single frequencies in their bands."""
    out = np.zeros(BANDS_HZ.size)
    at = np.rint(3.0 * np.log2(np.maximum(hz, 1.0) / BANDS_HZ[0])).astype(int)
    inside = (at >= 0) & (at < out.size)
    np.add.at(out, at[inside], power[inside])
    return out


def _noise(centre_hz: float, octaves: float) -> Floats:
    """A bell-shaped band of noise: bands wider in hertz hold more of it."""
    return np.asarray(band(BANDS_HZ, centre_hz, octaves) ** 2 * BANDS_HZ)


def _struck(voice: Struck, first_hz: float) -> Floats:
    ratios = np.array(voice.ratios)
    hz = ratios * first_hz
    rate = 2.0 * LN_1000 / ring_times(voice, first_hz)
    power = 10.0 ** (np.array(voice.levels_db) / 10.0) * blow_gain(hz, contact_s(voice, MEZZO_FORTE, 0.5)) ** 2
    power = power * (hz < HIGHEST_HZ) * -np.expm1(-rate * _WINDOW_S) / rate
    out = _lines(hz, power)
    ringing = float(out @ _WEIGHTS)
    for burst in voice.bursts:
        out += ringing * 10.0 ** (burst.level_db / 10.0) * _weighted_to_one(_noise(burst.centre_hz, burst.octaves))
    return out


def _shaken(voice: Shaken) -> Floats:
    """Resonance curves that noise sets ringing, taken at three places of each band; bubbles, as many in each band of
    their sizes."""
    out = np.zeros(BANDS_HZ.size)
    if voice.bubbles_mm:
        high, low = (MINNAERT_MM_HZ / radius for radius in voice.bubbles_mm)
        return np.asarray(((low <= BANDS_HZ) & (high >= BANDS_HZ)).astype(float))
    for step in (-1.0, 0.0, 1.0):
        hz = BANDS_HZ * 2.0 ** (step / 9.0)
        for one in voice.resonances:
            half_width_hz = LN_1000 / (2.0 * math.pi * one.ring_s)
            out += 10.0 ** (one.level_db / 10.0) * hz / ((hz - one.hz) ** 2 + half_width_hz**2)
    return out


def _blown(voice: Blown, first_hz: float) -> Floats:
    noise = sum((10.0 ** (db / 10.0) * _noise(hz, octaves) for hz, octaves, db in voice.noise_bands), start=_NOTHING)
    noise = noise / max(float(noise.sum()), 1e-30)
    if not (voice.harmonics_db or voice.formants):
        return noise
    gains = harmonic_gains(voice, first_hz, MEZZO_FORTE, 0.5)
    tone = _lines(first_hz * np.arange(1.0, gains.size + 1.0), np.square(gains))
    return np.asarray(tone / max(float(tone.sum()), 1e-30) + 10.0 ** (voice.breath_db / 10.0) * noise)


_NOTHING = np.zeros(BANDS_HZ.size)
