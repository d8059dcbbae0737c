"""For everyone: the audit, small and large screens, large text, reduced motion, letters for readers at 8 metres."""

from __future__ import annotations

from importlib.resources import files
from typing import Any

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Opener, wait_until

pytestmark = pytest.mark.browser

AUDIT = (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


#: How a page may look: what each asks of the browser. The first one is audited whole; the others differ in colours.
LOOKS: dict[str, dict[str, Any]] = {
    "light": {"color_scheme": "light"},
    "dark": {"color_scheme": "dark"},
    "high contrast": {"color_scheme": "light", "forced_colors": "active"},
    "more contrast": {"color_scheme": "light", "forced_colors": "none", "contrast": "more"},
}
OF_COLOURS = ["color-contrast", "link-in-text-block"]


def violations(page: Page, rules: list[str] | None = None) -> list[str]:
    """What the audit finds, by all its rules or by these."""
    if not page.evaluate("typeof axe === 'object'"):
        page.evaluate(AUDIT + ";undefined")
    only = {"type": "rule", "values": rules} if rules else {"type": "tag", "values": TAGS}
    found: dict[str, Any] = page.evaluate(
        "(how) => axe.run(document, how)", {"runOnly": only, "resultTypes": ["violations"]}
    )
    assert len(found["passes"]) > (0 if rules else 15), "the audit ran"
    return [f"{v['id']}: {node['html'][:120]} {node['any'][:1]}" for v in found["violations"] for node in v["nodes"]]


def in_every_look(page: Page) -> list[str]:
    """What the audit finds in the page as it is, in each look in turn."""
    found = []
    for name, look in LOOKS.items():
        page.emulate_media(**look)
        rules = None if name == "light" else OF_COLOURS
        found += [f"{name}: {each}" for each in violations(page, rules)]
    page.emulate_media(color_scheme="null", forced_colors="null", contrast="null")
    return found


def test_the_audit_finds_nothing_in_any_view(opened: Opener) -> None:
    page = opened()
    page.locator('.stage[data-stage="1"]').click()
    page.locator("#play").click()
    page.locator('.place[data-group="2"] button').click()
    assert in_every_look(page) == []
    for view in ("particles", "listening", "conduct"):
        page.evaluate(f"location.hash = '#{view}'")
        wait_until(page, f"s.view === '{view}'")
        if view == "particles":
            page.locator("#box-play").click()
        if view == "listening":
            page.locator(".question:not([hidden]) .show-answer").click()
        assert in_every_look(page) == []


def test_the_audit_would_find_a_fault(opened: Opener) -> None:
    page = opened()
    page.evaluate("document.getElementById('along').labels[0].remove()")
    assert any(line.startswith("label:") for line in violations(page))
    # Grey on grey in one look alone.
    style = "@media (prefers-color-scheme: dark) { .story { color: #333 !important; background: #222 !important; } }"
    adopt = "(text) => { const sheet = new CSSStyleSheet(); sheet.replaceSync(text);"
    page.evaluate(f"{adopt} document.adoptedStyleSheets.push(sheet); }}", style)
    assert any(line.startswith("dark: color-contrast:") for line in in_every_look(page))


@pytest.mark.parametrize("name", ["sample", "large"])
def test_nothing_runs_over_the_side_of_a_small_screen(opened: Opener, name: str) -> None:
    page = opened(name, viewport={"width": 320, "height": 640})
    for view in ("hear", "particles", "listening", "conduct"):
        page.evaluate(f"location.hash = '#{view}'")
        page.wait_for_timeout(100)
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
        assert (
            page.evaluate(
                """[...document.querySelectorAll('main *')].filter((each) => each.offsetParent
            && !each.closest('.unseen, .lane, .scroll') && each.getBoundingClientRect().right > 321)
            .map((each) => each.className)"""
            )
            == []
        )


def test_text_at_twice_its_size_stays_whole(opened: Opener) -> None:
    page = opened()
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    for view in ("hear", "particles", "listening", "conduct"):
        page.evaluate(f"location.hash = '#{view}'")
        page.wait_for_timeout(100)
        assert page.evaluate("document.documentElement.scrollWidth") <= 1280
        clipped = page.evaluate(
            """[...document.querySelectorAll('main p, main button, main h3, main li')].filter((each) =>
            each.offsetParent && !each.closest('.unseen') && each.clientWidth > 0 &&
            each.scrollWidth > each.clientWidth + 1)
            .map((each) => each.outerHTML.slice(0, 90))"""
        )
        assert clipped == []


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (1920, 1080), (1024, 768), (3840, 2160)])
def test_the_conductors_board_fits_one_screen_in_letters_for_eight_metres(
    opened: Opener, width: int, height: int
) -> None:
    """A letter is just read when it spans 5 minutes of arc (ISO 8596, from memory, not verified): 11.6 mm at 8 m.
    On a picture 1.6 m wide, capitals of 0.7 em are twice that from 2.1 % of the width on."""
    page = opened(view="conduct", viewport={"width": width, "height": height})
    page.get_by_role("button", name="Next stage").click()
    assert page.evaluate("document.documentElement.scrollHeight") <= height
    for name in ("pulse-bar", "pulse-tempo", "stage-now", "stage-line", "coming-lines", "coming-unit", "playing-title"):
        size = page.evaluate(f"parseFloat(getComputedStyle(document.getElementById('{name}')).fontSize)")
        assert size >= 0.021 * width, name
    page.locator("#conduct-play").click()
    wait_until(page, "s.playing")
    number = page.evaluate("parseFloat(getComputedStyle(document.getElementById('pulse-number')).fontSize)")
    assert number > 0.12 * width


