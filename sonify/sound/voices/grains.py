"""Shaken, scraped and swirled: many small collisions heard through a container.

The picture is the stochastic collision model of shakers (Cook 1997): a stroke puts energy in, collisions come at
random at a rate that follows it, and each sets the container's resonances ringing.
"""

from __future__ import annotations

import math

import numpy as np

from sonify.sound.rate import RATE_HZ, Floats, Samples
from sonify.sound.voices.blows import finished, hardness, with_bursts
from sonify.sound.voices.modal import LN_1000
from sonify.sound.voices.noise import LOOP, Rng, collisions, loop_through, strengths, through
from sonify.sound.voices.records import Shaken


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


def stroke(row: Shaken, strength: float, brightness: float, rng: Rng) -> Samples:
    """One stroke, one tap or one scrape."""
    if row.ridges:
        train = _scrape(row, strength, rng)
    else:
        train = collisions(_stroke_energy(row, strength), row.grains_per_s, row.spread, rng)
        train[int(0.1 * row.rise_s * RATE_HZ)] += 0.6  # a stroke has a first collision: it is on the beat
    out = through(train, row.resonances, hardness(strength, brightness))
    bursts = (row.burst,) if row.burst else ()
    return finished(with_bursts(out.astype(np.float32), bursts, hardness(strength, brightness), rng, 3), 3)


def held_loop(row: Shaken, strength: float, brightness: float, rng: Rng) -> Samples:
    """Shaken on: a loop whose energy goes up and down with the shaking hand."""
    t = np.arange(LOOP) / LOOP
    energy = np.full(LOOP, 0.3 + 0.7 * math.sqrt(strength))
    if row.shake_hz:
        strokes = round(row.shake_hz * (0.8 + 0.4 * math.sqrt(strength)) * LOOP / RATE_HZ)
        swing = 0.5 + 0.5 * np.cos(2.0 * np.pi * (strokes * t + 0.06 * np.sin(2.0 * np.pi * (t + rng.random()))))
        energy = energy * (1.0 - row.shake_depth + row.shake_depth * swing**2)
    train = collisions(energy, row.grains_per_s, row.spread, rng)
    return loop_through(train, row.resonances, hardness(strength, brightness))
