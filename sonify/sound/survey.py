"""What the first pass learns about a mix, step by step: enough to decide gain and limiter without hearing it again."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

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
    def energies(self) -> Samples:
        return np.concatenate(self._energies)


def hop_squares(energies: Samples) -> Floats:
    """K-weighted mean square of each whole hop, channels summed. The standard leaves an incomplete last one out."""
    whole = energies.size // STEPS_A_HOP * STEPS_A_HOP
    return np.asarray(energies[:whole].reshape(-1, STEPS_A_HOP).sum(axis=1, dtype=np.float64) / HOP)


def lufs_of(energies: Samples, gains: Samples | float = 1.0) -> float:
    """Integrated loudness of a mix whose steps have these energies, each multiplied by its gain.

    The gain of a limiter moves slowly against the filter's memory, so weighting first and gain after is near enough
    (tests hold it to 0.1 LU).
    """
    if isinstance(gains, float):
        return integrated_lufs(hop_squares(energies) * (gains * gains))
    whole = energies.size // STEPS_A_HOP * STEPS_A_HOP
    hops = energies[:whole].reshape(-1, STEPS_A_HOP)
    by_hop = gains[:whole].reshape(-1, STEPS_A_HOP)
    return integrated_lufs(np.einsum("hs,hs,hs->h", hops, by_hop, by_hop, dtype=np.float64) / HOP)


def true_peaks(blocks: Iterator[Samples], peaks: Samples, over: float) -> Samples:
    """Peak of every step, with values between samples wherever those might pass `over`."""
    reach = np.maximum(peaks, np.insert(peaks[:-1], 0, 0.0)) * np.float32(most_between())
    found = np.zeros(peaks.size + 1, dtype=np.float32)
    for at, first, joined in _suspects(blocks, reach, over):
        found[at] = peaks_between(joined, at - first)
    # The points of a step begin half a filter before its samples: they count for the step before, too.
    return np.maximum(peaks, np.maximum(found[:-1], found[1:]))


def _suspects(
    blocks: Iterator[Samples], reach: Samples, over: float
) -> Iterator[tuple[NDArray[np.intp], int, Samples]]:
    """For each block the steps to look at, counted from the start, the block's first, and its samples after the end of
    the block before."""
    tail = np.zeros((2, TAPS - 1), dtype=np.float32)
    first = 0
    for block in blocks:
        count = -(-block.shape[1] // STEP)
        chosen = np.flatnonzero(reach[first : first + count] > over)
        if chosen.size:
            yield first + chosen, first, np.concatenate([tail, block], axis=1)
        tail = block[:, -(TAPS - 1) :]
        first += count


def decibels(ratio: float) -> float:
    return 20.0 * math.log10(ratio) if ratio > 0.0 else -math.inf
