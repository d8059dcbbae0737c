"""Files dropped on the page: scenes, classes and readings."""

from __future__ import annotations

import base64
from pathlib import Path
from typing import Any

import httpx
import pytest

from sonify import lesson
from sonify.storage import shelf
from sonify.web import drafts

CSV = (shelf.shelf() / "examples" / "windowsill-logger.csv").read_text(encoding="cp1252")  # as the page decodes it


def read(client: httpx.Client, kind: str, file: str, text: str) -> httpx.Response:
    return client.post("/api/read", json={"kind": kind, "file": file, "text": text})


def test_a_scene_of_her_own(client: httpx.Client) -> None:
    text = drafts.shipped_scene_text("two-cups")
    found = read(client, "scene", "C:\\Lessons\\my cups.toml", text).json()
    assert found["toml"] == text
    assert found["inputs"] == {"scene": {"text": text, "file": "my cups.toml"}}
    plan = client.post("/api/plan", json=found["inputs"]).json()
    assert (plan["name"], plan["scene_file"]) == ("my cups", "my cups.toml")


def test_a_scene_that_is_wrong_names_line_and_key(client: httpx.Client) -> None:
    text = drafts.shipped_scene_text("two-cups").replace('as       = "tempo"', 'as       = "temp"', 1)
    answer = read(client, "scene", "mine.toml", text)
    assert answer.status_code == 400
    assert answer.json()["error"].startswith("mine.toml, line ")
    assert 'did you mean "tempo"' in answer.json()["error"]


def test_a_class(client: httpx.Client) -> None:
    text = 'year = 4\npupils = 26\ngroups = 4\n[cupboard]\n"hand drum" = 2  # mine\n'
    found = read(client, "class", "4b.toml", text).json()
    assert found["class"]["cupboard"] == {"hand-drum": 2}
    assert found["understood"][1] == "In the cupboard: 2 hand drums."
    changed = {**found["inputs"]["class"], **found["class"], "pupils": 25}
    plan = client.post("/api/plan", json={"scene": {"name": "two-cups"}, "class": changed}).json()
    assert plan["class"]["pupils"] == 25
    assert '"hand drum" = 2  # mine' in plan["class_toml"]


def test_readings_are_sent_once(client: httpx.Client) -> None:
    found = read(client, "csv", "windowsill-logger.csv", CSV).json()
    assert found["understood"]
    plan = client.post("/api/plan", json=found["inputs"])
    assert plan.status_code == 200, plan.text
    assert plan.json()["data_file"] == "windowsill-logger.csv"
    without = {"scene": {**found["inputs"]["scene"], "csv_key": "0" * 32}}
    gone = client.post("/api/plan", json=without)
    assert gone.status_code == 410
    assert gone.json()["need"] == "csv"
    again = {"scene": {**found["inputs"]["scene"], "csv": CSV, "csv_key": ""}}
    assert client.post("/api/plan", json=again).json()["map"] == plan.json()["map"]


def test_a_scene_of_readings_saved_beside_them(client: httpx.Client, tmp_path: Path) -> None:
    found = read(client, "csv", "windowsill-logger.csv", CSV).json()
    plan = client.post("/api/plan", json=found["inputs"]).json()
    (tmp_path / plan["scene_file"]).write_text(plan["scene_toml"], encoding="utf-8", newline="\n")
    (tmp_path / plan["data_file"]).write_text(CSV, encoding="utf-8", newline="\n")
    again = lesson.study(str(tmp_path / plan["scene_file"]))
    assert float(again.score.clock.seconds(again.score.end_beat)) == pytest.approx(plan["seconds"], abs=1e-3)
    assert [part.name for part in again.score.group_parts] == [row["name"] for row in plan["map"]]


def test_what_is_no_table_is_refused(client: httpx.Client) -> None:
    for text in ("", "hello", "a,b\n1,2\n", "\0\0\0"):
        answer = read(client, "csv", "x.csv", text)
        assert answer.status_code == 400
        assert answer.json()["error"].startswith("x.csv")
    assert read(client, "poem", "x.txt", "x").status_code == 400


