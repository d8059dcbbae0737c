"""A part of the scene called anew on the page: every output calls it so, and the scene that is saved makes the same."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from sonify import lesson
from sonify.data.exports import score_json
from sonify.paper.cards import cards
from sonify.paper.conductor import map_data
from sonify.paper.cuesheet import moments
from sonify.paper.room import group_rows
from sonify.web.desk import Desk
from sonify.web.inputs import read_inputs
from tests.paper.sheets import settings

SCENE = "harbour-water-cycle"


@pytest.mark.long
def test_a_part_called_anew_is_called_so_in_every_output(tmp_path: Path) -> None:
    desk = Desk()
    inputs = read_inputs({"scene": {"name": SCENE}, "edits": {"part.0.name": "Our waves"}})
    plan, study = desk.plan(inputs), desk.study(inputs)
    sheets = {
        "score": json.loads(score_json(study.lesson.score)),
        "cards": cards(study.lesson, settings()),
        "cues": moments(study.lesson, settings()),
        "map": map_data(study.lesson, settings()),
        "room": group_rows(study.lesson, settings()),
        "plan": {key: plan[key] for key in ("map", "patterns", "findings", "rules")},
    }
    for name, made in sheets.items():
        told = json.dumps(made, ensure_ascii=False, default=str)
        assert "Our waves" in told, name
        # No longer a part's name: not alone in a cell, nor what plays.
        assert '"The sea"' not in told and "The sea plays" not in told, name
    assert plan["parts"][0]["name"] == "Our waves"
    assert not any(finding["serious"] for finding in plan["findings"])
    row = next(each for each in plan["texts"] if each["path"] == "part.0.name")
    assert (row["text"], row["original"]) == ("Our waves", "The sea")
    file = tmp_path / f"{SCENE}.toml"
    file.write_text(plan["scene_toml"], encoding="utf-8")
    assert score_json(lesson.compose(file)) == score_json(study.lesson.score)


@pytest.mark.parametrize("name", ["a-year-of-sunlight", "two-cups"])
def test_another_name_puts_no_sentence_of_the_author_in_doubt(name: str) -> None:
    desk = Desk()
    plain = desk.study(read_inputs({"scene": {"name": name}})).lesson
    ruled = next(
        number for number, part in enumerate(plain.scene.parts) if any(r.part == part.name for r in plain.scene.rules)
    )
    edits = {f"part.{ruled}.name": "Zoë & the “owls”"}
    called = desk.study(read_inputs({"scene": {"name": name}, "edits": edits})).lesson
    assert [each.message for each in called.problems] == [each.message for each in plain.problems]
    assert [each.caption for each in called.scene.stages] == [each.caption for each in plain.scene.stages]
    assert len(called.scene.remarks) == len(plain.scene.remarks)
    # another quantity of its own in the same rule does
    turned = {"rules": {"0": {"to": [plain.scene.rules[0].to_high_text, plain.scene.rules[0].to_low_text]}}}
    other = desk.study(read_inputs({"scene": {"name": name}, **turned})).lesson
    assert len(other.scene.remarks) > len(plain.scene.remarks)


@pytest.mark.parametrize("name", ["harbour-water-cycle", "two-cups", "rain-garden-storm"])
def test_other_names_change_no_note_now_nor_in_what_is_saved(name: str, tmp_path: Path) -> None:
    desk = Desk()
    plain = desk.study(read_inputs({"scene": {"name": name}})).lesson.score
    count = len(desk.draft(read_inputs({"scene": {"name": name}})).scene.parts)
    edits = {f"part.{number}.name": f"{chr(90 - number)}oë {number}" for number in range(count)}
    called = desk.study(read_inputs({"scene": {"name": name}, "edits": edits}))
    played = [(part.group, part.instrument, part.notes) for part in plain.parts]
    assert [(part.group, part.instrument, part.notes) for part in called.lesson.score.parts] == played
    names = [{part.name for part in score.group_parts if not part.pulse} for score in (called.lesson.score, plain)]
    assert not names[0] & names[1]
    # opened again and called anew once more
    saved = {"text": called.draft.text, "file": f"{name}.toml"}
    again = desk.study(read_inputs({"scene": saved, "edits": {"part.0.name": "Ours"}})).lesson.score
    assert [(part.group, part.instrument, part.notes) for part in again.parts] == played
