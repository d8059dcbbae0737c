"""What the first pass learns about a mix, step by step: enough to decide gain and limiter without hearing it again."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from sonify.sound.loudness import TAPS, integrated_lufs, most_between, peaks_between, step_peaks
from sonify.sound.rate import HOP, STEP, Floats, Samples
from sonify.sound.weighting import Weighting

STEPS_A_HOP = HOP // STEP


class Survey:
    """Sample peak and K-weighted energy of every step of 63 samples, gathered block by block."""

    def __init__(self) -> None:
        self._weighting = Weighting(2)
        self._peaks: list[Samples] = []
        self._energies: list[Samples] = []

    def add(self, block: Samples) -> None:
        """`block`: 2 by whole hops, but for the last."""
        self._peaks.append(step_peaks(block))
        hops = -(-block.shape[1] // HOP)
        whole = block
        if hops * HOP != block.shape[1]:
            whole = np.zeros((2, hops * HOP), dtype=np.float32)
            whole[:, : block.shape[1]] = block
        self._energies.append(self._weighting.energies(np.ascontiguousarray(whole)).reshape(-1))

    @property
    def peaks(self) -> Samples:
        return np.concatenate(self._peaks)

    @property
    def energies(self) -> Floats:
        return np.concatenate(self._energies).astype(np.float64)


def lufs_of(energies: Floats, gains: Floats | float = 1.0) -> float:
    """Integrated loudness of a mix whose steps have these energies, each multiplied by its gain.

    The gain of a limiter moves slowly against the filter's memory, so weighting first and gain after is near enough
    (tests hold it to 0.1 LU). An incomplete last hop is left out, as the standard has it.
    """
    loud = energies * np.square(gains)
    whole = loud.size // STEPS_A_HOP * STEPS_A_HOP
    return integrated_lufs(loud[:whole].reshape(-1, STEPS_A_HOP).sum(axis=1) / HOP)


def true_peaks(blocks: Iterator[Samples], peaks: Samples, over: float, curve: Samples | None = None) -> Samples:
    """Peak of every step, with values between samples wherever those might pass `over`.

    curve: gain at the corners of each step (one more than steps), applied before; `peaks` are of the blocks as read.
    """
    out = peaks.copy()
    tail = np.zeros((2, TAPS - 1), dtype=np.float32)
    at = 0
    for block in blocks:
        count = -(-block.shape[1] // STEP)
        near = peaks[max(at - 1, 0) : at + count]
        if curve is not None:
            near = near * curve[max(at - 1, 0) : at + count]
        if near.max(initial=0.0) * most_between() * 1.05 > over:
            out[at : at + count] = np.maximum(out[at : at + count], _between(block, tail, at, peaks, over, curve))
        tail = block[:, -(TAPS - 1) :]
        at += count
    return out


def _between(block: Samples, tail: Samples, at: int, peaks: Samples, over: float, curve: Samples | None) -> Samples:
    """Interpolated peaks of a block's steps; each takes those of the step after, whose points begin in it."""
    count = -(-block.shape[1] // STEP)
    local = peaks[at : at + count]
    before = peaks[at - 1] if at else np.float32(0.0)
    reach = np.maximum(local, np.concatenate([[before], local[:-1]]))
    if curve is not None:
        reach = reach * np.maximum(curve[at : at + count], curve[at + 1 : at + count + 1])
    chosen = np.flatnonzero(reach * most_between() > over)
    found = np.zeros(count, dtype=np.float32)
    if chosen.size:
        found[chosen] = peaks_between(np.concatenate([tail, block], axis=1), chosen)
    found[:-1] = np.maximum(found[:-1], found[1:])
    return found


def decibels(ratio: float) -> float:
    return 20.0 * math.log10(ratio) if ratio > 0.0 else -math.inf
