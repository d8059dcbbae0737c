"""Plan and Print for everyone: the audit in every look, keyboard alone, small screens, large text, targets, motion."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.conftest import Opener
from tests.browser.planning import choose, field, held, planned, until
from tests.browser.test_access import in_every_look, violations

pytestmark = pytest.mark.browser


def everything_open(page: Page) -> None:
    page.evaluate("for (const each of document.querySelectorAll('main details')) each.open = true")
    page.evaluate("for (const each of document.querySelectorAll('main .term')) each.click()")


def test_the_audit_finds_nothing_in_any_view(visit: Opener) -> None:
    page = visit(expect_error="400 (Bad Request)")
    assert in_every_look(page) == [], "choosing"
    choose(page)
    field(page, "set.sea_temperature").locator("input[type=number]").fill("19")
    planned(page)
    everything_open(page)
    assert violations(page) == [], "planning, just changed"
    field(page, "set.sea_temperature").locator("input[type=number]").fill("99")
    expect(field(page, "set.sea_temperature").locator(".field-error")).to_be_visible()
    assert in_every_look(page) == [], "with an error"
    page.evaluate("location.hash = '#print'")
    assert violations(page) == [], "printing"
    page.evaluate("location.hash = '#plan'")
    page.get_by_role("button", name="Undo").click()
    planned(page)
    page.evaluate("location.hash = '#print'")
    # A pack is made sooner than the page is looked through: from "making" on the page is told nothing until then.
    looking, held_back = False, list[Route]()
    asks = re.compile(r"/api/pack/[^/]+$")
    page.route(asks, lambda route: held_back.append(route) if looking else route.continue_())
    page.get_by_role("button", name="Make everything").click()
    until(page, "s.job === 'making'", seconds=60)
    looking = True
    assert in_every_look(page) == [], "while a pack is made"
    looking = False
    for each in held_back:
        each.continue_()
    page.unroute(asks)
    until(page, "s.job === 'ready'", seconds=60)
    page.get_by_role("button", name="Make everything").click()
    until(page, "s.job === 'making'", seconds=60)
    page.get_by_role("button", name="Cancel").click()
    until(page, "s.job === 'cancelled'", seconds=30)
    assert violations(page) == [], "cancelled"


def test_the_audit_finds_nothing_beside_a_finished_pack(visit: Opener) -> None:
    page = visit()
    answer = {"state": "ready", "ahead": 0, "doing": "", "share": 1, "error": ""}
    sheet = {"n": 0, "name": "conductor.pdf", "bytes": 1e6, "kind": "application/pdf", "words": "For you", "pages": 2}
    page.route("**/api/pack", lambda route: route.fulfill(status=202, json={"job": "x", "ahead": 0}))
    page.route("**/api/pack/x", lambda route: route.fulfill(json={**answer, "files": [sheet]}))
    page.route("**/api/pack/x/page/**", lambda route: route.fulfill(body=b"", content_type="image/png"))
    choose(page)
    page.evaluate("location.hash = '#print'")
    page.get_by_role("button", name="Make everything").click()
    expect(page.locator("#sheets img")).to_have_count(2)
    assert in_every_look(page) == []


def tab_to(page: Page, name: str, *, most: int = 160) -> None:
    """Tab until the element with this name has the focus, which has to be seen each time."""
    for _ in range(most):
        page.keyboard.press("Tab")
        found = page.evaluate(
            """() => { const each = document.activeElement; const style = getComputedStyle(each);
            const box = each.getBoundingClientRect(); const label = each.labels?.[0] ?? each;
            const bar = document.getElementById('bar').getBoundingClientRect();
            const shown = each.matches('.file-input') ? getComputedStyle(each.parentElement) : style;
            return { words: each.getAttribute('aria-label') ?? label.innerText.trim(), tag: each.tagName,
            outline: parseFloat(shown.outlineWidth) > 0 && shown.outlineStyle !== 'none',
            covered: bar.height > 0 && !each.closest('#bar') && box.top >= bar.top, top: box.bottom <= 0 }; }"""
        )
        if found["tag"] != "BODY":
            assert found["outline"], f"the focus on {found} is not seen"
            assert not found["covered"] and not found["top"], f"{found} has the focus out of sight"
        if found["words"].startswith(name):
            return
    raise AssertionError(f"{name} is not reached with Tab")


@pytest.mark.long
def test_how_many_need_something_and_where_is_typed_and_stands_in_the_class_text(visit: Opener) -> None:
    page = visit()
    choose(page)
    page.locator("#class-box summary").click()
    page.get_by_label("One hand", exact=True).focus()
    page.keyboard.press("Space")
    page.get_by_label("How many: one hand").focus()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Tab")
    page.keyboard.type("g")  # the first choice that begins so
    page.keyboard.press("ArrowDown")
    assert held(page)["inputs"]["class"]["needs"] == ["one hand: 2 in group 2"]
    assert '["one hand: 2 in group 2"]' in planned(page)["class_toml"]
    page.locator('[data-who="one hand"] button').click()
    assert held(page)["inputs"]["class"]["needs"] == ["one hand: 2 in group 2", "one hand: 1 in group 1"]
    page.get_by_label("How many: one hand").first.fill("0")
    page.get_by_label("How many: one hand").first.blur()
    assert held(page)["inputs"]["class"]["needs"] == ["one hand: 1 in group 1"]
    page.get_by_label("How many: one hand").fill("99")
    page.get_by_label("How many: one hand").blur()
    expect(page.locator('[data-error="class.needs"]')).to_contain_text("up to")
    assert held(page)["inputs"]["class"]["needs"] == ["one hand: 1 in group 1"]


def test_everything_is_done_with_the_keyboard_alone(visit: Opener) -> None:
    page = visit()
    tab_to(page, "Plan it for my class")
    page.keyboard.press("Enter")
    planned(page)
    assert page.evaluate("document.activeElement.id") == "about-title"
    tab_to(page, "Describe your class")
    page.keyboard.press("Enter")
    tab_to(page, "Groups")
    page.keyboard.press("ArrowUp")
    tab_to(page, "No sudden loud sounds")
    page.keyboard.press("Space")
    assert planned(page)["class"]["groups"] == 6
    assert held(page)["inputs"]["class"]["needs"] == ["no sudden loud sounds"]
    tab_to(page, "Sea temperature")
    page.keyboard.press("ArrowUp")
    planned(page)
    assert list(held(page)["inputs"]["set"]) == ["sea_temperature"]
    tab_to(page, "Undo")
    page.keyboard.press("Enter")
    planned(page)
    assert held(page)["inputs"]["set"] == {}
    page.locator(".skip").focus()
    tab_to(page, "Print")
    page.keyboard.press("Enter")
    tab_to(page, "A4")
    page.keyboard.press("ArrowRight")
    assert page.get_by_label("US Letter").is_checked()
    tab_to(page, "Make everything")
    page.keyboard.press("Enter")
    until(page, "s.job === 'making'", seconds=60)
    tab_to(page, "Cancel")
    page.keyboard.press("Enter")
    until(page, "s.job === 'cancelled'", seconds=30)


@pytest.mark.long
def test_every_panel_is_at_most_fifteen_keys_from_the_head_of_the_page_and_stands_below_the_chart(
    visit: Opener,
) -> None:
    page = visit(viewport={"width": 820, "height": 1180})
    choose(page)
    panels = page.locator("#jumps a:visible").evaluate_all("(links) => links.map((link) => link.hash)")
    named = page.locator("#bench section:visible h3[tabindex]").evaluate_all(
        "(all) => all.map((each) => '#' + each.id)"
    )
    assert {*named} - {"#about-title"} == {*panels}
    for panel in panels:
        page.evaluate("document.activeElement.blur(); window.scrollTo(0, 0)")
        page.locator(".skip").focus()
        page.keyboard.press("Enter")
        keys = 2
        while page.evaluate("document.activeElement.hash ?? ''") != panel:
            page.keyboard.press("Tab")
            keys += 1
            assert keys < 15, panel
        page.keyboard.press("Enter")
        expect(page.locator(panel)).to_be_focused()
        page.wait_for_timeout(100)
        assert page.locator(panel).evaluate(
            """(title) => { const box = title.getBoundingClientRect();
            return document.elementFromPoint(box.left + 4, box.top + box.height / 2) === title; }"""
        ), f"{panel} is covered"
    page.locator(".skip").focus()
    for key in ("Enter", "Tab", "End"):
        page.keyboard.press(key)
    assert page.evaluate("document.activeElement.hash") == panels[-1]
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.hash") == panels[0]


@pytest.mark.parametrize("width", [320, 768, 3840])
def test_nothing_runs_over_the_side(visit: Opener, width: int) -> None:
    page = visit(viewport={"width": width, "height": 900})
    runs_over(page, width)
    choose(page)
    everything_open(page)
    runs_over(page, width)
    page.evaluate("location.hash = '#print'")
    runs_over(page, width)


def runs_over(page: Page, width: int) -> None:
    page.wait_for_timeout(100)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert (
        page.evaluate(
            """(width) => [...document.querySelectorAll('body *')].filter((each) => each.offsetParent &&
            !each.closest('.unseen, .scroll, .skip') && each.getBoundingClientRect().right > width + 1)
            .map((each) => each.outerHTML.slice(0, 90))""",
            width,
        )
        == []
    )


def test_text_at_twice_its_size_stays_whole(visit: Opener) -> None:
    page = visit()
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    choose(page)
    everything_open(page)
    for view in ("plan", "print"):
        page.evaluate(f"location.hash = '#{view}'")
        runs_over(page, 1280)
        clipped = page.evaluate(
            """[...document.querySelectorAll('main p, main button, main h3, main li, #bar p')].filter((each) =>
            each.offsetParent && !each.closest('.unseen') && each.clientWidth > 0 &&
            each.scrollWidth > each.clientWidth + 1).map((each) => each.outerHTML.slice(0, 90))"""
        )
        assert clipped == []


def test_every_target_can_be_hit(visit: Opener) -> None:
    """WCAG 2.2, 2.5.8: 24 by 24 CSS pixels; links in a line of text are excepted, and labels count for their boxes."""
    page = visit(viewport={"width": 390, "height": 844})
    choose(page)
    everything_open(page)
    for view in ("plan", "print"):
        page.evaluate(f"location.hash = '#{view}'")
        page.wait_for_timeout(100)
        small = page.evaluate(
            """[...document.querySelectorAll('button, input, select, summary, a')].filter((each) => {
            const { width, height } = each.getBoundingClientRect();
            return each.offsetParent && !each.closest('.unseen') && width > 0 && (width < 24 || height < 24);
            }).map((each) => each.outerHTML.slice(0, 90))"""
        )
        assert small == []


def test_nothing_moves_by_itself(visit: Opener) -> None:
    page = visit(reduced_motion="reduce")
    choose(page)
    moving = page.evaluate(
        """[...document.querySelectorAll('*')].filter((each) => { const style = getComputedStyle(each);
        return parseFloat(style.animationDuration) > 0 || parseFloat(style.transitionDuration) > 0; }).length"""
    )
    assert moving == 0


@pytest.mark.clock
def test_an_answer_is_on_the_screen_within_300_ms(visit: Opener) -> None:
    """From the server's answer to the frame that shows it, for a scene with seven rules and six parts."""
    page = visit()
    choose(page)
    page.evaluate(
        """() => { window.told = []; const real = window.fetch;
        window.fetch = async (...given) => { const answer = await real(...given);
          const json = answer.json.bind(answer);
          answer.json = async () => { const found = await json(); const at = performance.now();
            requestAnimationFrame(() => requestAnimationFrame(() => told.push([answer.url, performance.now() - at])));
            return found; };
          return answer; }; }"""
    )
    box = field(page, "set.sea_temperature").locator("input[type=number]")
    for value in ("15", "16", "17", "18", "19"):
        box.fill(value)
        planned(page)
        page.wait_for_timeout(150)
    times = sorted(taken for url, taken in page.evaluate("told") if url.endswith("/api/plan"))
    assert len(times) == 5
    assert times[2] < 300
