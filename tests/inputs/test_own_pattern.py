"""[[pattern]] of a scene file: what a right one becomes, what each wrong one says, and boxes that are read back."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sonify.errors import BadFile
from sonify.inputs.scene_file import read_scene
from sonify.records.own_pattern import HELD, SILENT, SOUND, boxed_hits, boxes_of, spaced
from sonify.records.scene import Scene
from tests.inputs.samples import SCENE

PATTERN = """
[[pattern]]
part = "The rain"
name = "Group 3's own pattern"
boxes = ["x. xx x. x.", "x- -- .x .."]
"""


def scene(text: str) -> Scene:
    return read_scene(SCENE + text, file="small.toml", name="small")


def test_a_pattern_keeps_its_boxes_its_name_and_its_part() -> None:
    (found,) = scene(PATTERN).patterns
    assert (found.part, found.name, found.boxes, found.notes) == (
        "The rain",
        "Group 3's own pattern",
        ("x.xxx.x.", "x---.x.."),
        (),
    )
    assert found.hits[-2:] == ((F(4), F(2)), (F(13, 2), F(1, 2)))


def test_a_rule_of_its_part_for_what_it_decides_is_set_aside_and_no_other() -> None:
    with_pattern = scene(PATTERN)
    assert [rule.key for rule in with_pattern.rules if with_pattern.set_aside(rule)] == ["hear.1"]
    assert not any(scene("").set_aside(rule) for rule in scene("").rules)


def seven(note: str) -> str:
    notes = ", ".join([f'"{note}"'] * 7)
    return f"notes = [{notes}]\nboxes = ["


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ('"x. xx x. x."', '"x. xo x. x."', 'pattern.0.boxes.0: "o" stands in a box. Allowed: x for a sound'),
        ('"x. xx x. x."', '"x. xx x."', "boxes.0: 6 boxes do not share out over a bar of 4/4. Allowed: 4, 8 or 16"),
        ('"x. xx x. x."', '"-. xx x. x."', "a - goes on from nothing"),
        ('"x. xx x. x."', '"x. xx .- x."', "a - goes on from nothing"),
        ('"x. xx x. x.", "x- -- .x .."', '".... ...."', "no sound in any box"),
        ('"x. xx x. x.", "x- -- .x .."', "", "0 bars"),
        ('"x. xx x. x.", "x- -- .x .."', '"   "', "empty"),
        ('part = "The rain"', 'part = "The rian"', "no part is called \"The rian\"; did you mean \"The rain\"?"),
        ("boxes = [", 'notes = ["C5"]\nboxes = [', "one note for 7 sounds"),
        ("boxes = [", seven("F5"), '"F5" is not in C pentatonic. Allowed: C, D, E, G, A'),
        ("boxes = [", seven("H5"), "line 74: pattern.0.notes.0: \"H5\" is not a note"),
        ("boxes = [", "beats = 4\nboxes = [", "pattern.0.beats: unknown key"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_with_its_line_its_key_and_what_is_allowed(before: str, after: str, told: str) -> None:
    with pytest.raises(BadFile) as refused:
        scene(PATTERN.replace(before, after))
    assert told in str(refused.value)
    assert "small.toml, line 7" in str(refused.value)


def test_a_part_has_one_pattern() -> None:
    with pytest.raises(BadFile, match='"The rain" has a pattern already, table 1'):
        scene(PATTERN + PATTERN)


@settings(max_examples=30)
@given(
    bars=st.lists(st.lists(st.sampled_from([SOUND, HELD, SILENT]), min_size=16, max_size=16), min_size=1, max_size=4),
    each=st.sampled_from([1, 2, 4]),
)
def test_boxes_are_read_back_as_they_were(bars: list[list[str]], each: int) -> None:
    rows = []
    for bar in bars:
        row = "".join(bar[: 4 * each])
        while ".-" in row or row[0] == HELD:
            row = (SILENT + row[1:] if row[0] == HELD else row).replace(".-", "..")
        rows.append(row)
    hits = boxed_hits(tuple(rows), 4)
    assert boxes_of(hits, len(rows), 4, each) == tuple(rows)
    assert all("".join(spaced(row, 4).split()) == row for row in rows)
    assert sum(lasts for _, lasts in hits) == F(sum(len(row) - row.count(SILENT) for row in rows), each)
