"""The page's room is the recording's, for whoever sits in the middle, and small."""

from __future__ import annotations

import numpy as np

from sonify.sound.page import page_room
from sonify.sound.rate import BLOCK, RATE_HZ
from sonify.sound.room import Room


def test_what_the_page_answers_to_a_group_in_the_middle_is_what_the_recording_answers() -> None:
    room = page_room()
    # A stroke of 1 kHz in the middle: alike on both sides, 0.707 of its loudness on each.
    t = np.arange(2205) / RATE_HZ
    stroke = np.sin(2 * np.pi * 1000 * t) * np.exp(-t / 0.01)
    dry = np.zeros((2, BLOCK), dtype=np.float32)
    dry[:, : stroke.size] = np.sqrt(0.5) * stroke
    wet = np.zeros((2, BLOCK), dtype=np.float32)
    Room().add(dry, wet)
    one = np.sqrt(0.5) * stroke[::2]  # the page: both channels' mean, at half the rate
    for ear, pcm in enumerate(room.ears):
        answer = np.frombuffer(pcm, "<i2") / 32_768 * room.gain
        page = np.convolve(one, answer)[: BLOCK // 2]
        there = wet[ear, ::2][: page.size]
        assert np.sum((page - there) ** 2) < 2e-3 * np.sum(there**2)


def test_the_room_takes_little_of_the_page() -> None:
    room = page_room()
    assert sum(len(ear) for ear in room.ears) * 4 / 3 < 60_000
    loudest = max(np.abs(np.frombuffer(ear, "<i2").astype(int)).max() for ear in room.ears)
    assert loudest == 32_000, "all sixteen bits are used"
