"""Teaching from the page in Chromium: a value is looked for by ear, the class's hands are counted, the point moves."""

from __future__ import annotations

import re

import pytest

from sonify.page.document import listening_rows
from tests.browser.conftest import Opener, state
from tests.sample import sample_lesson

pytestmark = pytest.mark.browser


def test_a_value_is_looked_for_along_the_curve(opened: Opener) -> None:
    """By keys alone; the told values are the page's own data, the bars those of the Score."""
    page = opened("sample")
    page.locator("#seek-ask").focus()
    page.keyboard.press("Enter")
    asked = re.fullmatch(
        r"Where is it (.+)\? Go along the curve, then press Here\.", page.locator("#seek-said").inner_text()
    )
    assert asked
    assert page.locator("#curve-value").inner_text() == "?"
    assert page.evaluate("document.activeElement.id") == "along"
    data = page.evaluate("JSON.parse(document.getElementById('lesson-data').textContent)")
    curve, bars = data["science"]["curves"][0], data["timing"]["pieceBars"]
    told = [curve["values"][4 * bar + 2] for bar in range(bars)]
    points = [curve["points"][int((bar + 0.5) / bars * (len(curve["points"]) - 1))] for bar in range(bars)]
    right = told.index(asked[1]) + 1
    wrong = max(range(bars), key=lambda bar: abs(points[bar] - points[right - 1])) + 1
    for bar, says in ((wrong, "Look where the curve stands"), (right, "Well found: here it is")):
        page.locator("#along").fill(str(bar))
        clip = state(page)["clip"]
        assert (clip["fromS"], clip["number"]) == (
            data["timing"]["bars"][bar + data["timing"]["countInBars"] - 1][1],
            bar,
        )
        page.locator("#seek-here").focus()
        page.keyboard.press("Enter")
        assert says in page.locator("#seek-said").inner_text()
    assert page.locator("#curve-value").inner_text() == curve["values"][4 * right - 4]
    assert not page.locator("#seek-here").is_visible()


def test_hands_of_the_class_are_counted(opened: Opener) -> None:
    page = opened("sample", view="listening")
    row = listening_rows(sample_lesson())[0]
    question = page.locator(".question:not([hidden])")
    question.get_by_role("radio").nth(row["answer"]).check()
    question.get_by_text("Count hands").click()
    for number, hands in enumerate(question.locator(".hand").all()):
        hands.fill("14" if number == row["answer"] else "3")
    question.get_by_role("button", name="Show the answer").click()
    counted = 14 + 3 * (len(row["choices"]) - 1)
    assert question.locator(".answer").inner_text().endswith(f"{row['why']} 14 of {counted} hands heard it.")
    assert question.locator(".verdict:visible").inner_text() == "✓ Well heard: this one"


def test_the_boards_point_stands_where_the_piece_is(opened: Opener) -> None:
    page = opened("sample", view="conduct")
    page.locator("#conduct-on").click()
    bar = state(page)["moment"]["bar"]
    bars = page.evaluate("JSON.parse(document.getElementById('lesson-data').textContent).timing.pieceBars")
    field, dot = page.locator(".course-field").bounding_box(), page.locator(".course-field .cursor-dot").bounding_box()
    assert field and dot and bar > 1
    assert dot["x"] + dot["width"] / 2 - field["x"] == pytest.approx(field["width"] * (bar - 1) / bars, abs=2)
    assert page.locator(".course-stage[data-on='true']").inner_text() == "B"
    assert field["height"] > 20
