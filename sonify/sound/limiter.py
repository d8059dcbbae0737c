"""A look-ahead limiter as a curve of gain: worked out once, the same for the mix and for every stem."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from sonify.sound.beds import ramps
from sonify.sound.loudness import Meter
from sonify.sound.rate import BLOCK, STEP, Samples

#: Steps of 1.4 ms: the gain is down this long before the peak, and comes back over this long after it.
AHEAD, BACK = 6, 40
STEPS_A_BLOCK = BLOCK // STEP
MARGIN_DB = 0.15  # kept under the ceiling while planning: peaks between samples move a little under a moving gain
ROUNDS = 8


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plan:
    gain: float
    curve: Samples
    lufs: float
    peak_dbtp: float


def step_peaks(out: Samples) -> Samples:
    """The larger channel's sample peak in each STEP of a block."""
    channels, length = out.shape
    steps = -(-length // STEP)
    padded = np.zeros((channels, steps * STEP), dtype=np.float32)
    np.abs(out, out=padded[:, :length])
    return np.asarray(padded.reshape(channels, steps, STEP).max(axis=(0, 2)))


def _lowest(values: Samples, ahead: int, back: int) -> Samples:
    """Least value from `ahead` steps on to `back` steps ago."""
    padded = np.concatenate([np.ones(back, np.float32), values, np.ones(ahead, np.float32)])
    return np.asarray(np.lib.stride_tricks.sliding_window_view(padded, back + ahead + 1).min(axis=1))


def curve_for(peaks: Samples, ceiling: float) -> Samples:
    """Gain at every step, never over what its peak allows: the least needed nearby, drawn smooth."""
    needed = np.minimum(1.0, ceiling / np.maximum(peaks, 1e-12)).astype(np.float32)
    held = _lowest(needed, AHEAD + 1, AHEAD + 1)
    window = np.hanning(2 * AHEAD + 3)[1:-1]
    window = (window / window.sum()).astype(np.float32)
    padded = np.concatenate([np.ones(AHEAD, np.float32), held, np.ones(AHEAD, np.float32)])
    return np.asarray(np.lib.stride_tricks.sliding_window_view(padded, window.size) @ window)


def gains(curve: Samples, block: int) -> Samples:
    """The curve drawn out to samples, over one block."""
    first = block * STEPS_A_BLOCK
    corners = curve[first : first + STEPS_A_BLOCK + 1]
    missing = STEPS_A_BLOCK + 1 - corners.size
    if missing:
        corners = np.concatenate([corners, np.full(missing, curve[-1], dtype=np.float32)])
    return ramps(corners.astype(np.float64))


def plan(
    blocks: Callable[[], Iterator[Samples]], peaks: Samples, gain: float, target_lufs: float, ceiling_dbtp: float
) -> Plan:
    """The gain and the curve with which the programme meets both its loudness and its peak, as measured.

    Limiting takes loudness away, so the gain is raised and the limiter asked again, until both hold.
    """
    margin_db = MARGIN_DB
    best: Plan | None = None
    for _ in range(ROUNDS):
        curve = curve_for(peaks * np.float32(gain), 10.0 ** ((ceiling_dbtp - margin_db) / 20.0))
        meter = Meter()
        for block, out in enumerate(blocks()):
            meter.add(out * (np.float32(gain) * gains(curve, block)[: out.shape[1]]))
        lufs, peak_dbtp = meter.integrated_lufs(), 20.0 * math.log10(meter.true_peak())
        best = Plan(gain=gain, curve=curve, lufs=lufs, peak_dbtp=peak_dbtp)
        if abs(lufs - target_lufs) < 0.05 and peak_dbtp <= ceiling_dbtp:
            return best
        gain *= 10.0 ** ((target_lufs - lufs) / 20.0)
        margin_db += max(0.0, peak_dbtp - ceiling_dbtp)
    assert best is not None
    return best
