"""The conductor's board: what it says before it happens, and the screen it is shown on."""

from __future__ import annotations

import numpy as np
import pytest

from tests.browser.conftest import Opener, wait_until

pytestmark = [pytest.mark.browser, pytest.mark.clock]


def test_the_board_counts_down_to_who_comes_in_and_says_it_once_a_moment(opened: Opener) -> None:
    page = opened("quick", view="conduct")
    page.evaluate(
        """() => { window.told = []; window.counts = []; new MutationObserver(() =>
        told.push(document.getElementById('said').textContent)).observe(document.getElementById('said'),
        { childList: true }); new MutationObserver(() => counts.push(document.getElementById('coming-number')
        .textContent)).observe(document.getElementById('coming-number'), { childList: true }); }"""
    )
    page.evaluate("location.hash = '#hear'")
    page.locator("#along").fill("5")
    page.locator("#play").click()
    page.evaluate("location.hash = '#conduct'")
    wait_until(page, "s.moment.bar === 6 && s.moment.beat === 2")
    assert page.evaluate("counts.slice(-5)") == ["3", "2", "1", "Now", "3"], "the cloud at bar 6, the rain at bar 7"
    told = [text.split(": ", 1)[1] for text in page.evaluate("told")]
    assert told == ["group 3, The cloud: come in.", "group 4, The rain: come in."]


def test_the_board_says_how_loud_each_group_plays(opened: Opener) -> None:
    page = opened("quick")
    page.locator("#along").fill("5")
    page.locator("#play").click()
    page.evaluate("location.hash = '#conduct'")
    wait_until(page, "s.view === 'conduct'")
    rows = page.locator("#playing li")
    assert rows.locator(".strong").all_inner_texts() == ["The sea", "Rising vapour"]
    assert rows.locator(".loud").all_inner_texts() == ["fairly soft", "fairly soft, getting louder"]


def test_the_board_says_who_rests_and_in_a_count_in_that_everybody_gets_ready(opened: Opener) -> None:
    page = opened("quick")
    page.locator("#along").fill("5")
    page.locator('.place[data-group="1"] button').click()
    page.locator('.place[data-group="4"] button').click()
    page.evaluate("location.hash = '#conduct'")
    wait_until(page, "s.view === 'conduct'")
    assert page.locator("#playing .player").all_inner_texts()[0].endswith("The sea (resting today)")
    page.evaluate("location.hash = '#hear'")
    page.locator("#along").fill("6")
    page.evaluate("location.hash = '#conduct'")
    page.locator("#conduct-on").click()
    page.locator("#conduct-back").click()
    page.locator("#conduct-play").click()
    wait_until(page, "s.moment.counting > 0")
    assert page.locator("#playing-title").inner_text() == "Count-in: everybody gets ready"
    assert "start, fairly soft" in page.locator("#coming-lines").inner_text()
    assert "The sea (resting today): start" in page.locator("#coming-lines").inner_text()


def test_why_this_tempo_is_one_click_from_the_beats_a_minute(opened: Opener) -> None:
    page = opened("quick")
    page.evaluate("document.querySelector('.why .key').open = false")
    page.get_by_role("link", name="Why this tempo?").click()
    assert page.locator(".why .key-sentence").first.is_visible()
    assert page.evaluate("document.activeElement.id") == "why-title"
    assert page.evaluate("location.hash") == "" and page.evaluate("sonifyState().view") == "hear"


def test_the_board_gives_the_average_that_the_beat_was_set_from_and_holds_it_over_the_stage(opened: Opener) -> None:
    # The sample's own formula, 14 + 8 sin(pi t / 86,400 s), at the stage's 16 beats from 30,000 s on, 1,250 s apart.
    mean = 14 + 8 * np.mean(np.sin(np.pi * (30_000 + 1_250 * np.arange(16)) / 86_400))
    page = opened("quick")
    for bar in ("5", "7", "8"):
        page.locator("#along").fill(bar)
        page.evaluate("location.hash = '#conduct'")
        wait_until(page, "s.view === 'conduct'")
        assert page.locator("#stage-reading").inner_text() == f"This stage: {mean:.1f}\u00a0°C on average"
        page.evaluate("location.hash = '#hear'")
        wait_until(page, "s.view === 'hear'")
    assert page.locator("#curve-steps").get_attribute("d").count("M") == 3
    assert page.locator("#legend").is_visible()
    page.locator("#curve-choice").select_option("1")
    assert not page.locator("#legend").is_visible() and page.locator("#curve-steps").get_attribute("d") == ""


def test_a_gliding_tempo_is_shown_with_the_value_at_the_moment(opened: Opener) -> None:
    page = opened("gliding")
    readings = []
    for bar in ("5", "7"):
        page.locator("#along").fill(bar)
        page.evaluate("location.hash = '#conduct'")
        wait_until(page, "s.view === 'conduct'")
        readings.append(page.locator("#stage-reading").inner_text())
        page.evaluate("location.hash = '#hear'")
        wait_until(page, "s.view === 'hear'")
    # 14 + 8 sin(pi 30/86.4) = 21.1; half way through the stage, 14 + 8 sin(pi 40/86.4) = 21.9.
    assert readings == ["Journey temperature: 21.1\u00a0°C", "Journey temperature: 21.9\u00a0°C"]
    assert not page.locator("#legend").is_visible()


def test_a_new_tempo_says_quicker_or_slower_and_why(opened: Opener) -> None:
    page = opened("quick")
    page.locator("#along").fill("4")
    page.evaluate("location.hash = '#conduct'")
    wait_until(page, "s.view === 'conduct'")
    page.evaluate("sonifyState()")
    assert page.locator("#coming-lines li").all_inner_texts() == ["Everyone: quicker, 150 beats a minute"]
    assert page.locator("#coming-reason").inner_text() == "Why: Warmer"


def test_full_screen_and_back(opened: Opener) -> None:
    page = opened(view="conduct")
    page.get_by_role("button", name="Full screen").click()
    page.get_by_role("button", name="Leave full screen").click()
    page.get_by_role("button", name="Full screen", exact=True).wait_for()
    assert page.evaluate("document.fullscreenElement") is None


@pytest.mark.parametrize(("script", "asked"), [("", ["screen"]), ("delete Navigator.prototype.wakeLock;", [])])
def test_the_screen_is_kept_on_while_conducting_or_the_page_says_that_it_cannot(
    opened: Opener, script: str, asked: list[str]
) -> None:
    fake = """window.asked = []; window.released = 0;
    if (navigator.wakeLock) navigator.wakeLock.request = async (kind) => { asked.push(kind);
      return { released: false, release: async () => { released += 1; } }; };"""
    page = opened(view="conduct", script=script + fake)
    page.locator("#conduct-play").click()
    wait_until(page, "s.playing")
    page.locator("#conduct-play").click()
    wait_until(page, "!s.playing")
    assert page.evaluate("asked") == asked
    assert page.evaluate("released") == len(asked)
    assert page.locator("#awake").is_visible() == (not asked)
    assert asked or "cannot keep the screen on" in page.locator("#awake").inner_text()
