"""Samples measured as the recorder measures a mix: block by block, by the survey."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sonify.sound.rate import BLOCK, STEP, Floats, Samples
from sonify.sound.survey import Survey, hop_squares, true_peaks


def blocks_of(samples: Samples) -> Iterator[Samples]:
    """`samples`: 2 by any number."""
    return (np.ascontiguousarray(samples[:, at : at + BLOCK]) for at in range(0, samples.shape[1], BLOCK))


def surveyed(samples: np.ndarray) -> Survey:
    survey = Survey()
    for block in blocks_of(np.asarray(samples, dtype=np.float32)):
        survey.add(block)
    return survey


def squares_of(samples: np.ndarray) -> Floats:
    """K-weighted mean square of each 100 ms."""
    return hop_squares(surveyed(samples).energies[: samples.shape[1] // STEP])


def true_peak_of(samples: Samples) -> float:
    """Linear true peak (1.0 is 0 dBTP)."""
    return float(true_peaks(blocks_of(samples), surveyed(samples).peaks, 0.0).max())
