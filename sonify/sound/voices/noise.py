"""Noise shaped in frequency and time: bursts, collisions in a container, and loops without a seam."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from sonify.sound.rate import RATE_HZ, Floats, Samples
from sonify.sound.transform import Spectrum, bins_hz, samples_of, spectrum_of
from sonify.sound.voices.modal import LN_1000, ring
from sonify.sound.voices.records import Burst, Resonance
from sonify.sound.weighting import spectrum_energy

LOOP = 131_072  # 2.97 s; a power of two for the transform
SOONEST_S = 0.0005  # no noise is there at once: skin, palm and wood give way first

Rng = np.random.Generator


def power_of_two(length: int) -> int:
    return 1 << max(6, int(length - 1).bit_length())


def band(hz: Floats, centre_hz: float, octaves: float) -> Floats:
    """Amplitude of a bell-shaped band: 1 at its centre, 0.5 half its width away. Nothing at 0 Hz."""
    distance = np.log2(np.maximum(hz, 1.0) / centre_hz) / (0.5 * octaves)
    return np.asarray(np.where(hz > 0.0, np.exp2(-(distance**2)), 0.0))


def burst(row: Burst, brightness: float, rng: Rng) -> Samples:
    """A decaying band of noise; brighter beaters lift its centre by up to half an octave."""
    rise_s = max(row.rise_s, SOONEST_S)
    length = int((row.length_s + rise_s) * RATE_HZ) + 64
    t = np.arange(length) / RATE_HZ
    envelope = np.exp(-LN_1000 * np.maximum(t - rise_s, 0.0) / row.length_s) * np.minimum(1.0, t / rise_s) ** 2
    size = power_of_two(length)
    spectrum = spectrum_of(rng.standard_normal(size, dtype=np.float32), size)
    spectrum *= band(bins_hz(size), row.centre_hz * 2.0 ** (brightness - 0.5), row.octaves)
    shaped = samples_of(spectrum, size)[:length] * envelope
    return np.asarray(shaped, dtype=np.float32)


@lru_cache(maxsize=64)
def _response(resonances: tuple[Resonance, ...], brightness: float) -> Samples:
    """How the container answers one collision. Brightness tips the balance between its low and high resonances."""
    hz = np.array([r.hz for r in resonances])
    ring_s = np.array([r.ring_s for r in resonances])
    tilt_db = (brightness - 0.5) * 12.0 * np.log2(hz / np.exp(np.mean(np.log(hz))))
    signs = 1.0 - 2.0 * (np.arange(hz.size) * 5 % 7 % 2)  # so that many modes do not all begin in step
    amplitudes = signs * 10.0 ** ((np.array([r.level_db for r in resonances]) + tilt_db) / 20.0)
    return ring(hz, ring_s, amplitudes, int(ring_s.max() * 1.05 * RATE_HZ))


def strengths(count: int, spread: float, rng: Rng) -> Floats:
    """How hard each of `count` collisions is, either way: mean 1; spread 0 all alike, 1 exponential."""
    sizes = (1.0 - spread) + spread * rng.standard_exponential(count)
    return np.asarray(sizes * rng.choice((-1.0, 1.0), count))


def collisions(energy: Floats, grains_per_s: float, spread: float, rng: Rng) -> Samples:
    """A Poisson train of collisions whose rate and strength follow the energy (0..1) sample by sample."""
    rate = grains_per_s * np.sqrt(energy) / RATE_HZ
    count = rng.poisson(float(rate.sum()))
    train = np.zeros(energy.size, dtype=np.float32)
    if count:
        edges = np.cumsum(rate)
        at = np.searchsorted(edges, np.sort(rng.random(count)) * edges[-1])
        at = np.minimum(at, energy.size - 1)
        np.add.at(train, at, (strengths(count, spread, rng) * np.sqrt(energy[at])).astype(np.float32))
    return train


def through(train: Samples, resonances: tuple[Resonance, ...], brightness: float) -> Samples:
    """A train of collisions heard through the container: longer by its ring."""
    response = _response(resonances, brightness)
    length = train.size + response.size - 1
    size = power_of_two(length)
    return samples_of(spectrum_of(train, size) * spectrum_of(response, size), size)[:length]


def loop_through(train: Samples, resonances: tuple[Resonance, ...], brightness: float) -> Samples:
    """The same, round and round: what rings past the end comes in at the start. K-weighted mean square 1."""
    size = train.size
    spectrum = spectrum_of(train, size)
    spectrum *= _answer_of_loop(resonances, brightness, size)
    spectrum *= np.float32(1.0 / math.sqrt(spectrum_energy(spectrum, size) / size))
    return samples_of(spectrum, size)


@lru_cache(maxsize=4)
def _answer_of_loop(resonances: tuple[Resonance, ...], brightness: float, size: int) -> Spectrum:
    """Transform of how the container answers one collision in a loop of `size`."""
    response = _response(resonances, brightness)
    folded = np.zeros(-(-response.size // size) * size, dtype=np.float32)
    folded[: response.size] = response
    spectrum = spectrum_of(folded.reshape(-1, size).sum(axis=0), size)
    spectrum[: int(20.0 * size / RATE_HZ)] = 0.0  # nothing too low to be heard
    return spectrum


def loop_of(amplitude: Floats, rng: Rng) -> Samples:
    """A loop of noise: `amplitude` of each bin of its transform, phases at random."""
    phase = np.exp(2j * np.pi * rng.random(amplitude.size))
    phase[0] = 0.0
    return samples_of((amplitude * phase).astype(np.complex64), 2 * (amplitude.size - 1))
