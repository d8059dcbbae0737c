"""Words, parts and rules of a person's own in a scene's text: `tomllib`, which is not ours, says what came of each."""

from __future__ import annotations

import random
import re
import tomllib
from typing import Any

import pytest

from sonify.errors import BadFile
from sonify.inputs.scene_edits import LONGEST_TEXT, MOST_EDITS, Edited, edited, scene_edits
from sonify.inputs.scene_file import read_scene
from sonify.inputs.toml_places import rewritten, written
from sonify.storage import shelf

TEXT = '''# Mine.
title = "Drop"   # not the last one

# Rules

[[hear]]
quantity = "rain rate"
as   = "density"
from = ["0 mm/h",   # dry
        "1 mm/h"]   # a shower
why  = """
The harder it rains,
the more we tap."""  # ours
claims = ["the rain rate rises"]

[[hear]]   # the second
quantity = "wind"
as = "tempo"
why = "Wind is quick."

# Parts
[[part]]
name = "Rain"
texture = "scatter"
sounds = ["claves"]

[[stage]]
name = "rain"
caption = "It rains 5 mm."

[[sentence]]
text = "It rains 5 mm."
only_if = ["wind is at least 1 m/s"]
# the end
'''


def made(edits: dict[str, Any], text: str = TEXT) -> Edited:
    return edited(text, scene_edits(edits, file="a.toml"), file="a.toml")


def data(text: str) -> dict[str, Any]:
    return tomllib.loads(text)


def remarks(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.strip().startswith("#")]


def test_one_value_changes_and_every_other_letter_stays() -> None:
    after = made({"hear.0.why": 'We "tap"\\.', "part.0.texture": "scatter"}).text
    start, end = TEXT.index('"""'), TEXT.index('"""  # ours') + 3
    assert after == f'{TEXT[:start]}"We \\"tap\\"\\\\."{TEXT[end:]}'
    assert data(after)["hear"][0]["why"] == 'We "tap"\\.'


def test_rows_come_and_go_and_keep_their_names() -> None:
    fog = {"name": "Fog", "texture": "drone", "sounds": ["gong"], "line": None}
    after = made({"hear.0": None, "part.new-2": fog, "part.new-10": {**fog, "name": "Ice"}, "hear.1.part": "Fog"})
    wanted = data(TEXT)
    wanted["hear"] = [{**wanted["hear"][1], "part": "Fog"}]
    bare = {key: value for key, value in fog.items() if value}
    wanted["part"] += [bare, {**bare, "name": "Ice"}]
    assert data(after.text) == wanted
    assert after.rows == {"part": ("0", "new-2", "new-10"), "hear": ("1",)}
    assert after.path("hear.0.from.1") == "hear.1.from.1" and after.path("part.2.sounds") == "part.new-10.sounds"
    kept = [line for line in remarks(TEXT) if "dry" not in line]
    assert remarks(after.text) == kept and "[[hear]]   # the second" in after.text


def test_a_stage_without_a_table_gets_one_and_a_lost_sentence_goes() -> None:
    after = data(made({"stage.rain.caption": "It pours.", "stage.sun.caption": "Dry."}).text)
    assert after["stage"] == [{"name": "rain", "caption": "It pours."}, {"name": "sun", "caption": "Dry."}]
    assert "sentence" not in after
    assert "sentence" in data(made({"title": "Drip"}).text)


def test_a_key_is_taken_away_with_its_line() -> None:
    assert "claims" not in data(made({"hear.0.claims": None}).text)["hear"][0]
    assert data(made({"hear.0.claims": []}).text)["hear"][0]["claims"] == []


@pytest.mark.parametrize(
    "value", ["a\nb\t c", "say \"no\" \\ or 'yes'", "# no remark", "]]]", "ünïcode 水 🎵", '"""', "x" * LONGEST_TEXT]
)
def test_any_words_come_out_as_they_went_in(value: str) -> None:
    after = made({"story": value, "stage.rain.caption": value})
    assert data(after.text)["story"] == data(after.text)["stage"][0]["caption"] == " ".join(value.split())
    assert data(f"a = {written([value, value])}")["a"] == [value, value]


@pytest.mark.parametrize(
    ("edits", "key"),
    [
        ({"title": "a\u202eb"}, "title"),
        ({"story": "x" * (LONGEST_TEXT + 1)}, "story"),
        ({"title": None}, "title"),
        ({"title": ["a"]}, "title"),
        ({"part.0.rests": "yes"}, "part.0.rests"),
        ({"part.0.sounds": ["a", 1]}, "part.0.sounds"),
        ({"part.0.groups": ["1"]}, "part.0.groups"),
        ({"part.0.groups": [True]}, "part.0.groups"),
        ({"part.7.line": "core"}, "part.7"),
        ({"part.0": None}, "part.0"),
        ({"part.0.name": None}, "part.0.name"),
        ({"part.0.colour": "red"}, "part.0.colour"),
        ({"part.new-1": {"colour": "red"}}, "part.new-1.colour"),
        ({"part.new-1": {}}, "part.new-1"),
        ({"hear.new-1": {"curve": None}}, "hear.new-1"),
        ({"hear.00": None}, "hear.00"),
        ({"hear.\u0660": None}, "hear.\u0660"),
        ({"conditions.wind": "4 m/s"}, "conditions.wind"),
        ({"hear.0]\n[x]": "a"}, "hear.0] [x]"),
        ({f"stage.s{n}.caption": "a" for n in range(MOST_EDITS + 1)}, None),
    ],
)
def test_what_no_edit_may_be_is_refused_by_its_field(edits: dict[str, Any], key: str | None) -> None:
    with pytest.raises(BadFile) as caught:
        made(edits)
    assert caught.value.key == key and str(caught.value)


