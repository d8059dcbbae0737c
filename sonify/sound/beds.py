"""The natural sounds of a Score as one stereo stream on the engine's blocks."""

from __future__ import annotations

import numpy as np

from sonify.errors import UnknownName
from sonify.records.score import Bed, Score
from sonify.sound.landscape import KINDS, Layer
from sonify.sound.levelling import Levels, as_written
from sonify.sound.ramps import ramps
from sonify.sound.rate import BLOCK, RATE_HZ, STEP, Floats, Samples

LOOP = 1 << 18  # 5.9 s
SLOW = 10 * STEP  # natural sounds change slowly: a corner of gain every 14 ms
RISE_S = 0.5  # a bed that begins above nothing takes this long to come in


def layers_of(bed: Bed, size: int) -> list[Layer]:
    """The loops of a bed, `size` samples long (a power of two). Raises UnknownName."""
    if bed.kind not in KINDS:
        raise UnknownName("background", bed.kind, KINDS)
    rng = np.random.Generator(np.random.SFC64(np.random.SeedSequence([bed.seed & 0xFFFFFFFF, 77])))
    return KINDS[bed.kind](size, [level for _, level in bed.levels], rng)


class Beds:
    """All beds of a Score, added block by block. After the last beat they fade with the piece."""

    def __init__(self, score: Score, levels: Levels | None = None) -> None:
        """levels: what each stage is lifted by, here as in all parts."""
        self._levels = levels or as_written(len(score.parts))
        self._playing = [(layers_of(bed, LOOP), *corners(score, bed)) for bed in score.beds]

    def __bool__(self) -> bool:
        return bool(self._playing)

    def add(self, block: int, out: Samples) -> bool:
        """Add block number `block` of the beds to `out` (2 by BLOCK). False where all are silent."""
        start = block * BLOCK
        t = (start + np.arange(BLOCK // SLOW + 1) * SLOW) / RATE_HZ
        heard, lift = False, self._levels.lift(-1, t)
        for layers, times, levels in self._playing:
            level = np.interp(t, times, levels)
            if not level.any():
                continue
            for layer in layers:
                gain = layer.gain(level, t) * lift
                if gain.any():
                    heard = True
                    _add_loop(layer.loop, ramps(gain, SLOW), start, out)
        return heard


def _add_loop(loop: Samples, gain: Samples, start: int, out: Samples) -> None:
    size, length = loop.shape[1], gain.size
    at = start % size
    first = min(length, size - at)
    part = np.empty(first, dtype=np.float32)
    for ear in range(2):  # an ear at a time stays in the processor's own memory
        np.multiply(loop[ear, at : at + first], gain[:first], out=part)
        out[ear, :first] += part
        if first < length:
            out[ear, first:] += loop[ear, : length - first] * gain[first:]


def corners(score: Score, bed: Bed) -> tuple[Floats, Floats]:
    """Times and levels of a bed's corners, straight between; the last level is held."""
    if not bed.levels:
        return np.array([0.0]), np.array([0.0])
    times = [float(s) for s in score.clock.many_seconds([beat for beat, _ in bed.levels])]
    levels = [level for _, level in bed.levels]
    if times[0] > 0.0:
        times, levels = [times[0] - min(RISE_S, times[0]), *times], [0.0, *levels]
    return np.array(times), np.array(levels)
