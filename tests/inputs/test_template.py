"""The scene file that a teacher starts from."""

from __future__ import annotations

import re
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import BadName
from sonify.inputs.scene_file import read_scene
from sonify.inputs.scene_shape import SceneShape
from sonify.inputs.template import new_scene_text, own_scene_text, valid_scene_name
from sonify.kinds.controls import CONTROLS
from sonify.kinds.textures import TEXTURES
from tests.catalogue import catalogue


def test_the_new_scene_is_read_back() -> None:
    scene = read_scene(new_scene_text(), file="my-puddle.toml", name="my-puddle")
    assert (scene.title, scene.process) == ("A day of the water cycle", "water-cycle")
    assert {part.texture for part in scene.parts} == set(TEXTURES)
    assert {rule.part for rule in scene.rules if rule.part} <= {part.name for part in scene.parts}


def test_the_new_scene_shows_every_key_that_a_scene_may_have() -> None:
    data = tomllib.loads(new_scene_text())
    by_measure = {"data", "table"}  # only the scenes that `sonify measure` writes have them
    of_her_own = {"drawn", "event", "circle"}  # and these stand in the file of a process of her own
    of_pupils = {"pattern", "sound"}  # shown as remarks: they come from pupils, or from a file
    assert set(data) == set(SceneShape.model_fields) - by_measure - of_her_own - of_pupils
    assert of_pupils <= set(re.findall(r"(?m)^# \[\[(\w+)\]\]$", new_scene_text()))
    assert of_her_own <= set(re.findall(r"(?m)^(?:# ?)?(?:\[\[?)?(\w+)", own_scene_text("drawn")))
    for control in CONTROLS:
        assert f"#   {control} " in new_scene_text()


def test_every_sound_of_the_new_scene_is_an_instrument_and_each_part_can_do_without_a_cupboard() -> None:
    for part in read_scene(new_scene_text(), file="a", name="a").parts:
        rows = [catalogue().find(sound) for sound in part.sounds]
        assert rows[-1].bodily
        assert all(part.texture in row.textures for row in rows), part.name


def test_the_new_scene_explains_itself_line_by_line_in_lines_that_fit_a_screen() -> None:
    rows = new_scene_text().split("\n")
    assert max(map(len, rows)) <= 120
    assert sum("#" in row for row in rows) > 50


@pytest.mark.parametrize("name", ["a", "my-puddle-2", "2", "x" * 60, "console", "com10", "nul-1"])
def test_a_plain_name_is_taken_as_it_is(name: str) -> None:
    assert valid_scene_name(name) == name


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("", 'cannot be called ""; use lower-case letters'),
        ("My-Puddle", "use lower-case letters, digits and single hyphens"),
        ("my puddle", "use lower-case"),
        ("../up", "use lower-case"),
        ("a/b", "use lower-case"),
        ("-a", "use lower-case"),
        ("a-", "use lower-case"),
        ("a.toml", "use lower-case"),
        ("püddle", "use lower-case"),
        ("a\n", "use lower-case"),
        ("x" * 61, "may have 60 letters, and .* has 61"),
        ("con", "Windows keeps that name"),
        ("lpt9", "Windows keeps that name"),
    ],
)
def test_a_name_that_some_system_refuses_is_refused(name: str, says: str) -> None:
    with pytest.raises(BadName, match=says):
        valid_scene_name(name)


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("Chocolate melting", "chocolate-melting"),
        ("Crème brûlée!", "creme-brulee"),
        ("a.toml", "a-toml"),
        ("???", "my-puddle-2"),
        ("CON", "my-puddle-2"),
    ],
)
def test_a_name_that_is_refused_comes_with_one_that_serves(name: str, near: str) -> None:
    with pytest.raises(BadName, match=f'such as "{near}"$'):
        valid_scene_name(name)
    assert valid_scene_name(near) == near


@given(st.text())
def test_any_name_is_taken_or_clearly_refused(name: str) -> None:
    try:
        assert valid_scene_name(name) == name
    except BadName as error:
        assert str(error).isprintable()
        assert valid_scene_name(str(error).rpartition("such as ")[2].strip('"'))
