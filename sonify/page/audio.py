"""The page's sounds as data: uncompressed samples in base64, and columns of numbers that say when each is played."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Sequence
from math import inf
from typing import Any

from sonify.records.sounds import PageRoom, PageSounds

#: How far a time is written out: to a microsecond, far under what is heard.
DECIMALS = 6
STRAIGHT = 0.005


def corners(levels: Sequence[tuple[float, float]]) -> list[list[float]]:
    """The corners of a level curve, without those that lie on the line between their neighbours.

    Straight to within STRAIGHT of the loudest level, far under the 1 dB (12 %) that is heard.
    """
    near = STRAIGHT * max((abs(level) for _, level in levels), default=0.0)
    kept: list[tuple[float, float]] = []
    # The slopes that a line from the last kept corner may have and still pass every corner since within `near`.
    low, high = -inf, inf
    for k, (t, level) in enumerate(levels):
        if k == 0:
            kept.append((t, level))
            continue
        slope = (level - kept[-1][1]) / (t - kept[-1][0])
        if not low <= slope <= high:
            kept.append(levels[k - 1])
            low, high = -inf, inf
        start_s, start = kept[-1]
        low = max(low, (level - near - start) / (t - start_s))
        high = min(high, (level + near - start) / (t - start_s))
    if len(levels) > 1:
        kept.append(levels[-1])
    return [[round(t, DECIMALS), float(f"{level:.4g}")] for t, level in kept]


def room_data(room: PageRoom | None) -> dict[str, Any] | None:
    """The room's answer, or None for sounds without a room."""
    if room is None:
        return None
    return {
        "rateHz": room.rate_hz,
        "ears": [b64encode(ear).decode("ascii") for ear in room.ears],
        "gain": float(f"{room.gain:.5g}"),
    }


def sounds_data(sounds: PageSounds) -> dict[str, Any]:
    """The sounds as the player reads them. Events are in order of time, one column each.

    Samples stay 16-bit PCM: a lossy codec would add its own delay in front of every stroke, and a browser's decoder
    takes time that is not known beforehand.
    """
    events = sorted(sounds.events, key=lambda event: (event.time_s, event.part, event.sample))
    return {
        "rateHz": sounds.rate_hz,
        "samples": [
            {"name": sample.name, "loop": sample.loop, "pcm": b64encode(sample.pcm).decode("ascii")}
            for sample in sounds.samples
        ],
        "events": {
            "timeS": [round(event.time_s, DECIMALS) for event in events],
            "part": [event.part for event in events],
            "sample": [event.sample for event in events],
            "gain": [float(f"{event.gain:.4g}") for event in events],
            "pan": [round(event.pan, 3) for event in events],
            "lastsS": [round(event.duration_s, DECIMALS) for event in events],
        },
        "room": room_data(sounds.room),
        "beds": [{"sample": bed.sample, "levels": corners(bed.levels)} for bed in sounds.beds],
    }
