"""What is kept without asking, as a teacher meets it, by keyboard alone: a closed browser, a copy, Undo, forgetting."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import Locator, Page, expect

from sonify.lesson.carried import carried
from sonify.web import drafts
from tests.browser.conftest import Opener
from tests.browser.planning import drop, field, held, planned, until

pytestmark = pytest.mark.browser


def press(where: Locator, key: str = "Enter") -> None:
    where.focus()
    where.press(key)


def typed(where: Locator, text: str) -> None:
    where.focus()
    where.press("Control+a")
    where.press_sequentially(text)
    where.press("Tab")


def in_list(page: Page, name: str, button: str) -> Locator:
    return page.locator(".kept-list").get_by_role("button", name=f"{button} {name}", exact=True)


def test_a_plan_and_a_class_are_there_again_after_the_browser_was_closed(visit: Opener) -> None:
    page = visit()
    press(page.locator('.card [data-plan="two-cups"]'))
    planned(page)
    page.get_by_text("Describe your class").press("Enter")
    typed(page.locator("#class-pupils"), "23")
    typed(field(page, "set.room_temperature").locator("input[type=number]"), "16")
    planned(page)
    expect(page.locator("#kept-words")).to_contain_text("Kept on this computer", timeout=15_000)
    typed(page.locator("#class-name"), "4B")
    typed(page.locator("#kept-name"), "Cups on Monday")
    expect(page.locator("#said")).to_have_text("It is called “Cups on Monday” now.")
    wanted = held(page)["inputs"]
    page.context.close()

    page = visit()
    press(in_list(page, "Cups on Monday", "Open"))
    until(page, "s.plan && !s.waiting")
    found = held(page)["inputs"]
    assert {key: found[key] for key in ("scene", "set", "plan_id", "class_id")} == {
        key: wanted[key] for key in ("scene", "set", "plan_id", "class_id")
    }
    assert page.locator("#class-pupils").input_value() == "23"
    expect(page.locator("#class-choice option:checked")).to_have_text("4B")

    # The same lesson for the parallel class, which is new.
    press(page.locator("#kept-copy"))
    until(page, f"s.inputs.plan_id !== '{wanted['plan_id']}' && s.plan && !s.waiting")
    assert page.evaluate("document.activeElement.id") == "kept-name"
    typed(page.locator("#kept-name"), "Cups on Tuesday")
    assert held(page)["inputs"]["set"] == wanted["set"]

    press(page.get_by_role("button", name="Choose another scene"))
    press(in_list(page, "Cups on Monday", "Delete"))
    undo = in_list(page, "Cups on Monday", "Undo")
    expect(undo).to_be_focused()
    undo.press("Enter")
    expect(in_list(page, "Cups on Monday", "Open")).to_be_visible()

    press(page.get_by_text("Forget everything", exact=True))
    press(page.get_by_role("button", name="Forget everything now"))
    expect(page.locator("#kept")).to_be_hidden()
    assert held(page)["before"] == 0 and held(page)["inputs"]["class"] is None
    page.reload()
    expect(page.locator("#cards-title")).to_be_visible()
    assert page.locator(".kept-list li").count() == 0


@pytest.mark.long
def test_a_colleagues_page_is_dropped_and_nothing_in_it_runs(visit: Opener) -> None:
    page = visit(expect_error="400 (Bad Request)")
    text = f"{drafts.shipped_scene_text('two-cups')}\n# <script>alert(1)</script>\n"
    plan = {
        "scene": {"name": "theirs", "text": text, "file": "theirs.toml"},
        "readings": None,
        "set": {"room_temperature": "11 degC"},
    }
    element = f'<script>alert(2)</script><script type="application/json" id="plan-data">{carried(plan)}</script>'
    drop(page, {"page.html": f"<html>{element}<img src=x onerror=alert(3)></html>".encode()})
    found = planned(page)
    assert found["scene_file"] == "theirs.toml" and held(page)["inputs"]["set"] == {"room_temperature": "11 degC"}
    expect(page.locator("#keep-title ~ .understood")).to_contain_text("page.html is open")
    drop(page, {"broken.zip": b"PK\x05\x06" + json.dumps(plan).encode()})
    expect(page.locator('#bench [data-error="file"]')).to_contain_text("broken.zip cannot be opened here")
    assert held(page)["plan"]["scene_file"] == "theirs.toml"


@pytest.mark.long
def test_where_nothing_can_be_kept_one_sentence_says_so_and_all_goes_on(visit: Opener) -> None:
    page = visit()
    why = "This computer does not let sonify keep plans and classes (read-only)."
    page.route(
        "**/api/shelf", lambda route: route.fulfill(json={"keeps": False, "why": why, "plans": [], "classes": []})
    )
    page.reload()
    press(page.locator('.card [data-plan="two-cups"]'))
    planned(page)
    expect(page.locator("#bench .kept-not")).to_contain_text(why)
    expect(page.locator("#trouble")).to_be_hidden()
    typed(field(page, "set.room_temperature").locator("input[type=number]"), "16")
    planned(page)
    assert held(page)["inputs"]["set"]


def test_scenes_are_found_by_topic_year_and_cupboard(visit: Opener) -> None:
    page = visit()
    cards, count = page.locator(".card:visible"), page.locator("#find-count")
    every = cards.count()
    page.locator("#find-topic").select_option("sound")
    page.locator("#find-year").select_option("4")
    page.locator("#find-kind").select_option("readings")
    assert cards.count() == 1 and page.locator('.card[data-scene="sound-and-distance"]').is_visible()
    expect(count).to_have_text(f"1 scene of {every}.")
    press(page.get_by_role("button", name="Show all"))
    expect(count).to_have_text(f"{every} scenes of {every}.")
    page.locator("#find-at-hand").press("Space")
    assert 0 < cards.count() <= every
    expect(page.locator(".card:visible .card-learn").first).to_contain_text("What pupils learn: ")
