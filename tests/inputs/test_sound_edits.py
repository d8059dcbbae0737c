"""Sounds that a page puts into a scene's text: read back as they were sent, one a part, and nothing else moved."""

from __future__ import annotations

import re
from typing import Any

import pytest

from sonify.errors import BadFile
from sonify.inputs.pattern_edits import with_own_patterns
from sonify.inputs.scene_file import read_scene
from sonify.inputs.sound_edits import own_sound_edits, with_own_sounds
from tests.inputs.samples import SCENE

CRISPS = {"name": "our crisp packets", "file": "crisps.wav"}


def put(text: str, **sounds: Any) -> str:
    edits = own_sound_edits({f"sound.{part}": row for part, row in sounds.items()}, file="a.toml")
    return with_own_sounds(text, edits, file="a.toml")


def test_a_sound_is_put_in_shared_changed_and_taken_out() -> None:
    text = put(SCENE, **{"The rain": CRISPS})
    scene = read_scene(text, file="a.toml", name="a")
    assert [(sound.name, sound.file) for sound in scene.sounds] == [("our crisp packets", "crisps.wav")]
    assert [part.sounds for part in scene.parts] == [("ocean drum", "voices"), ("our crisp packets", "claves", "claps")]
    both = read_scene(put(text, **{"The sea": CRISPS}), file="a.toml", name="a")
    assert len(both.sounds) == 1 and [part.sounds[0] for part in both.parts] == ["our crisp packets"] * 2
    other = read_scene(
        put(text, **{"The rain": {**CRISPS, "name": "our bags", "like": "maracas"}}), file="a.toml", name="a"
    )
    assert [(sound.name, sound.like) for sound in other.sounds] == [("our bags", "maracas")]
    gone = read_scene(put(text, **{"The rain": None}), file="a.toml", name="a")
    assert gone.sounds == () and gone.parts == read_scene(SCENE, file="a.toml", name="a").parts


@pytest.mark.parametrize(
    "row", ["x", {}, {"name": "x"}, {**CRISPS, "loud": "1"}, {**CRISPS, "name": 1}, {**CRISPS, "how": "x" * 999}]
)
def test_what_has_another_shape_is_refused_in_one_line(row: Any) -> None:
    with pytest.raises(BadFile, match="a sound is its name and its file"):
        put(SCENE, **{"The rain": row})
    with pytest.raises(BadFile, match="no part is called The wind"):
        put(SCENE, **{"The wind": CRISPS})


def test_a_second_sound_of_one_name_from_another_file_is_refused() -> None:
    text = put(SCENE, **{"The rain": CRISPS})
    with pytest.raises(BadFile, match=r'another part has a sound called "Our crisp packets"'):
        put(text, **{"The sea": {"name": "Our crisp packets", "file": "bags.wav"}})
    changed = read_scene(put(text, **{"The rain": {**CRISPS, "file": "bags.wav"}}), file="a.toml", name="a")
    assert [sound.file for sound in changed.sounds] == ["bags.wav"]


def test_all_else_stays_where_its_author_wrote_it() -> None:
    """Also in a file in which parts and rules take turns: without what is new, its lines are the same ones."""
    head, rule, part, *rest = re.split(r"(?=^\[\[(?:hear|part)\]\])", SCENE, flags=re.MULTILINE)
    rules, parts = (
        [rule, *(each for each in (part, *rest) if each.startswith("[[hear"))],
        [each for each in rest if each.startswith("[[part")],
    )
    turns = head + "".join(a + f"# about {n}\n" + b for n, (a, b) in enumerate(zip(rules, parts, strict=True)))
    assert turns.count("[[") == SCENE.count("[[")
    text = put(turns, **{"The rain": CRISPS})
    left = [line for line in text.splitlines() if line not in ("", "[[sound]]") and "crisp" not in line]
    assert left == [line for line in turns.splitlines() if line and 'sounds = ["claves", "claps"]' not in line]
    made = with_own_patterns(turns, {"The rain": {"boxes": ["x. xx x. x."]}}, file="a.toml")
    assert made.startswith(turns) and read_scene(made, file="a.toml", name="a").patterns


def test_nothing_is_taken_from_a_part_that_is_gone() -> None:
    assert put(SCENE, **{"The wind": None}) == SCENE
