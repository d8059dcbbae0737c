"""What a scene file may say of a process of its author's own, and what its mistakes are told as."""

from __future__ import annotations

import pytest

from sonify.errors import BadFile
from sonify.inputs.scene_file import read_scene
from sonify.records.scene import Scene

HEAD = """title = "Dough"
process = "drawn"
[[hear]]
quantity = "height"
as = "tempo"
from = ["0 cm", "12 cm"]
to = ["60 bpm", "120 bpm"]
why = "Higher is quicker."
[[part]]
name = "All"
texture = "ostinato"
sounds = ["claps"]
"""


def read(text: str) -> Scene:
    return read_scene(HEAD + text, file="dough.toml", name="dough")


def test_a_drawn_quantity_is_read_as_it_is_written() -> None:
    (height,) = read('[[drawn]]\nname = "height"\nunit = "cm"\nvalues = [4, 7.5, 12]\n').drawn
    assert (height.name, height.unit, height.values, height.key) == ("height", "cm", (4.0, 7.5, 12.0), "drawn.0")
    (frogs,) = read('[[drawn]]\nname = "pond"\nunit = "frogs"\nshape = "rises"\nfrom = 0\nto = 40\n').drawn
    assert (frogs.unit, frogs.shape, frogs.start, frogs.end) == ("frogs", "rises", 0.0, 40.0)
    (points,) = read('[[drawn]]\nname = "x"\nunit = "%"\npoints = [[0, 4], [1.5, 9]]\n').drawn
    assert points.points == ((0.0, 4.0), (1.5, 9.0))


def test_a_stage_of_ones_own_says_how_long_it_lasts_and_how_it_sounds() -> None:
    (stage,) = read('[[stage]]\nname = "egg"\nlasts = "2 days"\nsound = ["soft", "slow"]\nwhy = "It rests."\n').stages
    assert (stage.caption, stage.lasts_s, stage.sounds, stage.why) == ("", 172_800.0, ("soft", "slow"), "It rests.")


def test_an_event_comes_where_it_is_said_to() -> None:
    rows = "".join(f'[[event]]\nwhat = "x"\nstage = "egg"\n{at}\n' for at in ("", 'at = "halfway"', 'at = "25 %"'))
    assert [event.share for event in read(rows).events] == [0.0, 0.5, 0.25]


MISTAKES = [
    ('unit = "cm"\nvalues = [1, 2, 3]', "drawn.0.name: missing; wanted: what is drawn"),
    ('name = "x"\nvalues = [1, 2, 3]', "drawn.0.unit: missing; wanted: what its numbers count"),
    ('name = "x"\nunit = "cm"', "drawn.0: has no values; write one of these three: values, points, shape"),
    (
        'name = "x"\nunit = "cm"\nvalues = [1, 2, 3]\npoints = [[0, 1], [1, 2]]',
        "drawn.0: has values and points; write one",
    ),
    ('name = "x"\nunit = "cm"\nvalues = [1, 2, 3]\nfrom = 3', 'drawn.0: has the line "from", which belongs to a shape'),
    (
        'name = "x"\nunit = "cm"\nvalues = ["1 cm", 2, 3]',
        'drawn.0.values.0: is "1 cm"; write the number alone: its unit',
    ),
    ('name = "x"\nunit = "cm"\nvalues = [1, 2]', "drawn.0.values: holds 2 values; allowed: 3 to 13"),
    ('name = "x"\nunit = "cm"\nvalues = [1, nan, 2]', "drawn.0.values.1: is too large a number"),
    ('name = "x"\nunit = "c;m"\nvalues = [1, 2, 3]', "drawn.0.unit: .* is not a unit"),
    ('name = "x"\nunit = "cm"\npoints = [[0, 1], [0, 2]]', "drawn.0: the places of its points do not rise"),
    ('name = "x"\nunit = "cm"\npoints = [[0, 1], [1]]', "drawn.0.points.1: is a list; wanted: a place and a value"),
    ('name = "x"\nunit = "cm"\nshape = "grows"', 'drawn.0.shape: unknown shape "grows".*Allowed: decays, falls, jumps'),
    (
        'name = "x"\nunit = "cm"\nshape = "rises"\nfrom = 3',
        'drawn.0: "rises" needs its values: write for example from = 4',
    ),
    (
        'name = "x"\nunit = "cm"\nshape = "rises"\nfrom = 3\nto = 1',
        'drawn.0: "rises" ends with more than it starts with',
    ),
    (
        'name = "x"\nunit = "cm"\nshape = "decays"\nfrom = 3\nto = 3',
        'goes from 3 to 3; for one value .* shape = "steady"',
    ),
    (
        'name = "x"\nunit = "cm"\nshape = "falls"\nfrom = 3\nto = 1\ntimes = 2',
        "comes once; times is for swings and repeats",
    ),
    ('name = "x"\nunit = "cm"\nshape = "swings"\nfrom = 3\nto = 1\ntimes = 0', "drawn.0.times: is 0; allowed: 1 to 48"),
    (
        'name = "x"\nunit = "cm"\nshape = "jumps"\nfrom = 3\nto = 1',
        'drawn.0: "jumps" needs the stage at which it jumps',
    ),
    ('name = "x"\nunit = "cm"\nvalue = [1, 2, 3]', "drawn.0"),
]


@pytest.mark.parametrize(("lines", "message"), MISTAKES)
def test_a_mistake_in_a_drawing_is_told_once_with_its_line(lines: str, message: str) -> None:
    with pytest.raises(BadFile, match=message) as caught:
        read(f"[[drawn]]\n{lines}\n")
    assert "dough.toml, line 1" in str(caught.value)
    assert "\n" not in str(caught.value), "one mistake, one message"


@pytest.mark.parametrize(
    ("lines", "message"),
    [
        ('sound = ["loud", "soft"]', "stage.0.sound: says loud and soft, which both are about dynamics"),
        ('sound = ["noisy"]', 'stage.0.sound.0: unknown sound "noisy"'),
        ('lasts = "0 min"', "stage.0.lasts: .*more than nothing"),
        ('lasts = "a while"', "stage.0.lasts: .*is not a number with a unit"),
        ('lasts = "3 cm"', "stage.0.lasts: .*a measure in s is wanted"),
    ],
)
def test_a_mistake_in_a_stage_is_told_with_what_is_allowed(lines: str, message: str) -> None:
    with pytest.raises(BadFile, match=message):
        read(f'[[stage]]\nname = "egg"\n{lines}\n')