def test_the_readings_of_a_ready_made_scene(client: httpx.Client) -> None:
    answer = client.get("/api/data/stretch-test")
    assert answer.content == (shelf.shelf() / "scenes" / "stretch-test.csv").read_bytes()
    assert client.get("/api/data/two-cups").status_code == 404


def test_the_page_is_told_how_large_a_file_may_be(client: httpx.Client) -> None:
    """What the page lets through the server takes: no more characters than the bytes that are allowed, and no fewer."""
    start = client.get("/api/start").json()
    head = "time [s],temperature [degC]\n"
    for kind in ("scene", "class", "csv"):  # a pack has a way of its own, to `/api/open`
        most = start["most_bytes"][kind]
        refused = read(client, kind, "large.csv", "1" * (most + 1))
        assert refused.status_code == 413
        assert str(most) in refused.json()["error"]
        assert read(client, kind, "large.csv", head.ljust(most, "\n")).status_code == 400  # read, and nothing found
    assert "MOST_BYTES = start.most_bytes" in client.get("/").text
    assert start["papers"] == ["a4", "us-letter"]


TABLES = Path(__file__).parents[1] / "inputs" / "tables"


def corrected(client: httpx.Client, scene: dict[str, Any], **said: str) -> httpx.Response:
    return client.post("/api/read", json={"kind": "role", "scene": scene, **said})


def given(client: httpx.Client, file: str, sent: str) -> dict[str, Any]:
    found: dict[str, Any] = read(client, "csv", file, sent).json()["inputs"]["scene"]
    return found


def table_of(client: httpx.Client, scene: dict[str, Any]) -> dict[str, Any]:
    answer = client.post("/api/plan", json={"scene": scene})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()["table"]
    return found


def test_a_column_is_said_to_be_something_else(client: httpx.Client) -> None:
    scene = read(client, "csv", "plants-long.csv", (TABLES / "plants-long.csv").read_text("utf-8")).json()["inputs"][
        "scene"
    ]
    before = table_of(client, scene)
    assert before["graph"]["kind"] == "line" and [each["group"] for each in before["graph"]["series"]][0] == "sill"
    after = corrected(client, scene, column="Plant", role="unused").json()["inputs"]["scene"]
    assert after["csv_key"] == scene["csv_key"]
    assert [each["group"] for each in table_of(client, after)["graph"]["series"]] == [""]
    assert table_of(client, scene) == before, "one file by two readings"


@pytest.mark.parametrize(
    "said", [{"column": "Plant", "role": "lost"}, {"column": "Colour", "role": "kept"}, {"sheet": "Sheet 9"}, {}]
)
def test_what_a_column_cannot_be_is_refused(client: httpx.Client, said: dict[str, str]) -> None:
    scene = read(client, "csv", "plants-long.csv", (TABLES / "plants-long.csv").read_text("utf-8")).json()["inputs"][
        "scene"
    ]
    answer = corrected(client, scene, **said)
    assert 400 <= answer.status_code < 500 and answer.json()["error"]
    assert corrected(client, {"name": "two-cups"}, column="a", role="kept").status_code == 400


def test_what_was_measured_is_named_where_no_heading_does(client: httpx.Client) -> None:
    scene = given(client, "magnet-and-paper.csv", (TABLES / "magnet-and-paper.csv").read_text("utf-8"))
    assert table_of(client, scene)["name"] == "reading"
    named = corrected(client, scene, name="paper clips").json()["inputs"]["scene"]
    found = table_of(client, named)
    assert found["name"] == "paper clips" and "We measured: paper clips" in " ".join(found["told"])
    assert [each["role"] for each in found["columns"]].count("repeats") == 3
    other = given(client, "plants-long.csv", (TABLES / "plants-long.csv").read_text("utf-8"))
    assert corrected(client, other, name="anything").status_code == 400


def test_another_table_of_a_file_is_chosen(client: httpx.Client) -> None:
    scene = given(client, "two-tables.csv", (TABLES / "two-tables.csv").read_text("utf-8"))
    assert table_of(client, scene)["chosen"] == "Ramp with carpet"
    chosen = corrected(client, scene, sheet="Ramp with tiles").json()["inputs"]["scene"]
    assert table_of(client, chosen)["chosen"] == "Ramp with tiles"


