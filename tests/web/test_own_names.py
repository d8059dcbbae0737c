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