@pytest.mark.parametrize("width", [1280, 1920])
def test_what_a_class_reads_in_box_and_check_is_large_enough_for_eight_metres_too(opened: Opener, width: int) -> None:
    """As above: 2.1 % of the picture's width."""
    page = opened(view="particles", viewport={"width": width, "height": round(width * 9 / 16)})
    page.evaluate("location.hash = '#listening'")
    page.locator(".question:not([hidden]) .show-answer").click()
    for name in ("#box-state", ".readings dd", ".question:not([hidden]) h3", ".choice-words", ".answer"):
        size = page.evaluate("(name) => parseFloat(getComputedStyle(document.querySelector(name)).fontSize)", name)
        assert size >= 0.021 * width, name


@pytest.mark.parametrize("groups", [4, 5, 6])
def test_curve_groups_and_caption_are_on_one_screen_and_no_group_covers_another(opened: Opener, groups: int) -> None:
    page = opened(f"groups-{groups}")
    page.locator("#along").fill("20")
    page.locator("#play").click()
    wait_until(page, "s.playing && s.moment.bar === 20 && s.moment.counting === 0")
    assert page.locator("#sounding li").count() == groups, "all play, so the list is at its longest"
    for name in ("#curve", "#legend", "#hear-caption", "#sounding", "#half-circle", ".place .group-state"):
        for box in page.locator(name).evaluate_all("(all) => all.map((each) => each.getBoundingClientRect().toJSON())"):
            assert box["top"] >= 0 and box["bottom"] <= 720 and box["height"] > 0, name
    cards = page.locator(".place").evaluate_all("(all) => all.map((each) => each.getBoundingClientRect().toJSON())")
    assert all(left["right"] <= right["left"] + 0.5 for left, right in zip(cards, cards[1:], strict=False))


def test_a_crowded_board_still_fits_the_projector(opened: Opener) -> None:
    page = opened("large")
    page.locator("#along").fill("18")
    page.locator("#play").click()
    page.evaluate("location.hash = '#conduct'")
    wait_until(page, "s.view === 'conduct' && s.moment.bar === 18")
    page.wait_for_timeout(100)
    assert page.evaluate("document.documentElement.scrollHeight") <= 720
    assert page.locator("#playing .player").count() == 10


def test_reduced_motion_stops_the_moving_bar_between_beats(opened: Opener) -> None:
    for motion, least, most in (("no-preference", 15, 10_000), ("reduce", 1, 4)):
        page = opened(reduced_motion=motion)
        page.locator('.stage[data-stage="1"]').click()
        page.locator("#play").click()
        page.evaluate("location.hash = '#conduct'")
        wait_until(page, "s.moment.beats > 16")
        page.evaluate(
            """() => { window.seen = new Set(); const track = document.getElementById('track');
            new MutationObserver(() => seen.add(track.style.getPropertyValue('--along'))).observe(track,
            { attributes: true }); }"""
        )
        page.wait_for_timeout(700)
        assert least <= page.evaluate("seen.size") <= most


def test_nothing_flashes_more_than_three_times_a_second(opened: Opener) -> None:
    """WCAG 2.2, 2.3.1. Each post of the track goes on and off once a bar, whatever the tempo."""
    page = opened("quick", view="conduct")
    page.locator("#conduct-on").click()
    page.locator("#conduct-play").click()
    page.evaluate(
        """() => { window.flashes = {}; for (const post of document.querySelectorAll('.post'))
        new MutationObserver(() => { const k = post.textContent; flashes[k] = (flashes[k] ?? 0) + 1; })
        .observe(post, { attributes: true }); }"""
    )
    page.wait_for_timeout(1600)
    changes = page.evaluate("Object.values(flashes)")
    assert len(changes) >= 2
    assert max(changes) / 2 / 1.6 < 3
