"""A Score as it is rendered, for playing at once: the same sound at a gain guessed from the notes."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import numpy as np

from sonify.records.score import Score
from sonify.sound.estimate import provisional_gain
from sonify.sound.mixing import blocks_of
from sonify.sound.rate import BLOCK, Samples, frame
from sonify.sound.voices.bank import Bank

CEILING = 0.89  # -1 dBFS


def stream_blocks(score: Score, start_beat: Fraction | int | None = None, frames: int = 4410) -> Iterator[Samples]:
    """Stereo blocks of `frames` (the last may be shorter), frames by 2, from a beat on (None: from the count-in).

    Nothing is measured beforehand: the gain comes from the notes, and what would pass -1 dBFS is turned down for good,
    as a person at the mixer would.
    """
    gain = provisional_gain(score)
    skip = 0 if start_beat is None else frame(score.clock.seconds(start_beat)) % BLOCK
    for block in blocks_of(score, Bank(score.seed), start_beat):
        peak = float(np.abs(block).max(initial=0.0))
        if peak * gain > CEILING:
            new = CEILING / peak
            line = np.full(block.shape[1], new, dtype=np.float32)
            line[: min(line.size, 441)] = np.linspace(gain, new, 441, dtype=np.float32)[: line.size]
            out, gain = np.clip(block * line, -CEILING, CEILING), new
        else:
            out = block * np.float32(gain)
        out = out[:, skip:]
        skip = 0
        for start in range(0, out.shape[1], frames):
            yield np.ascontiguousarray(out[:, start : start + frames].T)
