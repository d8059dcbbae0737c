"""Hill, Exponential Time Decay Constants of Marimba Bars (student report, read in part).

"The exponential time decay constants ... exhibited an inversely proportional relationship to their modal frequencies";
mean absorptivity of rosewood 0.45 % +- 0.09 %; partials f1, f4, f10 and f20. With amplitude exp(-pi f eta t), a T60 is
2.199 / (f eta).
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.sound.voices.bank import VOICES, Bank, note_hz, stroke_of
from sonify.sound.voices.records import Struck

LOSS, SPREAD = 0.0045, 0.0009


@pytest.mark.parametrize("instrument", ["soprano-xylophone", "alto-xylophone", "bass-xylophone"])
def test_decay_goes_with_one_over_frequency_and_no_bar_rings_longer_than_rosewood_can(instrument: str) -> None:
    voice = VOICES[instrument]
    assert isinstance(voice, Struck) and voice.mode_power == 1.0
    for midi in (60, 69, 81):
        t60 = voice.ring_s * (voice.ring_at_hz / note_hz(midi)) ** voice.ring_power
        loss = 2.199 / (note_hz(midi) * t60)
        assert LOSS - SPREAD < loss < 4 * LOSS, "more than the wood's own: the box radiates"


def test_a_rendered_bar_has_the_partials_and_decays_of_its_row() -> None:
    voice = VOICES["bass-xylophone"]
    assert isinstance(voice, Struck)
    midi = 60
    samples = Bank(1).shot(stroke_of("bass-xylophone", midi, 100, 0.8, turn=0, held=False)).samples.astype(float)
    first = note_hz(midi)
    for ratio in (1.0, 4.0, 9.6):
        carrier = np.exp(-2j * np.pi * ratio * first * np.arange(samples.size) / 44_100)
        window = np.hanning(1764) / 882
        level = 20 * np.log10(np.abs(np.convolve(samples * carrier, window, "same")) + 1e-12)
        t60 = voice.ring_s * (voice.ring_at_hz / first) ** voice.ring_power / ratio
        a, b = round(0.03 * 44_100), round((0.03 + 0.35 * t60) * 44_100)
        assert (level[a] - level[b]) / ((b - a) / 44_100) == pytest.approx(60 / t60, rel=0.12)
