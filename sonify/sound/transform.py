"""The discrete transform in single precision, typed. numpy's own: importing scipy's costs more than it saves in a piece
of a few minutes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sonify.sound.rate import RATE_HZ, Floats, Samples

Spectrum = NDArray[np.complex64]


def spectrum_of(samples: Samples, size: int) -> Spectrum:
    """Transform along the last axis, zeros added up to `size`.

    numpy keeps to single precision only where it scales by a fraction, else it takes its factor for a double and three
    times as long. Down and up again by a power of two takes nothing from a number.
    """
    spectrum = np.fft.rfft(samples, size, norm="forward")
    spectrum *= np.float32(size)
    return np.asarray(spectrum, dtype=np.complex64)


def samples_of(spectrum: Spectrum, size: int) -> Samples:
    """Back again: `size` samples along the last axis."""
    return np.asarray(np.fft.irfft(spectrum, size), dtype=np.float32)


def bins_hz(size: int) -> Floats:
    """Frequencies of the bins of a transform of `size`."""
    return np.asarray(np.fft.rfftfreq(size, 1.0 / RATE_HZ), dtype=np.float64)
