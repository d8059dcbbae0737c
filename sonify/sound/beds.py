"""The natural sounds of a Score as one stereo stream on the engine's blocks."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.records.score import Bed, Score
from sonify.sound.events import length_frames
from sonify.sound.landscape import KINDS, Layer
from sonify.sound.levelling import Levels, as_written
from sonify.sound.ramps import ramps
from sonify.sound.rate import BLOCK, RATE_HZ, STEP, Floats, Samples
from sonify.sound.voices.noise import Rng

LOOP = 1 << 18  # 5.9 s
SLOW = 10 * STEP  # natural sounds change slowly: a corner of gain every 14 ms
RISE_S = 0.5  # a bed that begins above nothing takes this long to come in
#: A loop is not played round and round, which is soon heard, but in stretches of this share of it, from here and there.
SHARES = (0.28, 0.44)
JOIN = RATE_HZ // 10  # samples over which one stretch gives way to the next


@dataclass(frozen=True, slots=True, eq=False)
class Walk:
    """A way through a loop: where each stretch begins in the file and in the loop, and its sign. One stretch more is
    named than is played."""

    starts: NDArray[np.int64]
    places: NDArray[np.int64]
    signs: Samples


def walk(size: int, frames: int, rng: Rng) -> Walk:
    """Stretches that last `frames` samples in all. No two neighbours share anything of the loop."""
    low, high = (round(share * size) for share in SHARES)
    starts, places, length = [0], [int(rng.integers(size))], int(rng.integers(low, high))
    while starts[-1] < frames:
        used, length = length + JOIN, int(rng.integers(low, high))
        starts.append(starts[-1] + used - JOIN)
        places.append(int(places[-1] + rng.integers(used, size - length - JOIN)) % size)
    signs = rng.choice(np.array([-1.0, 1.0], dtype=np.float32), len(starts))
    return Walk(np.array([*starts, starts[-1] + high]), np.array(places), signs)


def layers_of(bed: Bed, size: int) -> list[Layer]:
    """The loops of a bed, `size` samples long (a power of two). Raises UnknownName."""
    if bed.kind not in KINDS:
        raise UnknownName("background", bed.kind, KINDS)
    return KINDS[bed.kind](size, [level for _, level in bed.levels], _rng(bed, 77))


def _rng(bed: Bed, purpose: int) -> Rng:
    return np.random.Generator(np.random.SFC64(np.random.SeedSequence([bed.seed & 0xFFFFFFFF, purpose])))


CORNERS = BLOCK // SLOW


@dataclass(frozen=True, slots=True, eq=False)
class _Playing:
    """A loop, the way through it, and its gain at every corner of the file."""

    loop: Samples
    way: Walk
    gains: Samples

    def gain(self, block: int) -> Samples:
        """The gain at a block's corners, its end with it; nothing is left after the last block."""
        found = self.gains[block * CORNERS : (block + 1) * CORNERS + 1]
        return found if found.size > CORNERS else np.zeros(CORNERS + 1, dtype=np.float32)


class Beds:
    """All beds of a Score, added block by block. After the last beat they fade with the piece."""

    def __init__(self, score: Score, levels: Levels | None = None) -> None:
        """levels: what each stage is lifted by, here as in all parts."""
        self._playing = list(_played(score, levels or as_written(len(score.parts))))

    def __bool__(self) -> bool:
        return bool(self._playing)

    def add(self, block: int, out: Samples) -> bool:
        """Add block number `block` of the beds to `out` (2 by BLOCK). False where all are silent."""
        heard = False
        for playing, gain in self._sounding(block):
            heard = True
            _add_stretches(playing.loop, playing.way, ramps(gain, SLOW), block * BLOCK, out)
        return heard

    def sounds(self, block: int) -> bool:
        """Whether any bed sounds in a block."""
        return any(True for _ in self._sounding(block))

    def _sounding(self, block: int) -> Iterator[tuple[_Playing, Samples]]:
        """The loops that sound in a block, each with its gain at every corner."""
        for playing in self._playing:
            gain = playing.gain(block)
            if gain.any():
                yield playing, gain


def _played(score: Score, levels: Levels) -> Iterator[_Playing]:
    """All loops of the beds."""
    frames = length_frames(score)
    at_s = np.arange(-(-frames // BLOCK) * CORNERS + 1) * SLOW / RATE_HZ
    lift = levels.lift(-1, at_s)
    for bed in score.beds:
        level, rng = np.interp(at_s, *corners(score, bed)), _rng(bed, 78)
        for layer in layers_of(bed, LOOP):
            way = walk(layer.loop.shape[1], frames + BLOCK, rng)
            yield _Playing(layer.loop, way, (layer.gain(level, at_s) * lift).astype(np.float32))


_IN = np.sin(0.5 * np.pi * (np.arange(JOIN) + 0.5) / JOIN).astype(np.float32)


def _add_stretches(loop: Samples, way: Walk, gain: Samples, start: int, out: Samples) -> None:
    """The samples from `start` on. At a join both stretches are heard, at equal power: they have nothing in common."""
    end = start + gain.size
    for at in range(max(0, int(np.searchsorted(way.starts, start - JOIN, side="right")) - 1), len(way.places)):
        begins, over = int(way.starts[at]), int(way.starts[at + 1])
        if begins >= end:
            return
        first, last = max(start, begins), min(end, over + JOIN)
        if last <= first:
            continue
        part = gain[first - start : last - start] * way.signs[at]
        if at and first < begins + JOIN:
            rising = part[: begins + JOIN - first]
            rising *= _IN[first - begins :][: rising.size]
        if last > over:
            sinking = part[max(0, over - first) :]
            sinking *= _IN[::-1][max(0, first - over) :][: sinking.size]
        _add_loop(loop, part, int(way.places[at]) + first - begins, out[:, first - start : last - start])


def _add_loop(loop: Samples, gain: Samples, at: int, out: Samples) -> None:
    size, length = loop.shape[1], gain.size
    at %= size
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