def test_a_spreadsheet_comes_as_it_is(client: httpx.Client, tmp_path: Path) -> None:
    data = (TABLES / "several-sheets.xlsx").read_bytes()
    scene = given(client, "several-sheets.xlsx", f"data:;base64,{base64.b64encode(data).decode()}")
    plan = client.post("/api/plan", json={"scene": scene}).json()
    assert plan["table"]["tables"] == ["Results", "Again"]
    (tmp_path / plan["scene_file"]).write_text(plan["scene_toml"], encoding="utf-8", newline="\n")
    (tmp_path / plan["data_file"]).write_bytes(data)
    made = lesson.study(str(tmp_path / plan["scene_file"]))
    assert [part.name for part in made.score.group_parts] == [row["name"] for row in plan["map"]]
    assert read(client, "csv", "x.xlsx", "data:;base64,####").status_code == 400


def test_a_ready_made_table_is_corrected_into_a_scene_of_her_own(client: httpx.Client) -> None:
    shipped = table_of(client, {"name": "beans-in-three-places"})
    assert shipped["shipped"] and len(shipped["graph"]["series"]) == 3
    label = shipped["columns"][-1]["label"]
    found = corrected(client, {"name": "beans-in-three-places"}, column=label, role="unused").json()
    scene = found["inputs"]["scene"]
    after = client.post("/api/plan", json={"scene": scene}).json()
    assert (after["title"], after["table"]["shipped"]) == ("Beans in three places", False)
    assert [each["group"] for each in after["table"]["graph"]["series"]] == ["window sill", "cupboard"]
    assert found["readings"].startswith("Invented") and scene["csv_key"]


def curve(client: httpx.Client, scene: dict[str, Any], **how: Any) -> httpx.Response:
    return client.post("/api/read", json={"kind": "curve", "scene": scene, "curve": how})


def drawn(client: httpx.Client, scene: dict[str, Any]) -> dict[str, Any]:
    answer = client.post("/api/plan", json={"scene": scene})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


@pytest.mark.parametrize("name", ["bread-dough", "two-cups"])
def test_a_curve_is_added_renamed_and_removed_with_the_rule_that_hears_it(client: httpx.Client, name: str) -> None:
    before = drawn(client, {"name": name})
    added = curve(client, {"name": name}, add="number of bubbles", unit="bubbles").json()["inputs"]["scene"]
    more = drawn(client, added)
    names = [row["name"] for row in more["drawing"]["quantities"]]
    assert names == [*(row["name"] for row in before["drawing"]["quantities"]), "number of bubbles"]
    assert len(more["rules"]) == len(before["rules"]) + 1 and "Number of bubbles" in added["text"]
    other = curve(client, added, rename=len(names) - 1, name="foam").json()["inputs"]["scene"]
    assert drawn(client, other)["drawing"]["quantities"][-1]["name"] == "foam"
    gone = curve(client, added, remove=len(names) - 1).json()["inputs"]["scene"]
    assert len(drawn(client, gone)["rules"]) == len(before["rules"])
    taken = curve(client, added, add="Number of bubbles")
    assert taken.status_code == 400 and "already" in taken.json()["error"]


@pytest.mark.parametrize(
    ("scene", "how"),
    [
        ("stretch-test", {"add": "foam"}),
        ("bread-dough", {}),
        ("bread-dough", {"add": " "}),
        ("bread-dough", {"remove": 9}),
        ("bread-dough", {"remove": "1"}),
        ("bread-dough", {"add": "a", "remove": 0}),
    ],
)
def test_a_curve_that_cannot_be_is_refused(client: httpx.Client, scene: str, how: dict[str, Any]) -> None:
    answer = curve(client, {"name": scene}, **how)
    assert answer.status_code == 400 and answer.json()["error"]


def test_a_shipped_curve_goes_with_what_is_claimed_of_it(client: httpx.Client) -> None:
    scene = curve(client, {"name": "bread-dough"}, remove=2).json()["inputs"]["scene"]
    assert [row["name"] for row in drawn(client, scene)["drawing"]["quantities"]] == [
        "height of the dough",
        "warmth of the dough",
    ]
    assert "gas in the dough" not in "".join(line for line in scene["text"].splitlines() if line.startswith("claims"))
