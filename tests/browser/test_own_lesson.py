"""A lesson made one's own, by keyboard alone: words in place, who plays what, what is heard as what."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import Opener
from tests.browser.planning import choose, held, planned

pytestmark = pytest.mark.browser


def press(where: Locator, key: str = "Enter") -> None:
    where.focus()
    where.press(key)


def own(page: Page, path: str) -> Locator:
    return page.locator(f'[data-own="{path}"]')


def test_words_are_changed_where_they_stand_and_the_scenes_own_is_one_key_away(visit: Opener) -> None:
    page = visit()
    was = choose(page, "two-cups")["title"]
    title = own(page, "title")
    press(title.get_by_role("button", name="Change"))
    box = page.get_by_label("Title", exact=True)
    expect(box).to_be_focused()
    page.keyboard.press("Control+a")
    page.keyboard.type("Two cups in 90 minutes")
    expect(title.get_by_role("status")).to_contain_text("Nothing here checks this figure: 90.")
    page.keyboard.press("Enter")
    plan = planned(page)
    assert plan["title"] == "Two cups in 90 minutes"
    assert 'Two cups in 90 minutes"\n' in plan["scene_toml"]
    expect(title.get_by_role("button", name="Change")).to_be_focused()
    expect(page.locator("#title")).to_have_text("Two cups in 90 minutes")
    press(title.get_by_role("button", name="As the scene has it"))
    assert planned(page)["title"] == was and held(page)["inputs"]["edits"] == {}
    # Nothing may stand there: said at the field, and what was there stays.
    press(title.get_by_role("button", name="Change"))
    page.keyboard.press("Control+a")
    page.keyboard.press("Delete")
    page.keyboard.press("Enter")
    expect(title.locator(".field-error")).to_have_text("Title: write some words.")
    page.keyboard.press("Escape")
    expect(page.locator("#title")).to_have_text(was)


@pytest.mark.long
def test_parts_are_given_other_instruments_divided_silenced_and_mended(visit: Opener) -> None:
    page = visit()
    plan = choose(page, "two-cups")
    first = page.locator('[data-part="0"]')
    press(first.locator("summary").first)
    sound = first.get_by_label("Played on")
    given = plan["parts"][0]["played"][0]["given"][0]
    assert sound.input_value() == given
    other = next(
        row["id"]
        for row in plan["at_hand"]
        if plan["parts"][0]["texture"] in row["textures"] and row["id"] not in str(plan["parts"]) and row["count"] > 1
    )
    sound.focus()
    sound.select_option(other)
    found = planned(page)
    assert found["parts"][0]["played"][0]["given"][0] == other
    assert other.replace("-", " ") in page.locator("#map").inner_text().lower()
    press(first.get_by_role("button", name="Divide it in two"))
    found = planned(page)
    name = found["parts"][-1]["name"]
    assert found["parts"][-1]["id"] == "new-1" and name == f"{found['parts'][0]['name']} 2"
    assert any(rule["part"] == name for rule in found["rules"]) or not any(rule["part"] for rule in plan["rules"])
    expect(page.locator('[data-part="new-1"] summary').first).to_be_focused()
    press(page.locator('[data-part="new-1"]').get_by_role("button", name="Take it out"))
    assert len(planned(page)["parts"]) == len(plan["parts"])
    press(first.get_by_role("button", name="Silence it"))
    found = planned(page)
    assert found["parts"][0]["silent"] and found["parts"][0]["name"] not in {row["name"] for row in found["map"]}
    assert "silent" in found["scene_toml"]
    press(first.get_by_role("button", name="As the scene has it").last)
    assert planned(page)["map"] == plan["map"] and held(page)["inputs"]["edits"] == {}


@pytest.mark.long
def test_a_mend_goes_among_the_edits_that_are_there_when_it_is_pressed(visit: Opener) -> None:
    page = visit()
    choose(page, "two-cups")
    offered = {"mends": [{"words": "An easier line", "edits": {"part.0.line": "easy"}}]}
    page.route("**/api/mend", lambda route: route.fulfill(json=offered))
    first = page.locator('[data-part="0"]')
    first.locator("summary").first.click()
    ask = first.get_by_role("button", name="What would mend it?", include_hidden=True)
    offers, rests = first.locator(".part-mends button"), first.locator(".part-playing > .tick input")
    rests.click()
    planned(page)
    ask.evaluate("(button) => button.click()")
    offers.click()
    planned(page)
    assert held(page)["inputs"]["edits"] == {"part.0.rests": False, "part.0.line": "easy"}
    ask.evaluate("(button) => button.click()")
    expect(offers).to_have_count(1)
    rests.click()
    expect(offers).to_have_count(0)
    # An answer about what is no more is not shown.
    ask.evaluate("(button) => { button.click(); document.getElementById('undo').click(); }")
    expect(ask).to_be_enabled()
    assert offers.count() == 0


@pytest.mark.long
def test_who_sits_where_by_keyboard_and_by_mouse(visit: Opener) -> None:
    page = visit(viewport={"width": 1366, "height": 1000})
    choose(page)
    seats = page.locator("#seats")

    def playing() -> dict[int, list[str]]:
        found: dict[int, list[str]] = {}
        for row in planned(page)["parts"]:
            for each in row["played"]:
                found.setdefault(each["group"], []).append(row["name"])
        return found

    before = playing()
    first = seats.get_by_label("Group 1 plays")
    expect(first.locator("option:checked")).to_have_text(before[1][0])
    first.focus()
    for part in (before[2][0], before[3][0]):  # an arrow key leads through what is not meant
        page.keyboard.press("ArrowDown")
        expect(page.locator("#bar-words")).to_contain_text(f"Group 1 plays {part}")
        planned(page)
    expect(page.locator("#bar-words")).to_contain_text(f"Group 1 plays {before[3][0]}, group 3 {before[1][0]}.")
    assert playing() == {**before, 1: before[3], 3: before[1]}
    expect(seats.get_by_label("Group 1 plays")).to_be_focused()
    who = seats.locator('[data-seat="2"] .seat-who'), seats.locator('[data-seat="4"]')
    who[0].scroll_into_view_if_needed()
    who[0].hover()
    page.mouse.down()
    who[1].hover()
    who[1].hover()
    page.mouse.up()
    expect(page.locator("#bar-words")).to_contain_text("Groups 2 and 4 change places.")
    assert playing() == {1: before[3], 2: before[4], 3: before[1], 4: before[2], 5: before[5]}
    assert not page.evaluate("document.body.classList.contains('dropping')")
    while held(page)["inputs"]["edits"]:
        page.locator("#undo").click()
    assert playing() == before and held(page)["inputs"]["edits"] == {}
    page.locator("#redo").click()
    planned(page)
    page.locator("#seats-reset").click()
    assert playing() == before
    expect(page.locator("#seats-title")).to_be_focused()


@pytest.mark.long
def test_rules_hear_something_else_and_sound_before_the_piece(visit: Opener) -> None:
    page = visit()
    plan = choose(page, "two-cups")
    rule = page.locator('[data-rule="0"]')
    ticks = rule.locator(".axis-tick")
    assert ticks.count() == len(plan["rules"][0]["key"])
    press(ticks.first)
    expect(page.locator("#said")).to_have_text(": ".join(plan["rules"][0]["key"][0]), timeout=15_000)
    press(rule.get_by_role("button", name="Turn it round"))
    found = planned(page)["rules"][0]
    assert found["to"] == plan["rules"][0]["to"][::-1]
    press(rule.get_by_role("button", name="As the scene has it").last)
    assert planned(page)["rules"][0]["to"] == plan["rules"][0]["to"]
    press(page.locator("#rule-add"))
    made = planned(page)["rules"][-1]
    assert made["index"] == "new-1"
    select = page.locator('[data-rule="new-1"] select[data-key="quantity"]')
    expect(select).to_be_focused()
    names = [row["name"] for row in planned(page)["choices"]["quantities"]]
    select.select_option(next(name for name in names if name != made["quantity"]))
    assert planned(page)["rules"][-1]["quantity"] != made["quantity"]
    expect(select).to_be_focused()
    press(page.locator('[data-rule="1"] summary').first)
    press(page.locator('[data-rule="1"]').get_by_role("button", name="Take this rule out"))
    assert "1" not in {row["index"] for row in planned(page)["rules"]}
    press(page.locator("#rules-out button"))
    assert "1" in {row["index"] for row in planned(page)["rules"]}


@pytest.mark.long
def test_two_versions_are_told_apart_and_heard_in_turn_at_one_bar(visit: Opener) -> None:
    page = visit()
    choose(page, "two-cups")
    press(page.locator("#compare-keep"))
    expect(page.locator("#compare-a")).to_contain_text("B is the same so far")
    expect(page.locator("#compare-hear-b")).to_be_disabled()
    number = page.locator('[data-field="set.room_temperature"] input[type=number]')
    number.focus()
    number.press("Control+a")
    number.press_sequentially("12")
    planned(page)
    expect(page.locator("#compare-lines")).to_contain_text("Room temperature: 20 °C in A, 12 °C in B.")
    expect(page.locator("#legend-other")).to_have_text("A")
    assert page.locator("#curve-steps").get_attribute("d")  # A's curve lies under B's
    bar = next(stage["bar"] for stage in planned(page)["stages"][1:])
    page.locator("#compare-from").select_option(str(bar))
    now = page.locator("#compare-now")
    press(page.locator("#compare-hear-a"))
    expect(now).to_contain_text(f"A: bar {bar}", timeout=60_000)
    press(page.locator("#compare-hear-b"))
    expect(now).to_contain_text("B: bar", timeout=60_000)
    assert int(now.inner_text().split()[-1]) >= bar
    press(page.locator("#compare-stop"))
    expect(now).to_have_text("")
    press(page.locator("#compare-back"))
    planned(page)
    assert held(page)["inputs"]["set"] == {}
