"""A class's own table on a real server: given, seen, corrected, heard, and every step of it undone."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Opener, wait_until
from tests.browser.planning import choose, drop, held, until
from tests.browser.test_access import violations

pytestmark = pytest.mark.browser

TABLES = Path(__file__).parents[1] / "inputs" / "tables"
HAS_TABLE = "s.plan && !s.waiting && s.plan.table"


def roles(page: Page) -> dict[str, str]:
    """Each column of the table on the screen with the role that is chosen for it."""
    columns = page.locator(".table-column")
    return {
        column.locator("legend").inner_text(): column.locator("input:checked").get_attribute("value") or ""
        for column in columns.all()
    }


def paste(page: Page, text: str) -> None:
    """Cells from a spreadsheet's clipboard, as a browser reports them."""
    page.evaluate(
        """(text) => { const clipboardData = new DataTransfer(); clipboardData.setData('text/plain', text);
        document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true })); }""",
        text,
    )


def test_a_table_is_dropped_corrected_and_heard_in_four_actions_and_undone(visit: Opener) -> None:
    page = visit()
    drop(page, {"plants-long.csv": (TABLES / "plants-long.csv").read_bytes()})  # 1
    until(page, HAS_TABLE)
    assert roles(page) == {"Date": "changed", "Plant": "groups", "Height (cm)": "measured"}
    expect(page.locator("#table-told")).to_contain_text("We compared 3 groups: sill, cupboard and fridge.")
    for sight in ("#table-told", "#graph", "#table-columns"):
        expect(page.locator(sight)).to_be_in_viewport()
    assert page.locator("#graph .graph-line").count() == 3
    page.locator(".table-column", has_text="Plant").get_by_role("radio", name="left out").click()  # 2
    until(page, f"{HAS_TABLE} && s.plan.table.columns[1].role === 'unused'")
    assert page.locator("#graph .graph-line").count() == 1
    page.get_by_role("button", name="Hear it").last.click()  # 3
    page.wait_for_url("**/lesson/*#hear", timeout=20_000)
    wait_until(page, "document.activeElement.id === 'play'")
    page.keyboard.press("Space")  # 4
    wait_until(page, "s.playing && s.level > 0.001", seconds=20)
    page.go_back()
    until(page, HAS_TABLE)
    page.get_by_role("button", name="Undo").click()
    until(page, f"{HAS_TABLE} && s.plan.table.columns[1].role === 'groups'")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#choose")).to_be_visible()
    assert held(page)["inputs"]["scene"] is None


def test_cells_are_pasted_and_a_key_says_what_a_column_is(visit: Opener) -> None:
    page = visit(expect_error="400 (Bad Request)")
    paste(page, "Cloth\tWater held (ml)\tDry mass (g)\nwool\t12\t20\ncotton\t8\t18\nfelt\t15\t25\nplastic\t1\t9\n")
    until(page, HAS_TABLE)
    assert roles(page) == {"Cloth": "changed", "Water held (ml)": "measured", "Dry mass (g)": "measured"}
    assert violations(page) == []
    page.locator(".table-column", has_text="Dry mass").locator("input:checked").focus()
    page.keyboard.press("6")
    until(page, f"{HAS_TABLE} && s.plan.table.columns[2].role === 'unused'")
    assert (
        page.locator(".table-column", has_text="Dry mass")
        .locator("input:checked")
        .evaluate("(each) => each === document.activeElement")
    )
    # Without anything measured there is no table to hear: it is told, and stays as it was.
    page.locator(".table-column", has_text="Water held").locator("input:checked").focus()
    page.keyboard.press("6")
    expect(page.locator('[data-error="column"]')).to_contain_text("measured")
    assert roles(page)["Water held (ml)"] == "measured"


def test_a_spreadsheet_is_dropped_and_a_recording_is_told_what_it_is(visit: Opener) -> None:
    page = visit()
    drop(page, {"our-clap.wav": b"RIFF" + bytes(40)})
    expect(page.locator('#choose [data-error="file"]')).to_contain_text("our-clap.wav is a sound recording")
    drop(page, {"several-sheets.xlsx": (TABLES / "several-sheets.xlsx").read_bytes()})
    plan = until(page, HAS_TABLE)["plan"]
    assert plan["data_file"] == "several-sheets.xlsx"
    assert page.locator("#table-sheet option").all_inner_texts() == plan["table"]["tables"]


def test_a_ready_made_table_is_corrected_and_undone(visit: Opener) -> None:
    page = visit()
    choose(page, "beans-in-three-places")
    until(page, HAS_TABLE)
    expect(page.locator("#table-shipped")).to_be_visible()
    page.locator(".table-column", has_text="fridge").get_by_role("radio", name="left out").click()
    until(page, f"{HAS_TABLE} && !s.plan.table.shipped")
    assert page.locator("#graph .graph-line").count() == 2
    expect(page.locator("#table-shipped")).to_be_hidden()
    page.get_by_role("button", name="Undo").click()
    until(page, f"{HAS_TABLE} && s.plan.table.shipped")
    assert held(page)["inputs"]["scene"] == {"name": "beans-in-three-places"}
