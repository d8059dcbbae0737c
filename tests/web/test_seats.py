"""Who sits where, said on the page: every output follows, and what is saved or sent plays the same."""

from __future__ import annotations

import io
import json
from pathlib import Path

import mido
import pytest

from sonify import lesson
from sonify.data.exports import score_json
from sonify.errors import BadFile
from sonify.lesson.carried import carried
from sonify.notation.midi import midi_bytes
from sonify.paper.cards import cards
from sonify.paper.conductor import map_data
from sonify.paper.cuesheet import moments
from sonify.paper.room import group_rows
from sonify.records.sendable import ELEMENT
from sonify.sound.seating import places
from sonify.web.desk import Desk
from sonify.web.inputs import Inputs, read_inputs
from sonify.web.mending import mends
from sonify.web.opening import opened
from tests.paper.sheets import settings

SCENE = "harbour-water-cycle"
DESK = Desk()
#: The sea and the cloud change places.
EDITS = {"part.0.groups": [4], "part.3.groups": [1]}
#: A class whose groups are too small to be halved.
SMALL = {"year": 4, "pupils": 25, "groups": 5, "minutes": 45, "cupboard": {}}


def sent(edits: dict[str, object], **more: object) -> Inputs:
    return read_inputs({"scene": {"name": SCENE}, "edits": edits, **more})


@pytest.mark.long
def test_cards_cues_map_room_midi_and_plan_follow_the_score(tmp_path: Path) -> None:
    desk = Desk()
    plan = desk.plan(sent(EDITS))
    study = desk.study(sent(EDITS))
    written = json.loads(score_json(study.lesson.score))
    seats = {part["name"]: part["group"] for part in written["parts"] if part["group"]}
    assert (seats["The sea"], seats["The cloud"]) == (4, 1)
    playing: dict[int, set[str]] = {}
    for name, group in seats.items():
        playing.setdefault(group, set()).add("The pulse" if name.startswith("The pulse") else name)
    assert {row["group"]: {*row["names"]} for row in cards(study.lesson, settings())} == playing
    assert {row["group"]: {*row["names"]} for row in group_rows(study.lesson, settings())} == playing
    assert [row["group"] for row in group_rows(study.lesson, settings())] == [1, 2, 3, 4, 5]
    assert {row["name"]: row["group"] for row in plan["map"]} == seats
    lanes = map_data(study.lesson, settings())["lanes"]
    assert {lane["group"]: {row["name"] for row in lane["rows"]} for lane in lanes} == {
        group: {name for name, its in seats.items() if its == group} for group in playing
    }
    shown = [who for row in moments(study.lesson, settings()) for line in row.get("lines", ()) for who in line["who"]]
    told = {(who["name"], who["badge"]["group"]) for who in shown if who["badge"]}
    assert {("The sea", 4), ("The cloud", 1)} <= told and all(seats[name] == group for name, group in told)
    # the further left a part sits, the further left it is heard; its track stands where its group does
    heard = dict(zip([part.name for part in study.lesson.score.parts], places(study.lesson.score), strict=True))
    assert heard["The cloud"] == min(heard.values()) and 0 < heard["The sea"] < heard["The rain"]
    tracks = [track.name for track in mido.MidiFile(file=io.BytesIO(midi_bytes(study.lesson.score))).tracks]
    assert tracks.index("The cloud") < tracks.index("The journey") < tracks.index("The sea")
    # the scene as it is saved, and a page that carries the plan, make the same
    file = tmp_path / f"{SCENE}.toml"
    file.write_text(plan["scene_toml"], encoding="utf-8")
    assert score_json(lesson.compose(file)) == score_json(study.lesson.score)
    sendable = {**lesson.plan_of(study.lesson), "edits": dict(EDITS)}
    sendable["scene"] = {"name": SCENE, "text": study.draft.before.origin.text, "file": file.name}
    page = tmp_path / "page.html"
    page.write_text(f'<script type="application/json" id="{ELEMENT}">{carried(sendable)}</script>', encoding="utf-8")
    assert opened(desk, page, page.name, home=True)["inputs"]["edits"] == EDITS


@pytest.mark.long
def test_a_part_that_its_group_cannot_play_is_told_with_what_mends_it() -> None:
    desk = Desk()
    edits = {"part.0.groups": [1], "part.3.groups": [1]}
    cannot = sent(edits, **{"class": SMALL})
    row = desk.plan(cannot)["parts"][3]
    assert not row["played"] and row["groups"] == [1] and not row["seated"]
    assert any(
        each["serious"] and "Group 1 cannot play The cloud as well" in each["message"] for each in row["findings"]
    )
    offers = mends(desk, cannot, "3")
    assert offers and any("part.3.groups" in offer["edits"] for offer in offers)
    for offer in offers:
        mended = desk.plan(sent({**edits, **offer["edits"]}, **{"class": {**SMALL, **offer.get("class", {})}}))
        assert mended["parts"][3]["played"] or mended["parts"][3]["silent"]
    assert len(offers) > 1
    desk.is_closing = True  # a server that stops waits for what is tried just now, and for no more
    assert len(mends(desk, cannot, "3")) <= 1


@pytest.mark.parametrize("groups", [["1"], [0], [2, 2], "1", [1] * 41])
def test_what_no_group_is_is_refused_by_its_field(groups: object) -> None:
    with pytest.raises(BadFile) as caught:
        DESK.draft(sent({"part.2.groups": groups}))
    assert str(caught.value.key).startswith("part.2.groups") and "line" not in str(caught.value)
