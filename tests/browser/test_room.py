"""The room on the page: the given answer at the device's own rate, heard after every stroke, and silent in a pause."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.signal import resample

from tests.browser.conftest import Opener, wait_until
from tests.page.blips import echo

pytestmark = pytest.mark.browser

WATCH_ROOM = """
const Room = window.ConvolverNode;
window.ConvolverNode = class extends Room {
  constructor(context, how) {
    super(context, how);
    window.room = { how, rate: how.buffer.sampleRate, left: [...how.buffer.getChannelData(0)] };
  }
};
"""


def test_the_rooms_answer_is_the_given_one_at_the_rate_of_the_device(opened: Opener) -> None:
    page = opened("quick", script=WATCH_ROOM)
    page.locator("#play").click()
    found = page.evaluate("({ rate: room.rate, left: room.left, plain: room.how.disableNormalization })")
    assert found["plain"] is True
    given = np.frombuffer(echo().ears[0], "<i2") / 32_768 * echo().gain
    # SciPy resamples by Fourier's series; an answer with more samples a second has smaller ones.
    wanted = resample(given, round(len(given) * found["rate"] / echo().rate_hz)) * echo().rate_hz / found["rate"]
    left = np.array(found["left"])[: len(wanted)]
    assert np.sum((left - wanted) ** 2) < 1e-3 * np.sum(wanted**2)


def test_a_stroke_goes_on_in_the_room_and_a_pause_shuts_its_door(opened: Opener) -> None:
    page = opened("quick", script=WATCH_ROOM)
    page.locator('.stage[data-stage="1"]').click()
    page.locator("#play").click()
    wait_until(page, "s.level > 0.005")
    after = page.evaluate(
        """() => new Promise((resolve) => { document.getElementById('play').click();
        setTimeout(() => resolve(sonifyState().level), 120); })"""
    )
    assert after < 1e-4, "the answer alone would last a third of a second"
    page.locator("#play").click()
    wait_until(page, "s.level > 0.005")
