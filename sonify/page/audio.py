"""The page's sounds as data: uncompressed samples in base64, and columns of numbers that say when each is played."""

from __future__ import annotations

from base64 import b64encode
from typing import Any

from sonify.records.sounds import PageSounds

#: How far a time is written out: to a microsecond, far under what is heard.
DECIMALS = 6


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
        "beds": [
            {
                "sample": bed.sample,
                "levels": [[round(t, DECIMALS), float(f"{level:.4g}")] for t, level in bed.levels],
            }
            for bed in sounds.beds
        ],
    }
