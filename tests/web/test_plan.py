"""What Plan is told: every slider can be moved, every change is told, and what is saved plays the very same piece."""

from __future__ import annotations

import csv
import io
import json
import tomllib
from pathlib import Path
from typing import Any

import httpx
import pytest

from sonify import lesson
from sonify.data.exports import science_csv, score_json
from sonify.data.plan import usual
from sonify.data.sliders import plain, slider_of
from sonify.processes import process_of
from sonify.web.desk import Desk
from sonify.web.inputs import Inputs, read_inputs
from sonify.web.start import ready_made
from tests.web.running import HARBOUR, finished

SCENES = lesson.scene_names()


def plan(client: httpx.Client, **inputs: Any) -> dict[str, Any]:
    answer = client.post("/api/plan", json={**HARBOUR, **inputs})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def moved(row: dict[str, Any]) -> str | int:
    """A condition one step on, as the page sends it."""
    if "choices" in row:
        texts, at = row["choices"]["texts"], row["choices"]["at"]
        return str(texts[at + 1] if at + 1 < len(texts) else texts[at - 1])
    value = row["value"] + row["step"] if row["value"] + row["step"] <= row["high"] else row["value"] - row["step"]
    return f"{value:.10g} {row['unit']}" if row["unit"] else int(value)


def test_start_names_every_scene_and_instrument(client: httpx.Client) -> None:
    start = client.get("/api/start").json()
    assert [scene["name"] for scene in start["scenes"]] == SCENES
    assert {"claves", "ocean-drum"} <= {row["id"] for row in start["instruments"]}
    assert not {"claps", "voices-on-sh"} & {row["id"] for row in start["instruments"]}
    assert start["class"]["pupils"] == 28
    picture = next(scene["picture"] for scene in start["scenes"] if scene["name"] == "harbour-water-cycle")
    assert min(y for _, y in picture["points"]) == 0.0
    assert max(y for _, y in picture["points"]) == 1.0
    assert picture["stages"] == sorted(picture["stages"])


@pytest.mark.parametrize("name", [name for name in SCENES if name != "ice-rink-particles"])
def test_every_condition_moves(client: httpx.Client, name: str) -> None:
    before = plan(client, scene={"name": name})
    values = {row["name"]: moved(row) for row in before["conditions"]}
    after = plan(client, scene={"name": name}, set=values)
    for was, row in zip(before["conditions"], after["conditions"], strict=True):
        assert (was["changed"], row["changed"], row["text"]) == (False, True, str(values[row["name"]]))
        assert any(f"{row['label']} is now {row['shown']}" in sentence for sentence in after["changed"])


@pytest.mark.parametrize("end", ["low", "high"])
def test_both_ends_of_every_slider_are_allowed(end: str) -> None:
    desk = Desk()
    for name in SCENES:
        scene = desk.base(ready_made(name))[0]
        now = {condition.name: condition.measure for condition in scene.conditions}
        values: dict[str, str | int] = {}
        for spec in process_of(scene).conditions:
            slider = slider_of(spec, now.get(spec.name) or usual(spec))
            value = slider.low if end == "low" else slider.high
            values[spec.name] = int(value) if not slider.unit else f"{plain(value)} {slider.unit}"
            if spec.choices and slider.choices:
                values[spec.name] = slider.choices.texts[0 if end == "low" else -1]
            assert slider.low <= slider.value <= slider.high
        assert {change.name for change in desk.draft(edited(name, values)).changes} <= set(values)


def edited(name: str, values: dict[str, str | int]) -> Inputs:
    return read_inputs({"scene": {"name": name}, "set": values})


def test_a_condition_beyond_its_slider_is_refused_with_what_is_allowed(client: httpx.Client) -> None:
    answer = client.post("/api/plan", json={**HARBOUR, "set": {"sea_temperature": "31 degC"}})
    assert answer.status_code == 400
    assert "30 °C" in answer.json()["error"]
    assert answer.json()["where"] == "conditions.sea_temperature"


@pytest.mark.parametrize(("key", "end"), [("from", 0), ("from", 1), ("to", 0), ("to", 1)])
def test_every_rule_moves(client: httpx.Client, key: str, end: int) -> None:
    wanted: dict[str, Any] = {}
    for row in plan(client)["rules"]:
        steps, ends = row[f"{key}_{('low', 'high')[end]}"], list(row[key])
        assert steps["texts"][steps["at"]] == ends[end]
        near = [steps["texts"][at] for at in (steps["at"] + 1, steps["at"] - 1) if 0 <= at < len(steps["texts"])]
        ends[end] = next(text for text in near if text != ends[1 - end])
        wanted[str(row["index"])] = {key: ends}
    after = plan(client, rules=wanted)
    for row in after["rules"]:
        assert (row[key], row["changed"]) == (wanted[str(row["index"])][key], True)
        steps = row[f"{key}_{('low', 'high')[end]}"]  # told as the slider tells it
        shown = steps["shown"][steps["at"]].replace("-", "−")
        assert any(shown in sentence and row["control"] in sentence for sentence in after["changed"])


