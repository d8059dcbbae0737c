"""A real Chromium for the page, with the network off. Where there is none, CI fails and a person is told."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.page.large import large_lesson
from tests.page.lessons import gliding_lesson, hostile_lesson, page_of, quick_lesson, usual_film
from tests.sample import sample_lesson
from tests.web.running import server

ARGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]

#: Notes what the page puts on the audio clock, from outside the page's own code.
WATCH = """
window.watched = { starts: [], nodes: [], context: null, asked: [0, 0] };
const Context = window.AudioContext;
window.AudioContext = class extends Context {
  constructor(...given) { super(...given); window.watched.context = this; }
};
const stamp = Context.prototype.getOutputTimestamp;
Context.prototype.getOutputTimestamp = function () {
  const given = stamp.call(this);
  window.watched.asked = [performance.now() / 1000, this.currentTime - this.baseLatency - this.outputLatency];
  return given;
};
const start = AudioBufferSourceNode.prototype.start;
AudioBufferSourceNode.prototype.start = function (when, offset, ...rest) {
  window.watched.nodes.push(this);
  window.watched.starts.push({ when, offset: offset ?? 0, frames: this.buffer.length, loop: this.loop });
  return start.call(this, when, offset, ...rest);
};
"""

Opener = Callable[..., Page]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if path is None:
        if os.environ.get("CI") == "true":
            pytest.fail("no Chromium is installed, and in CI nothing is skipped")
        pytest.skip("no Chromium is installed: `apt-get install chromium`")
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=path, headless=True, args=ARGS)
        yield launched
        launched.close()


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("pages")
    lessons = {
        "sample": sample_lesson(),
        "quick": quick_lesson(),
        "gliding": gliding_lesson(),
        "large": large_lesson(),
        **{f"groups-{count}": large_lesson(count) for count in (4, 5, 6)},
        "hostile": hostile_lesson(),
    }
    for name, lesson in lessons.items():
        (folder / f"{name}.html").write_text(page_of(lesson, usual_film()), encoding="utf-8")
    return folder


@pytest.fixture
def opened(browser: Browser, pages: Path) -> Iterator[Opener]:
    """Opens a page from its file, offline; afterwards nothing may have been asked for, or have gone wrong."""
    contexts, asked, wrong, expected = [], [], [], []

    def open_page(
        name: str = "sample", view: str = "hear", expect_error: str = "", script: str = "", **how: Any
    ) -> Page:
        how.setdefault("viewport", {"width": 1280, "height": 720})
        context = browser.new_context(offline=True, **how)
        contexts.append(context)
        if expect_error:
            expected.append(expect_error)
        context.add_init_script(WATCH + script)
        page = context.new_page()
        page.on("request", lambda request: asked.append(request.url))
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
        page.on("dialog", lambda dialog: (wrong.append(f"a dialog: {dialog.message}"), dialog.dismiss()))
        address = (pages / f"{name}.html").as_uri()
        page.goto(address if view == "hear" else f"{address}#{view}")
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert [url for url in asked if not url.startswith("file:")] == []
    assert len(asked) == len(contexts), "only the page itself is loaded"
    for part in expected:
        wrong.remove(next(text for text in wrong if part in text))
    assert wrong == []


def state(page: Page) -> dict[str, Any]:
    """What the page says it is doing."""
    found: dict[str, Any] = page.evaluate("sonifyState()")
    return found


def wait_until(page: Page, condition: str, *, seconds: float = 5.0) -> None:
    """Waits for an expression over `s`, the page's state, to hold. By polling: the policy forbids evaluated text."""
    waited = 0.0
    while not page.evaluate(f"(() => {{ const s = sonifyState(); return Boolean({condition}); }})()"):
        assert waited < seconds, f"after {seconds} s still not: {condition}; state: {state(page)}"
        page.wait_for_timeout(50)
        waited += 0.05


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a real `sonify serve`, in a process of its own."""
    with server(tmp_path_factory.mktemp("served")) as running:
        yield running.address


@pytest.fixture
def visit(browser: Browser, served: str) -> Iterator[Opener]:
    """Opens the served page; afterwards nothing may have been asked of another address, or have gone wrong."""
    contexts, asked, wrong, expected = [], [], [], []

    def open_page(address: str = "/", expect_error: str = "", **how: Any) -> Page:
        how.setdefault("viewport", {"width": 1280, "height": 800})
        context = browser.new_context(**how)
        contexts.append(context)
        if expect_error:
            expected.append(expect_error)
        page = context.new_page()
        page.on("request", lambda request: asked.append(request.url))
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
        page.on("dialog", lambda dialog: (wrong.append(f"a dialog: {dialog.message}"), dialog.dismiss()))
        page.goto(served + address)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert [url for url in asked if not url.startswith((served, "data:", f"blob:{served}"))] == []
    for part in expected:
        assert any(part in text for text in wrong), f"expected: {part}"
    assert [text for text in wrong if not any(part in text for part in expected)] == []
