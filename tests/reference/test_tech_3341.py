"""EBU Tech 3341, "EBU mode" loudness metering: minimum requirements test signals.

Expected readings and tolerances (+-0.1 LU, true peak +0.2/-0.4 dB) as a public loudness library's tests quote them;
the recipes of the signals from memory, not verified. All signals are 1 kHz stereo sines. Ours must hold half the
tolerance (0.05 LU).
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.sound.loudness import Meter, TruePeak

RATE = 44_100
# case: levels in dBFS with seconds, expected LUFS
INTEGRATED = {
    "1": (((-23, 20),), -23.0),
    "2": (((-33, 20),), -33.0),
    "3": (((-36, 10), (-23, 60), (-36, 10)), -23.0),
    "4": (((-72, 10), (-36, 10), (-23, 60), (-36, 10), (-72, 10)), -23.0),
    "5": (((-26, 20), (-20, 20.1), (-26, 20)), -23.0),
}
# case: frequency over rate, phase in degrees, amplitude, expected dBTP
TRUE_PEAK = {
    "15": (0.25, 0.0, 0.5, -6.0),
    "16": (0.25, 45.0, 0.5, -6.0),
    "17": (1 / 6, 60.0, 0.5, -6.0),
    "18": (0.125, 67.5, 0.5, -6.0),
    "19": (0.25, 45.0, 1.41, 3.0),
}


@pytest.mark.parametrize("case", INTEGRATED)
def test_integrated_loudness(case: str) -> None:
    levels, expected = INTEGRATED[case]
    sine = np.concatenate(
        [10 ** (db / 20) * np.sin(2 * np.pi * 1000 * np.arange(int(s * RATE)) / RATE) for db, s in levels]
    ).astype(np.float32)
    meter = Meter()
    for start in range(0, sine.size, 30_000):
        meter.add(np.stack([sine[start : start + 30_000]] * 2))
    assert meter.integrated_lufs() == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize("case", TRUE_PEAK)
def test_true_peak(case: str) -> None:
    frequency, degrees, amplitude, expected = TRUE_PEAK[case]
    n = np.arange(RATE)
    edge = np.minimum(1.0, np.minimum(n, n[::-1]) / 2000.0)
    sine = (amplitude * edge * np.sin(2 * np.pi * frequency * n + np.radians(degrees))).astype(np.float32)
    meter = TruePeak(2)
    for start in range(0, sine.size, 5000):
        meter.add(np.stack([sine[start : start + 5000]] * 2))
    db = 20 * np.log10(meter.finish())
    assert -0.4 <= db - expected <= 0.2
