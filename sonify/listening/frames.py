"""A recording as frames of bands, block by block: all that is kept of it. 6 kB a second, not the sound."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]

HOP_S, WINDOW_S = 0.02, 0.085
#: Bands: a semitone each where bars and bells have their first partials, wider above (where a phone and a small
#: instrument still sound) and two below.
LOWEST_NOTE, NOTES = 57, 42
EDGES_HZ = (
    110.0,
    155.0,
    *(440.0 * 2.0 ** ((LOWEST_NOTE - 0.5 + n - 69) / 12.0) for n in range(NOTES + 1)),
    2900.0,
    3700.0,
    4700.0,
    5900.0,
    7400.0,
)
BANDS = len(EDGES_HZ) - 1
#: A band is pressed together by log(1 + power / floor), the floor so far under the loudest of the last frames.
FLOOR_DB = -45.0
#: Frames that are worked on at a time.
TOGETHER = 512


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Heard:
    """onsets: frames by bands, what has grown within two frames. levels_db: frames by wider bands, about two thirds of
    an octave each. peak: the largest sample. clipped: the share of samples at it. A frame's time is that of its middle.
    """

    onsets: NDArray[np.float16]
    levels_db: NDArray[np.float16]
    peak: float
    clipped: float

    @property
    def seconds(self) -> float:
        return len(self.onsets) * HOP_S


#: Wider bands whose level is kept: about two thirds of an octave.
WIDE = tuple(range(0, BANDS, 4))


class Listener:
    """Takes samples in blocks of any length and makes frames of them."""

    def __init__(self, rate_hz: int) -> None:
        self.rate_hz = rate_hz
        self._size = 1 << int(np.ceil(np.log2(WINDOW_S * rate_hz)))
        length = round(WINDOW_S * rate_hz)
        self._window = np.hanning(length + 2)[1:-1].astype(np.float32)
        self._window /= self._window.sum()
        self._weights = _weights(self._size, rate_hz)
        self._left: Singles = np.zeros(length // 2, dtype=np.float32)
        self._before = self._frames = 0  # samples let go of, frames made
        self._last: Singles = np.zeros((2, BANDS), dtype=np.float32)
        self._loudest = 1e-9
        self._onsets: list[NDArray[np.float16]] = []
        self._levels: list[NDArray[np.float16]] = []
        self._peak, self._clipped, self._samples = 0.0, 0, 0

    def take(self, samples: Singles) -> None:
        """Mono, -1 to 1; what is no number counts as silence."""
        samples = np.nan_to_num(samples, nan=0.0, posinf=0.0, neginf=0.0)
        np.clip(samples, -4.0, 4.0, out=samples)
        if samples.size:
            size = np.abs(samples)
            self._peak = max(self._peak, float(size.max()))
            self._clipped += int(np.count_nonzero(size >= 0.999))
            self._samples += samples.size
        self._left = np.concatenate([self._left, samples])
        self._work()

    def _work(self) -> None:
        length = self._window.size
        while True:
            first = np.rint((self._frames + np.arange(TOGETHER)) * HOP_S * self.rate_hz).astype(np.int64) - self._before
            first = first[first + length <= self._left.size]
            if not first.size:
                break
            self._make(np.stack([self._left[at : at + length] for at in first]))
            self._frames += first.size
            done = round(self._frames * HOP_S * self.rate_hz) - self._before
            self._left, self._before = self._left[done:], self._before + done

    def _make(self, pieces: Singles) -> None:
        spectrum = np.fft.rfft(pieces * self._window, self._size)
        power = (np.square(spectrum.real) + np.square(spectrum.imag)).astype(np.float32) @ self._weights
        # the floor follows the loudest of the last minute or so, so that a soft recording is as good as a loud one
        self._loudest = max(float(np.percentile(power.sum(axis=1), 98)), self._loudest * 0.9, 1e-11)
        floor = self._loudest / BANDS * 10.0 ** (FLOOR_DB / 10.0)
        pressed = np.log1p(power / np.float32(floor))
        joined = np.concatenate([self._last, pressed])
        self._onsets.append(np.maximum(pressed - joined[:-2], 0.0).astype(np.float16))
        self._last = joined[-2:]
        wide = np.add.reduceat(power, WIDE, axis=1)
        self._levels.append((10.0 * np.log10(wide + np.float32(1e-12))).astype(np.float16))

    def heard(self) -> Heard:
        """All that was taken, once the last block is in."""
        self._left = np.concatenate([self._left, np.zeros(self._window.size // 2, dtype=np.float32)])
        self._work()
        empty = np.zeros((0, BANDS), dtype=np.float16)
        return Heard(
            onsets=np.concatenate([empty, *self._onsets]),
            levels_db=np.concatenate([empty[:, : len(WIDE)], *self._levels]),
            peak=self._peak,
            clipped=self._clipped / max(1, self._samples),
        )


def _weights(size: int, rate_hz: int) -> Singles:
    """Bins by bands: the share of a bin that a band has. A band narrower than a bin shares one with its neighbours."""
    width = rate_hz / size
    edges = np.array(EDGES_HZ)
    low = np.arange(size // 2 + 1)[:, None] * width - width / 2
    shared = np.minimum(low + width, edges[None, 1:]) - np.maximum(low, edges[None, :-1])
    return np.asarray(np.clip(shared / width, 0.0, 1.0), dtype=np.float32)
