"""How loud a Score will be, guessed from its notes without rendering: for playing at once."""

from __future__ import annotations

import math

import numpy as np

from sonify.records.score import Score
from sonify.sound.beds import corners
from sonify.sound.events import events_of, length_frames
from sonify.sound.loudness import TARGET_LUFS, integrated_lufs
from sonify.sound.rate import HOP, RATE_HZ

#: What rings on after 100 ms, and the room, add to the energy of a stroke, about.
RINGING = 1.6


def provisional_gain(score: Score) -> float:
    """The gain that should bring the mix to its loudness: strokes have one K-weighted energy, so the notes tell it."""
    hops = np.zeros(length_frames(score) // HOP + 2)
    for part in score.parts:
        for event in events_of(score, part):
            if event.stroke.held:
                hops[event.start // HOP : event.stop // HOP + 1] += event.gain**2
            else:
                hops[event.start // HOP] += event.gain**2  # a stroke has the energy of a mean square of 1 in 93 ms
    for bed in score.beds:
        times, levels = corners(score, bed)
        hops += np.interp(np.arange(hops.size) * HOP / RATE_HZ, times, levels) ** 4
    lufs = integrated_lufs(hops * RINGING)
    return float(10.0 ** ((TARGET_LUFS - lufs) / 20.0)) if math.isfinite(lufs) else 1.0
