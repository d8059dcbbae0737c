"""ITU-R BS.1770: the K-weighting's printed 48 kHz coefficients and its calibration tone.

The coefficients are as pyloudnorm's "DeMan" filter prints them, which agrees with the standard's table (the printed
standard itself from memory, not verified). The calibration statement, 0 dBFS at 997 Hz in one front channel reads
-3.01 LKFS, likewise.
"""

from __future__ import annotations

import numpy as np
import pyloudnorm
import pytest

from sonify.sound.survey import lufs_of
from sonify.sound.weighting import biquads, power_response
from tests.sound.metering import surveyed

PRINTED_48K = (
    ("1.53512485958697", "-2.69169618940638", "1.19839281085285", "1", "-1.69065929318241", "0.73248077421585"),
    ("1", "-2", "1", "1", "-1.99004745483398", "0.99007225036621"),
)
# Hz, dB of the filter at 48 kHz, from the same coefficients
GAIN_DB = [
    (25, "-10.39"),
    (50, "-3.93"),
    (100, "-1.13"),
    (200, "-0.26"),
    (1000, "0.70"),
    (2000, "3.07"),
    (10000, "4.04"),
]


def test_the_filter_has_the_printed_coefficients_at_48_khz() -> None:
    printed = np.array([[float(x) for x in row] for row in PRINTED_48K])
    np.testing.assert_allclose(biquads(48_000), printed, rtol=0, atol=2e-11)


@pytest.mark.parametrize(("hz", "printed_db"), GAIN_DB)
def test_the_filter_has_the_gain_of_those_coefficients(hz: float, printed_db: str) -> None:
    db = 10.0 * np.log10(power_response(np.array([float(hz)]), 48_000.0))[0]
    assert db == pytest.approx(float(printed_db), abs=0.005)


def test_the_calibration_tone_reads_3_01_below() -> None:
    t = np.arange(44_100 * 20) / 44_100
    tone = np.stack([np.sin(2 * np.pi * 997 * t), 0 * t])
    assert lufs_of(surveyed(tone).energies) == pytest.approx(-3.01, abs=0.01)


def test_noise_in_bursts_reads_as_pyloudnorm_reads_it() -> None:
    rng = np.random.default_rng(4)
    envelope = np.repeat(rng.random(200) ** 3, 4410)
    samples = (0.2 * rng.standard_normal((2, envelope.size)) * envelope).astype(np.float32)
    oracle = pyloudnorm.Meter(44_100, filter_class="DeMan").integrated_loudness(samples.T.astype(float))
    assert lufs_of(surveyed(samples).energies) == pytest.approx(oracle, abs=0.001)
