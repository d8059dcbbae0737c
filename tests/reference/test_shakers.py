"""Cook, Physically informed sonic modeling (1997): resonances of shaken and scraped instruments.

The paper was not at hand; the figures are those of its author's open-source form (Synthesis ToolKit, file Shakers.cpp
by Cook and Scavone, read 2026): centre frequency in Hz, pole radius at 22.05 kHz, and by how much each may wander.
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.sound.voices.bank import VOICES, Bank, stroke_of
from sonify.sound.voices.records import Shaken

# instrument: (centre Hz, may wander by), the container's own first
PRINTED = {
    "maracas": ((3200, 0.0),),
    "guiro": ((2500, 0.0), (4000, 0.0)),
    "tambourine": ((5600, 0.05), (8100, 0.05)),
    "sleigh-bells": ((2500, 0.03), (5300, 0.03), (6500, 0.03), (8300, 0.03), (9800, 0.03)),
}
RADIUS = {"maracas": 0.96, "guiro": 0.97}
STROKES = 8


def power_spectrum(instrument: str) -> tuple[np.ndarray, np.ndarray]:
    """Mean over strokes of several seeds, smoothed by 2 %."""
    size = 1 << 16
    total = np.zeros(size // 2 + 1)
    for seed in range(STROKES):
        shot = Bank(seed).shot(stroke_of(instrument, 60, 80, 0.5, turn=0, held=False))
        total += np.abs(np.fft.rfft(shot.samples, size)) ** 2
    hz = np.fft.rfftfreq(size, 1 / 44_100)
    grid = np.geomspace(800, 14_000, 600)
    smooth = [total[(hz > f / 1.01) & (hz < f * 1.01)].mean() for f in grid]
    return grid, 10 * np.log10(np.array(smooth))


@pytest.mark.parametrize("instrument", PRINTED)
def test_a_rendered_stroke_peaks_where_the_model_has_its_resonances(instrument: str) -> None:
    grid, db = power_spectrum(instrument)
    for hz, wander in PRINTED[instrument]:
        near = np.abs(np.log(grid / hz)) < np.log(1.05 + 2 * wander)
        beyond = np.abs(np.log(grid / hz)) < np.log(1.35)
        peak = grid[near][np.argmax(db[near])]
        assert abs(peak / hz - 1) < 0.03 + 2 * wander, f"{peak:.0f} Hz"
        assert db[near].max() > np.median(db[beyond & ~near]) + 2.0


@pytest.mark.parametrize("instrument", RADIUS)
def test_its_resonances_ring_as_long_as_a_pole_of_that_radius(instrument: str) -> None:
    """Amplitude r^n a sample: 60 dB take -3 / log10 r samples of 22 050 a second."""
    voice = VOICES[instrument]
    assert isinstance(voice, Shaken)
    wanted_s = -3.0 / np.log10(RADIUS[instrument]) / 22_050
    assert voice.resonances[0].ring_s == pytest.approx(wanted_s, rel=0.02)
