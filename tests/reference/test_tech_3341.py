"""EBU Tech 3341, "EBU mode" loudness metering: minimum requirements test signals.

Recipes, expected readings and tolerances (+-0.1 LU, true peak +0.2/-0.4 dB) as the tests of public loudness libraries
quote them (read 2026). Loudness signals are 1 kHz stereo sines. Ours must hold half the tolerance (0.05 LU).

Left out: 6 has five channels; 7 and 8 are recordings that may not be passed on; 10, 11, 13 and 14 ask for the largest
momentary or short-term loudness, which this meter does not tell. 9 and 12 hold for the windows its gate works on.
Of 20 to 23 only the idea could be read (a peak between samples, at four places); the waveform is ours.
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.sound.loudness import lufs
from sonify.sound.survey import lufs_of
from tests.sound.metering import squares_of, surveyed, true_peak_of

RATE = 44_100
# case: levels in dBFS with seconds, expected LUFS
INTEGRATED = {
    "1": (((-23, 20),), -23.0),
    "2": (((-33, 20),), -33.0),
    "3": (((-36, 10), (-23, 60), (-36, 10)), -23.0),
    "4": (((-72, 10), (-36, 10), (-23, 60), (-36, 10), (-72, 10)), -23.0),
    "5": (((-26, 20), (-20, 20.1), (-26, 20)), -23.0),
}
# case: levels in dBFS with seconds, how often, length of the window in s: always -23.0 LUFS
CONSTANT = {
    "9": (((-20, 1.34), (-30, 1.66)), 5, 3.0),
    "12": (((-20, 0.18), (-30, 0.22)), 25, 0.4),
}
# case: frequency over rate, phase in degrees, amplitude, expected dBTP
TRUE_PEAK = {
    "15": (0.25, 0.0, 0.5, -6.0),
    "16": (0.25, 45.0, 0.5, -6.0),
    "17": (1 / 6, 60.0, 0.5, -6.0),
    "18": (0.125, 67.5, 0.5, -6.0),
    "19": (0.25, 45.0, 1.41, 3.0),
}


def sounded(levels: tuple[tuple[float, float], ...]) -> np.ndarray:
    sine = np.concatenate(
        [10 ** (db / 20) * np.sin(2 * np.pi * 1000 * np.arange(round(s * RATE)) / RATE) for db, s in levels]
    ).astype(np.float32)
    return np.stack([sine] * 2)


@pytest.mark.parametrize("case", INTEGRATED)
def test_integrated_loudness(case: str) -> None:
    levels, expected = INTEGRATED[case]
    assert lufs_of(surveyed(sounded(levels)).energies) == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize("case", CONSTANT)
def test_every_window_of_a_signal_with_its_own_period_reads_the_same(case: str) -> None:
    levels, times, window_s = CONSTANT[case]
    squares = squares_of(sounded(levels * times))
    hops = round(window_s * 10)
    windows = np.convolve(squares, np.ones(hops) / hops, "valid")[10:]  # constant once a second has gone by
    assert windows.size > 40
    np.testing.assert_allclose([lufs(float(w)) for w in windows], -23.0, rtol=0, atol=0.05)


@pytest.mark.parametrize("case", TRUE_PEAK)
def test_true_peak(case: str) -> None:
    frequency, degrees, amplitude, expected = TRUE_PEAK[case]
    n = np.arange(RATE)
    edge = np.minimum(1.0, np.minimum(n, n[::-1]) / 2000.0)
    sine = (amplitude * edge * np.sin(2 * np.pi * frequency * n + np.radians(degrees))).astype(np.float32)
    db = 20 * np.log10(true_peak_of(np.stack([sine] * 2)))
    assert -0.4 <= db - expected <= 0.2


def burst_between_samples() -> np.ndarray:
    """At four times the rate: a tone of a quarter of the rate, one swing twice as high, band-limited; its peak is 1."""
    n = np.arange(4 * RATE)
    tone = 0.5 * np.sin(2 * np.pi * n / 16) * (1.0 + np.exp(-(((n - 2 * RATE) / 12.0) ** 2)))
    spectrum = np.fft.rfft(tone)
    hz = np.fft.rfftfreq(n.size, 1 / (4 * RATE))
    spectrum *= 0.5 * (1.0 - np.tanh((hz - 0.4 * RATE) / (0.01 * RATE)))
    low = np.fft.irfft(spectrum, n.size)
    edge = np.minimum(1.0, np.minimum(n, n[::-1]) / 8000.0)
    return np.asarray(low * edge / np.abs(low * edge).max())


@pytest.mark.parametrize("offset", range(4), ids=["20", "21", "22", "23"])
def test_true_peak_between_samples_at_four_places(offset: int) -> None:
    sine = burst_between_samples()[offset::4].astype(np.float32)
    assert abs(20 * np.log10(true_peak_of(np.stack([sine] * 2)))) < 0.05
