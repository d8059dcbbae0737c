"""What the page tells names fields and panels: who reads it there has seen no file, and no option of a command."""

from __future__ import annotations

import re

import httpx
import pytest

from sonify.data.plan import finding_row
from sonify.records.fact import Named, fact
from sonify.records.findings import Finding, RuleChange
from sonify.say import on_page, say
from sonify.say.language import ON_PAGE
from tests.say.catalogue import messages

#: A file, a line of it, a table of it, an option of a command. A scene that she saves herself is hers to write in.
OF_A_FILE = re.compile(r"class file|scene file|\.toml|\bline \d|\[\[|(?<!\w)--\w|`")
ROOM = {"year": 3, "pupils": 30, "groups": 12, "minutes": 30, "cupboard": {}}


def test_a_message_for_the_page_stands_beside_the_one_that_names_a_file() -> None:
    every = {row.id: row for row in messages()}
    here = [name for name in every if name.endswith(ON_PAGE)]
    assert len(here) > 8
    for name in here:
        assert name.removesuffix(ON_PAGE) in every, name
        assert every[name].kind == every[name.removesuffix(ON_PAGE)].kind, name


def test_the_same_fact_names_a_file_on_a_sheet_and_a_panel_on_the_page() -> None:
    told = fact("group-write-groups", best="5")
    assert "class file" in say(told)
    with on_page():
        assert say(told) == "Set Groups to 5 in “Your class”."
    assert "class file" in say(told)


def test_other_ends_of_a_rule_are_told_as_the_page_shows_them() -> None:
    write = fact(
        "mend-write",
        text='from = ["5 degC", "25 degC"] and to = ["pp", "ff"]',
        quantity=Named("quantity", "sea temperature"),
        control=Named("control", "dynamics"),
        whom="part",
        part="The sea",
    )
    change = RuleChange(rule=1, low_high=("5 degC", "25 degC"), to=("pp", "ff"))
    finding = Finding(kind="rule", message="", fix=fact("mend-if-it-matters", write=write), change=change)
    with on_page():
        row = finding_row(finding)
    assert "sea temperature from 5 °C to 25 °C and" in row["fix"] and "from pp to ff." in row["fix"]
    assert "In “Change the sound”" in row["fix"] and "for The sea" in row["fix"] and "[" not in row["fix"]


@pytest.mark.parametrize("name", ["harbour-water-cycle", "a-year-of-sunlight", "two-cups"])
def test_no_finding_of_a_plan_sends_its_reader_to_a_file(client: httpx.Client, name: str) -> None:
    plan = client.post("/api/plan", json={"scene": {"name": name}, "class": ROOM}).raise_for_status().json()
    rows = [*plan["findings"], *(row for part in plan["parts"] for row in part["findings"])]
    told = [f"{row['message']} {row['fix']}" for row in rows] + plan["changed"]
    assert told and not [each for each in told if OF_A_FILE.search(each)]
    assert any("“Your class”" in each for each in told), "twelve groups with an empty cupboard are told of both"


def test_what_is_wrong_with_one_group_of_a_part_says_with_which() -> None:
    """It stood beside the first group, and was the second's: both play the part."""
    from dataclasses import replace

    from sonify.data.authoring import part_row
    from tests.catalogue import catalogue
    from tests.studies import studied

    made = studied("salt-in-the-jar", "nine-groups")
    plan = next(each for each in made.scene.parts if each.name == "The grains")
    second = next(part for part in made.score.group_parts if part.name == "The grains, second group")
    wrong = Finding(
        kind="playability",
        message=fact("play-at-once", count=3, instrument="bottle"),
        fix=(),
        part=second.name,
        where="",
        serious=True,
    )
    row = part_row(replace(made, findings=(wrong,)), plan, str, catalogue())
    assert row["findings"][0]["message"] == f"Group {second.group}: 3 sounds at once for one pupil on a bottle."
