"""Gains drawn out to samples: straight lines between corners."""

from __future__ import annotations

from functools import cache

import numpy as np

from sonify.sound.rate import Floats, Samples


@cache
def _line(step: int) -> Samples:
    rise = np.arange(step, dtype=np.float32) / np.float32(step)
    return np.stack([1.0 - rise, rise])


def ramps(corners: Floats | Samples, step: int) -> Samples:
    """From corner to corner, one a `step` samples: (n + 1) corners to n * step samples."""
    pairs = np.empty((corners.size - 1, 2), dtype=np.float32)
    pairs[:, 0] = corners[:-1]
    pairs[:, 1] = corners[1:]
    return np.asarray(np.matmul(pairs, _line(step)).reshape(-1))
