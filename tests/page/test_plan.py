"""The Plan and Print page as text: nothing of a scene runs in it, and only its own script may."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from hashlib import sha256
from html import unescape
from typing import Any

import pytest

from sonify.data.plan import class_facts
from sonify.errors import BadFile
from sonify.kinds.controls import CONTROLS
from sonify.kinds.textures import TEXTURES
from sonify.page import plan_page
from sonify.page.plan import TERMS, control_words, picture_columns, picture_path
from sonify.records.palette import GroupStyle
from sonify.records.scene import CURVES
from sonify.web.drafts import class_from, class_of

HOSTILE = '</script><img src=x onerror="alert(1)">"\'{{ 7 * 7 }}'
PALETTE = (
    GroupStyle(colour="#0072B2", name="blue", hatching="dots"),
    GroupStyle(colour="#D55E00", name="vermilion", hatching="squares"),
)


def start(**changes: Any) -> dict[str, Any]:
    scene = {
        "name": "puddle",
        "title": "A puddle",
        "process": "evaporation",
        "ages": [7, 11],
        "story": "It rained. Then it stopped.",
        "minutes": 2.5,
        "stages": ["Wet", "Dry"],
        "topics": ["states"],
        "years": [4],
        "learn": "how puddles dry",
        "kind": "computed",
        "sounds": [["triangle"], []],
        "picture": {"points": [[0, 0], [0.5, 1], [1, 0.25]], "stages": [0, 0.4], "quantity": "depth"},
    }
    return {
        "scenes": [{**scene, **changes}],
        "instruments": [{"id": "triangle", "name": "Triangle", "plural": "triangles", "family": "metal"}],
        "keeps": True,
        "home": True,
        "needs": ["large print"],
        "needs_of_pupils": ["large print"],
        "class": {"year": 5, "pupils": 28, "groups": 5, "minutes": 60, "needs": [], "cupboard": {"triangle": 2}},
        "curves": list(CURVES),
        "beginnings": [["puddle", "A puddle"]],
        "scaffolds": [{"id": "full", "words": "everything"}],
        "shared": False,
        "version": "0",
    }


def test_the_policy_lets_our_own_script_and_style_run_and_nothing_else() -> None:
    text = plan_page(start(), PALETTE)
    found = re.search(r'Security-Policy" content="([^"]+)"', text)
    assert found
    policy = dict(part.strip().split(" ", 1) for part in unescape(found[1]).split(";"))
    assert policy["default-src"] == "'none'"
    assert policy["connect-src"] == "'self'"
    for tag, name in (("script", "script-src"), ("style", "style-src")):
        (inner,) = re.findall(rf"<{tag}>(.*?)</{tag}>", text, re.DOTALL)
        assert policy[name] == f"'sha256-{b64encode(sha256(inner.encode()).digest()).decode()}'"
    assert not re.search(r"\son\w+=|\sstyle=|javascript:", text.split("<style>")[0] + text.split("</style>")[1])


@pytest.mark.parametrize("key", ["title", "story", "name"])
def test_text_of_a_scene_is_never_markup(key: str) -> None:
    text = plan_page(start(**{key: HOSTILE}), PALETTE)
    assert "<img src=x" not in text
    assert "{{ 7 * 7 }}" in unescape(text)
    (data,) = re.findall(r'<script type="application/json" id="start-data">(.*?)</script>', text, re.DOTALL)
    assert json.loads(data)["scenes"][0][key] == HOSTILE


def test_a_scene_without_a_picture_yet_says_so() -> None:
    assert "some seconds to compute" not in plan_page(start(), PALETTE)
    assert "some seconds to compute" in plan_page(start(picture=None), PALETTE)


def test_the_picture_goes_through_its_points_and_its_columns_fill_the_width() -> None:
    assert picture_path([[0, 0], [1, 1]]) == "M0.0 110.4L320.0 36.0"
    columns = picture_columns([0, 0.4])
    assert [column["letter"] for column in columns] == ["A", "B"]
    assert columns[1]["x"] == columns[0]["width"] == 128
    assert sum(column["width"] for column in columns) == 320


def test_every_texture_control_and_curve_is_explained() -> None:
    assert set(CONTROLS) == set(control_words())
    assert {*TEXTURES, *CONTROLS, *CURVES, "scaffold", "exaggeration", "audible"} <= set(TERMS)


def test_the_page_asks_for_nothing_of_any_other_address() -> None:
    text = plan_page(start(), PALETTE)
    addresses = set(re.findall(r"https?://[^\s\"'<>)]+", text))
    assert addresses == {"http://www.w3.org/2000/svg"}, "the name of SVG, never fetched"


@pytest.mark.parametrize("name", ["year", "pupils", "groups", "minutes"])
def test_the_page_offers_the_numbers_of_a_class_that_a_class_may_have(name: str) -> None:
    found = re.search(rf'data-class="{name}" inputmode="numeric" min="(\d+)" max="(\d+)"', plan_page(start(), PALETTE))
    assert found
    low, high = map(int, found.groups())
    usual = {"year": 5, "pupils": 60, "groups": 1, "minutes": 60, "cupboard": {}}
    for value in (low, high):
        assert getattr(class_from({**usual, name: value})[0], name) == value
    for value in (low - 1, high + 1):
        with pytest.raises(BadFile, match=name):
            class_from({**usual, name: value})


BASE = """year = 5
pupils = 20
groups = 4

[cupboard]
claves = 4

[[other]]
name = "our gong"  # cracked
family = "metal"
"""


def test_a_classs_own_instruments_stay_in_its_file_while_the_page_changes_it() -> None:
    told = class_facts(class_of(BASE))
    assert told["cupboard"] == {"claves": 4}
    made, text = class_from({**told, "pupils": 21, "cupboard": {"triangle": 2}}, BASE)
    assert [(stock.instrument, stock.count) for stock in made.cupboard] == [("triangle", 2), ("triangle.1", 1)]
    assert 'name = "our gong"  # cracked' in text and "pupils = 21" in text