def test_the_curve_of_a_rule(client: httpx.Client) -> None:
    row = plan(client)["rules"][0]
    assert row["curves"] == ["linear", "logarithmic"]
    assert plan(client, rules={"0": {"curve": "logarithmic"}})["rules"][0]["curve"] == "logarithmic"


def test_a_quieter_class_has_another_map(client: httpx.Client) -> None:
    usual = plan(client)
    empty = plan(client, **{"class": {**usual["class"], "cupboard": {}, "groups": 4}})
    assert empty["class"]["cupboard"] == {}
    assert {row["group"] for row in empty["map"]} == {1, 2, 3, 4}
    assert any(row["swaps"] for row in empty["map"])
    assert [row["instrument"] for row in empty["map"]] != [row["instrument"] for row in usual["map"]]


def test_the_map_rests_where_the_part_has_no_note(client: httpx.Client) -> None:
    found = plan(client)
    score = lesson.compose("harbour-water-cycle")
    for row, part in zip(found["map"], score.group_parts, strict=True):
        for section, level in zip(score.sections, row["stages"], strict=True):
            edges = [score.clock.beat_of_bar(bar) for bar in (section.bar, section.bar + section.bars)]
            assert (level is None) == (not any(edges[0] <= note.beat < edges[1] for note in part.notes))


def test_curves_are_the_science(client: httpx.Client) -> None:
    """Every curve's least and most lie within those of `science.csv`, which is written by other code."""
    timeline = lesson.simulate("harbour-water-cycle")
    rows = list(csv.reader(io.StringIO(science_csv(timeline))))
    columns = {head.rpartition(" [")[0]: [float(row[k]) for row in rows[1:]] for k, head in enumerate(rows[0])}
    found = plan(client)["curves"]
    assert [curve["lead"] for curve in found] == [True] + [False] * (len(found) - 1)
    for curve in found:
        low, high = min(columns[curve["quantity"]]), max(columns[curve["quantity"]])
        room = 1e-4 * max(abs(low), abs(high))
        assert low - room <= curve["low"] <= curve["high"] <= high + room
        assert [x for x, _ in curve["points"]] == sorted(x for x, _ in curve["points"])


EDITS: dict[str, Any] = {
    "set": {"sea_temperature": "21.5 degC", "day": 200},
    "rules": {"0": {"to": ["60 bpm", "120 bpm"]}, "3": {"from": ["0 mm", "0.3 mm"], "to": ["p", "ff"]}},
    "class": {"year": 4, "pupils": 26, "groups": 4, "minutes": 50, "needs": ["quiet start"], "cupboard": {"claves": 6}},
    "scaffold": "part",
    "seed": 7,
    "edits": {
        "title": "Our own harbour",
        "stage.condensation.caption": "Cold air makes a cloud.",
        "part.2.texture": "scatter",
        "part.4.sounds": ["wood block", "claves"],
        "part.5.silent": True,
        "part.0.line": "stretch",
        "hear.4": None,
        "hear.new-1": {
            "quantity": "rain rate",
            "as": "dynamics",
            "part": "The rain",
            "from": ["0 mm/h", "1.2 mm/h"],
            "to": ["p", "ff"],
            "why": "The harder it rains, the louder we are.",
        },
    },
}


def test_what_is_saved_plays_the_same_by_command_line(client: httpx.Client, tmp_path: Path) -> None:
    found = plan(client, **EDITS)
    scene, room = tmp_path / found["scene_file"], tmp_path / "class.toml"
    scene.write_text(found["scene_toml"], encoding="utf-8", newline="\n")
    room.write_text(found["class_toml"], encoding="utf-8", newline="\n")
    studied = lesson.study(str(scene), room, seed=7, scaffold="part")
    saved = score_json(studied.score)
    textures = {part.name: part.texture for part in studied.score.group_parts}
    assert textures["The journey"] == "scatter" and "The river" not in textures
    assert json.loads(saved)["title"] == found["title"] == "Our own harbour"
    assert [rule["index"] for rule in found["rules"]] == ["0", "1", "2", "3", "5", "new-1"]
    again = plan(
        client,
        scene={"text": found["scene_toml"], "file": found["scene_file"]},
        **{
            "class": {"text": found["class_toml"]},
            "scaffold": "part",
            "seed": 7,
        },
    )
    for key in ("curves", "map", "tempo", "stages", "seconds"):
        assert again[key] == found[key]
    answer = client.post("/api/pack", json={"inputs": {**HARBOUR, **EDITS}, "options": {"stems": False}})
    job = answer.json()["job"]
    state = finished(client, job)
    assert state["state"] == "ready", state
    number = next(file["n"] for file in state["files"] if file["name"] == "score.json")
    assert client.get(f"/api/pack/{job}/file/{number}").text == saved


def test_comments_stay_in_what_is_saved(client: httpx.Client) -> None:
    found = plan(client, **EDITS)
    assert "# how far north the town lies" in found["scene_toml"]
    assert 'sea_temperature = "21.5 degC"\n' in found["scene_toml"]
    assert "day             = 200         # the day of the year: 21 June" in found["scene_toml"]
    before = tomllib.loads(plan(client)["scene_toml"])
    after = tomllib.loads(plan(client, **{**EDITS, "edits": {}})["scene_toml"])
    after["conditions"] |= {"sea_temperature": "14 degC", "day": 172}
    after["hear"][0]["to"], after["hear"][3]["from"], after["hear"][3]["to"] = (
        ["62 bpm", "114 bpm"],
        ["0 mm", "0.22 mm"],
        ["pp", "f"],
    )
    assert after == before


