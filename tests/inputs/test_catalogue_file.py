"""The instrument catalogue as it ships, and what a wrong row says."""

from __future__ import annotations

from pathlib import Path

import pytest

from sonify.errors import BadFile
from sonify.inputs.catalogue_file import read_catalogue
from sonify.records.instrument import Catalogue
from tests.catalogue import ROOT, catalogue
from tests.inputs.samples import changed

ROW = """\
[triangle]
name = "Triangle"
plural = "triangles"
abbreviation = "Tri."
family = "metal"
pitched = false
textures = ["ostinato", "scatter"]
gm_key = 81
ring_s = 3
struck_with = "one sound"
"""

BARS = """\
[chime-bars]
name = "Chime bars"
plural = "chime bars"
abbreviation = "Ch.B."
family = "bars"
pitched = true
textures = ["drone"]
low = 60
high = 79
bars = [0, 2, 4]
gm_program = 9
clef = "treble"
struck_with = "beaters"
"""


def read(text: str) -> Catalogue:
    return read_catalogue(text, file="rows.toml")


def test_the_shipped_catalogue_is_read_whole() -> None:
    text = Path(ROOT / "shared" / "instruments.toml").read_text(encoding="utf-8")
    assert read(text) == catalogue()


def test_a_row_becomes_an_instrument() -> None:
    triangle, bars = read(ROW + BARS).instruments
    assert (triangle.id, triangle.gm_key, triangle.ring_s, triangle.players) == ("triangle", 81, 3, 1)
    assert (bars.id, bars.low, bars.bars) == ("chime-bars", 60, (0, 2, 4))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("gm_key = 81", "gm_key = 82", "line 8: triangle.gm_key: is 82; wanted: 35 to 81"),
        ("gm_key = 81", "gmkey = 81", r'line 8: triangle.gmkey: unknown key; did you mean "gm_key"\? Allowed here'),
        ("gm_key = 81", "gm_key = true", "line 8: triangle.gm_key: is true; wanted: a whole number"),
        ("gm_key = 81\n", "gm_key = 81\nlow = 60\n", "line 9: triangle.low: is 60; wanted: no low and high"),
        ("pitched = false\n", "", "line 1: triangle.pitched: missing; wanted: true or false"),
        ('family = "metal"', 'family = "metals"', "line 5: triangle.family: .* wanted: one of bars, bells"),
        ('"ostinato", "scatter"', '"ostinato", "shake"', "line 7: triangle.textures: is not right; wanted: any of"),
        ('"ostinato", "scatter"', '"ostinato", 1', "line 7: triangle.textures: is a list; wanted: a list of texts"),
        ("ring_s = 3", "ring_s = inf", "line 9: triangle.ring_s: is inf; wanted: a number"),
        (
            '"one sound"',
            '"sticks"',
            'line 10: triangle.struck_with: is "sticks"; wanted: one of beaters, hands, one sound',
        ),
        ("[triangle]", "[Tri_angle]", "line 1: Tri_angle: an instrument's id has lower-case letters"),
        ("[triangle]", "a = 1\n[triangle]", "line 1: a: is 1; wanted: a table for each instrument"),
        ("high = 79", "high = 50", "line 18: chime-bars.low: is 60; wanted: MIDI notes from 0 to 127, low below high"),
        ("bars = [0, 2, 4]", "bars = [12]", "line 20: chime-bars.bars: .* pitch classes from 0 to 11"),
        ('"treble"', '"percussion"', "line 22: chime-bars.clef: .* treble or bass"),
        ('"chime bars"', '"triangles"', 'line 11: chime-bars: goes by "triangles", and so does triangle'),
    ],
)
def test_a_wrong_row_is_named_with_what_is_allowed(old: str, new: str, says: str) -> None:
    with pytest.raises(BadFile, match=says):
        read(changed(ROW + BARS, old, new))


def test_an_empty_catalogue_is_refused() -> None:
    with pytest.raises(BadFile, match="rows.toml: no instrument; write one table for each"):
        read("# nothing\n")


#: What teachers write in a cupboard list, and whose row it is.
TEACHERS_WORDS = {
    "glocks": "soprano-glockenspiel",
    "shaky eggs": "egg-shaker",
    "drum": "hand-drum",
    "piano": "keyboard",  # as it always was: a class file keeps its meaning
    "upright piano": "acoustic-piano",
    "wooden agogo": "two-tone-block",
    "agogo bells": "agogo",
    "buckets": "bucket",
    "jam jars": "bottles",
    "biscuit tins": "tins",
    "newspaper": "paper",
    "keys": "keys",
    "cajones": "cajon",
    "temple block": "temple-blocks",
    "vibra-slap": "vibraslap",
    "football rattle": "ratchet",
    "tam-tam": "gong",
    "swanee whistle": "slide-whistle",
    "ocarinas": "ocarina",
    "push-button bells": "desk-bells",
    "Bass Chime Bars": "bass-bar",
    "fiddles": "violin",
    "classical guitar": "guitar",
    "steel drums": "steel-pan",
    "s": "voices-s",
    "t-k": "voices-tk",
    "pop": "voices-pop",
    "chanted line": "voices-chant",
    "water in a bowl": "water-bowl",
}


@pytest.mark.parametrize(("word", "instrument"), TEACHERS_WORDS.items())
def test_instruments_go_by_the_names_that_teachers_use(word: str, instrument: str) -> None:
    assert catalogue().find(word).id == instrument
