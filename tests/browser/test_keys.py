"""Everything by keyboard, and by a presenter's clicker."""

from __future__ import annotations

import pytest

from tests.browser.conftest import Opener, state, wait_until

pytestmark = pytest.mark.browser

FOCUS_RING = (
    "getComputedStyle(document.activeElement).outlineStyle + getComputedStyle(document.activeElement).outlineWidth"
)


def test_every_control_is_reached_by_tab_and_shows_that_it_has_the_focus(opened: Opener) -> None:
    page = opened()
    wanted = page.evaluate(
        """[...document.querySelectorAll('a, button, select, input')].filter((each) => each.offsetParent
        && !(each.type === 'radio' && !each.checked)).length"""
    )
    reached = set()
    for _ in range(wanted):
        page.keyboard.press("Tab")
        reached.add(page.evaluate("[...document.querySelectorAll('*')].indexOf(document.activeElement)"))
        assert page.evaluate(FOCUS_RING).startswith("solid3"), page.evaluate(
            "document.activeElement.outerHTML.slice(0, 120)"
        )
    assert len(reached) == wanted


def test_a_whole_visit_by_keyboard_alone(opened: Opener) -> None:
    page = opened()
    page.keyboard.press("Space")
    wait_until(page, "s.playing")
    page.keyboard.press("ArrowRight")
    wait_until(page, "s.moment.bar === 5 && s.moment.counting === 0")
    page.keyboard.press("Space")
    wait_until(page, "!s.playing")
    for link in ("Hear", "Particles", "Listening check", "Conduct"):
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.textContent") == link
    page.keyboard.press("Enter")
    wait_until(page, "s.view === 'conduct'")
    assert page.evaluate("document.activeElement.id") == "board"
    page.keyboard.press("Space")
    wait_until(page, "s.playing && s.moment.restart && s.moment.bar === 5")
    page.keyboard.press("PageDown")
    wait_until(page, "s.moment.bar === 9 && s.moment.restart")
    page.keyboard.press("PageUp")
    wait_until(page, "s.moment.bar === 5 && s.moment.restart")
    page.keyboard.press("Home")
    wait_until(page, "s.moment.bar < 1")
    page.keyboard.press("Escape")
    wait_until(page, "s.view === 'hear' && s.playing")


def test_after_a_mouse_click_the_space_bar_still_plays_and_pauses(opened: Opener) -> None:
    page = opened(view="conduct")
    page.get_by_role("button", name="Repeat stage").click()
    page.keyboard.press("Space")
    wait_until(page, "s.playing && s.repeat === 0")
    page.get_by_role("button", name="Repeat stage").focus()
    page.keyboard.press("Space")
    wait_until(page, "s.playing && s.repeat === null")


def test_a_repeated_stage_begins_again_with_a_count_in(opened: Opener) -> None:
    page = opened("quick")
    page.locator("#along").fill("8")
    page.locator("#play").click()
    page.evaluate("location.hash = '#conduct'")
    page.get_by_role("button", name="Repeat stage").click()
    wait_until(page, "s.moment.bar === 5 && s.moment.restart", seconds=6)
    assert page.locator("#coming-lines .strong").all_inner_texts() == ["The sea", "Rising vapour"]
    assert page.locator("#pulse-bar").inner_text() == "Count-in to bar 5"
    assert state(page)["repeat"] == 1
