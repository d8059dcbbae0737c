"""Changing a scene's text: what is set anew is, and everything else stays letter for letter."""

from __future__ import annotations

import tomllib

import pytest

from sonify.errors import BadFile
from sonify.inputs.edits import RuleEdit, edit_of, edited_scene_text

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
