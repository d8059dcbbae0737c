"""A drawing set anew in a scene's text: what was drawn comes back from the file, and the rest of the file stays."""

from __future__ import annotations

import tomllib

import pytest

from sonify.errors import BadFile
from sonify.inputs.drawn_edits import DrawnEdit, drawn_edit_of, edited_drawn_text, simplified

TEXT = """# dough of class 4
title = "Dough"   # hers

[[drawn]]
# how high it stands
name   = "height"
unit   = "cm"       # by the ruler
shape  = "rises"
from   = 4
to     = 12

[[drawn]]
name   = "warmth"
unit   = "degC"
values = [20, 30, 20]
"""


def edited(number: str, given: object) -> str:
    key, edit = drawn_edit_of(number, given, file="a.toml")
    return edited_drawn_text(TEXT, {key: edit}, file="a.toml")


def test_points_take_the_place_of_a_shape_and_every_remark_stays() -> None:
    text = edited("0", {"points": [[0, 4], [1.5, 9], [3, 7]]})
    rows = tomllib.loads(text)["drawn"]
    assert rows[0] == {"name": "height", "unit": "cm", "points": [[0.0, 4.0], [1.5, 9.0], [3.0, 7.0]]}
    assert rows[1] == tomllib.loads(TEXT)["drawn"][1]
    assert [line for line in TEXT.splitlines() if "#" in line] == [line for line in text.splitlines() if "#" in line]


def test_a_name_alone_leaves_the_curve() -> None:
    assert tomllib.loads(edited("1", {"name": "heat"}))["drawn"][1] == {
        "name": "heat",
        "unit": "degC",
        "values": [20, 30, 20],
    }


def test_a_quantity_is_added_and_taken_out() -> None:
    added = edited("new", {"name": "smell", "unit": "marks", "values": [0, 1, 5]})
    assert tomllib.loads(added)["drawn"][2] == {"name": "smell", "unit": "marks", "values": [0, 1, 5]}
    gone = edited("0", {"remove": True})
    assert [row["name"] for row in tomllib.loads(gone)["drawn"]] == ["warmth"]
    first = edited_drawn_text('title = "x"\n', {"new": DrawnEdit(lines=(("name", "y"),))}, file="a.toml")
    assert tomllib.loads(first)["drawn"] == [{"name": "y"}]


def test_a_stroke_of_the_hand_is_kept_in_few_points_that_draw_the_same_line() -> None:
    stroke = [(n / 500, 10.0 if n > 1000 else n / 100) for n in range(2001)]  # up to place 2, then level to place 4
    kept = simplified(stroke, 12.0)
    assert len(kept) <= 4
    assert kept[0] == (0.0, 0.0) and kept[-1] == (4.0, 10.0)
    assert all(abs(min(place * 5, 10.0) - value) <= 0.12 for place, value in kept)


def test_a_hand_that_goes_back_draws_over_what_was_there() -> None:
    assert simplified([(0, 1), (2, 1), (1, 5), (0, 3)]) == [(0.0, 3.0), (1.0, 5.0), (2.0, 1.0)]


def test_a_circle_closes_itself_so_no_point_is_kept_at_its_end() -> None:
    text = edited("0", {"points": [[0, 4], [1.5, 9], [3, 7]], "close": 3})
    assert tomllib.loads(text)["drawn"][0]["points"] == [[0.0, 4.0], [1.5, 9.0]]


@pytest.mark.parametrize("points", [[(1.0, 5.0)], [(0.0, 2.0), (0.001, 2.0)]])
def test_a_dot_is_a_level_line(points: list[tuple[float, float]]) -> None:
    kept = simplified(points)
    assert len(kept) == 2 and kept[0][0] < kept[1][0] and kept[0][1] == kept[1][1]


@pytest.mark.parametrize(
    ("number", "given"),
    [
        ("x", {"points": [[0, 1]]}),
        ("0", [1, 2]),
        ("0", {"points": []}),
        ("0", {"points": [[0, 1, 2]]}),
        ("0", {"points": [[0, float("inf")]]}),
        ("0", {"points": [[0, True]]}),
        ("0", {"points": [[0, 1]] * 5001}),
        ("0", {"colour": "red"}),
        ("0", {"name": {"a": 1}}),
        ("7", {"name": "heat"}),
        ("7", {"remove": True}),
    ],
)
def test_what_no_page_sends_is_refused(number: str, given: object) -> None:
    with pytest.raises(BadFile):
        edited(number, given)
