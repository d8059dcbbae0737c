"""A recording as frames: true without a table."""

from __future__ import annotations

import numpy as np
import pytest

from sonify.listening.frames import EDGES_HZ, HOP_S, Listener
from tests.listening.takes import listened

RATES = (8_000, 11_025, 22_050, 44_100, 48_000)


def struck(rate_hz: int, hz: float, at_s: float, lasts_s: float = 2.0) -> np.ndarray:
    time_s = np.arange(int(lasts_s * rate_hz)) / rate_hz
    out = np.where(time_s >= at_s, np.exp(-4.0 * (time_s - at_s)) * np.sin(2 * np.pi * hz * (time_s - at_s)), 0.0)
    return np.asarray(0.3 * out, dtype=np.float32)


@pytest.mark.parametrize("rate_hz", RATES)
def test_a_stroke_is_found_when_and_where_it_sounds(rate_hz: int) -> None:
    heard = listened([struck(rate_hz, 880.0, 1.0)], rate_hz)
    frame, band = np.unravel_index(np.argmax(heard.onsets), heard.onsets.shape)
    assert frame * HOP_S == pytest.approx(1.0, abs=0.06)
    assert EDGES_HZ[band] <= 880.0 < EDGES_HZ[band + 1]
    assert heard.seconds == pytest.approx(2.0, abs=2 * HOP_S)


def test_blocks_of_any_length_give_the_same_frames() -> None:
    samples = struck(22_050, 523.25, 0.4) + struck(22_050, 1046.5, 1.2)
    whole = listened([samples], 22_050)
    cut = listened(np.split(samples, [1, 700, 701, 20_000, 33_333]), 22_050)
    np.testing.assert_array_equal(whole.onsets.shape, cut.onsets.shape)
    assert np.argmax(whole.onsets) == np.argmax(cut.onsets)


def test_what_is_no_number_counts_as_silence() -> None:
    listener = Listener(16_000)
    listener.take(np.full(16_000, np.nan, dtype=np.float32))
    listener.take(np.full(16_000, np.inf, dtype=np.float32))
    assert listener.heard().peak == 0.0


def test_a_level_is_in_decibels() -> None:
    loud = listened([struck(22_050, 880.0, 0.0)], 22_050)
    soft = listened([0.1 * struck(22_050, 880.0, 0.0)], 22_050)
    assert loud.levels_db[10].max() - soft.levels_db[10].max() == pytest.approx(20.0, abs=0.1)
