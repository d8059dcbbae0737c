"""A pattern that is put in on the page: what the page is told of it, and that what is saved or sent plays the same."""

from __future__ import annotations

from pathlib import Path

import pytest

from sonify import lesson
from sonify.data.exports import score_json
from sonify.lesson.carried import carried
from sonify.records.sendable import ELEMENT
from sonify.web.desk import Desk
from sonify.web.drafts import draft_of, scene_of
from sonify.web.inputs import read_inputs
from sonify.web.opening import opened
from tests.inputs.samples import SCENE as SMALL

MADE = {"boxes": ["x. xx x.", "x- .. xx"], "name": "Group 1's own pattern"}
SCENE = "a-frogs-life"


@pytest.mark.long
def test_a_pattern_is_told_carried_and_made_the_same(tmp_path: Path) -> None:
    desk = Desk()
    plain = desk.plan(read_inputs({"scene": {"name": SCENE}}))
    part = plain["patterns"]["parts"][0]["part"]
    sent = {"scene": {"name": SCENE}, "edits": {f"pattern.{part}": MADE}}
    inputs = read_inputs(sent)
    assert inputs.as_sent()["edits"] == sent["edits"]
    found = desk.plan(inputs)
    row = next(each for each in found["patterns"]["parts"] if each["part"] == part)
    assert row["own"] == {**MADE, "notes": []} and all(each["own"] is None for each in plain["patterns"]["parts"])
    # the scene as it is saved plays the very same piece
    file = tmp_path / f"{SCENE}.toml"
    file.write_text(found["scene_toml"], encoding="utf-8")
    study = desk.study(inputs)
    assert score_json(lesson.compose(file)) == score_json(study.lesson.score)
    assert score_json(study.lesson.score) != score_json(
        desk.study(read_inputs({"scene": {"name": SCENE}})).lesson.score
    )
    # a page that carries the plan opens with the pattern in it
    plan = {**lesson.plan_of(study.lesson), "edits": dict(inputs.edits)}
    plan["scene"] = {"name": SCENE, "text": study.draft.before.origin.text, "file": file.name}
    page = tmp_path / "page.html"
    page.write_text(f'<script type="application/json" id="{ELEMENT}">{carried(plan)}</script>', encoding="utf-8")
    assert opened(desk, page, page.name, home=True)["inputs"]["edits"] == sent["edits"]


def test_what_pupils_made_is_among_the_edits_of_a_plan() -> None:
    text = SMALL
    made = {"pattern.The rain": {"boxes": ["x. xx x. x."]}, "sound.The rain": {"name": "our bags", "file": "bags.wav"}}
    draft = draft_of(scene_of(text, file="a.toml"), text, {}, {}, {}, made, file="a.toml")
    assert [one.boxes for one in draft.scene.patterns] == [("x.xxx.x.",)]
    assert draft.scene.parts[1].sounds == ("our bags", "claves", "claps") and draft.scene.sounds[0].like == "egg-shaker"


@pytest.mark.long
def test_who_plays_one_pattern_together_is_not_told_that_nobody_does() -> None:
    desk, told = Desk(), "No two of you land at quite the same moment."
    for edits in ({}, {"pattern.The rain": {"boxes": ["x. x. xx x."]}}):
        study = desk.study(read_inputs({"scene": {"name": "harbour-water-cycle"}, "edits": edits}))
        card = next(part.meaning for part in study.lesson.score.group_parts if part.name == "The rain")
        assert (told in card) is not bool(edits) and card.startswith("You are the raindrops.")
