"""The room on the page: the given answer at the device's own rate, with the groups in it and nobody else."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Page
from scipy.signal import resample

from sonify.page import served_page_html
from sonify.page.audio import sounds_data
from tests.browser.conftest import Opener, state, wait_until
from tests.page.blips import blips, echo
from tests.page.lessons import palette, quick_lesson, usual_film

pytestmark = pytest.mark.browser

WATCH_ROOM = """
const Room = window.ConvolverNode;
window.ConvolverNode = class extends Room {
  constructor(context, how) {
    super(context, how);
    const meter = new AnalyserNode(context, { fftSize: 4096 });
    this.connect(meter);
    window.room = { how, meter, rate: how.buffer.sampleRate, left: [...how.buffer.getChannelData(0)] };
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


def test_the_groups_are_heard_in_the_room_and_the_click_is_not(opened: Opener) -> None:
    page = opened("quick", script=WATCH_ROOM)
    page.locator('.stage[data-stage="1"]').click()
    page.locator("#play").click()
    page.locator("#click-on").evaluate("(box) => box.click()")
    wait_until(page, "s.level > 0.005")
    assert loudest_in_the_room(page) > 1e-3
    for place in page.locator(".place button").all():
        place.click()
    page.wait_for_timeout(600)  # the room has died away
    assert loudest_in_the_room(page) < 1e-4
    wait_until(page, "s.playing && s.level > 1e-3")


LATE = """
window.fetch = () => new Promise((resolve) => { window.deliver = (sounds) => {
  resolve({ ok: true, json: async () => sounds }); return true; }; });
"""


@pytest.fixture
def late(pages: Path) -> str:
    """The page as a server gives it, its sounds still to come."""
    text = served_page_html(quick_lesson(), palette(), usual_film(), "sounds")
    (pages / "late.html").write_text(text, encoding="utf-8")
    return "late"


def test_the_room_is_there_though_the_sounds_came_after_play_was_pressed(opened: Opener, late: str) -> None:
    page = opened(late, script=WATCH_ROOM + LATE)
    page.locator("#play").click()
    page.locator('.stage[data-stage="1"]').click()
    page.wait_for_timeout(200)
    assert state(page)["playing"] is False and page.evaluate("window.room") is None
    page.evaluate("(sounds) => deliver(sounds)", sounds_data(blips(quick_lesson().score)))
    wait_until(page, "s.playing && s.level > 0.005 && s.moment.bar === 5")
    assert loudest_in_the_room(page) > 1e-3


def test_a_clip_that_waits_for_its_sounds_is_forgotten_when_the_box_is_played(opened: Opener, late: str) -> None:
    page = opened(late, view="listening", script=WATCH_ROOM + LATE)
    page.locator(".question:not([hidden]) .clip").click()
    page.evaluate("location.hash = '#particles'")
    page.locator("#box-play").click()
    wait_until(page, "s.box.playing && s.level > 1e-3")
    page.evaluate("(sounds) => deliver(sounds)", sounds_data(blips(quick_lesson().score)))
    page.wait_for_timeout(300)
    assert state(page)["box"]["playing"] and not state(page)["playing"]


def loudest_in_the_room(page: Page) -> float:
    """The loudest sample that the room gives back within half a second."""
    found: float = page.evaluate(
        """() => new Promise((resolve) => { let most = 0; const block = new Float32Array(room.meter.fftSize);
        const timer = setInterval(() => { room.meter.getFloatTimeDomainData(block);
        most = Math.max(most, ...block.map(Math.abs)); }, 40);
        setTimeout(() => { clearInterval(timer); resolve(most); }, 500); })"""
    )
    return found
