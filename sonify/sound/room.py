"""One room for everybody: a classroom's early reflections and its short tail.

The response is linear and fixed, so the room of a sum is the sum of the rooms: each stem carries its own share.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from sonify.sound.rate import BLOCK, RATE_HZ, TRANSFORM, Floats, Samples
from sonify.sound.transform import Spectrum, bins_hz, samples_of, spectrum_of

#: A classroom, metres; the conductor stands at the front, groups sit 2.5 m away to the left and the right.
#: Size and reverberation: 55 m2; up to 0.6 s in a new primary classroom (Building Bulletin 93), from memory.
LENGTH_M, WIDTH_M, HEIGHT_M = 9.0, 7.5, 3.0
EAR = (4.5, 1.8, 1.2)  # x across is measured over 9 m
SEATS = ((2.5, 3.3, 0.8), (6.5, 3.3, 0.8))
SOUND_M_S = 343.2  # dry air at 20 degC
REFLECTS = 0.72  # of the amplitude, a wall
#: T60 by octave band: (Hz, s). Furniture and children take the treble.
TAIL_S = ((125.0, 0.6), (500.0, 0.55), (2000.0, 0.48), (8000.0, 0.32))
TAIL_DB = -15.0  # energy of the tail against the direct sound
RESPONSE = TRANSFORM - BLOCK + 1


def _early(seat: tuple[float, float, float]) -> Floats:
    """First and second reflections by the image method, both ears, direct sound left out."""
    out = np.zeros((2, RESPONSE))
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
                at = (distance - direct) / SOUND_M_S * RATE_HZ
                gain = REFLECTS**order * direct / distance
                side = float(np.clip(away[0] / distance, -1.0, 1.0))
                angle = (side + 1.0) * np.pi / 4.0
                first = int(at)
                for ear, share in enumerate((np.cos(angle), np.sin(angle))):
                    out[ear, first] += gain * share * (1.0 - (at - first))
                    out[ear, first + 1] += gain * share * (at - first)
    return out


def _tail(rng: np.random.Generator) -> Floats:
    """Noise that dies away band by band, one channel, unit energy; it grows in over the first 15 ms."""
    t = np.arange(RESPONSE) / RATE_HZ
    hz = bins_hz(TRANSFORM)
    spectrum = np.fft.rfft(rng.standard_normal(TRANSFORM))
    edges = [20.0] + [float(np.sqrt(a[0] * b[0])) for a, b in zip(TAIL_S, TAIL_S[1:], strict=False)] + [16_000.0]
    out = np.zeros(RESPONSE)
    for (_, t60), low, high in zip(TAIL_S, edges, edges[1:], strict=False):
        shape = 1.0 / np.sqrt(1.0 + (low / np.maximum(hz, 1.0)) ** 8) / np.sqrt(1.0 + (hz / high) ** 8)
        part = np.fft.irfft(spectrum * shape, TRANSFORM)[:RESPONSE]
        out += part * np.exp(-6.9078 * t / t60)
    out *= np.minimum(1.0, t / 0.015) ** 2
    fade = RATE_HZ // 20
    out[-fade:] *= np.linspace(1.0, 0.0, fade)
    return np.asarray(out / np.sqrt(np.sum(out**2)))


@cache
def spectra() -> Spectrum:
    """Transforms of the four responses: from side (left, right) to ear (left, right)."""
    rng = np.random.Generator(np.random.PCG64(20))
    responses = np.zeros((2, 2, RESPONSE))
    level = 10.0 ** (TAIL_DB / 20.0)
    for side, seat in enumerate(SEATS):
        responses[side] = 0.5 * _early(seat)
        for ear in range(2):
            responses[side, ear] += level * _tail(rng)
    return np.fft.rfft(responses, TRANSFORM).astype(np.complex64)


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
        self._ringing = np.zeros((2, TRANSFORM - BLOCK), dtype=np.float32)
        self.quiet = True

    def add(self, dry: Samples | None, out: Samples) -> None:
        """Add the room to `out` (2 by BLOCK). `dry`: inputs by BLOCK, or None for silence."""
        rest = TRANSFORM - BLOCK
        if dry is None:
            if not self.quiet:
                out[:, :rest] += self._ringing
                self._ringing[:] = 0.0
                self.quiet = True
            return
        heard = [spectrum_of(row, TRANSFORM) for row in dry]
        wet = np.empty((2, TRANSFORM), dtype=np.float32)
        for ear in range(2):
            product = heard[0] * self._responses[0, ear]
            for source in range(1, len(heard)):
                product += heard[source] * self._responses[source, ear]
            wet[ear] = samples_of(product, TRANSFORM)
        if self.quiet:  # no answer before the first sound, not even rounding
            wet[:, : int(np.argmax(dry.any(axis=0)))] = 0.0
        wet[:, :rest] += self._ringing
        out += wet[:, :BLOCK]
        self._ringing = wet[:, BLOCK:].copy()
        self.quiet = False
