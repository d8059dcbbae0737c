"""One blow on a body that rings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

import numpy as np

from sonify.sound.rate import RATE_HZ, Floats, Samples
from sonify.sound.voices import modal
from sonify.sound.voices.modal import LN_1000
from sonify.sound.voices.noise import Rng, burst
from sonify.sound.voices.records import Burst, Struck
from sonify.sound.weighting import weighted_energy

HIGHEST_HZ = 0.45 * RATE_HZ
MEZZO_FORTE = (70.0 / 127.0) ** 2  # strength of a mezzo forte stroke: see bank.strength
WINDOW = 4096  # 93 ms: a sound this long is as loud as it will get (Zwicker & Fastl, from memory, not verified)
PUSH = 256  # 6 ms: a blow moves air there and back within the time that a limiter takes to answer
FADE = 220  # samples over which the very end is drawn to nothing


def contact_s(row: Struck, strength: float, brightness: float) -> float:
    """How long the beater stays on: from soft to hard beater in equal ratios, shorter as the blow grows.

    Hertz's law of contact gives a power of 1/5 of the speed; felt stiffens as it is squeezed and gives more.
    """
    soft, hard = row.contact_s
    power = row.stiffening[0] + (row.stiffening[1] - row.stiffening[0]) * brightness
    return float(soft * (hard / soft) ** brightness * (strength / MEZZO_FORTE) ** -power)


def hardness(strength: float, brightness: float) -> float:
    """Brightness of the noise of a blow, or of grains: what comes faster touches for a shorter time (Hertz), and sets
    higher modes ringing."""
    return brightness + 0.5 * (math.sqrt(strength) - 0.55)


def blow_gain(hz: Floats, contact: float) -> Floats:
    """What a blow of this contact time gives a partial: 1 where the blow is short against the period, falling by
    12 dB an octave where it is long, as the spectrum of a half-sine force does (its zeros left out)."""
    return 1.0 / (1.0 + (2.0 * hz * contact) ** 2)


def ring_times(row: Struck, first_hz: float) -> Floats:
    """T60 of every partial of a body whose first is at first_hz."""
    first_s = row.ring_s * (row.ring_at_hz / first_hz) ** row.ring_power
    return np.asarray(first_s * (np.array(row.rings) if row.rings else np.array(row.ratios) ** -row.mode_power))


def partials(
    row: Struck, first_hz: float, strength: float, brightness: float, rng: Rng
) -> tuple[Floats, Floats, Floats]:
    """Frequencies, T60s and amplitudes of the partials that can be heard."""
    ratios, levels = np.array(row.ratios), np.array(row.levels_db)
    uneven = rng.normal(0.0, row.uneven_db, ratios.size)
    hz = ratios * first_hz
    keep = hz < HIGHEST_HZ
    hz, levels, uneven, ring_s = hz[keep], levels[keep], uneven[keep], ring_times(row, first_hz)[keep]
    amplitudes = 10.0 ** ((levels + uneven) / 20.0) * blow_gain(hz, contact_s(row, strength, brightness))
    audible = amplitudes > amplitudes.max() * 1e-4
    return hz[audible], ring_s[audible], amplitudes[audible]


def loudness_energy(samples: Samples, windows: int = 1) -> float:
    """K-weighted mean square of the loudest of the first so many stretches of WINDOW samples."""
    pieces = [samples[start : start + WINDOW] for start in range(0, min(windows * WINDOW, samples.size), WINDOW)]
    return max(weighted_energy(piece) for piece in pieces) / WINDOW


@cache
def _fade() -> Samples:
    return np.asarray(0.5 + 0.5 * np.cos(np.pi * np.arange(1, FADE + 1) / FADE), dtype=np.float32)


@cache
def _rise(size: int) -> Samples:
    """While the beater is still on, the body is only set going."""
    return np.asarray(np.sin(0.5 * np.pi * (np.arange(size) + 0.5) / size), dtype=np.float32)


@cache
def _bump(size: int) -> Samples:
    """A hump of unit sum that begins and ends in nothing."""
    hump = np.sin(np.pi * np.arange(size) / size) ** 2
    return np.asarray(hump / hump.sum(), dtype=np.float32)


def finished(samples: Samples, windows: int = 1) -> Samples:
    """A stroke made ready, in place: its end drawn to nothing, no direct current, and scaled so that the loudest
    93 ms have a K-weighted mean square of 1."""
    fade = min(FADE, samples.size)
    samples[-fade:] *= _fade()[FADE - fade :]
    size = min(samples.size, PUSH)
    samples[:size] -= _bump(size) * np.float32(samples.sum(dtype=np.float64))
    samples *= np.float32(1.0 / math.sqrt(loudness_energy(samples, windows)))
    return samples


def with_bursts(
    ringing: Samples, bursts: Sequence[Burst], brightness: float, rng: Rng, windows: int = 1, beater: float = 0.5
) -> Samples:
    """A ringing sound and the noises that come with it, each at its level against the ringing.

    beater: 0 the softest to 1 the hardest.
    """
    if not bursts:
        return ringing
    energy = loudness_energy(ringing, windows)
    noises = [burst(row, brightness, rng) for row in bursts]
    out = np.zeros(max(ringing.size, *(noise.size for noise in noises)), dtype=np.float32)
    out[: ringing.size] = ringing
    for row, noise in zip(bursts, noises, strict=True):
        out[: noise.size] += noise * np.float32(
            math.sqrt(energy * 10.0 ** (burst_db(row, beater) / 10.0) / loudness_energy(noise))
        )
    return out


def burst_db(row: Burst, beater: float) -> float:
    return row.level_db + row.by_beater_db * (beater - 0.5)


def glided(samples: Samples, share: float, ring_s: float) -> Samples:
    """A stroke that begins sharper by a share and comes down as its energy does: what stretches a skin is that it is
    bent, and its tension grows with the square of how far (Marogna, Avanzini and
    Bank 2010)."""
    energy_s = ring_s / (2.0 * LN_1000) * RATE_HZ
    at = np.arange(samples.size)
    later = at - share * energy_s * np.expm1(-at / energy_s)
    return np.interp(later, at, samples, right=0.0).astype(np.float32)


def strike(row: Struck, first_hz: float, strength: float, brightness: float, rng: Rng) -> Samples:
    """One stroke."""
    hz, ring_s, amplitudes = partials(row, first_hz, strength, brightness, rng)
    length = min(modal.length_for(ring_s, amplitudes), int(row.longest_s * RATE_HZ))
    windows = 1
    if row.bloom_s:
        place = np.log2(hz / hz.min() + 1.0) / math.log2(hz.max() / hz.min() + 1.0)
        late = row.bloom_s * (0.1 + 0.9 * place**2)
        rising = 1.0 / (1.0 / ring_s + 1.0 / late)  # a (e^-t/T - e^-t/T'): in after `late`, out after ring_s
        hz, ring_s = np.concatenate([hz, hz]), np.concatenate([ring_s, rising])
        amplitudes = np.concatenate([amplitudes, -(0.9 - 0.4 * brightness) * amplitudes])  # hard: at once
        windows = 1 + round(2.0 * row.bloom_s * RATE_HZ / WINDOW)
    stroke = modal.ring(hz, ring_s, amplitudes, length)
    if row.glide:
        stroke = glided(stroke, row.glide * strength**2, float(ring_s[0]))
    swell = min(length, round(contact_s(row, strength, brightness) * RATE_HZ))
    stroke[:swell] *= _rise(swell)
    noisy = with_bursts(stroke, row.bursts, hardness(strength, brightness), rng, windows, beater=brightness)
    return finished(noisy, windows)
