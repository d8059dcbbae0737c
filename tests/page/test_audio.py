"""The page's sounds as data: samples bit for bit, events in order, level curves with the corners that matter."""

from __future__ import annotations

from base64 import b64decode
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.page.audio import STRAIGHT, corners, sounds_data
from tests.page.blips import blips
from tests.sample import sample_score


def test_samples_come_back_bit_for_bit_and_events_in_order_of_time() -> None:
    sounds = blips(sample_score())
    data = sounds_data(sounds)
    assert [b64decode(sample["pcm"]) for sample in data["samples"]] == [sample.pcm for sample in sounds.samples]
    assert data["samples"][-1]["loop"] is True
    times = data["events"]["timeS"]
    assert times == sorted(times) and len(times) == len(sounds.events)
    assert {len(column) for column in data["events"].values()} == {len(times)}


def test_the_room_goes_along_for_each_ear_where_there_is_one() -> None:
    sounds = blips(sample_score())
    assert sounds.room is not None
    data = sounds_data(sounds)["room"]
    assert [b64decode(ear) for ear in data["ears"]] == list(sounds.room.ears)
    assert (data["rateHz"], data["gain"]) == (sounds.room.rate_hz, sounds.room.gain)
    assert sounds_data(replace(sounds, room=None))["room"] is None


def test_corners_on_a_straight_line_are_left_out() -> None:
    assert corners([(0.0, 0.0), (1.0, 0.1), (2.0, 0.2), (3.0, 0.1)]) == [[0, 0], [2, 0.2], [3, 0.1]]
    assert corners([(0.0, 0.3)]) == [[0, 0.3]]
    assert corners([]) == []


@given(st.lists(st.floats(0.0, 1.0), min_size=2, max_size=60))
def test_a_level_curve_keeps_its_shape(levels: list[float]) -> None:
    given_corners = [(0.5 * k, level) for k, level in enumerate(levels)]
    kept = np.array(corners(given_corners))
    back = np.interp([t for t, _ in given_corners], kept[:, 0], kept[:, 1])
    assert np.abs(back - levels).max() == pytest.approx(0.0, abs=2 * STRAIGHT * max(levels) + 1e-4)
