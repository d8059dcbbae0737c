"""What the room makes of a tone: its reflections add to some pitches (4 dB) and take from others (10 dB).

Worked out from the room's response and from where a note's partials lie, so that notes can be made equally loud where
they are heard, and not only where they are struck.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache

import numpy as np

from sonify.sound.halving import LATE
from sonify.sound.rate import RATE_HZ, Floats
from sonify.sound.room import HALF, ROOM_HZ, spectra
from sonify.sound.voices.bank import note_hz, voice_of
from sonify.sound.voices.blows import HIGHEST_HZ, MEZZO_FORTE, blow_gain, contact_s, ring_times
from sonify.sound.voices.breath import harmonic_gains
from sonify.sound.voices.modal import LN_1000
from sonify.sound.voices.records import Blown, Struck
from sonify.sound.weighting import power_response

#: A line is as wide as live pitch wavers; what the room makes of all lines together is taken over this range.
WAVERS_HZ, RANGE_HZ = 4.0, (150.0, 6000.0)
#: No note is moved by more than this (ours). It was 6, a guess at what a child would play against, and left the low C
#: of humming voices 4 dB too low, so that a loudest stage lay under the next. From C3 to C6 no voice at any place wants
#: more than 10.6: the limit is for a voice or a room to come, and stands where it takes nothing from those we have.
MOST_DB = 12.0


@lru_cache(maxsize=8192)
def made_up(instrument: str, midi: int, left: float, right: float) -> float:
    """What a note's gain is multiplied by, so that the room leaves it as loud as a noise of the same strength.

    left, right: the gains of its place.
    """
    hz, weights = _lines(instrument, midi)
    if not hz.size:
        return 1.0
    own = float(np.interp(hz, *_colour(left, right)) @ weights)
    most = 10.0 ** (MOST_DB / 20.0)
    return float(min(most, max(1.0 / most, 1.0 / math.sqrt(own))))


def _lines(instrument: str, midi: int) -> tuple[Floats, Floats]:
    """Frequencies of a sound's partials and the share of its K-weighted power in each; none for a noise."""
    voice = voice_of(instrument)
    if isinstance(voice, Struck):
        first_hz = voice.first_hz[0] if voice.first_hz else note_hz(midi)
        ratios = np.array(voice.ratios)
        hz = ratios * first_hz
        rings = ring_times(voice, first_hz)
        power = 10.0 ** (np.array(voice.levels_db) / 10.0) * blow_gain(hz, contact_s(voice, MEZZO_FORTE, 0.5)) ** 2
        power = power * rings / (2.0 * LN_1000)
    elif isinstance(voice, Blown) and (voice.harmonics_db or voice.formants):
        first_hz = voice.first_hz or note_hz(midi)
        power = np.square(harmonic_gains(voice, first_hz, MEZZO_FORTE, 0.5))
        hz = first_hz * np.arange(1.0, power.size + 1.0)
    else:
        return np.zeros(0), np.zeros(0)
    weights = power * power_response(np.minimum(hz, HIGHEST_HZ)) * (hz < HIGHEST_HZ)
    return hz, np.asarray(weights / weights.sum())


@cache
def _bins_hz() -> Floats:
    return np.asarray(np.fft.rfftfreq(HALF, 1.0 / ROOM_HZ), dtype=np.float64)


@lru_cache(maxsize=128)
def _colour(left: float, right: float) -> tuple[Floats, Floats]:
    """Power at both ears of a tone in the room over that of one without, its mean over RANGE_HZ taken away."""
    hz = _bins_hz()
    room = spectra() * np.exp(-2j * np.pi * hz * LATE / RATE_HZ)
    power = sum(np.abs(own + left * room[0, ear] + right * room[1, ear]) ** 2 for ear, own in enumerate((left, right)))
    box = max(1, round(2.0 * WAVERS_HZ * HALF / ROOM_HZ))
    smooth = np.convolve(power, np.ones(box) / box, "same")
    low, high = np.searchsorted(hz, RANGE_HZ)
    return hz, np.asarray(smooth / smooth[low:high].mean())
