"""Files dropped on the page: scenes, classes and readings."""

from __future__ import annotations

from pathlib import Path

import httpx
import pytest

from sonify import drafts, lesson, shelf

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
    for kind, most in start["most_bytes"].items():
        refused = read(client, kind, "large.csv", "1" * (most + 1))
        assert refused.status_code == 413
        assert str(most) in refused.json()["error"]
        assert read(client, kind, "large.csv", head.ljust(most, "\n")).status_code == 400  # read, and nothing found
    assert "MOST_BYTES = start.most_bytes" in client.get("/").text
    assert start["papers"] == ["a4", "us-letter"]
