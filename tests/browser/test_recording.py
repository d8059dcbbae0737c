"""The page of the class's own recording: a file brought, the microphone taken as it is, both heard from a bar."""

from __future__ import annotations

import json
from pathlib import Path

import httpx
import numpy as np
import pytest
import soundfile
from playwright.sync_api import Browser, Page

from sonify.data.exports import score_json
from tests.listening.performances import manner_of, perform
from tests.listening.takes import RATE_HZ, recorded, wet_sound
from tests.studies import studied
from tests.web.running import until

pytestmark = [pytest.mark.browser, pytest.mark.long]

SCENE = "the-stalk-on-the-sill"
#: A browser without a microphone: what is asked of it is kept, and a tone stands for the room.
MICROPHONE = """
navigator.mediaDevices.getUserMedia = async (asked) => {
  window.asked = asked;
  const context = new AudioContext();
  const tone = context.createOscillator();
  const out = context.createMediaStreamDestination();
  tone.connect(out);
  tone.start();
  return out.stream;
};
"""


@pytest.fixture(scope="module")
def recording(tmp_path_factory: pytest.TempPathFactory) -> Path:
    score, rng = json.loads(score_json(studied(SCENE).score)), np.random.default_rng(3)
    performance = perform(score, manner_of(score, rng), rng)
    samples = recorded(performance, wet_sound(performance, rng), rng, snr_db=20.0)
    file = tmp_path_factory.mktemp("class") / "class.wav"
    soundfile.write(file, samples, RATE_HZ)
    return file


def holds(page: Page, script: str, seconds: float = 10.0) -> None:
    """Wait for what a script finds. The page's policy lets no script of a test wait in it."""
    until(lambda: bool(page.evaluate(script)), seconds)


def test_a_recording_is_brought_read_and_heard(browser: Browser, served: str, recording: Path) -> None:
    inputs = {"scene": {"name": SCENE}}
    key = httpx.post(f"{served}/api/lesson", json=inputs, headers={"X-Sonify": "1"}, timeout=60).json()["key"]
    context = browser.new_context(viewport={"width": 1280, "height": 720})
    context.add_init_script(MICROPHONE)
    page, wrong = context.new_page(), []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
    page.goto(f"{served}/lesson/{key}#conduct")
    page.goto(f"{served}/lesson/{key}/recording")
    assert "policy before you record" in page.locator(".policy").inner_text()

    page.set_input_files("#file", recording)
    page.locator("#result").wait_for(timeout=120_000)
    told = page.evaluate("sonifyRecording().told")
    assert told["recognised"] and page.locator("#stages tr").count() == len(told["stages"])
    assert page.locator(".curves-picture .ours").count() == sum(stage["bpm"] is not None for stage in told["stages"])
    assert page.locator("#next li").count() <= 3

    page.set_viewport_size({"width": 390, "height": 844})
    rooms = page.evaluate("[...document.querySelectorAll('#stages td:last-child')].map((each) => each.clientWidth)")
    assert min(rooms) > 250, "what the beat says is read line by line on a phone, not letter by letter"
    page.set_viewport_size({"width": 1280, "height": 720})

    last = told["stages"][-1]
    page.locator("#stages button").last.click()
    page.locator("#play-ours").click()
    holds(page, "!document.getElementById('ours').paused")
    starts = {row["bar"]: row["start_s"] for row in told["bars"]}
    assert page.evaluate("document.getElementById('ours').currentTime") >= starts[last["bar"]] - 0.1
    page.locator("#play-piece").click()
    holds(page, "sonifyRecording().playing && sonifyRecording().oursPaused")
    page.locator("#play-piece").click()

    page.locator("#record").click()
    page.wait_for_timeout(1_500)
    page.locator("#stop").click()
    holds(page, "sonifyRecording().told?.recognised === false", seconds=60)
    off = {"echoCancellation": False, "noiseSuppression": False, "autoGainControl": False}
    assert page.evaluate("window.asked") == {"audio": off}
    why = page.evaluate("sonifyRecording().told.why")
    assert page.locator("#curves").is_hidden() and page.locator("#result-notes li").first.inner_text() == why
    context.close()
    assert wrong == []
