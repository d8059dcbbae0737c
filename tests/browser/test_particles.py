"""The particle box in Chromium: moved through along its curve, drawn as simulated, its beat and knocks on the clock."""

from __future__ import annotations

import json
from typing import Any

import numpy as np
import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Opener, state, wait_until
from tests.page.lessons import usual_film

pytestmark = [pytest.mark.browser, pytest.mark.clock]

FILM = json.loads(usual_film())
LAST = FILM["frames"] - 1
TAP_FRAMES = 2400
KNOCK_FRAMES = (1067, 1600)  # of any two; of one with the ringed one


def starts(page: Page, frames: tuple[int, ...]) -> list[float]:
    return sorted(s["when"] for s in page.evaluate("watched.starts") if s["frames"] in frames)


def choose_knocks(page: Page, value: str) -> None:
    page.locator(f'input[name="knocks"][value="{value}"]').check()


def slide_to(page: Page, share: float) -> None:
    box = page.locator("#heating").bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + share * box["width"], box["y"] + 60)


def test_dragging_along_the_curve_goes_from_solid_to_gas_and_says_where_it_is(opened: Opener) -> None:
    page = opened(view="particles")
    assert page.locator("#box-state").inner_text() == "Solid"
    slide_to(page, 0.1)
    page.mouse.down()
    seen = []
    for share in (0.1, 0.25, 0.4, 0.55, 0.9):
        slide_to(page, share)
        seen.append(page.locator("#box-state").inner_text())
        assert state(page)["box"]["place"] == pytest.approx(share * LAST, abs=3)
    page.mouse.up()
    assert seen == ["Solid", "Melting", "Liquid", "Evaporating", "Gas"]
    slide_to(page, 0.1)
    assert page.locator("#box-state").inner_text() == "Gas", "let go"
    slider = page.get_by_role("slider", name="Heating: slide along the curve")
    at = round(state(page)["box"]["place"])
    assert slider.get_attribute("aria-valuetext") == f"gas, 0.90 of the heat given, {FILM['temperatures'][at]}"
    assert page.locator("#box-speed").inner_text() == f"{FILM['speeds'][at]} m/s"
    assert page.locator("#box-real").inner_text() == f"{FILM['realSpeeds'][at]} m/s"
    assert page.locator("#box-beat").inner_text() == f"{FILM['beats'][at]:.0f}"


def test_the_curve_is_a_slider_for_the_keyboard(opened: Opener) -> None:
    page = opened(view="particles")
    page.locator("#heating").focus()
    said = []
    for key in ("ArrowRight", "PageUp", "PageUp", "PageDown", "End", "ArrowLeft", "Home"):
        page.keyboard.press(key)
        said.append(page.locator("#heating").get_attribute("aria-valuetext"))
    shares = [float(str(text).split(", ")[1].split()[0]) for text in said]
    assert [str(text).split(",")[0] for text in said] == [
        "solid", "melting", "liquid", "melting", "gas", "gas", "solid",
    ]  # fmt: skip
    assert shares[0] == 0.01 and shares[-3:] == [1.0, 0.99, 0.0]
    page.keyboard.press("Space")
    wait_until(page, "s.box.playing")
    page.locator("#box-state").click()
    page.keyboard.press("PageDown")  # a presenter's clicker: forward
    assert page.locator("#box-state").inner_text() == "Melting"
    page.keyboard.press("Space")
    wait_until(page, "!s.box.playing")


@pytest.mark.parametrize("share", [0.05, 0.97])
def test_the_beat_follows_the_speed_of_the_particles_on_the_audio_clock(opened: Opener, share: float) -> None:
    page = opened(view="particles")
    choose_knocks(page, "none")
    slide_to(page, share)
    page.mouse.down()
    page.mouse.up()
    page.locator("#box-play").click()
    wait_until(page, "s.level > 0.002")
    page.wait_for_timeout(2600)
    taps, place = starts(page, (TAP_FRAMES,)), state(page)["box"]["place"]
    assert len(taps) >= 3 and starts(page, KNOCK_FRAMES) == []
    np.testing.assert_allclose(np.diff(taps), 60 / FILM["beats"][round(place)], atol=1e-6)


