"""How loud a Score will be, guessed from its notes without rendering: for playing at once."""

from __future__ import annotations

import math

import numpy as np

from sonify.records.score import Score
from sonify.sound.balance import balance, bed_hops, hops_of, sketch
from sonify.sound.loudness import TARGET_LUFS, integrated_lufs
from sonify.sound.rate import HOP, RATE_HZ

#: What the room adds to the energy, about.
ROOM = 1.25


def provisional_gain(score: Score) -> float:
    """The gain that should bring the mix to its loudness: strokes have one K-weighted energy, so the notes tell it."""
    balanced = balance(score)
    lift = balanced.levels.lift(-1, np.arange(hops_of(score)) * HOP / RATE_HZ)
    hops = bed_hops(score) * lift**2
    for events in balanced.events:
        hops += sketch(events).hops(hops.size)
    lufs = integrated_lufs(hops * ROOM)
    return float(10.0 ** ((TARGET_LUFS - lufs) / 20.0)) if math.isfinite(lufs) else 1.0
