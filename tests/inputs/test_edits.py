"""Changing a scene's text: what is set anew is, and everything else stays letter for letter."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from sonify.errors import BadFile
from sonify.inputs.document import read_document
from sonify.inputs.edits import RuleEdit, edit_of, edited_scene_text
from sonify.storage import shelf

TEXT = """# Mine.
title = "Drop"   # not the last one

[conditions]
wind   = "4 m/s"   # a breeze
day    = 172

[[hear]]
quantity = "rain rate"
as   = "density"
from = ["0 mm/h", "1 mm/h"]   # a shower
to   = ["1 per bar", "2 per beat"]
why  = "x"
# the end
"""


def edited(conditions: dict[str, str | int], rules: dict[int, RuleEdit] | None = None, text: str = TEXT) -> str:
    return edited_scene_text(text, conditions, rules or {}, file="a.toml")


def test_only_the_changed_line_changes() -> None:
    after = edited({"wind": "9 m/s", "day": 172}).splitlines()
    assert [line for line in after if line not in TEXT.splitlines()] == ['wind   = "9 m/s"   # a breeze']
    assert len(after) == len(TEXT.splitlines())


def test_a_condition_that_the_file_leaves_out_is_added_to_its_table() -> None:
    assert tomllib.loads(edited({"humidity": "50 %"}))["conditions"] == {
        "wind": "4 m/s",
        "day": 172,
        "humidity": "50 %",
    }
    bare = edited({"humidity": "50 %"}, text='title = "x"\n[[hear]]\nas = "tempo"\n')
    assert tomllib.loads(bare)["conditions"] == {"humidity": "50 %"}
    assert tomllib.loads(bare)["hear"] == [{"as": "tempo"}]


def test_a_rule() -> None:
    after = edited({}, {0: RuleEdit(low_high=("0 mm/h", "3 mm/h"), to=("1 per bar", "3 per beat"), curve="linear")})
    row = tomllib.loads(after)["hear"][0]
    assert (row["from"], row["to"]) == (["0 mm/h", "3 mm/h"], ["1 per bar", "3 per beat"])
    assert "curve" not in row  # what it would be anyway
    assert "# a shower" in after
    logarithmic = edited({}, {0: RuleEdit(curve="logarithmic")})
    assert tomllib.loads(logarithmic)["hear"][0]["curve"] == "logarithmic"


def test_a_value_cannot_break_out_of_its_text() -> None:
    wicked = '1 m/s"\n[[hear]]\nas = "tempo'
    found = tomllib.loads(edited({"wind": wicked, '"] x\n[y': "1 m"}))
    assert found["conditions"]["wind"] == wicked
    assert found["conditions"]['"] x\n[y'] == "1 m"
    assert len(found["hear"]) == 1


def test_nothing_to_change_gives_the_text_back() -> None:
    odd = "\ufeff" + TEXT.replace("\n", "\r\n")
    assert edited({}, text=odd) == odd


def test_a_rule_that_is_not_there() -> None:
    with pytest.raises(BadFile, match="there is no rule 2; the scene has 1"):
        edited({}, {1: RuleEdit(curve="linear")})


@pytest.mark.parametrize(
    ("number", "given", "message"),
    [
        ("x", {}, "has a number"),
        ("-1", {}, "has a number"),
        ("²", {}, "has a number"),
        ("0", [], "a table of from, to and curve"),
        ("0", {"as": "tempo"}, 'not "as"'),
        ("0", {"to": ["C4"]}, "two texts"),
        ("0", {"from": ["1 m", 2]}, "two texts"),
        ("0", {"curve": 1}, "one word"),
    ],
)
def test_an_edit_of_another_shape(number: str, given: object, message: str) -> None:
    with pytest.raises(BadFile, match=message):
        edit_of(number, given, file="a.toml")


SCENES = sorted((shelf.shelf() / "scenes").glob("*.toml"), key=lambda path: path.name)


@pytest.mark.parametrize("path", SCENES, ids=lambda path: path.stem)
def test_a_line_changed_by_itself_is_the_line_changed_in_the_whole(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    document = read_document(text, file=path.name)
    conditions: dict[str, str | int] = dict.fromkeys(document.data.get("conditions", {}), 7)
    rules = {
        number: RuleEdit(low_high=("1 K", "2 K"), to=("C4", "C5"))
        for number in range(len(document.data.get("hear", [])))
    }
    whole = edited_scene_text(text, conditions, rules, file=path.name)
    quick = edited_scene_text(text, conditions, rules, file=path.name, lines=dict(document.origin.lines))
    assert tomllib.loads(quick) == tomllib.loads(whole)
    assert tomllib.loads(quick).get("conditions", {}) == conditions
    changed = [k for k, (a, b) in enumerate(zip(text.split("\n"), quick.split("\n"), strict=True)) if a != b]
    assert len(changed) <= len(conditions) + 2 * len(rules)


@pytest.mark.parametrize(
    "text",
    [
        'conditions = {wind = "4 m/s"}\n[[hear]]\nto = ["C4", "C5"]\n',
        'conditions.wind = "4 m/s"\nhear = [{to = ["C4", "C5"]}]\n',
        '[conditions]\nwind = """4 m/s"""\n[[hear]]\nto = [\n  "C4",\n  "C5",\n]\n',
        "[conditions]\nwind = '4 m/s' # x\n\n[[hear]] # y\nto = ['C4', 'C5'] # z",
    ],
)
def test_other_ways_to_write_the_same(text: str) -> None:
    lines = dict(read_document(text, file="a.toml").origin.lines)
    rules = {0: RuleEdit(to=("D4", "D5"))}
    after = edited_scene_text(text, {"wind": "9 m/s"}, rules, file="a.toml", lines=lines)
    assert tomllib.loads(after) == {"conditions": {"wind": "9 m/s"}, "hear": [{"to": ["D4", "D5"]}]}
    assert after.count("#") == text.count("#")