def test_each_knock_sounds_when_the_film_has_it_to_and_fro(opened: Opener) -> None:
    page = opened(view="particles")
    page.locator("#box-beat-on").uncheck()
    page.locator("#heating").focus()
    page.keyboard.press("PageUp")
    page.locator("#box-play").click()
    wait_until(
        page,
        f"s.box.playing && s.contextS > s.box.plan.atS + {1.6 * FILM['heldFrames'] / FILM['framesASecond']}",
        seconds=9,
    )
    plan, until_s = state(page)["box"]["plan"], state(page)["contextS"]
    frames = np.array(knock_frames())
    inside = frames[(frames >= plan["low"]) & (frames <= plan["high"])]
    length = plan["high"] - plan["low"]
    start_s = plan["atS"] - (plan["from"] - plan["low"]) / FILM["framesASecond"]
    forth = start_s + (inside - plan["low"]) / FILM["framesASecond"]
    back = start_s + (length + plan["high"] - inside) / FILM["framesASecond"]
    wanted = np.sort(np.concatenate([forth, back, forth + 2 * length / FILM["framesASecond"]]))
    wanted = wanted[(wanted >= plan["atS"]) & (wanted <= until_s)]
    heard = np.array([when for when in starts(page, KNOCK_FRAMES) if when <= until_s])
    assert len(wanted) > 100
    np.testing.assert_allclose(heard, wanted, atol=1e-6)


def knock_frames() -> list[float]:
    from base64 import b64decode

    steps = np.frombuffer(b64decode(FILM["knocks"]["step"]), "<u4")
    return [float(frame) for frame in steps / FILM["knocks"]["stepsAFrame"]]


def test_only_the_ringed_one_can_be_heard(opened: Opener) -> None:
    page = opened(view="particles")
    choose_knocks(page, "ringed")
    page.locator("#box-beat-on").uncheck()
    page.locator("#heating").focus()
    page.keyboard.press("PageUp")
    page.keyboard.press("PageUp")
    page.locator("#box-play").click()
    page.wait_for_timeout(2500)
    assert starts(page, KNOCK_FRAMES[:1]) == []
    assert 1 <= len(starts(page, KNOCK_FRAMES[1:])) < 15


def test_heated_slowly_it_moves_on_by_itself_and_a_drag_holds_it(opened: Opener) -> None:
    page = opened(view="particles")
    page.get_by_role("button", name="Heat slowly").click()
    wait_until(page, "s.box.playing && s.box.heating && s.box.place > 15")
    before = state(page)
    page.wait_for_timeout(600)
    after = state(page)
    passed_s = after["heardS"] - before["heardS"]
    frames = after["box"]["place"] - before["box"]["place"]
    assert frames == pytest.approx(passed_s * FILM["framesASecond"], abs=1.0)
    page.locator("#heating").focus()
    page.keyboard.press("PageUp")
    now = state(page)["box"]
    assert now["playing"] and not now["heating"] and now["plan"]["high"] - now["plan"]["low"] == FILM["heldFrames"]


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (1920, 1080), (1024, 768)])
def test_box_curve_readings_and_controls_are_on_one_screen(opened: Opener, width: int, height: int) -> None:
    page = opened(view="particles", viewport={"width": width, "height": height})
    for name in ("#box", ".box-figure figcaption", "#heating", ".readings", ".box-controls"):
        box = page.locator(name).bounding_box()
        assert box is not None and box["y"] >= 0 and box["y"] + box["height"] <= height, name
    assert page.evaluate("document.getElementById('box').clientWidth") > 0.3 * width


