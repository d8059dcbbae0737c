"""The piece really sounds, every note where the Score has it, at full and at rehearsal tempo."""

from __future__ import annotations

import numpy as np
import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Opener, state, wait_until
from tests.page.blips import RATE_HZ
from tests.sample import sample_score

pytestmark = [pytest.mark.browser, pytest.mark.clock]

TAP_FRAMES = 2400  # the click track's own sound
HUM_FRAMES = RATE_HZ  # the fake background: a second; every other sound is a note


def note_starts(page: Page) -> list[dict[str, float]]:
    starts = page.evaluate("watched.starts")
    return [s for s in starts if s["frames"] not in (TAP_FRAMES, HUM_FRAMES)]


def expected_onsets_s(first_bar: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Onsets of all notes from a bar on, counted from its first beat, at full tempo: from the Score's own clock."""
    score = sample_score()
    start = score.clock.beat_of_bar(first_bar)
    beats = sorted(note.beat for part in score.group_parts for note in part.notes if note.beat >= start)
    return np.array([float(s - score.clock.seconds(start)) for s in score.clock.many_seconds(beats)])


@pytest.mark.parametrize("percent", [100, 60])
def test_notes_are_put_on_the_audio_clock_where_the_score_has_them(opened: Opener, percent: int) -> None:
    page = opened()
    page.evaluate(
        """(percent) => { const slider = document.getElementById('speed'); slider.value = percent;
        slider.dispatchEvent(new Event('input', { bubbles: true })); }""",
        percent,
    )
    page.locator("#along").fill("7")
    page.locator("#play").click()
    wait_until(page, "s.level > 0.005")
    page.wait_for_timeout(1000)
    starts = note_starts(page)
    fresh = sorted(s["when"] for s in starts if s["offset"] == 0)
    onsets = expected_onsets_s(first_bar=7)[: len(fresh)] * 100 / percent
    assert len(fresh) >= 8
    np.testing.assert_allclose(np.array(fresh) - fresh[0], onsets - onsets[0], atol=1e-4)
    as_recorded = "watched.nodes.every((node) => node.playbackRate.value === 1 && node.detune.value === 0)"
    assert page.evaluate(as_recorded), "a slower tempo leaves pitch alone"


def test_no_note_on_the_first_beat_is_lost_wherever_the_piece_is_taken_up(opened: Opener) -> None:
    page = opened()
    score = sample_score()
    page.locator("#play").click()
    for bar in range(1, score.bars + 1):
        seen = page.evaluate("watched.starts.length")
        page.locator("#along").fill(str(bar))
        starts = page.evaluate("watched.starts")[seen:]
        begun = [s for s in starts if s["frames"] not in (TAP_FRAMES, HUM_FRAMES) and s["offset"] == 0]
        first = min(s["when"] for s in begun)
        on_the_beat = [n for p in score.group_parts for n in p.notes if n.beat == score.clock.beat_of_bar(bar)]
        assert len([s for s in begun if s["when"] - first < 1e-3]) == len(on_the_beat), f"bar {bar}"


def test_pause_falls_silent_and_play_goes_on_from_there(opened: Opener) -> None:
    page = opened()
    page.locator('.stage[data-stage="1"]').click()
    page.locator("#play").click()
    wait_until(page, "s.level > 0.005")
    level_soon_after = page.evaluate(
        """() => new Promise((resolve) => { document.getElementById('play').click();
        setTimeout(() => resolve(sonifyState().level), 150); })"""
    )
    assert level_soon_after < 1e-4, "sooner than the strokes would die away by themselves"
    assert page.locator("#play").inner_text() == "Play"
    paused = state(page)["moment"]["positionS"]
    page.wait_for_timeout(200)
    assert state(page)["moment"]["positionS"] == paused
    page.get_by_role("button", name="Play", exact=True).click()
    wait_until(page, f"s.playing && s.moment.positionS > {paused} && s.level > 0.005")
    assert state(page)["moment"]["positionS"] < paused + 1.0


def test_a_stage_button_goes_there_while_the_piece_plays(opened: Opener) -> None:
    page = opened()
    page.locator("#play").click()
    wait_until(page, "s.playing && s.moment.counting > 0")
    page.get_by_role("button", name="Precipitation").click()
    wait_until(page, "s.playing && s.moment.bar === 9 && s.level > 0.005")
    assert page.locator("#where-stage").inner_text() == "C Precipitation"
    assert page.locator('.stage[aria-current="step"]').inner_text().startswith("C")
    assert "80 beats a minute" in page.locator("#where-tempo").inner_text()
    assert "The storm" in page.locator("#sounding").inner_text()


def test_the_piece_ends_by_itself_and_stands_at_its_start_again(opened: Opener) -> None:
    page = opened("quick")
    page.locator("#along").fill("12")
    page.locator("#play").click()
    wait_until(page, "s.playing && s.moment.bar === 12")
    wait_until(page, "!s.playing", seconds=9)
    assert state(page)["moment"]["positionS"] == 0
    assert page.locator("#said").text_content() == "The end of the piece."


def test_a_group_alone_is_all_that_sounds_and_a_resting_group_is_silent(opened: Opener) -> None:
    page = opened()
    page.locator('.stage[data-stage="1"]').click()
    page.locator("#play").click()
    wait_until(page, "s.level > 0.005")
    rain = page.locator('.place[data-group="4"]')
    page.get_by_label("hear it alone").check()
    rain.get_by_role("button").click()  # it does not play before bar 7
    wait_until(page, "s.alone === 4 && s.level < 1e-4")
    assert page.locator('.place[data-group="1"]').get_attribute("data-state") == "silent"
    rain.get_by_role("button").click()
    wait_until(page, "s.alone === null && s.level > 0.005")
    page.get_by_label("rest it", exact=True).check()
    sea = page.locator('.place[data-group="1"]')
    sea.get_by_role("button").click()
    assert state(page)["resting"] == [1]
    assert sea.get_by_role("button").get_attribute("aria-pressed") == "true"
    assert sea.locator(".group-state").inner_text() == "resting"
    page.get_by_role("button", name="Everyone plays").click()
    assert state(page)["resting"] == []


def test_a_held_note_lasts_its_whole_length_though_its_recording_is_shorter(opened: Opener) -> None:
    page = opened("quick")
    page.get_by_label("hear it alone").check()
    page.locator('.place[data-group="1"] button').click()  # the sea: four beats held, 1.6 s, on a recording of 0.5 s
    page.locator('.stage[data-stage="1"]').click()
    page.locator("#play").click()
    wait_until(page, "s.level > 0.005")
    levels = []
    for _ in range(12):
        page.wait_for_timeout(100)
        levels.append(state(page)["level"])
    assert min(levels) > 1e-4


def test_without_web_audio_the_beat_and_the_cues_still_run_and_the_page_says_so(opened: Opener) -> None:
    page = opened("quick", script="delete window.AudioContext;")
    page.locator("#play").click()
    assert "cannot play sound" in page.get_by_role("alert").inner_text()
    wait_until(page, "s.playing && s.moment.counting > 0 && s.moment.counting < 7")
    assert state(page)["level"] == 0


def test_an_event_of_the_science_is_told_when_it_comes(opened: Opener) -> None:
    page = opened("quick")
    page.locator("#along").fill("8")
    assert page.locator("#hear-caption").inner_text() == "A cloud forms."
    page.locator("#along").fill("10")
    assert page.locator("#hear-caption").inner_text() == "Rain falls. The first drop of rain falls."
