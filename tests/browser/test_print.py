"""Print and export on a real server: a pack made with progress, its ZIP and sheets, cancelling, no second request."""

from __future__ import annotations

import json
import zipfile
from hashlib import sha256
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from sonify import lesson
from sonify.data.exports import science_csv
from tests.browser.conftest import Opener
from tests.browser.planning import SCENE, choose, field, planned, until

pytestmark = pytest.mark.browser

MINUTES = 240.0


def printing(page: Page) -> None:
    page.get_by_role("navigation", name="Views").get_by_role("link", name="Print").click()
    expect(page.locator("#print-title")).to_be_focused()


def test_a_pack_is_made_with_progress_and_downloaded_whole(visit: Opener, tmp_path: Path) -> None:
    page = visit()
    choose(page)
    field(page, "set.wind").locator("input[type=number]").fill("6")
    planned(page)
    printing(page)
    page.get_by_label("US Letter").check()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url) if request.method == "POST" else None)
    page.get_by_role("button", name="Make everything").click()
    until(page, "s.job === 'making'", seconds=60)
    expect(page.locator("#make")).to_have_attribute("aria-disabled", "true")
    page.locator("#make").click(force=True)
    shares = set()
    while page.evaluate("sonifyPlan().job") == "making" and len(shares) < 400:
        shares.add(page.locator("#job-progress").evaluate("(bar) => bar.value"))
        page.wait_for_timeout(300)
    until(page, "s.job === 'ready'", seconds=MINUTES)
    assert len(shares) > 2, "the bar moved"
    packs = [url for url in asked if not url.endswith("/api/shelf")]  # where the plan is kept meanwhile
    assert [url.rpartition("/api/")[2] for url in packs] == ["pack"], "no second request while one runs"
    expect(page.locator("#said")).to_have_text("Ready. Download everything, or take single files.")
    expect(page.locator("#preview-title")).to_be_focused()
    plain, programs = (page.locator(f"#{name} .file-name").all_text_contents() for name in ("files", "program-files"))
    sheets = page.get_by_label("Sheet", exact=True).locator("option").count()
    assert all(name.endswith(".pdf") for name in plain[:2]) and len(plain) > sheets > 2
    assert {"soundscape.wav", "page.html"} <= set(plain[sheets:])
    assert {"score.json", "pack.json", "soundscape.mid"} <= {name.rpartition("/")[2] for name in programs}

    with page.expect_download() as download:
        page.get_by_role("link", name="Download everything (ZIP)").click()
    path = tmp_path / download.value.suggested_filename
    download.value.save_as(path)
    with zipfile.ZipFile(path) as archive:
        assert archive.testzip() is None
        names = archive.namelist()
        facts = json.loads(archive.read(f"{SCENE}/pack.json"))
        for name in ("conductor.pdf", "pupils.pdf", "teacher.pdf", "soundscape.wav", "soundscape.mid", "page.html"):
            held = archive.read(f"{SCENE}/{name}")
            assert sha256(held).hexdigest() in json.dumps(facts), name
        scene_file, class_file = tmp_path / f"{SCENE}.toml", tmp_path / "class.toml"
        scene_file.write_bytes(archive.read(f"{SCENE}.toml"))
        class_file.write_bytes(archive.read("class.toml"))
        numbers = archive.read(f"{SCENE}/science.csv").decode()
    assert not any(name.startswith(f"{SCENE}/stems/") for name in names), "not ticked"
    made = lesson.study(lesson.load(scene_file), class_file)
    assert {c.name: c.measure.text for c in made.scene.conditions}["wind"] == "6 m/s"
    assert numbers == science_csv(made.timeline)
    sheets_are_shown(page)
    shown = page.request.get(str(page.locator("#preview-open").evaluate("(link) => link.href")))
    assert shown.headers["content-disposition"].startswith("inline"), "opened to print, not saved"
    assert shown.body().startswith(b"%PDF-")


def sheets_are_shown(page: Page) -> None:
    """Every page of every PDF as a picture with words, in letter paper's shape."""
    choice = page.get_by_label("Sheet", exact=True)
    assert {"conductor.pdf", "pupils.pdf", "teacher.pdf"} <= {
        text.partition(",")[0] for text in choice.locator("option").all_inner_texts()
    }
    choice.select_option(label=choice.locator("option").nth(1).inner_text())
    images = page.locator("#sheets img")
    pages = int(choice.locator("option").nth(1).inner_text().split()[1])
    assert images.count() == pages > 1
    for k in range(pages):
        image = images.nth(k)
        image.scroll_into_view_if_needed()
        for _ in range(200):
            if image.evaluate("(each) => each.complete && each.naturalWidth > 0"):
                break
            page.wait_for_timeout(50)
        shape = image.evaluate("(each) => each.naturalHeight / each.naturalWidth")
        assert min(abs(shape - 11 / 8.5), abs(shape - 8.5 / 11)) < 0.01
        assert f"page {k + 1} of {pages}" in str(image.get_attribute("alt"))


def test_a_pack_that_is_cancelled_leaves_nothing_and_can_be_made_again(visit: Opener) -> None:
    page = visit()
    choose(page)
    printing(page)
    page.get_by_role("button", name="Make everything").click()
    until(page, "s.job === 'making'", seconds=60)
    cancel = page.get_by_role("button", name="Cancel")
    cancel.focus()
    page.keyboard.press("Enter")
    until(page, "s.job === 'cancelled'", seconds=30)
    expect(page.locator("#job-words")).to_have_text("Cancelled. Nothing was kept.")
    expect(page.locator("#job-title")).to_be_focused()
    expect(page.locator("#job-files")).to_be_hidden()
    expect(page.locator("#make")).to_have_attribute("aria-disabled", "false")
    expect(page.locator("#make")).to_have_text("Make everything")


def test_a_print_that_failed_is_tried_again(visit: Opener) -> None:
    page = visit(expect_error="ERR_FAILED")
    choose(page)
    printing(page)
    page.route("**/api/pack", lambda route: route.abort())
    page.get_by_role("button", name="Make everything").click()
    expect(page.locator("#trouble")).to_contain_text("does not answer")
    expect(page.locator("#job-running")).to_be_hidden()
    page.unroute("**/api/pack")
    page.route("**/api/pack", lambda route: route.fulfill(status=202, json={"job": "x", "ahead": 0}))
    page.route("**/api/pack/x", lambda route: route.fulfill(json={"state": "ready", "files": []}))
    page.get_by_role("button", name="Try again").click()
    until(page, "s.job === 'ready'")
    expect(page.locator("#trouble")).to_be_hidden()


def test_without_a_scene_there_is_a_way_to_one(visit: Opener) -> None:
    page = visit("/#print")
    expect(page.locator("#print-work")).to_be_hidden()
    page.locator("#print-none").get_by_role("link", name="Plan").click()
    expect(page.locator("#first-title")).to_be_visible()
