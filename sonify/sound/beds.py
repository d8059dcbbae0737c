"""Natural sounds laid under the recording: loops without a seam, whose weights follow the level of the bed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np

from sonify.errors import UnknownName
from sonify.records.score import Bed, Score
from sonify.sound.rate import BLOCK, RATE_HZ, STEP, Floats, Samples
from sonify.sound.voices.noise import Rng, band, loop_hz, loop_through
from sonify.sound.voices.records import Resonance
from sonify.sound.weighting import weighted_energy

LOOP = 1 << 18  # 5.9 s


@dataclass(frozen=True, slots=True, eq=False)
class Layer:
    """One stereo loop, and its gain at a level (0..1) and a time in seconds."""

    loop: Samples
    gain: Callable[[Floats, Floats], Floats]


def _scaled(loop: Samples) -> Samples:
    """Each channel to half the K-weighted mean square of 1, so that the two together make it."""
    for row in loop:
        row *= np.float32(1.0 / np.sqrt(2.0 * weighted_energy(row) / row.size))
    return loop


def _noise(shape: Callable[[Floats], Floats], size: int, rng: Rng) -> Samples:
    """A stereo loop of noise with this amplitude over frequency; the sides share half their energy."""
    hz = loop_hz(size)
    amplitude = shape(hz) * (hz > 25.0)
    drawn = rng.standard_normal((3, hz.size, 2), dtype=np.float32).view(np.complex64)[..., 0]
    middle, left, right = drawn * amplitude.astype(np.float32)
    return _scaled(np.fft.irfft(np.stack([middle + left, middle + right]), size).astype(np.float32))


def _swell(level: Floats, t: Floats, period_s: float, offset: float, power: float) -> Floats:
    """Waves that come and go: no two quite alike, periods near `period_s`."""
    phase = t / period_s + 0.23 * np.sin(2.0 * np.pi * (t / 37.0 + offset)) + offset
    wave = 0.5 + 0.5 * np.sin(2.0 * np.pi * phase)
    height = 0.75 + 0.25 * np.sin(2.0 * np.pi * (t / 53.0 + 1.7 * offset))
    return np.asarray(level**2 * (0.25 + 1.25 * height * wave**power))


def _sea(size: int, rng: Rng) -> list[Layer]:
    offset = float(rng.random())
    swash = _noise(lambda hz: band(hz, 320.0, 4.0) + 0.25 * band(hz, 1200.0, 3.0), size, rng)
    foam = _noise(lambda hz: band(hz, 3200.0, 3.0), size, rng)
    return [
        Layer(swash, partial(_swell, period_s=8.0, offset=offset, power=1.5)),
        Layer(foam, lambda level, t: 0.5 * _swell(level, t - 0.9, 8.0, offset, 4.0)),
    ]


def _wind(size: int, rng: Rng) -> list[Layer]:
    offset = float(rng.random())

    def gust(level: Floats, t: Floats) -> Floats:
        slow = np.sin(2.0 * np.pi * (t / 13.0 + offset)) + 0.6 * np.sin(2.0 * np.pi * (t / 5.3 + 2.0 * offset))
        return np.asarray(np.clip(0.5 + 0.31 * slow, 0.0, 1.0))

    low = _noise(lambda hz: band(hz, 260.0, 3.0), size, rng)
    howl = _noise(lambda hz: band(hz, 620.0, 0.8) + 0.4 * band(hz, 1500.0, 2.0), size, rng)
    return [
        Layer(low, lambda level, t: level**2 * (0.5 + 0.8 * gust(level, t))),
        Layer(howl, lambda level, t: level**2.5 * 1.2 * gust(level, t) ** 2),
    ]


def _drops(per_s: float, resonances: tuple[Resonance, ...], size: int, rng: Rng) -> Samples:
    """A Poisson rain of drops, each a short ring; the two sides are two rains."""
    sides = []
    for _ in range(2):
        train = np.zeros(size, dtype=np.float32)
        count = rng.poisson(per_s * size / RATE_HZ)
        sizes = rng.lognormal(0.0, 0.6, count) * rng.choice((-1.0, 1.0), count)
        np.add.at(train, rng.integers(0, size, count), sizes.astype(np.float32))
        sides.append(loop_through(train, resonances, 0.5).astype(np.float32))
    return _scaled(np.array(sides))


#: Rain by strength: (from level, to level, drops a second, resonances, share of the loudness).
_RAIN = (
    (0.02, 0.15, 25.0, (Resonance(hz=4600.0, ring_s=0.006), Resonance(hz=2400.0, ring_s=0.01, level_db=-6.0)), 0.35),
    (0.1, 0.35, 160.0, (Resonance(hz=5600.0, ring_s=0.004), Resonance(hz=1700.0, ring_s=0.01, level_db=-5.0)), 0.6),
    (0.25, 0.7, 900.0, (Resonance(hz=4200.0, ring_s=0.004), Resonance(hz=900.0, ring_s=0.012, level_db=-5.0)), 0.85),
)


def _rain(size: int, rng: Rng) -> list[Layer]:
    layers = []
    for low, high, per_s, resonances, share in _RAIN:

        def gain(level: Floats, t: Floats, low: float = low, high: float = high, share: float = share) -> Floats:
            return np.asarray(level**2 * share * np.clip((level - low) / (high - low), 0.0, 1.0) ** 0.5)

        layers.append(Layer(_drops(per_s, resonances, size, rng), gain))
    return layers


def _stream(size: int, rng: Rng) -> list[Layer]:
    """Running water: bubbles ring at pitches that go with their size (Minnaert), over a soft rush."""
    sides = []
    for _ in range(2):
        side = np.zeros(size, dtype=np.float32)
        for radius_mm in (1.2, 1.7, 2.4, 3.4, 5.0):
            hz = 3260.0 / radius_mm  # Minnaert: f a = 3.26 m/s for air in water
            train = np.zeros(size, dtype=np.float32)
            count = rng.poisson(14.0 * size / RATE_HZ)
            np.add.at(train, rng.integers(0, size, count), rng.exponential(1.0, count).astype(np.float32))
            detuned = tuple(Resonance(hz=hz * k, ring_s=30.0 / hz) for k in (0.93, 1.0, 1.09))
            side += loop_through(train, detuned, 0.5).astype(np.float32)
        sides.append(side)
    bubbles = _scaled(np.array(sides))
    rush = _noise(lambda hz: band(hz, 900.0, 4.0), size, rng)
    return [
        Layer(bubbles, lambda level, t: level**2 * 0.85),
        Layer(rush, lambda level, t: level**2 * (0.2 + 0.5 * level)),
    ]


KINDS: dict[str, Callable[[int, Rng], list[Layer]]] = {"sea": _sea, "wind": _wind, "rain": _rain, "stream": _stream}


def layers_of(bed: Bed, size: int) -> list[Layer]:
    """The loops of a bed, `size` samples long (a power of two). Raises UnknownName."""
    if bed.kind not in KINDS:
        raise UnknownName("background", bed.kind, KINDS)
    rng = np.random.Generator(np.random.SFC64(np.random.SeedSequence([bed.seed & 0xFFFFFFFF, 77])))
    return KINDS[bed.kind](size, rng)


class Beds:
    """All beds of a Score as one stereo stream on the engine's blocks. After the last beat they fade with the piece."""

    def __init__(self, score: Score) -> None:
        self._playing: list[tuple[list[Layer], Floats, Floats]] = []
        for bed in score.beds:
            times, levels = corners(score, bed)
            self._playing.append((layers_of(bed, LOOP), times, levels))

    def __bool__(self) -> bool:
        return bool(self._playing)

    def add(self, block: int, out: Samples) -> bool:
        """Add block number `block` of the beds to `out` (2 by BLOCK). False where all are silent."""
        start = block * BLOCK
        t = (start + np.arange(BLOCK // STEP + 1) * STEP) / RATE_HZ
        heard = False
        for layers, times, levels in self._playing:
            level = np.interp(t, times, levels)
            if not level.any():
                continue
            heard = True
            for layer in layers:
                gain = ramps(layer.gain(level, t))
                at = start % LOOP
                for done in range(0, BLOCK, LOOP):
                    first = min(BLOCK - done, LOOP - at)
                    out[:, done : done + first] += layer.loop[:, at : at + first] * gain[done : done + first]
                    if first < BLOCK - done:
                        out[:, done + first :] += layer.loop[:, : BLOCK - done - first] * gain[done + first :]
        return heard


def corners(score: Score, bed: Bed) -> tuple[Floats, Floats]:
    """Times and levels of a bed's corners; silent before the first and, if it never falls, held after the last."""
    if not bed.levels:
        return np.array([0.0]), np.array([0.0])
    seconds = score.clock.many_seconds([beat for beat, _ in bed.levels])
    times = [float(s) for s in seconds]
    levels = [level for _, level in bed.levels]
    if times[0] > 0.0:  # not at once: half a second to come in
        times, levels = [times[0] - min(0.5, times[0]), *times], [0.0, *levels]
    return np.array(times), np.array(levels)


_RISE = (np.arange(STEP, dtype=np.float32) / STEP)[None]


def ramps(corners: Floats) -> Samples:
    """Straight lines from corner to corner, one a STEP: (n + 1) corners to n * STEP samples."""
    at = corners.astype(np.float32)
    return np.asarray((at[:-1, None] + (at[1:] - at[:-1])[:, None] * _RISE).reshape(-1))
