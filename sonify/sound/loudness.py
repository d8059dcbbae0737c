"""Integrated loudness and true peak (ITU-R BS.1770), measured in a stream."""

from __future__ import annotations

import math
from functools import cache

import numpy as np

from sonify.sound.rate import HOP, RATE_HZ, STEP, Floats, Samples
from sonify.sound.weighting import Weighting

OFFSET_LU = -0.691  # the standard's constant: 0 dBFS at 997 Hz in one channel reads -3.01
ABSOLUTE_GATE_LUFS, RELATIVE_GATE_LU = -70.0, -10.0
HOPS_A_WINDOW = 4  # 400 ms windows, 75 % overlap

#: True peak: four times oversampled, 48 inputs to an output. Twelve, as the standard's example has, reads 0.17 dB low.
OVERSAMPLING, TAPS = 4, 48


def lufs(mean_square: float) -> float:
    """Loudness of a K-weighted mean square summed over channels; -inf for silence."""
    return OFFSET_LU + 10.0 * math.log10(mean_square) if mean_square > 0.0 else -math.inf


def integrated_lufs(hop_squares: Floats) -> float:
    """Gated loudness of a programme from the K-weighted mean squares of its 100 ms hops.

    Windows of 400 ms under -70 LUFS are left out, then those more than 10 LU under the mean of the rest.
    -inf where nothing passes the gate.
    """
    if hop_squares.size < HOPS_A_WINDOW:
        return -math.inf
    total = np.concatenate([[0.0], np.cumsum(hop_squares)])
    windows = (total[HOPS_A_WINDOW:] - total[:-HOPS_A_WINDOW]) / HOPS_A_WINDOW
    loud = windows[windows > 10.0 ** ((ABSOLUTE_GATE_LUFS - OFFSET_LU) / 10.0)]
    if not loud.size:
        return -math.inf
    gate = loud.mean() * 10.0 ** (RELATIVE_GATE_LU / 10.0)
    return lufs(float(loud[loud > gate].mean()))


@cache
def _phases() -> Samples:
    """Windowed-sinc interpolators, one row a phase (a quarter, a half, three quarters of a sample on)."""
    rows = []
    for phase in range(1, OVERSAMPLING):
        t = np.arange(TAPS) - (TAPS // 2 - 1) - phase / OVERSAMPLING
        window = np.i0(8.0 * np.sqrt(np.maximum(0.0, 1.0 - (t / (TAPS / 2)) ** 2))) / np.i0(8.0)
        row = np.sinc(t) * window
        rows.append(row / row.sum())
    return np.array(rows, dtype=np.float32)


@cache
def _most_gain() -> float:
    return float(np.abs(_phases()).sum(axis=1).max())


def _window_peak(stretch: Samples) -> float:
    """Largest oversampled value between the samples of a short stretch that brings its neighbours with it."""
    views = np.lib.stride_tricks.sliding_window_view(stretch, TAPS)
    return float(np.abs(np.einsum("nt,pt->np", views, _phases())).max())


class TruePeak:
    """Four times oversampled peak of a stream. Exact: stretches that cannot beat the best so far are passed over."""

    def __init__(self, channels: int) -> None:
        self.best = 0.0
        self._tail = np.zeros((channels, TAPS - 1), dtype=np.float32)

    def add(self, samples: Samples) -> None:
        """`samples`: channels by any length."""
        joined = np.concatenate([self._tail, samples], axis=1)
        self._tail = joined[:, -(TAPS - 1) :].copy()
        self.best = max(self.best, float(np.abs(samples).max(initial=0.0)))
        for row in joined:
            self._search(row)

    def finish(self) -> float:
        """The peak, once the last samples have rung through the interpolator."""
        self.add(np.zeros_like(self._tail))
        return self.best

    def _search(self, row: Samples) -> None:
        width = 4 * STEP
        count = -(-row.size // width)
        padded = np.zeros(count * width, dtype=np.float32)
        np.abs(row, out=padded[: row.size])
        local = padded.reshape(count, width).max(axis=1)
        reach = local.copy()
        reach[:-1] = np.maximum(local[:-1], local[1:])  # a stretch looks TAPS - 1 samples on
        for index in np.argsort(-reach, kind="stable"):
            if reach[index] * _most_gain() <= self.best:
                return
            stretch = row[index * width : index * width + width + TAPS - 1]
            if stretch.size >= TAPS:
                self.best = max(self.best, _window_peak(stretch))


class Meter:
    """Loudness and true peak of a stream of any block lengths (44.1 kHz)."""

    def __init__(self, channels: int = 2, rate_hz: int = RATE_HZ) -> None:
        self.rate_hz = rate_hz
        self._weighting = Weighting(channels, rate_hz)
        self._peak = TruePeak(channels)
        self._squares: list[Floats] = []
        self._rest = np.zeros((channels, 0), dtype=np.float32)

    def add(self, samples: Samples) -> None:
        self._peak.add(samples)
        joined = np.concatenate([self._rest, samples], axis=1) if self._rest.size else samples
        whole = joined.shape[1] // HOP * HOP
        if whole:
            self._squares.append(self._weighting.mean_squares(np.ascontiguousarray(joined[:, :whole])))
        self._rest = joined[:, whole:].copy()

    @property
    def hop_squares(self) -> Floats:
        """K-weighted mean square of each whole hop so far, channels summed."""
        return np.concatenate(self._squares) if self._squares else np.zeros(0)

    def integrated_lufs(self) -> float:
        return integrated_lufs(self.hop_squares)

    def true_peak(self) -> float:
        """Linear true peak (1.0 is 0 dBTP)."""
        return self._peak.finish()
