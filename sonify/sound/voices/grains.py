"""Shaken, scraped and swirled: many small collisions heard through a container.

The picture is the stochastic collision model of shakers (Cook 1997): a stroke puts energy in, collisions come at
random at a rate that follows it, and each sets the container's resonances ringing.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from sonify.sound.rate import RATE_HZ, Floats, Samples
from sonify.sound.voices.blows import finished, hardness, with_bursts
from sonify.sound.voices.modal import LN_1000
from sonify.sound.voices.noise import LOOP, Rng, collisions, loop_through, strengths, through
from sonify.sound.voices.records import Shaken
from sonify.sound.weighting import weighted_energy


def _stroke_energy(row: Shaken, strength: float) -> Floats:
    """Energy of the grains after one stroke; a stronger one calms later."""
    calm_s = row.calm_s * (0.7 + 0.6 * math.sqrt(strength))
    t = np.arange(int((row.rise_s + calm_s * 1.1) * RATE_HZ)) / RATE_HZ
    rise = np.minimum(1.0, (t + 0.25 * row.rise_s) / max(row.rise_s, 1e-6))
    return np.asarray(rise * np.exp(-2.0 * LN_1000 * np.maximum(t - row.rise_s, 0.0) / calm_s))


def _scrape(row: Shaken, strength: float, rng: Rng) -> Samples:
    """A stick drawn over ridges: it speeds up and slows down; each ridge is one blow, none quite like another."""
    duration_s = 0.32 / (0.6 + 0.8 * math.sqrt(strength))
    x = (np.arange(row.ridges) + rng.normal(0.0, 0.08, row.ridges)) / row.ridges
    at = np.clip(np.arccos(1.0 - 2.0 * np.clip(x * 0.92 + 0.04, 0.0, 1.0)) / math.pi, 0.0, 1.0)
    at = ((at - at[0]) * duration_s * RATE_HZ).astype(int)
    train = np.zeros(int(duration_s * RATE_HZ) + 2, dtype=np.float32)
    sizes = np.abs(strengths(row.ridges, row.spread, rng)) * (0.55 + 0.45 * np.sin(np.pi * x))
    sizes[0] = max(float(sizes[0]), 0.9)
    np.add.at(train, np.clip(at, 0, train.size - 1), sizes.astype(np.float32))
    return train


MINNAERT_MM_HZ = 3260.0  # radius times frequency of a bubble of air in water near its surface (Minnaert 1933)


def _train(row: Shaken, energy: Floats, rng: Rng) -> Samples:
    """The collisions that so much energy makes, at random or one after the other."""
    if not row.rattle:
        return collisions(energy, row.grains_per_s, row.spread, rng)
    train = np.zeros(energy.size, dtype=np.float32)
    count = max(1, round(row.grains_per_s * energy.size / RATE_HZ))
    at = ((np.arange(count) + rng.normal(0.0, 0.05, count)) * energy.size / count).astype(int) % energy.size
    np.add.at(train, at, (np.abs(strengths(count, row.spread, rng)) * np.sqrt(energy[at])).astype(np.float32))
    return train


def _bubbling(row: Shaken, train: Samples, brightness: float, rng: Rng, *, loop: bool) -> Samples:
    """Each collision a bubble of a size of its own: it rings at Minnaert's frequency and rises as it comes up. A harder
    splash makes smaller ones."""
    assert row.bubbles_mm
    small, large = row.bubbles_mm
    at = np.flatnonzero(train)
    radii = small * (large / small) ** rng.random(at.size) * 2.0 ** (0.9 * (0.5 - brightness))
    longest = int(0.11 * RATE_HZ)
    out = np.zeros(train.size + longest, dtype=np.float32)
    t = np.arange(longest) / RATE_HZ
    for start, radius, size in zip(at, radii, np.abs(train[at]), strict=True):
        phase = 2.0 * np.pi * MINNAERT_MM_HZ / radius * (t + 1.4 * t * t)
        fall = np.exp(-LN_1000 * t / (0.07 * math.sqrt(radius / 3.0))) * np.minimum(1.0, t / 0.002)
        out[start : start + longest] += size * math.sqrt(radius) * np.sin(phase) * fall
    if loop:
        out[:longest] += out[train.size :]
        out = out[: train.size]
        out -= out.mean(dtype=np.float64)
        out *= np.float32(1.0 / math.sqrt(weighted_energy(out) / out.size))
    return out


def stroke(row: Shaken, strength: float, brightness: float, rng: Rng) -> Samples:
    """One stroke, one tap or one scrape."""
    if row.ridges:
        train = _scrape(row, strength, rng)
    else:
        train = _train(row, _stroke_energy(row, strength), rng)
        train[int(0.1 * row.rise_s * RATE_HZ)] += 0.6  # a stroke has a first collision: it is on the beat
    if row.bubbles_mm:
        out = _bubbling(row, train, hardness(strength, brightness), rng, loop=False)
    else:
        out = through(train, row.resonances, hardness(strength, brightness))
    bursts = (row.burst,) if row.burst else ()
    return finished(with_bursts(out.astype(np.float32), bursts, hardness(strength, brightness), rng, 3), 3)


#: Against the stroke on a beat: that on its half, those between (ours). What moves from wall to wall whispers.
HALVES_DB, BETWEEN_DB, WHISPER_DB = -3.0, -6.0, -26.0
LOOP_S = 2.0
#: While it is shaken on a hand swings the grains, it does not throw them: energy grows over 50 ms (Cook 1997, whose
#: program shakes four times a second).
SWING_S = 0.05


def strokes_a_beat(row: Shaken, beat_s: float) -> int:
    """How many strokes of a hand go into a beat: one, two, four or eight, to come near its own rate."""
    return min((1, 2, 4, 8), key=lambda many: abs(math.log(many / beat_s / row.shake_hz)))


def shaken_loop(row: Shaken, beat: int, strength: float, brightness: float, rng: Rng) -> Samples:
    """Shaken on in time: whole beats of `beat` frames, the stroke on each beat the strongest, no two alike."""
    many = strokes_a_beat(row, beat / RATE_HZ)
    beats = math.ceil(LOOP_S * RATE_HZ / beat)
    one = _stroke_energy(replace(row, rise_s=SWING_S), strength)
    energy = np.full(beats * beat + one.size, 10.0 ** (WHISPER_DB / 10.0))
    for number in range(beats * many):
        place = number % many
        db = 0.0 if place == 0 else HALVES_DB if 2 * place == many else BETWEEN_DB
        at = round(number * beat / many)
        energy[at : at + one.size] += one * 10.0 ** ((db + rng.normal(0.0, 0.3)) / 10.0)
    energy[: one.size] += energy[beats * beat :]
    train = collisions(energy[: beats * beat], row.grains_per_s, row.spread, rng).reshape(beats, beat)
    # A note of one beat is the loop's first: each is as loud as the others, or a soft stage would pass for a loud one.
    train /= np.sqrt(np.mean(train**2, axis=1, keepdims=True)) + np.float32(1e-9)
    return loop_through(train.reshape(-1), row.resonances, hardness(strength, brightness))


def held_loop(row: Shaken, strength: float, brightness: float, rng: Rng) -> Samples:
    """Shaken on: a loop whose energy goes up and down with the shaking hand."""
    t = np.arange(LOOP) / LOOP
    energy = np.full(LOOP, 0.3 + 0.7 * math.sqrt(strength))
    if row.shake_hz:
        strokes = round(row.shake_hz * (0.8 + 0.4 * math.sqrt(strength)) * LOOP / RATE_HZ)
        swing = 0.5 + 0.5 * np.cos(2.0 * np.pi * (strokes * t + 0.06 * np.sin(2.0 * np.pi * (t + rng.random()))))
        energy = energy * (1.0 - row.shake_depth + row.shake_depth * swing**2)
    train = _train(row, energy, rng)
    if row.bubbles_mm:
        return _bubbling(row, train, hardness(strength, brightness), rng, loop=True)
    return loop_through(train, row.resonances, hardness(strength, brightness))
