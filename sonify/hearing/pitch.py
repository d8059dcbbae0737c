"""The note of a stroke: the lowest strong line among those that a stroke has added."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

SIZE = 8192
#: How far beyond the key's ends a note may lie, in semitones; how much weaker than the strongest line it may be.
BEYOND, WEAKER_DB = 4.0, 14.0


def stroke_note(
    samples: NDArray[np.float32], rate_hz: int, onset_s: float, lasts_s: float, lowest: float, highest: float
) -> float:
    """MIDI note number (60 is middle C, a fraction where it lies between) of what begins at `onset_s`; nan for none.

    What rang before is taken away, and of the lines left within the range the lowest that is nearly as strong as the
    strongest counts: bars and bells sound their first partial, and others above it that are no harmonics.
    """
    after = _magnitude(samples, rate_hz, onset_s + 0.02, min(0.35, max(0.09, lasts_s - 0.02)))
    before = _magnitude(samples, rate_hz, onset_s - 0.2, 0.18)
    added = np.maximum(after - before, 0.0)
    hz = np.fft.rfftfreq(SIZE, 1.0 / rate_hz)
    low, high = (440.0 * 2.0 ** ((note - 69.0) / 12.0) for note in (lowest - BEYOND, highest + BEYOND))
    inside = np.flatnonzero((hz >= low) & (hz <= high))
    if not inside.size or added[inside].max() <= 0.0:
        return float("nan")
    lines = [k for k in inside if added[k] > added[k - 1] and added[k] >= added[k + 1]]
    strong = [k for k in lines if added[k] >= added[inside].max() * 10.0 ** (-WEAKER_DB / 20.0)]
    # the window's own side lobes lie beside a strong line: a line must stand out from those within a semitone
    strong = [k for k in strong if added[k] >= added[max(0, k - 3) : k + 4].max()]
    if not strong:
        return float("nan")
    at = strong[0]
    left, middle, right = np.log(added[at - 1 : at + 2] + 1e-12)
    bend = left - 2.0 * middle + right
    place = at + (0.5 * (left - right) / bend if bend < 0.0 else 0.0)
    return float(69.0 + 12.0 * np.log2(place * rate_hz / SIZE / 440.0))


def _magnitude(samples: NDArray[np.float32], rate_hz: int, start_s: float, length_s: float) -> NDArray[np.float64]:
    """Amplitude per frame length, so that stretches of different lengths compare."""
    first = round(start_s * rate_hz)
    piece = samples[max(0, first) : max(0, first + min(SIZE, round(length_s * rate_hz)))]
    if piece.size < 256:
        return np.zeros(SIZE // 2 + 1)
    window = np.hanning(piece.size)
    return np.asarray(np.abs(np.fft.rfft(piece * window, SIZE)) / window.sum())
