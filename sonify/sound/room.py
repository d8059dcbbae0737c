"""One room for everybody: a classroom's early reflections and its short tail.

The response is linear and fixed, so the room of a sum is the sum of the rooms: each stem carries its own share.
Walls and children swallow the highest treble, so the room works at half the sampling rate.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from sonify.sound.halving import LATE, doubled, halved, halved_size
from sonify.sound.rate import BLOCK, RATE_HZ, TRANSFORM, Floats, Samples
from sonify.sound.transform import Spectrum, bins_hz, samples_of, spectrum_of
from sonify.sound.voices.modal import LN_1000

#: A classroom, metres; the conductor stands at the front, groups sit 2.5 m away to the left and the right.
#: Size and reverberation: 55 m2; up to 0.6 s in a new primary classroom (Building Bulletin 93), from memory.
LENGTH_M, WIDTH_M, HEIGHT_M = 9.0, 7.5, 3.0
EAR = (4.5, 1.8, 1.2)  # x across is measured over 9 m
SEATS = ((2.5, 3.3, 0.8), (6.5, 3.3, 0.8))
SOUND_M_S = 343.2  # dry air at 20 degC
REFLECTS = 0.72  # of the amplitude, a wall
#: T60 by octave band: (Hz, s). Furniture and children take the treble.
TAIL_S = ((125.0, 0.6), (500.0, 0.55), (2000.0, 0.48), (8000.0, 0.32))
TAIL_DB = -16.5  # energy of the tail against the direct sound, as far as it is kept
#: Half the rate: so many samples in a transform, and of them for the response.
HALF = TRANSFORM // 2
RESPONSE = HALF - halved_size(BLOCK) + 1
ROOM_HZ = RATE_HZ / 2
TREBLE_HZ = (8500.0, 10_000.0)  # nothing comes back from above


def _rolloff(hz: Floats) -> Floats:
    """What is kept of the treble: all below TREBLE_HZ, none above."""
    low, high = TREBLE_HZ
    return np.asarray(0.5 + 0.5 * np.cos(np.pi * np.clip((hz - low) / (high - low), 0.0, 1.0)))


def _early(seat: tuple[float, float, float]) -> Floats:
    """First and second reflections by the image method, both ears, direct sound left out."""
    out = np.zeros((2, 2 * RESPONSE))
    size = np.array([LENGTH_M, WIDTH_M, HEIGHT_M])
    direct = float(np.linalg.norm(np.array(seat) - EAR))
    for nx in (-1, 0, 1):
        for ny in (-1, 0, 1):
            for nz in (-1, 0, 1):
                order = abs(nx) + abs(ny) + abs(nz)
                if order not in (1, 2):
                    continue
                n = np.array([nx, ny, nz])
                mirrored = np.where(n % 2 == 0, np.array(seat), size - np.array(seat))
                image = mirrored + n * size
                away = image - EAR
                distance = float(np.linalg.norm(away))
                at = (distance - direct) / SOUND_M_S * RATE_HZ - LATE  # the way there and back takes LATE
                gain = REFLECTS**order * direct / distance
                side = float(np.clip(away[0] / distance, -1.0, 1.0))
                angle = (side + 1.0) * np.pi / 4.0
                first = int(at)
                for ear, share in enumerate((np.cos(angle), np.sin(angle))):
                    out[ear, first] += gain * share * (1.0 - (at - first))
                    out[ear, first + 1] += gain * share * (at - first)
    return out


def _tails() -> Floats:
    """From side to ear, noise that dies away band by band, of unit energy; it grows in over the first 15 ms."""
    rng = np.random.Generator(np.random.PCG64(20))
    t = np.arange(RESPONSE) / ROOM_HZ
    hz = bins_hz(TRANSFORM)[: HALF // 2 + 1]
    noise = np.fft.rfft(rng.standard_normal((2, 2, HALF))) * _rolloff(hz)
    centres = [centre for centre, _ in TAIL_S]
    edges = [20.0, *(float(np.sqrt(a * b)) for a, b in zip(centres, centres[1:], strict=False)), 16_000.0]
    # each edge is crossed at 24 dB an octave, by the band below it and the band above
    under = [1.0 / np.sqrt(1.0 + np.square(np.square(np.square(hz / edge)))) for edge in edges]
    over = [1.0 / np.sqrt(1.0 + np.square(np.square(np.square(edge / np.maximum(hz, 1.0))))) for edge in edges]
    out = np.zeros((2, 2, RESPONSE))
    for (_, t60), above, below in zip(TAIL_S, over, under[1:], strict=False):
        out += np.fft.irfft(noise * (above * below), HALF)[..., :RESPONSE] * np.exp(-LN_1000 * t / t60)
    out *= np.minimum(1.0, t / 0.015) ** 2
    fade = round(ROOM_HZ / 20)
    out[..., -fade:] *= np.linspace(1.0, 0.0, fade)
    return np.asarray(out / np.sqrt(np.sum(np.square(out), axis=-1, keepdims=True)))


@cache
def spectra() -> Spectrum:
    """Transforms of the four responses: from side (left, right) to ear (left, right)."""
    early = np.fft.rfft(np.stack([0.5 * _early(seat) for seat in SEATS]), TRANSFORM)[..., : HALF // 2 + 1]
    early *= _rolloff(bins_hz(TRANSFORM)[: HALF // 2 + 1])
    responses = np.fft.irfft(early, HALF)
    responses[..., RESPONSE:] = 0.0
    level = np.sqrt(2.0) * 10.0 ** (TAIL_DB / 20.0)  # at half the rate a sample stands for twice the time
    responses[..., :RESPONSE] += level * _tails()
    return np.fft.rfft(responses, HALF).astype(np.complex64)


class Room:
    """The room's answer to a stream of blocks, by overlap and add on the engine's fixed grid.

    `inputs` is the left and right dry sound, or, for a stem, one sound with its two side gains.
    """

    def __init__(self, gains: tuple[float, float] | None = None) -> None:
        full = spectra()
        if gains is None:
            self._responses = full
        else:
            self._responses = (np.float32(gains[0]) * full[0] + np.float32(gains[1]) * full[1])[None]
        self._ringing: Samples | None = None

    @property
    def quiet(self) -> bool:
        """Whether nothing is left to ring."""
        return self._ringing is None

    def add(self, dry: Samples | None, out: Samples) -> None:
        """Add the room to `out` (2 by BLOCK). `dry`: inputs by BLOCK, or None for silence."""
        ringing = self._ringing
        if dry is None:
            if ringing is not None:
                out[:, : ringing.shape[1]] += ringing
                self._ringing = None
            return
        heard = spectrum_of(halved(dry), HALF)
        answer = heard[0] * self._responses[0]
        for source in range(1, len(heard)):
            answer += heard[source] * self._responses[source]
        wet = doubled(samples_of(answer, HALF))
        if ringing is None:  # no answer before the first sound, not even rounding
            wet[:, : int(np.argmax(dry.any(axis=0)))] = 0.0
        else:
            wet[:, : ringing.shape[1]] += ringing
        out += wet[:, :BLOCK]
        self._ringing = wet[:, BLOCK:]