def test_a_plan_is_dealt_out_again_and_a_slip_is_one_message(client: httpx.Client) -> None:
    answer = client.post("/api/redeal", json={"inputs": HARBOUR, "absent": "1 in group 5", "broken": ""})
    assert answer.json()["lines"][1].startswith("Group 5: 4 instead of 5 players; ")
    for absent, broken, told in (("lots", "", "lots"), ("", "tuba", "tuba"), ("", "", "nobody is absent")):
        refused = client.post("/api/redeal", json={"inputs": HARBOUR, "absent": absent, "broken": broken})
        assert refused.status_code == 400
        assert told in refused.json()["error"]


def test_words_show_how_they_read_and_a_fault_names_its_field(client: httpx.Client) -> None:
    found = plan(client, edits={"title": "Rain at 3 o'clock", "stage.warming.claims": []})
    rows = {row["path"]: row for row in found["texts"]}
    assert (rows["title"]["loose"], rows["title"]["original"]) == (
        ["3"],
        "Once round the harbour: the journey of a drop",
    )
    warming = rows["stage.warming.caption"]
    assert (warming["claims"], warming["claimed"]) == ([], ["the sunlight rises"])
    given = {**HARBOUR, "words": {"path": "story", "text": "It is 40 degrees.", "claims": []}}
    assert client.post("/api/words", json=given).json() == {"age": 5.7, "loose": ["40"]}
    for path, value, told in (
        ("title", "", "empty"),
        ("part.1.texture", "drums", "Allowed: drone"),
        ("part.1.sounds", ["tuba"], "tuba"),
        ("part.3.stages", ["snow"], "snow"),
        ("hear.2.quantity", "hail", "hail"),
    ):
        answer = client.post("/api/plan", json={**HARBOUR, "edits": {"hear.0": None, path: value}})
        assert answer.status_code == 400 and told in answer.json()["error"]
        assert answer.json()["where"].startswith(path) and "toml" not in answer.json()["error"]


def test_two_versions_are_told_apart_in_words(client: httpx.Client) -> None:
    changed = {"edits": {"part.4.sounds": ["wood block"], "part.5.silent": True, "hear.4": None}, "set": {"day": 200}}
    found = client.post("/api/compare", json={**HARBOUR, **changed, "other": HARBOUR}).json()
    lines = "\n".join(found["lines"])
    assert "Day: 172 in A, 200 in B." in lines
    assert "In A alone sunlight is heard as brightness in The warm shallows." in lines
    assert "The river plays in A alone." in lines and "The rain plays claves in A, wood block" in lines
    assert client.post("/api/compare", json={**HARBOUR, "other": HARBOUR}).json()["lines"] == ["A and B are the same."]
    key = client.post("/api/lesson", json=HARBOUR).json()["key"]
    timing = client.get(f"/lesson/{key}/timing").json()
    assert timing["timing"]["pieceBars"] == plan(client)["bars"] and len(timing["parts"]) > 5


def test_what_mends_a_part_was_tried(client: httpx.Client) -> None:
    room = {**plan(client)["class"], "groups": 1}
    found = plan(client, **{"class": room})
    lost = next(row for row in found["parts"] if not row["played"])
    edits = {"title": "Our harbour"}
    answer = client.post("/api/mend", json={**HARBOUR, "class": room, "edits": edits, "part": lost["id"]}).json()
    assert answer["mends"]
    for mend in answer["mends"]:
        assert all(path.startswith(f"part.{lost['id']}.") for path in mend["edits"]), "nothing else is sent back"
        again = plan(client, **{"class": {**room, **mend.get("class", {})}, "edits": {**edits, **mend["edits"]}})
        row = next(row for row in again["parts"] if row["id"] == lost["id"])
        assert row["played"] or row["silent"]
        assert sum(f["serious"] for f in again["findings"]) < sum(f["serious"] for f in found["findings"])


def test_words_of_her_own_stay_where_a_rule_is_moved(client: httpx.Client) -> None:
    """An author's figure is left out where a rule is another one; what she wrote herself, for now, is not."""
    rules = {"0": {"to": ["60 bpm", "120 bpm"]}}
    words = {"part.0.meaning": "You are 40 waves.", "stage.warming.caption": "It is 9 degrees."}
    found = plan(client, rules=rules, edits=words)
    assert found["stages"][0]["caption"] == "It is 9 degrees."
    assert found["map"][0]["meaning"] == "You are 40 waves."
    saved = {"text": found["scene_toml"], "file": found["scene_file"]}
    moved = plan(client, scene=saved, rules={"0": {"to": ["61 bpm", "120 bpm"]}})  # by then they are the author's
    assert moved["stages"][0]["caption"] != "It is 9 degrees." and moved["map"][0]["meaning"] == ""