def test_unseen_letters_are_refused_where_a_file_is_read() -> None:
    after = made({"title": "a\x07b"})
    assert data(after.text)["title"] == "a\x07b"
    with pytest.raises(BadFile, match="title: .*0007"):
        read_scene(after.text, file="a.toml", name="a")


TEXTS = {name: shelf.bytes_of(shelf.scene_path(name), what="scene").decode() for name in shelf.scene_names()}


@pytest.mark.parametrize("name", sorted(TEXTS)[::4])
def test_edits_of_every_kind_in_scenes_as_they_are(name: str) -> None:
    """A seeded handful at once; the same handful once more changes nothing."""
    text, draw = TEXTS[name], random.Random(name)
    wanted = data(text)
    rules, parts = wanted.get("hear", []), wanted["part"]
    edits: dict[str, Any] = {"title": "Ours", "story": "Once.\nTwice."}
    wanted |= {"title": "Ours", "story": "Once. Twice."}
    for number in draw.sample(range(len(parts)), k=max(1, len(parts) // 2)):
        edits |= {f"part.{number}.meaning": "You are # it.", f"part.{number}.silent": True}
        parts[number] |= {"meaning": "You are # it.", "silent": True}
    for number in draw.sample(range(len(rules)), k=len(rules) // 3):
        edits[f"hear.{number}"] = None
    wanted["hear"] = [row for number, row in enumerate(rules) if f"hear.{number}" not in edits]
    if not wanted["hear"]:
        del wanted["hear"]
    after = made(edits, text)
    found = data(after.text)
    lost = [row for row in wanted.pop("sentence", []) if row not in found.get("sentence", [])]
    found.pop("sentence", None)
    assert found == wanted
    texts = repr(found)
    assert not any(" ".join(row["text"].split()) in " ".join(texts.split()) for row in lost)
    assert rewritten(after.text, {("", "title"): "Ours"}) == after.text


def test_a_part_is_given_to_groups_and_left_to_the_program() -> None:
    text = TEXTS["two-cups"]
    given = made({"part.0.groups": [2, 1]}, text).text
    assert data(given)["part"][0]["groups"] == [2, 1]
    assert read_scene(given, file="a.toml", name="a").parts[0].groups == (2, 1)
    assert made({"part.0.groups": None}, given).text == text
    for groups, told in (([], "0"), ([13], "13"), ([2, 2], "twice")):
        with pytest.raises(BadFile, match=rf"part\.0\.groups.*{told}"):
            read_scene(made({"part.0.groups": groups}, text).text, file="a.toml", name="a")


@pytest.mark.parametrize("name", sorted(TEXTS)[::4])
def test_parts_are_called_anew_wherever_the_scene_speaks_of_them(name: str) -> None:
    """Every part at once: each rule, partner and claim has the new name of the part that it had, and nothing else is
    touched."""
    text = TEXTS[name]
    before = read_scene(text, file="a.toml", name="a")
    names = {plan.name: f"Ours, {number}" for number, plan in enumerate(before.parts)}
    edits = {plan.key + ".name": names[plan.name] for plan in before.parts}
    found = made(edits, text)
    after = read_scene(found.text, file="a.toml", name="a")
    assert dict(found.names) == names
    assert [plan.name for plan in after.parts] == list(names.values())
    assert [plan.partner for plan in after.parts] == [names.get(plan.partner, "") for plan in before.parts]
    assert [rule.part for rule in after.rules] == [rule.part and names[rule.part] for rule in before.rules]
    told = [[names.get(part, "") for part in (claim.part, claim.beside)] for claim in before.claims]
    assert told == [[claim.part, claim.beside] for claim in after.claims]
    plain = [claim.text for claim in before.claims if not (claim.part or claim.beside)]
    assert plain == [claim.text for claim in after.claims if not (claim.part or claim.beside)]
    assert len(after.sentences) == len(before.sentences)
    said = " ".join(after.texts())
    assert not any(re.search(rf"\b{re.escape(name)} (plays|rests)\b", said, re.IGNORECASE) for name in names)
    # and what is called back is as it was
    back = made({plan.key + ".name": plan.name for plan in before.parts}, found.text).text
    assert [text.casefold() for text in read_scene(back, file="a.toml", name="a").texts()] == [
        text.casefold() for text in before.texts()
    ]


def test_what_is_edited_besides_speaks_of_a_part_by_its_new_name_but_for_claims() -> None:
    text = TEXTS["harbour-water-cycle"]
    before = read_scene(text, file="a.toml", name="a")
    claim = "The sea plays in warming"
    edits: dict[str, Any] = {
        "part.0.name": "Our waves",
        "hear.0.claims": [claim],
        "hear.new-1": {**data(text)["hear"][0]},
    }
    edits["hear.new-1"] |= {"part": "Our waves", "claims": None, "as": "density", "to": ["1 per bar", "1 per beat"]}
    after = read_scene(made(edits, text).text, file="a.toml", name="a")
    assert [each.part for each in after.claims if each.key.startswith("hear.0.claims")] == ["Our waves"]
    assert after.rules[-1].part == "Our waves"
    with pytest.raises(BadFile) as caught:
        read_scene(made({"part.0.name": before.parts[1].name}, text).text, file="a.toml", name="a")
    assert "part.1.name" in str(caught.value) or "part.0.name" in str(caught.value)