def inked(page: Page) -> Any:
    """The picture of the box, as a list of how full each of 10 by 10 fields is."""
    return page.evaluate(
        """() => { const box = document.getElementById('box'); const side = box.width;
        const data = box.getContext('2d').getImageData(0, 0, side, side).data; const fields = new Array(100).fill(0);
        for (let y = 0; y < side; y += 1) for (let x = 0; x < side; x += 1)
        if (data[4 * (y * side + x) + 3] > 128) fields[10 * Math.floor(10 * y / side) + Math.floor(10 * x / side)] += 1;
        return fields; }"""
    )


def test_the_picture_is_a_crystal_in_the_middle_and_then_a_gas_all_over(opened: Opener) -> None:
    page = opened(view="particles")
    solid = np.array(inked(page)).reshape(10, 10)
    page.locator("#heating").focus()
    page.keyboard.press("End")
    gas = np.array(inked(page)).reshape(10, 10)
    assert solid[:1].sum() == solid[:, :1].sum() == 0 and solid[4:6, 4:6].min() > 0
    assert np.count_nonzero(gas) > 80 > 1.5 * np.count_nonzero(solid)


def test_it_is_drawn_at_the_screens_own_pace_and_stops_when_it_is_left(opened: Opener) -> None:
    page = opened(view="particles")
    page.locator("#box-play").click()
    wait_until(page, "s.box.playing")
    drawn = state(page)["box"]["drawn"]
    page.wait_for_timeout(1000)
    assert state(page)["box"]["drawn"] - drawn > 25, "smooth, though the machine is busy"
    page.evaluate("location.hash = '#hear'")
    wait_until(page, "s.view === 'hear'")
    assert state(page)["box"]["playing"] is False
    page.wait_for_timeout(300)
    drawn = state(page)["box"]["drawn"]
    wait_until(page, "s.level < 1e-4")
    page.wait_for_timeout(300)
    assert state(page)["box"]["drawn"] == drawn


def test_who_wants_no_motion_sees_stills_and_hears_the_same(opened: Opener) -> None:
    page = opened(view="particles", reduced_motion="reduce")
    page.locator("#box-play").click()
    wait_until(page, "s.level > 0.002")
    drawn = state(page)["box"]["drawn"]
    page.wait_for_timeout(800)
    assert state(page)["box"]["drawn"] == drawn
    page.locator("#heating").focus()
    page.keyboard.press("PageUp")
    wait_until(page, f"s.box.drawn > {drawn}")


def test_without_web_audio_the_box_still_runs_and_says_so(opened: Opener) -> None:
    page = opened(view="particles", script="delete window.AudioContext;")
    page.locator("#box-play").click()
    assert "cannot play sound" in page.get_by_role("alert").inner_text()
    wait_until(page, "s.box.playing && s.box.moment > 5 && s.box.drawn > 10")


def test_a_view_that_is_opened_by_its_address_shows_the_head_of_the_page(opened: Opener) -> None:
    for view in ("particles", "listening", "conduct"):
        assert opened(view=view).evaluate("scrollY") == 0


def test_the_piece_and_the_box_never_sound_together(opened: Opener) -> None:
    page = opened()
    page.locator("#play").click()
    wait_until(page, "s.playing")
    page.evaluate("location.hash = '#particles'")
    page.locator("#box-play").click()
    wait_until(page, "s.box.playing && !s.playing")
    page.evaluate("location.hash = '#conduct'")
    wait_until(page, "!s.box.playing")


def test_the_dots_of_the_beat_never_flash(opened: Opener) -> None:
    """WCAG 2.2, 2.3.1: at most three flashes a second. Each dot comes on once in four beats, of which the quickest are
    two a second."""
    assert max(FILM["beats"]) / 60 < 3
    page = opened(view="particles")
    page.locator("#heating").focus()
    page.keyboard.press("End")
    page.evaluate(
        """() => { window.flashes = 0; new MutationObserver((all) => {
        flashes += all.filter((each) => each.target.dataset.on === 'true').length; })
        .observe(document.getElementById('beat-dots'), { attributes: true, subtree: true }); }"""
    )
    page.locator("#box-play").click()
    page.wait_for_timeout(2500)
    assert 3 <= page.evaluate("flashes") <= 6
