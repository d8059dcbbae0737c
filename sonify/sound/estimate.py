"""How loud a Score will be, guessed from its notes without rendering: for playing at once."""

from __future__ import annotations

import math

import numpy as np

from sonify.records.score import Score
from sonify.sound.balance import balanced_events, hop_energies, hops_of
from sonify.sound.beds import corners
from sonify.sound.loudness import TARGET_LUFS, integrated_lufs
from sonify.sound.rate import HOP, RATE_HZ

#: What the room adds to the energy, about.
ROOM = 1.25


def provisional_gain(score: Score) -> float:
    """The gain that should bring the mix to its loudness: strokes have one K-weighted energy, so the notes tell it."""
    hops = np.zeros(hops_of(score))
    for events in balanced_events(score):
        hops += hop_energies(events, hops.size, as_written=True)
    for bed in score.beds:
        times, levels = corners(score, bed)
        hops += np.interp(np.arange(hops.size) * HOP / RATE_HZ, times, levels) ** 4
    lufs = integrated_lufs(hops * ROOM)
    return float(10.0 ** ((TARGET_LUFS - lufs) / 20.0)) if math.isfinite(lufs) else 1.0
