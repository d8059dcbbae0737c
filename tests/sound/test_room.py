from __future__ import annotations

import numpy as np
import pytest

from sonify.sound.halving import LATE
from sonify.sound.rate import BLOCK, RATE_HZ
from sonify.sound.room import EAR, SEATS, TAIL_S, Room
from sonify.sound.room import RESPONSE as HALVED_RESPONSE
from sonify.sound.seating import pan, sides

RESPONSE = 2 * HALVED_RESPONSE + LATE  # the room works at half the rate


def response(gains: tuple[float, float] | None = None, at: int = 0, inputs: int = 2) -> np.ndarray:
    """What the room answers to a click on all inputs, over three blocks."""
    room, out = Room(gains), np.zeros((3, 2, BLOCK), dtype=np.float32)
    dry = np.zeros((inputs, BLOCK), dtype=np.float32)
    dry[:, at] = 1.0
    for block in range(3):
        room.add(dry if block == 0 else None, out[block])
    return np.concatenate(list(out), axis=1)


def test_the_room_is_silent_before_a_sound_and_after_its_tail() -> None:
    at = 40_000
    answer = response(at=at)
    assert not answer[:, :at].any()
    assert np.abs(answer[:, at + RESPONSE + 10 :]).max() < 1e-6
    assert not answer[:, 2 * BLOCK :].any()


def test_where_in_a_block_a_sound_falls_makes_no_difference() -> None:
    early = response(at=100)[:, 100 : 100 + RESPONSE]
    late = response(at=BLOCK - 6)[:, BLOCK - 6 : BLOCK - 6 + RESPONSE]
    np.testing.assert_allclose(early, late, rtol=0, atol=2e-6)
    # half the rate: a click an odd number of samples later is another one, but only over 12 kHz and 46 dB down
    odd = response(at=BLOCK - 5)[:, BLOCK - 5 : BLOCK - 5 + RESPONSE]
    np.testing.assert_allclose(early, odd, rtol=0, atol=0.01 * np.abs(early).max())


def test_the_first_reflection_comes_when_geometry_says() -> None:
    """From the floor: the image of a seat is as far below it as the seat is above."""
    seat, ear = np.array(SEATS[0]), np.array(EAR)
    image = seat * (1, 1, -1)
    late_s = (np.linalg.norm(image - ear) - np.linalg.norm(seat - ear)) / 343.2  # m/s at 20 degC (reference table 1)
    answer = np.abs(response((1.0, 0.0), inputs=1)).max(axis=0)
    rising = int(np.flatnonzero(answer > 0.02)[0])
    first = rising + int(np.argmax(answer[rising : rising + 8]))
    assert first / RATE_HZ == pytest.approx(float(late_s), abs=1.5 / RATE_HZ)


def test_the_tail_dies_at_the_rate_of_a_classroom() -> None:
    answer = response()[0].astype(float)[:RESPONSE]
    decay = np.cumsum(answer[::-1] ** 2)[::-1]
    db = 10 * np.log10(decay / decay[0])
    times = [np.argmax(db < level) / RATE_HZ for level in (-8.0, -23.0)]
    t60 = (times[1] - times[0]) * 60 / 15
    assert min(t for _, t in TAIL_S) * 0.7 < t60 < max(t for _, t in TAIL_S) * 1.1


def test_a_stems_room_is_its_share_of_the_mix() -> None:
    left, right = sides(-0.4)
    alone = response((left, right), inputs=1)
    room, out = Room(), np.zeros((2, BLOCK), dtype=np.float32)
    dry = np.zeros((2, BLOCK), dtype=np.float32)
    dry[:, 0] = left, right
    room.add(dry, out)
    np.testing.assert_allclose(out, alone[:, :BLOCK], rtol=0, atol=2e-7)


def test_groups_sit_from_left_to_right_with_equal_power() -> None:
    places = [pan(group, 5) for group in range(1, 6)]
    assert places == sorted(places) and places[2] == 0.0 and places[0] == -places[4]
    assert pan(0, 5) == pan(1, 1) == 0.0
    for place in places:
        assert sum(side**2 for side in sides(place)) == pytest.approx(1.0)
    assert sides(-1.0) == pytest.approx((1.0, 0.0))
