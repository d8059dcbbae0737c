"""Two tablets of a real `--share` each send a pattern and a sound; the teacher takes one of each, and not the other."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import httpx
import numpy as np
import pytest
from playwright.sync_api import Browser, Page, expect

from sonify.web.recordings import as_wav
from tests.browser.planning import choose, held, planned
from tests.web.running import Running, server

pytestmark = [pytest.mark.browser, pytest.mark.long]

RAIN, SEA = "The rain", "The sea"


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Running, str, str]]:
    """The server, the address by which tablets reach it, and the code."""
    with server(tmp_path_factory.mktemp("shared") / "scratch", "--share") as running:
        found = re.search(r"Other machines: (http://\S+:\d+/)  code (\w{4}-\w{4})", "".join(running.said))
        assert found
        try:
            httpx.get(found[1], timeout=20)
        except httpx.TransportError:
            pytest.skip("this machine has no network to share on")
        yield running, found[1], found[2]


def tablet(browser: Browser, address: str, code: str) -> Page:
    page = browser.new_context(viewport={"width": 820, "height": 1180}, has_touch=True).new_page()
    page.goto(address)
    page.fill("#code", code)
    page.get_by_role("button").click()
    page.locator(".card").first.wait_for()
    choose(page)
    return page


def send_pattern(page: Page, part: str, boxes: list[int]) -> None:
    page.select_option("#pattern-part", part)
    for box in boxes:
        page.locator("#pattern-grid button").nth(box).click()
    planned(page)
    page.locator("#pattern-send").click()
    expect(page.locator("#pattern-sent")).to_be_visible()


def send_sound(page: Page, part: str, name: str, pitch: float) -> None:
    assert page.evaluate("isSecureContext") is False and page.locator("#sound-record").count() == 0
    page.select_option("#sound-send-part", part)
    page.fill("#sound-send-name", name)
    wave = (12_000 * np.sin(np.arange(22_050) * pitch)).astype("<i2")
    file = {"name": f"{name}.wav", "mimeType": "audio/wav", "buffer": as_wav(wave.tobytes())}
    page.set_input_files("#sound-send-file", file)
    expect(page.locator("#sound-send-done")).to_contain_text("It is with the teacher", timeout=30_000)


def test_two_tablets_each_send_and_the_teacher_takes_one_of_each(
    browser: Browser, shared: tuple[Running, str, str], tmp_path: Path
) -> None:
    running, address, code = shared
    teacher = browser.new_context(viewport={"width": 1366, "height": 900}).new_page()
    teacher.goto(running.address)
    choose(teacher)
    one, other = (tablet(browser, address, code) for _ in range(2))
    send_pattern(one, RAIN, [0, 3])
    send_pattern(other, SEA, [0])
    send_sound(one, RAIN, "our bags", 0.05)
    send_sound(other, RAIN, "our shout", 0.11)
    patterns, sounds = teacher.locator("#pattern-offers li"), teacher.locator("#sound-offers li")
    expect(patterns).to_have_count(2, timeout=15_000)
    expect(sounds).to_have_count(2, timeout=15_000)
    assert held(teacher)["inputs"]["edits"] == {}  # nothing is in the piece before she says so

    taken = patterns.filter(has_text=RAIN)
    taken.get_by_role("button", name="into the piece").click()
    expect(patterns).to_have_count(1)
    patterns.get_by_role("button", name="Leave").click()
    expect(patterns).to_have_count(0)
    bags = sounds.filter(has_text="our bags")
    bags.get_by_role("button", name="Hear our bags").click()
    bags.get_by_role("button", name="into the piece").click()
    expect(sounds).to_have_count(1)
    sounds.get_by_role("button", name="Leave").click()
    expect(sounds).to_have_count(0)

    plan = planned(teacher)
    edits = held(teacher)["inputs"]["edits"]
    assert {path for path, value in edits.items() if value} == {f"pattern.{RAIN}", f"sound.{RAIN}"}
    assert edits[f"sound.{RAIN}"]["name"] == "our bags"
    assert (
        next(row for row in plan["patterns"]["parts"] if row["part"] == RAIN)["own"]["boxes"]
        == (edits[f"pattern.{RAIN}"]["boxes"])
    )
    row = next(row for row in plan["map"] if row["name"] == RAIN)
    assert row["instrument"].startswith("our bags")
    for page in (one, other):  # a tablet hears of nothing that is hers
        assert held(page)["inputs"]["sounds"] == {}
        assert httpx.get(f"{address}api/sent-sounds", timeout=20).status_code == 401
