"""Patterns that a page puts into a scene's text: read back as they were sent, and nothing else moved."""

from __future__ import annotations

from typing import Any

import pytest

from sonify.errors import BadFile
from sonify.inputs.pattern_edits import own_pattern_edits, with_own_patterns
from sonify.inputs.scene_file import read_scene
from tests.inputs.samples import SCENE

MADE: dict[str, Any] = {"boxes": ["x. xx x. x."], "notes": [], "name": "Group 2's own pattern"}


def put(text: str, **patterns: Any) -> str:
    edits = own_pattern_edits({f"pattern.{part}": row for part, row in patterns.items()}, file="a.toml")
    return with_own_patterns(text, edits, file="a.toml")


def test_a_pattern_is_put_in_changed_and_taken_out_and_the_rest_stays() -> None:
    noted = SCENE + "# by hand\n"
    text = put(noted, **{"The rain": MADE})
    assert text.startswith(noted)
    (found,) = read_scene(text, file="a.toml", name="a").patterns
    assert (found.part, found.boxes, found.name) == ("The rain", ("x.xxx.x.",), "Group 2's own pattern")
    both = put(text, **{"The rain": {"boxes": ["xx xx .. .."], "notes": ["C5"] * 4}, "The sea": MADE})
    rain, sea = read_scene(both, file="a.toml", name="a").patterns
    assert (rain.boxes, rain.notes, rain.name, sea.boxes) == (("xxxx....",), (72,) * 4, "", ("x.xxx.x.",))
    assert put(both, **{"The rain": None, "The sea": None}).strip() == noted.strip()


@pytest.mark.parametrize(
    "row",
    [
        *("x.", {}, {"boxes": "x."}, {"boxes": ["x."], "loud": 1}),
        *({"boxes": [1]}, {"boxes": ["x"] * 99}, {"boxes": ["x" * 999]}),
    ],
)
def test_what_has_another_shape_is_refused_in_one_line(row: Any) -> None:
    with pytest.raises(BadFile, match="a pattern is its boxes"):
        put(SCENE, **{"The rain": row})
