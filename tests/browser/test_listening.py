"""The listening check in Chromium: clips play and end, answers only when asked for."""

from __future__ import annotations

import pytest

from sonify.page.document import listening_rows
from tests.browser.conftest import Opener, state, wait_until
from tests.sample import sample_lesson

pytestmark = [pytest.mark.browser, pytest.mark.clock]

ROWS = listening_rows(sample_lesson())


@pytest.mark.long
def test_a_clip_sounds_from_its_first_bar_to_its_last_and_the_piece_stands_where_it_stood(opened: Opener) -> None:
    page = opened("quick")
    page.locator("#along").fill("3")
    before = state(page)["moment"]["positionS"]
    page.evaluate("location.hash = '#listening'")
    page.evaluate(
        """() => { const speed = document.getElementById('speed'); speed.value = 60;
        speed.dispatchEvent(new Event('input', { bubbles: true })); }"""
    )
    button = page.locator(".question:not([hidden]) .clip")
    button.click()
    assert button.inner_text() == "Stop clip"
    wait_until(page, "s.level > 0.003")
    clip = state(page)["clip"]
    score = page.evaluate("JSON.parse(document.getElementById('lesson-data').textContent).timing.bars")
    starts = {bar: start_s for bar, start_s, _ in score}
    first = ROWS[0]["clips"][0]
    assert (clip["fromS"], clip["toS"]) == (starts[first["bar"]], starts[first["after"]])
    lasts_s = clip["toS"] - clip["fromS"]
    wait_until(page, "s.clip === null && !s.playing", seconds=lasts_s + 4)
    events = [s["when"] for s in page.evaluate("watched.starts")]
    assert max(events) - min(events) < lasts_s, "at full tempo, whatever the rehearsal's"
    assert state(page)["moment"]["positionS"] == before
    assert button.inner_text() == "Play clip"


def test_answers_are_hidden_until_asked_for_and_hidden_again(opened: Opener) -> None:
    page = opened("sample", view="listening")
    question = page.locator(".question:not([hidden])")
    choices, answer = ROWS[0]["choices"], ROWS[0]["answer"]
    wrong = (answer + 1) % len(choices)
    question.get_by_role("radio").nth(wrong).check()
    assert question.locator(".answer").inner_text() == ""
    assert question.locator(".verdict:visible").count() == 0
    question.get_by_role("button", name="Show the answer").click()
    assert question.locator(".answer").inner_text() == f"The answer: {choices[answer]['words']}. {ROWS[0]['why']}"
    cards = question.locator(".choice-card")
    assert cards.nth(answer).locator(".verdict").inner_text() == "✓ This one"
    assert cards.nth(wrong).locator(".verdict").inner_text() == "Not this one: listen once more"
    question.get_by_role("button", name="Hide the answer").click()
    assert question.locator(".answer").inner_text() == "" and question.locator(".verdict:visible").count() == 0


def test_questions_one_by_one_by_the_keys(opened: Opener) -> None:
    page = opened("quick", view="listening")
    asked = []
    for _ in ROWS:
        asked.append(page.locator(".question:not([hidden]) h3").inner_text().split(". ", 1)[1])
        page.keyboard.press("ArrowRight")
    assert asked == [row["question"] for row in ROWS]
    assert page.locator("#question-place").inner_text() == f"Question {len(ROWS)} of {len(ROWS)}"
    assert page.get_by_role("button", name="Next question").is_disabled()
    page.keyboard.press("Space")
    wait_until(page, f"s.clip && s.clip.question === {len(ROWS) - 1}")
    page.keyboard.press("ArrowLeft")
    wait_until(page, "s.clip === null && !s.playing")


def test_two_clips_are_heard_one_at_a_time(opened: Opener) -> None:
    pair = next(k for k, row in enumerate(ROWS) if len(row["clips"]) == 2)
    page = opened("quick", view="listening")
    for _ in range(pair):
        page.get_by_role("button", name="Next question").click()
    page.get_by_role("button", name="Play clip a").click()
    wait_until(page, "s.clip && s.clip.number === 0")
    page.get_by_role("button", name="Play clip b").click()
    wait_until(page, "s.clip && s.clip.number === 1 && s.playing")
    page.get_by_role("button", name="Stop clip b").click()
    wait_until(page, "s.clip === null && !s.playing")


def test_a_clip_is_heard_though_recording_and_groups_are_switched_off_for_the_piece(opened: Opener) -> None:
    page = opened("quick")
    for place in page.locator(".place button").all():
        place.click()
    page.locator("#recording-on").evaluate("(box) => box.click()")
    page.evaluate("location.hash = '#listening'")
    page.keyboard.press("Space")
    wait_until(page, "s.clip && s.level > 0.003")
    page.evaluate("location.hash = '#hear'")
    wait_until(page, "s.clip === null && !s.playing && s.resting.length === 4")
