"""The lesson's page from a running server: it sounds within a second, also where its sounds come late."""

from __future__ import annotations

from collections.abc import Iterator

import httpx
import pytest
from playwright.sync_api import Browser, Page, Route

from tests.browser.conftest import WATCH, state, wait_until

pytestmark = pytest.mark.browser

INPUTS = {"scene": {"name": "two-cups"}, "set": {"wrap_b": "10 mm"}}


@pytest.fixture(scope="module")
def lesson_address(served: str) -> str:
    key = httpx.post(f"{served}/api/lesson", json=INPUTS, headers={"X-Sonify": "1"}, timeout=60).json()["key"]
    return f"{served}/lesson/{key}"


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 1280, "height": 720})
    context.add_init_script(WATCH)
    opened, wrong = context.new_page(), []
    opened.on("pageerror", lambda error: wrong.append(str(error)))
    opened.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
    yield opened
    context.close()
    assert wrong == []


def test_it_sounds_and_leads_back(page: Page, lesson_address: str, served: str) -> None:
    page.goto(lesson_address)
    wait_until(page, "true")
    page.locator("#play").click()
    wait_until(page, "s.level > 0.005", seconds=15)
    assert page.locator("#trouble").is_hidden()
    links = [page.get_by_role("link", name=name, exact=True).get_attribute("href") for name in ("Plan", "Print")]
    assert links == ["/#plan", "/#print"]


def test_play_pressed_before_the_sounds_are_there_begins_when_they_are(page: Page, lesson_address: str) -> None:
    held: list[Route] = []
    page.route("**/sounds", lambda route: held.append(route))
    page.goto(lesson_address, wait_until="commit")
    page.locator("#play").click()
    assert page.locator("#trouble").inner_text() == "The sounds are on their way."
    assert not state(page)["playing"]
    held[0].continue_()
    wait_until(page, "s.playing && s.level > 0.005", seconds=20)
    assert page.locator("#trouble").is_hidden()


def test_sounds_that_never_come_are_told(browser: Browser, lesson_address: str) -> None:
    context = browser.new_context()
    opened = context.new_page()
    opened.route("**/sounds", lambda route: route.abort())
    opened.goto(lesson_address)
    opened.locator("#trouble", has_text="could not be fetched").wait_for(timeout=10_000)
    context.close()


def test_a_lesson_that_is_gone_says_how_to_go_on(served: str) -> None:
    answer = httpx.get(f"{served}/lesson/{'0' * 32}", timeout=30)
    assert answer.status_code == 404
    assert "Nothing is lost" in answer.text and 'href="/#plan"' in answer.text
