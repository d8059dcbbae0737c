"""A quantity drawn on a real server: by mouse, by touch, by keys and typed, and undone."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Opener
from tests.browser.planning import held, until
from tests.browser.test_access import violations

pytestmark = pytest.mark.browser

DRAWN = "s.plan && !s.waiting && s.plan.drawing"


def line(page: Page) -> list[list[float]]:
    """The line of the quantity that is drawn, as the server has it."""
    found: list[list[float]] = until(page, DRAWN)["plan"]["drawing"]["quantities"][0]["line"]
    return found


def value_at(points: list[list[float]], place: float) -> float:
    """Straight between the points on both sides of a place."""
    (x0, y0) = [point for point in points if point[0] <= place][-1]
    (x1, y1) = next(point for point in points if point[0] > place)
    return y0 + (y1 - y0) * (place - x0) / (x1 - x0)


def on_field(page: Page, across: float, up: float) -> tuple[float, float]:
    box: Any = page.locator("#draw-field").bounding_box()
    return box["x"] + across * box["width"], box["y"] + (1 - up) * box["height"]


def begun(visit: Opener, **how: Any) -> tuple[Page, float]:
    """A drawn scene of four stages, begun on the page, with the height of its drawing's axis."""
    page = visit(**how)
    page.get_by_role("button", name="Begin", exact=True).click()
    assert len(until(page, DRAWN)["plan"]["drawing"]["stages"]) == 4
    page.locator("#draw-field").scroll_into_view_if_needed()
    low, high = (float(page.locator(f"#draw-{end}").input_value()) for end in ("from", "to"))
    assert low == 0
    return page, high


def test_a_curve_is_drawn_with_the_mouse_and_with_keys_typed_and_undone(visit: Opener) -> None:
    page, high = begun(visit)
    before = line(page)
    page.mouse.move(*on_field(page, 0.3, 0.2))
    page.mouse.down()
    for step in range(1, 11):
        page.mouse.move(*on_field(page, 0.3 + 0.02 * step, 0.2 + 0.06 * step))
    page.mouse.up()
    until(page, f"{DRAWN} && s.inputs.drawn[0]")
    drawn = line(page)
    # Half way along the stroke, half way up it: place 1.6 of 4 stages, half of the axis, within a hundredth of it.
    assert value_at(drawn, 1.6) == pytest.approx(0.5 * high, abs=0.02 * high)
    # As few points are kept as draw the line within a hundredth of the axis.
    assert value_at(drawn, 0.5) == pytest.approx(value_at(before, 0.5), abs=0.01 * high), "what was not drawn over"
    pen = page.locator("#draw-pen")
    pen.focus()
    page.keyboard.press("PageUp")
    until(page, f"{DRAWN} && s.before > 2")
    raised = value_at(line(page), 0.5)
    assert raised == pytest.approx(value_at(drawn, 0.5) + 0.1 * high, abs=0.02 * high)
    assert str(round(raised)) in (pen.get_attribute("aria-valuetext") or "")
    page.get_by_text("Or type a value for each stage").click()
    assert violations(page) == []
    page.locator("#draw-values input").last.fill("7")
    page.locator("#draw-values input").last.press("Tab")
    until(page, f"{DRAWN} && s.inputs.drawn[0].values")
    assert value_at(line(page), 3.5) == 7
    for _ in range(3):
        page.get_by_role("button", name="Undo").click()
    until(page, f"{DRAWN} && !s.inputs.drawn[0]")
    assert line(page) == before


def test_a_curve_is_drawn_with_a_finger(visit: Opener) -> None:
    page, high = begun(visit, viewport={"width": 390, "height": 800}, has_touch=True, is_mobile=True)
    touch = page.context.new_cdp_session(page)
    for kind, steps in (("touchStart", [0]), ("touchMove", range(1, 11)), ("touchEnd", [None])):
        for step in steps:
            points = []
            if step is not None:
                x, y = on_field(page, 0.6 + 0.02 * step, 0.9 - 0.06 * step)
                points = [{"x": x, "y": y}]
            touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    until(page, f"{DRAWN} && s.inputs.drawn[0]")
    assert value_at(line(page), 2.8) == pytest.approx(0.6 * high, abs=0.03 * high)
    assert held(page)["before"] == 2, "begun, and one stroke"


def test_a_curve_is_added_renamed_removed_and_undone(visit: Opener) -> None:
    page, _ = begun(visit)

    def names() -> list[str]:
        return [row["name"] for row in until(page, DRAWN)["plan"]["drawing"]["quantities"]]

    before = names()
    page.get_by_text("Add, rename or remove a curve").click()
    page.get_by_label("name:", exact=True).fill("number of newts")
    page.get_by_role("button", name="Add a curve of this name").click()
    until(page, f"{DRAWN} && s.plan.drawing.quantities.length === {len(before) + 1}")
    assert names()[-1] == "number of newts"
    assert page.locator("#draw-choice").evaluate("each => each.selectedOptions[0].text") == "Number of newts"
    page.get_by_label("name:", exact=True).fill("newts about")
    page.get_by_role("button", name="Give this name to the curve above").click()
    until(page, f"{DRAWN} && s.plan.drawing.quantities.at(-1).name === 'newts about'")
    assert violations(page) == []
    page.get_by_role("button", name="Remove the curve above").click()
    until(page, f"{DRAWN} && s.plan.drawing.quantities.length === {len(before)}")
    for count in (len(before) + 1, len(before) + 1, len(before)):
        page.get_by_role("button", name="Undo").click()
        until(page, f"{DRAWN} && s.plan.drawing.quantities.length === {count}")
    assert names() == before
