"""Integrated loudness, its range and the values between samples (ITU-R BS.1770, EBU Tech 3342)."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
from numpy.typing import NDArray

from sonify.sound.rate import STEP, Floats, Samples

#: What a recording is to have (design), and how far off it may be.
TARGET_LUFS, CEILING_DBTP, TOLERANCE_LU = -18.0, -1.0, 0.5

OFFSET_LU = -0.691  # the standard's constant: 0 dBFS at 997 Hz in one channel reads -3.01
ABSOLUTE_GATE_LUFS, RELATIVE_GATE_LU = -70.0, -10.0
HOPS_A_WINDOW = 4  # 400 ms windows, 75 % overlap
#: Loudness range (EBU Tech 3342): windows of 3 s, those 20 LU under the mean left out, 10th to 95th centile.
HOPS_A_SHORT_TERM, RANGE_GATE_LU, RANGE_CENTILES = 30, -20.0, (10.0, 95.0)

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


def loudness_range_lu(hop_squares: Floats) -> float:
    """Loudness range of a programme (EBU Tech 3342) from the mean squares of its 100 ms hops; 0 for silence."""
    total = np.concatenate([[0.0], np.cumsum(hop_squares)])
    windows = (total[HOPS_A_SHORT_TERM:] - total[:-HOPS_A_SHORT_TERM]) / HOPS_A_SHORT_TERM
    loud = windows[windows > 10.0 ** ((ABSOLUTE_GATE_LUFS - OFFSET_LU) / 10.0)]
    if not loud.size:
        return 0.0
    counted = loud[loud > loud.mean() * 10.0 ** (RANGE_GATE_LU / 10.0)]
    levels = 10.0 * np.log10(counted)
    low, high = (quantile(levels, centile / 100.0) for centile in RANGE_CENTILES)
    return high - low


def quantile(values: Floats, share: float) -> float:
    """The value that so large a share of the values lie under, drawn straight between two of them, as numpy's does:
    that is made for whole arrays, and slow for a few."""
    ordered = np.sort(values)
    at = share * (ordered.size - 1)
    low, high = float(ordered[int(at)]), float(ordered[min(int(at) + 1, ordered.size - 1)])
    between = at - int(at)
    return low + (high - low) * between if between < 0.5 else high - (high - low) * (1.0 - between)


@cache
def _phases() -> Samples:
    """Windowed-sinc interpolators, one column a phase (a quarter, a half, three quarters of a sample on)."""
    rows = []
    for phase in range(1, OVERSAMPLING):
        t = np.arange(TAPS) - (TAPS // 2 - 1) - phase / OVERSAMPLING
        window = np.i0(8.0 * np.sqrt(np.maximum(0.0, 1.0 - (t / (TAPS / 2)) ** 2))) / np.i0(8.0)
        row = np.sinc(t) * window
        rows.append(row / row.sum())
    return np.ascontiguousarray(np.array(rows, dtype=np.float32).T)


@cache
def most_between() -> float:
    """No value between samples exceeds the samples around it by more than this factor."""
    return float(np.abs(_phases()).sum(axis=0).max())


def step_peaks(samples: Samples) -> Samples:
    """The larger channel's sample peak in each STEP (the last may be short)."""
    channels, length = samples.shape
    padded = np.zeros((channels, -(-length // STEP) * STEP), dtype=np.float32)
    np.abs(samples, out=padded[:, :length])
    for row in padded[1:]:
        np.maximum(padded[0], row, out=padded[0])
    return np.asarray(padded[0].reshape(-1, STEP).max(axis=1))


@cache
def _spread() -> Samples:
    """All interpolated values of a step as one matrix: STEP + TAPS - 1 samples to STEP times three values."""
    matrix = np.zeros((STEP + TAPS - 1, STEP, OVERSAMPLING - 1), dtype=np.float32)
    for at in range(STEP):
        matrix[at : at + TAPS, at] = _phases()
    return matrix.reshape(STEP + TAPS - 1, -1)


def peaks_between(joined: Samples, steps: NDArray[np.intp]) -> Samples:
    """Largest interpolated value in chosen steps, the channels' maximum.

    `joined`: channels by samples, preceded by TAPS - 1 earlier ones. The points of a step are those up to TAPS / 2
    samples before its own; points that want samples beyond the end are left for the next block.
    """
    found = np.zeros(steps.size, dtype=np.float32)
    width = STEP + TAPS - 1
    last = int(steps.max(initial=0)) * STEP + width
    beyond = max(0, last - joined.shape[1])  # points of the last step that cannot be had yet
    for row in joined:
        wide = np.concatenate([row, np.zeros(beyond, dtype=np.float32)]) if beyond else row
        stretches = np.lib.stride_tricks.sliding_window_view(wide, width)[steps * STEP]
        for start in range(0, steps.size, 12):  # twelve a product: small enough for one core
            values = np.abs(np.matmul(stretches[start : start + 12], _spread()))
            if beyond:
                late = steps[start : start + 12] * STEP + width > row.size
                values[late, (STEP - beyond) * (OVERSAMPLING - 1) :] = 0.0
            np.maximum(found[start : start + 12], values.max(axis=1), out=found[start : start + 12])
    return found
