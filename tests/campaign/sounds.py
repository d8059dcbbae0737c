"""Sounds of pupils' own, spoilt: each is kept as a sound within its bounds, or refused in one line."""

from __future__ import annotations

import io
import random
import time

import numpy as np
import soundfile

from sonify.errors import BadFile
from sonify.inputs.sound_file import KEPT_PEAK, read_own_sound
from sonify.records.own_sound import KEPT_HZ, MOST_S
from sonify.storage.quiet import quiet
from tests.campaign.recordings import spoilt_file
from tests.campaign.tally import Tally

KINDS = ("WAV", "FLAC", "OGG", "MP3")
LONGEST_S = 5.0


def campaign(tally: Tally, count: int, seed: int) -> None:
    rng = random.Random(seed)
    files = {kind: _sound(kind, seed) for kind in KINDS}
    for number in range(count):
        kind = KINDS[number % len(KINDS)]
        tally.add(kind, _fault(spoilt_file(files[kind], rng), number))


def _fault(data: bytes, number: int) -> str:
    begun = time.process_time()
    try:
        with quiet():
            kept = read_own_sound(data, file="spoilt.wav")
        steps = np.abs(np.frombuffer(kept, dtype="<i2").astype(int))
        if not 0 < steps.size <= (MOST_S + 0.1) * KEPT_HZ or steps.max() > KEPT_PEAK + 1:
            return f"{number}: {steps.size} samples up to {steps.max(initial=0)}"
    except BadFile as error:
        if "\n" in str(error) or not str(error).startswith("spoilt.wav"):
            return f"{number}: {error}"
    except Exception as error:
        return f"{number}: {type(error).__name__}: {error}"
    spent = time.process_time() - begun
    return f"{number}: took {spent:.0f} s" if spent > LONGEST_S else ""


def _sound(kind: str, seed: int) -> bytes:
    rng = np.random.default_rng(seed)
    at = np.arange(2 * 44_100) / 44_100
    out = io.BytesIO()
    soundfile.write(out, 0.3 * rng.normal(size=at.size) * np.exp(-4 * at), 44_100, format=kind)
    return out.getvalue()
