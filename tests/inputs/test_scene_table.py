"""The [table] of a scene file: what is what in the file of readings."""

from __future__ import annotations

import pytest

from sonify.errors import BadFile
from sonify.inputs.scene_file import read_scene
from sonify.records.experiment import Roles
from sonify.records.scene import Scene
from tests.inputs.samples import SCENE, changed

DATA = changed(SCENE, "ages = [8, 11]\n", 'ages = [8, 11]\ndata = "clips.csv"\n')


def scene(table: str, text: str = DATA) -> Scene:
    return read_scene(f"{text}\n[table]\n{table}", file="small.toml", name="small")


def test_a_table_says_what_is_what() -> None:
    found = scene("""
changed  = "Layers of  paper"
measured = ["paper clips"]
repeats  = ["Test 1", "Test 2"]
groups   = "Place"
kept     = ["Magnet"]
unused   = ["Mean"]
sheet    = "Results"
across   = false
""")
    assert found.roles == Roles(
        changed="Layers of paper",
        measured=("paper clips",),
        repeats=("Test 1", "Test 2"),
        groups="Place",
        kept=("Magnet",),
        unused=("Mean",),
        sheet="Results",
        across=False,
    )


def test_groups_may_be_columns_and_everything_may_be_left_out() -> None:
    assert scene('groups = ["sill", "fridge"]').roles == Roles(groups=("sill", "fridge"))
    assert scene("").roles == Roles()
    assert read_scene(DATA, file="small.toml", name="small").roles is None


@pytest.mark.parametrize(
    ("table", "told"),
    [
        ("change = 1", 'table.change: unknown key; did you mean "changed"'),
        ("changed = 3", "table.changed: is 3; wanted: the heading of a column"),
        ("groups = 3", "table.groups: is 3; wanted: the heading of a column"),
        ("across = 'yes'", 'table.across: is "yes"; wanted: true or false'),
        ('changed = "Day"\nmeasured = ["Day"]', '"Day" stands under changed and under measured; keep one of them'),
    ],
)
def test_a_wrong_table_is_refused_with_its_key(table: str, told: str) -> None:
    with pytest.raises(BadFile) as refused:
        scene(table)
    assert told in str(refused.value)


def test_a_table_needs_a_file_of_readings() -> None:
    with pytest.raises(BadFile, match=r'the scene names none; add data = "FILE.csv"'):
        scene('changed = "Day"', SCENE)
