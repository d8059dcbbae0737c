"""The room for the page: one response an ear, for all groups together, short enough to embed."""

from __future__ import annotations

import numpy as np

from sonify.records.sounds import PageRoom
from sonify.sound.halving import LATE
from sonify.sound.rate import Samples
from sonify.sound.room import HALF, RESPONSE, ROOM_HZ, spectra
from sonify.sound.transform import samples_of

#: Where this much of the response's energy is left it is cut: 44 dB down, in a room that is 12 dB under the sound.
LEFT = 4e-5
FULL = 32_000.0


def page_room() -> PageRoom:
    """The room's answer to what all groups play, mixed to one channel, as each ear has it.

    The recording's room answers the left and the right of the class apart (`spectra`); the page's adds both, which is
    the same for whoever sits in the middle, and takes half the space.
    """
    both = samples_of(spectra().sum(axis=0), HALF)[:, :RESPONSE]
    late = np.zeros((2, LATE // 2), dtype=np.float32)  # the recording's way to half the rate and back
    answer: Samples = np.concatenate([late, both], axis=1)
    left = np.cumsum(np.sum(np.square(answer, dtype=np.float64), axis=0)[::-1])[::-1]
    answer = answer[:, : int(np.argmax(left < LEFT * left[0])) or answer.shape[1]]
    peak = float(np.abs(answer).max())
    pcm = [np.rint(ear * np.float32(FULL / peak)).astype("<i2").tobytes() for ear in answer]
    return PageRoom(rate_hz=round(ROOM_HZ), ears=(pcm[0], pcm[1]), gain=peak * 32_768.0 / FULL)
