"""Partials as they are heard in finished strokes, against published ratios.

Uniform bar 1 : 2.7565 : 5.4039 (Fletcher & Rossing ch. 2, recomputed in test_vibrating_bodies); xylophone bar 1 : 3,
marimba bar 1 : 4 (HyperPhysics, read); ideal membrane, modes over (1,1), which the air beside a skin leaves much as
they are among themselves (Bessel zeros, as above); bells (2,0) and (3,0) tuned 1 : 3 with the octave of the first
(Rossing & Perrin 1987, abstract); string and open pipe: whole numbers.

Cymbal: strongest at 3 to 5 kHz only some 50 to 100 ms after the blow (Rossing & Shepherd 1982, from memory, not
verified). Gourds, jingles and beads: test_shakers. Decay of wood: test_marimba_bars.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from sonify.sound.voices.bank import Bank, note_hz, stroke_of

SIZE = 1 << 19
CENT = 2 ** (1 / 1200)
# instrument, key (0: none), Hz of 1, printed ratios, tolerance in cents
RATIOS = [
    ("soprano-glockenspiel", 84, 0.0, ("2.7565", "5.4039"), 3.0),
    ("alto-glockenspiel", 72, 0.0, ("2.7565", "5.4039", "8.933"), 3.0),
    ("chime-bars", 60, 0.0, ("2.7565", "5.4039"), 3.0),
    ("claves", 0, 2480.0, ("2.7565", "5.4039"), 15.0),
    ("soprano-xylophone", 72, 0.0, ("3",), 3.0),
    ("alto-xylophone", 60, 0.0, ("3",), 3.0),
    ("bass-xylophone", 48, 0.0, ("4",), 3.0),
    ("hand-bells", 60, 0.0, ("2", "3"), 5.0),
    ("tuned-tubes", 60, 0.0, ("2", "3"), 15.0),
    ("ukulele", 60, 0.0, ("2", "3", "4"), 5.0),
    ("hand-drum", 0, 165.0 * 1.06 * 1.593, ("1.3408", "1.6654"), 40.0),  # (2,1) and (3,1) over (1,1)
]


def stroke(instrument: str, key: int, *, velocity: int = 110, brightness: float = 1.0) -> np.ndarray:
    shot = Bank(2).shot(stroke_of(instrument, key, velocity, brightness, turn=0, held=False))
    return shot.samples.astype(float)


def peak_hz(spectrum: np.ndarray, near: float) -> float:
    """The highest point within a semitone, by a parabola through it and its neighbours."""
    bins = [round(near * 2 ** (s / 12) * SIZE / 44_100) for s in (-1, 1)]
    top = bins[0] + int(np.argmax(spectrum[bins[0] : bins[1]]))
    a, b, c = np.log(spectrum[top - 1 : top + 2])
    return float((top + 0.5 * (a - c) / (a - 2 * b + c)) * 44_100 / SIZE)


@pytest.mark.parametrize(("instrument", "key", "first_hz", "printed", "cents"), RATIOS, ids=[r[0] for r in RATIOS])
def test_partials_stand_at_the_published_ratios(
    instrument: str, key: int, first_hz: float, printed: tuple[str, ...], cents: float
) -> None:
    samples = stroke(instrument, key)
    spectrum = np.abs(np.fft.rfft(samples * np.hanning(2 * samples.size)[samples.size :], SIZE))
    first = peak_hz(spectrum, first_hz or note_hz(key))
    for ratio in printed:
        wanted = first * float(ratio)
        found = peak_hz(spectrum, wanted)
        assert abs(np.log2(found / wanted) * 1200) < cents, f"{found:.1f} Hz for {wanted:.1f} Hz"
        around = spectrum[int(wanted * 0.94 * SIZE / 44_100) : int(wanted * 1.06 * SIZE / 44_100)]
        assert around.max() > 2 * np.median(around), "a peak, not a slope"


def band_level(samples: np.ndarray, low_hz: float, high_hz: float) -> np.ndarray:
    """Energy in a band every 5 ms."""
    spectrum = np.fft.rfft(samples, SIZE)
    hz = np.fft.rfftfreq(SIZE, 1 / 44_100)
    band = np.fft.irfft(spectrum * ((hz > low_hz) & (hz < high_hz)), SIZE)[: samples.size // 220 * 220]
    return np.asarray((band.reshape(-1, 220) ** 2).sum(axis=1))


def test_a_cymbals_shimmer_comes_after_its_blow() -> None:
    samples = stroke("suspended-cymbal", 49, velocity=90, brightness=0.3)
    shimmer, blow = band_level(samples, 3000, 5000), band_level(samples, 200, 900)
    smooth = [np.convolve(band, np.ones(5) / 5, "same") for band in (blow, shimmer)]
    half_ms = [5 * int(np.argmax(band > 0.5 * band.max())) for band in smooth]  # when it has half its most
    assert 30 <= 5 * int(np.argmax(smooth[1])) <= 130
    assert half_ms[0] + 5 <= half_ms[1], half_ms


@pytest.mark.parametrize("instrument", ["alto-glockenspiel", "alto-xylophone", "alto-metallophone", "ukulele"])
def test_higher_partials_die_sooner(instrument: str) -> None:
    """Internal friction and radiation take the more the higher the partial (Fletcher & Rossing, common knowledge)."""
    samples = stroke(instrument, 72)
    octaves = [band_level(samples, low, 2 * low) for low in (400, 1600, 3200)]
    halfway_s = [float(np.searchsorted(np.cumsum(band), 0.9 * band.sum())) * 220 / 44_100 for band in octaves]
    assert all(low >= high for low, high in pairwise(halfway_s)), halfway_s
    assert halfway_s[0] > halfway_s[-1]  # of a wood bar the upper two are gone within the shortest time told, 5 ms
