"""A group's own pattern on the page, as a person makes it: keys alone in the boxes, taps against the beat, and undo."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Opener
from tests.browser.planning import choose, held, planned
from tests.browser.test_access import violations

pytestmark = [pytest.mark.browser, pytest.mark.long]

RAIN = "pattern.The rain"


def at_the_rain(visit: Opener) -> Page:
    page = visit()
    choose(page)
    page.select_option("#pattern-part", "The rain")
    return page


def test_boxes_are_filled_with_keys_alone_and_what_it_means_is_told_at_once(visit: Opener) -> None:
    page = at_the_rain(visit)
    page.locator('#pattern-grid button[tabindex="0"]').focus()
    for key in ("Space", "ArrowRight", "ArrowRight", "Space", "End", "Enter"):
        page.keyboard.press(key)
    plan = planned(page)
    assert held(page)["inputs"]["edits"][RAIN]["boxes"] == ["x. x. .. .x"]
    assert page.locator("#pattern-grid button:focus").get_attribute("aria-label") == "Bar 1, count 4 &: a sound "
    assert "There are 3 sounds a bar in Group 5's own pattern. The rule would go from" in page.inner_text(
        "#pattern-told"
    )
    assert 'boxes = ["x. x. .. .x"]' in plan["scene_toml"]
    assert violations(page) == []
    page.locator("#undo").click()
    assert held(page)["inputs"]["edits"].get(RAIN) is None
    assert page.locator('#pattern-grid [data-box="x"]').count() == 0


def test_what_hands_cannot_do_has_one_button_that_mends_it(visit: Opener) -> None:
    page = at_the_rain(visit)
    page.select_option("#pattern-each", "4")
    for box in page.locator("#pattern-grid button").all():
        box.click()
    planned(page)
    assert "cannot keep up" in page.inner_text("#pattern-told")
    page.locator("#pattern-take").click()
    planned(page)
    assert "cannot keep up" not in page.inner_text("#pattern-told")
    assert page.locator("#pattern-take").is_hidden()


def test_a_pattern_is_tapped_on_the_space_bar(visit: Opener) -> None:
    page = at_the_rain(visit)
    page.fill("#pattern-bpm", "60")
    # Whoever taps sees the beat and hears it: here the page's own script does, so that a busy machine taps no later.
    page.evaluate("""() => {
        const pad = document.getElementById('pattern-pad');
        const tap = () => pad.dispatchEvent(new KeyboardEvent('keydown', { key: ' ' }));
        new MutationObserver(() => {
            if (!pad.textContent.startsWith('Tap')) return;
            tap();
            if (pad.textContent.endsWith('2')) setTimeout(tap, 500);
        }).observe(pad, { childList: true, characterData: true, subtree: true });
    }""")
    page.locator("#pattern-tap").click()
    page.locator("#pattern-pad").wait_for(state="visible")
    page.locator("#pattern-pad").wait_for(state="hidden")
    assert held(page)["inputs"]["edits"][RAIN]["boxes"] == ["x. xx x. x."]
    assert page.evaluate("document.activeElement.id") == "pattern-tap"


def test_taps_for_one_part_do_not_land_in_another(visit: Opener) -> None:
    page = at_the_rain(visit)
    page.locator("#pattern-tap").click()
    page.locator("#pattern-pad").wait_for(state="visible")
    other = page.locator("#pattern-part option:not(:checked)").first.get_attribute("value")
    page.select_option("#pattern-part", other)
    assert page.locator("#pattern-pad").is_hidden() and held(page)["inputs"]["edits"] == {}


def test_a_new_parts_own_pattern_goes_with_its_name_and_with_the_part(visit: Opener) -> None:
    page = visit()
    choose(page, "two-cups")
    page.locator('[data-part="0"] summary').first.click()
    page.locator('[data-part="0"]').get_by_role("button", name="Divide it in two").click()
    name = planned(page)["parts"][-1]["name"]
    page.select_option("#pattern-part", name)
    page.locator("#pattern-grid button").first.click()
    planned(page)
    made = held(page)["inputs"]["edits"][f"pattern.{name}"]
    page.locator('[data-own="part.new-1.name"]').get_by_role("button", name="Change").click()
    page.keyboard.press("Control+a")
    page.keyboard.type("Fog")
    page.keyboard.press("Enter")
    plan = planned(page)
    edits = held(page)["inputs"]["edits"]
    assert [path for path in edits if path.startswith("pattern.")] == ["pattern.Fog"]
    assert edits["pattern.Fog"] == made and plan["parts"][-1]["name"] == "Fog"
    assert edits["hear.new-1"]["part"] == "Fog"  # its rule too, whose place the pattern takes
    page.locator('[data-part="new-1"]').get_by_role("button", name="Take it out").click()
    planned(page)
    assert held(page)["inputs"]["edits"] == {} and page.locator(".field-error:visible").count() == 0
