"""A lesson planned in Firefox: found, given other words and a group's own pattern, and there again in a new browser.

By mouse and keys; by keys alone it is tried in Chromium, since a window of Firefox without a screen has no focus, and
presses no button. Debian's `firefox-esr` or another `firefox`.
Run: python -m pytest tests/full/test_firefox.py
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.full.firefox import firefox, program
from tests.web.running import server, until

pytestmark = pytest.mark.skipif(program() is None, reason="no Firefox is installed: `apt-get install firefox-esr`")
READY = "typeof sonifyPlan === 'function' && sonifyPlan().plan && !sonifyPlan().waiting"


CARDS = "[...document.querySelectorAll('.card')].filter((card) => card.offsetParent).length"


def test_a_lesson_is_found_made_ones_own_and_kept(tmp_path: Path) -> None:
    with server(tmp_path / "scratch") as running:
        (tmp_path / "first").mkdir()
        with firefox(tmp_path / "first") as browser:
            browser.size(1366, 768)
            browser.open(running.address)
            all_cards = browser.value(CARDS)
            browser.focus("#find-topic")
            browser.press("ArrowDown")
            browser.until(f"{CARDS} < {all_cards}")
            assert 0 < browser.value(CARDS) < all_cards
            browser.click("#find button[type=reset]")
            browser.until(f"{CARDS} === {all_cards}")

            browser.click('.card [data-plan="harbour-water-cycle"]')
            browser.until(READY)
            browser.click('[data-own="title"] button')
            browser.press("a", control=True)
            browser.press(*"Our harbour", "Enter")
            browser.until(f"{READY} && sonifyPlan().plan.title === 'Our harbour'")
            browser.value(
                "document.querySelectorAll('#pattern-grid button').forEach((box, k) => (box.id = `box-${k}`))"
            )
            for number in (0, 2, 7):
                browser.click(f"#box-{number}")
            browser.until(f"{READY} && sonifyPlan().plan.scene_toml.includes('x. x. .. .x')")
            plans = running.scratch / "kept" / "plans"
            until(lambda: any("x. x. .. .x" in path.read_text(encoding="utf-8") for path in plans.glob("*.json")), 30)
            wanted = browser.value("sonifyPlan().plan.scene_toml")

        (tmp_path / "second").mkdir()
        with firefox(tmp_path / "second") as browser:
            browser.open(running.address)
            browser.until("document.querySelector('.kept-list li')")
            browser.click(".kept-list button")
            browser.until(READY)
            assert browser.value("sonifyPlan().plan.scene_toml") == wanted
            assert 'title = "Our harbour"' in " ".join(wanted.split())
            assert 'boxes = ["x. x. .. .x"]' in wanted
