"""Half the sampling rate and back again, as small matrix products: a linear-phase filter of 31 taps either way.

A block is taken as all there is, silence before and after (as in overlap and add): the filter's ends come with it.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.lib.stride_tricks import as_strided

from sonify.sound.rate import RATE_HZ, Samples

#: -46 dB of what lies over 12.5 kHz; nothing taken away under 8 kHz.
TAPS, CUTOFF_HZ, KAISER_BETA = 31, 10_500.0, 4.0
#: Down and up again comes this many samples late.
LATE = TAPS - 1
#: Samples to a row, and rows to a product: small enough for the linear algebra library to keep to one core.
ROW, DOWN_ROWS, UP_ROWS = 42, 68, 71
HALF_ROW = ROW // 2


@cache
def _matrices() -> tuple[Samples, Samples]:
    """What makes half a row of a row and the LATE samples before it, and what makes a row of half a row."""
    share = 2.0 * CUTOFF_HZ / RATE_HZ
    taps = share * np.sinc(share * (np.arange(TAPS) - TAPS // 2)) * np.kaiser(TAPS, KAISER_BETA)
    taps /= taps.sum()
    down = np.zeros((LATE + ROW, HALF_ROW), dtype=np.float32)
    for column in range(HALF_ROW):
        down[2 * column : 2 * column + TAPS, column] = taps
    up = np.zeros((LATE // 2 + HALF_ROW, ROW), dtype=np.float32)
    for column in range(ROW):
        at = column + LATE - 2 * np.arange(len(up))
        within = (at >= 0) & (at < TAPS)
        up[within, column] = 2.0 * taps[at[within]]
    return down, up


def _rows(length: int, step: int, together: int) -> int:
    """Rows that hold so many samples, a whole number of products."""
    return -(-length // (step * together)) * together


def halved_size(length: int) -> int:
    """How many samples `halved` makes of so many."""
    return _rows(length + LATE, ROW, DOWN_ROWS) * HALF_ROW


def halved(samples: Samples) -> Samples:
    """Channels by any length at half the rate, with the filter's ends."""
    return _filtered(samples, _matrices()[0], _rows(samples.shape[1] + LATE, ROW, DOWN_ROWS), DOWN_ROWS)


def doubled(samples: Samples) -> Samples:
    """Channels by any length at twice the rate, with the filter's ends."""
    return _filtered(samples, _matrices()[1], _rows(samples.shape[1] + LATE // 2, HALF_ROW, UP_ROWS), UP_ROWS)


def _filtered(samples: Samples, matrix: Samples, rows: int, together: int) -> Samples:
    """Rows of samples, each with the end of the row before it, times a matrix."""
    channels, length = samples.shape
    width, made = matrix.shape
    before = LATE * width // (LATE + ROW)
    step = width - before
    padded = np.empty((channels, before + rows * step), dtype=np.float32)
    padded[:, :before] = 0.0
    padded[:, before : before + length] = samples
    padded[:, before + length :] = 0.0
    windows = as_strided(
        padded,
        (channels, rows // together, together, width),
        (padded.strides[0], 4 * step * together, 4 * step, 4),
        writeable=False,
    )
    return np.asarray(np.matmul(np.ascontiguousarray(windows), matrix).reshape(channels, rows * made))
