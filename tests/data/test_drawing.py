"""What a page is given to draw on, and what comes of what it sends: the same curve, the rest of the file as it was."""

from __future__ import annotations

import pytest

from sonify import lesson
from sonify.data.drawing import drawing
from sonify.errors import BadFile
from sonify.inputs.template import own_scene_text
from sonify.web import drafts

TEXT = own_scene_text("drawn")
FILE = "pond.toml"


def drawn(edits: dict[str, object]) -> drafts.Draft:
    return drafts.draft_of(drafts.scene_of(TEXT, file=FILE), TEXT, {}, {}, edits, file=FILE)


def test_what_a_hand_draws_comes_back_as_the_line_and_the_remarks_stay() -> None:
    points = [[0.0, 4.0], [0.5, 7.0], [2.25, 19.0]]
    draft = drawn({"0": {"points": points, "low": 0, "high": 20, "close": 4}})
    assert draft.scene.drawn[0].points == tuple((place, value) for place, value in points)
    assert draft.scene.drawn[1] == draft.before.drawn[1]
    remarks = [line.partition("#")[2] for line in TEXT.splitlines() if "#" in line]
    assert remarks == [line.partition("#")[2] for line in draft.text.splitlines() if "#" in line]
    shown = drawing(lesson.study(draft.scene))
    assert shown is not None
    assert (shown["own"], shown["circle"], len(shown["stages"])) == (True, True, 4)
    row = shown["quantities"][0]
    assert (row["way"], row["given"], row["unit"]) == ("points", points, "degC")
    line = row["line"]
    assert line[0] == [0.0, 4.0] and line[-1] == [4.0, 4.0]  # the circle closes itself
    assert [0.5, 7.0] in line and [2.25, 19.0] in line


def test_an_edit_that_cannot_be_drawn_is_refused_like_a_fault_of_the_file() -> None:
    with pytest.raises(BadFile, match="goes from place 0 to 4|go from place 0 to 4"):
        drawn({"0": {"points": [[0, 4], [7, 5]]}})
    with pytest.raises(BadFile, match="there is no drawn quantity 6"):
        drawn({"5": {"points": [[0, 4], [1, 5]]}})


@pytest.mark.parametrize("name", ["a-frogs-life", "stretch-test"])
def test_nothing_can_be_drawn_into_an_order_or_a_table(name: str) -> None:
    assert drawing(lesson.study(lesson.load(name))) is None
