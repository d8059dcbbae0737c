"""What the page asks to be kept, and a pack that is opened again, asked of a real server."""

from __future__ import annotations

import io
import json
import zipfile
from pathlib import Path
from typing import Any

import httpx
import numpy as np
import pytest
from starlette.requests import Request

from sonify.errors import SonifyError
from sonify.lesson.carried import carried, class_to_send
from sonify.records.sendable import ELEMENT, FORM
from sonify.storage.keeping import Keeping
from sonify.web import drafts
from sonify.web.desk import Desk
from sonify.web.inputs import read_inputs
from sonify.web.opening import opened
from sonify.web.recordings import as_wav
from sonify.web.sharing import COOKIE, Door
from sonify.web.work import plan_to_send
from tests.web.running import Running

ONE, OTHER, ROOM = "0123456789abcdef", "fedcba9876543210", "aaaaaaaaaaaaaaaa"
TABLE = "time (s),temperature (degC)\n" + "".join(f"{60 * n},{20 + 30 * 0.9**n:.2f}\n" for n in range(40))
NEEDY = {
    "year": 4,
    "pupils": 24,
    "groups": 4,
    "minutes": 60,
    "needs": ["large print", "one hand: 2 in group 3"],
    "cupboard": {"triangle": 2},
}


@pytest.fixture
def shelf(client: httpx.Client, running: Running) -> Any:
    """Asks the server, whose shelf is empty at first."""
    client.post("/api/shelf", json={"do": "forget"}).raise_for_status()

    def asked(do: str, **given: Any) -> dict[str, Any]:
        found: dict[str, Any] = client.post("/api/shelf", json={"do": do, **given}).raise_for_status().json()
        return found

    return asked


def keep(shelf: Any, number: str = ONE, **state: Any) -> dict[str, Any]:
    name, scene = state.pop("name", "Two cups"), state.pop("scene", {"name": "two-cups"})
    found: dict[str, Any] = shelf("keep", kind="plan", id=number, name=name, state={"scene": scene, **state})
    return found


def test_a_plan_comes_back_with_its_changes_and_its_table(shelf: Any, client: httpx.Client) -> None:
    read = client.post("/api/read", json={"kind": "csv", "file": "pond.csv", "text": TABLE}).json()
    scene = read["inputs"]["scene"]
    found = keep(shelf, name="Pond", scene=scene, set={}, scaffold="open", seed=3)
    assert found["keeps"] and found["kept"]["name"] == "Pond"
    shown = shelf("open", kind="plan", id=ONE)["opened"]
    assert shown["scene"] == {**scene, "csv": TABLE}
    assert (shown["scaffold"], shown["seed"], shown["plan_id"], shown["class"]) == ("open", 3, ONE, None)


def test_a_class_has_one_present_state_for_all_its_plans(shelf: Any) -> None:
    shelf("keep", kind="class", id=ROOM, name="4B", state={"class": {**NEEDY, "facts": {"year": 9}}})
    keep(shelf, **{"class": NEEDY, "class_id": ROOM})
    shelf("keep", kind="class", id=ROOM, name="4B", state={"class": {**NEEDY, "pupils": 25}})
    shown = shelf("open", kind="plan", id=ONE)["opened"]
    assert shown["class"]["pupils"] == 25 and shown["class"]["facts"]["needs"] == NEEDY["needs"]
    shelf("delete", kind="class", id=ROOM)
    listed = shelf("list")
    assert [row["gone"] for row in listed["classes"]] == [True] and [row["gone"] for row in listed["plans"]] == [False]


def test_a_lesson_is_copied_for_the_parallel_class(shelf: Any) -> None:
    shelf("keep", kind="class", id=ROOM, name="4B", state={"class": {**NEEDY, "pupils": 31}})
    keep(shelf, set={"wrapping": "5 W/K"})
    found = shelf("copy", id=ONE, class_id=ROOM)
    assert found["opened"]["plan_id"] != ONE and found["opened"]["set"] == {"wrapping": "5 W/K"}
    assert found["opened"]["class"]["pupils"] == 31
    assert {row["name"] for row in found["plans"]} == {"Two cups", "Two cups, 4B"}
    assert shelf("open", kind="plan", id=ONE)["opened"]["class"] is None, "the first stays as it is"


def test_what_is_no_plan_and_no_class_is_refused_and_not_kept(shelf: Any, client: httpx.Client) -> None:
    asked: list[dict[str, Any]] = [
        {"do": "dance"},
        {"do": "keep", "kind": "poem", "id": ONE, "name": "a", "state": {}},
        {"do": "keep", "kind": "plan", "id": ONE, "name": "a", "state": {"scene": {}}},
        {"do": "keep", "kind": "plan", "id": ONE, "name": 3, "state": {"scene": {"name": "two-cups"}}},
        {"do": "keep", "kind": "class", "id": ONE, "name": "a", "state": {"class": {"pupils": 9000}}},
        {"do": "open", "kind": "plan", "id": ONE, "state": True},
    ]
    for each in asked:
        answer = client.post("/api/shelf", json=each)
        assert (answer.status_code == 400) or answer.json()["why"], each
    for number in ("../../../etc/passwd", "..", ""):
        assert "not kept here" in shelf("open", kind="plan", id=number[:16])["why"]
    assert shelf("list")["plans"] == [] == shelf("list")["classes"]


def test_only_browsers_of_this_machine_reach_it() -> None:
    """A tablet with the right code is let in, and still sees nothing of what is kept."""
    door = Door("abcd2345")

    def asking(address: str, cookie: str = "") -> Request:
        headers = [(b"cookie", f"{COOKIE}={cookie}".encode())]
        return Request({"type": "http", "headers": headers, "client": (address, 1), "method": "POST", "path": "/"})

    cookie = door.knock(asking("192.0.2.7"), "abcd-2345")
    tablet = asking("192.0.2.7", cookie)
    assert door.is_open(tablet) and not door.is_at_home(tablet)
    assert door.is_at_home(asking("127.0.0.1"))


# --- a pack that is opened again -------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def sent() -> dict[str, Any]:
    """The plan that a pack's page carries: a table of her own, a change, a class with a need, half written sheets."""
    desk = Desk()
    made, scene = drafts.measured_scene(TABLE.encode(), file="pond.csv")
    given = {
        "text": f"{made.text}\n# a café's pond: </script><script>alert(1)</script>\n",
        "file": "pond.toml",
        "csv": TABLE,
    }
    inputs = read_inputs(
        {"scene": given, "rules": {"0": {"to": ["60 bpm", "99 bpm"]}}, "class": NEEDY, "scaffold": "part"}
    )
    return {"plan": plan_to_send(desk.study(inputs), inputs, {scene.data: TABLE}, needs=False), "given": given}


def page_with(text: str) -> bytes:
    return f'<html><script type="application/json" id="{ELEMENT}">{text}</script></html>'.encode()


def zipped(members: dict[str, bytes]) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in members.items():
            archive.writestr(name, data)
    return made.getvalue()


def test_a_page_and_a_zip_bring_scene_table_class_and_changes_back(sent: dict[str, Any], client: httpx.Client) -> None:
    page = page_with(carried(sent["plan"]))
    assert page.count(b"<script") == 1, "nothing in a person's text ends the element"
    headers = {"Content-Type": "application/octet-stream"}
    for name, data in {"page.html": page, "pond pack.zip": zipped({"pond/page.html": page, "pond/a.wav": b""})}.items():
        found = client.post(f"/api/open?name={name}", content=data, headers=headers).raise_for_status().json()
        assert found["inputs"]["scene"]["text"] == sent["given"]["text"] and found["readings"] == TABLE
        assert found["inputs"]["rules"] == {"0": {"to": ["60 bpm", "99 bpm"]}} and found["inputs"]["scaffold"] == "part"
        assert found["inputs"]["class"]["facts"]["cupboard"] == {"triangle": 2}
        assert found["understood"][0].startswith(name)
        room = {key: value for key, value in found["inputs"]["class"].items() if key != "facts"}
        given = {**found["inputs"], "class": room, "scene": {**found["inputs"]["scene"], "csv": TABLE}}
        changed = client.post("/api/plan", json=given).raise_for_status().json()
        assert '"99 bpm"' in changed["scene_toml"]


def test_what_some_pupils_need_leaves_only_when_asked(sent: dict[str, Any]) -> None:
    assert not any(need in json.dumps(sent["plan"]) for need in ("large print", "one hand"))
    room = drafts.class_from(NEEDY)[0]
    assert "one hand: 2 in group 3" in class_to_send(room, needs=True) and "one hand" not in class_to_send(room)
    text = drafts.class_from(NEEDY, "# ours\nyear = 4\npupils = 24\ngroups = 4\n[cupboard]\n")[1]
    assert "large print" in text
    without = drafts.without_needs(text)
    assert "large print" not in without and "one hand" not in without
    assert "# ours" not in without  # a remark may name a pupil


def test_a_ready_made_scene_comes_back_by_its_name(tmp_path: Path, sent: dict[str, Any]) -> None:
    text = drafts.shipped_scene_text("two-cups")
    file = tmp_path / "page.html"
    for ours in (text, f"{text}\n# mine\n"):
        plan = {**sent["plan"], "scene": {"name": "two-cups", "text": ours, "file": "two-cups.toml"}}
        plan |= {"rules": {}, "readings": None}
        file.write_bytes(page_with(carried(plan)))
        found = opened(Desk(), file, "page.html", home=True)["inputs"]["scene"]
        assert found == (
            {"name": "two-cups"} if ours == text else {"text": ours, "file": "two-cups.toml", "csv_key": ""}
        )


def test_an_older_zip_is_read_by_the_files_beside_the_pack(tmp_path: Path, sent: dict[str, Any]) -> None:
    room = b"year = 4\npupils = 22\ngroups = 4\n[cupboard]\n"
    members = {"pond.toml": sent["given"]["text"].encode(), "class.toml": room, "pond.csv": TABLE.encode()}
    file = tmp_path / "old.zip"
    file.write_bytes(zipped({**members, "pond/page.html": b"<html></html>"}))
    found = opened(Desk(), file, "old.zip", home=True)
    assert found["readings"] == TABLE and found["inputs"]["class"]["facts"]["pupils"] == 22


def test_a_strangers_file_is_refused_in_a_sentence(tmp_path: Path, sent: dict[str, Any]) -> None:
    page, plan = page_with(carried(sent["plan"])), sent["plan"]
    bomb = zipped({"pack/page.html": b" " * 40_000_000})
    assert len(bomb) < 100_000
    many = zipped({f"{n}": b"" for n in range(3_000)})
    bad: dict[str, bytes] = {
        "spoilt": page[:-60],
        "no plan": b"<html>",
        "empty": b"",
        "not json": page_with("{"),
        "nested": page_with("[" * 200_000),
        "newer": page_with(json.dumps({"sonify": "plan", "form": FORM + 1})),
        "a bomb": bomb,
        "many": many,
        "outside": zipped({"../../page.html": page, "/etc/page.html": page, "a/b/page.html": page}),
        "cut": zipped({"a/page.html": page})[:-30],
        "a wrong scene": page_with(carried({**plan, "scene": {**plan["scene"], "text": "title = 1"}})),
        "a wrong class": page_with(carried({**plan, "class": {"text": "pupils = -1", "file": "a"}})),
        "wrong rules": page_with(carried({**plan, "rules": {"9": {"to": [{}]}}})),
        "wrong seed": page_with(carried({**plan, "seed": "x"})),
    }
    for name, data in bad.items():
        file = tmp_path / "theirs"
        file.write_bytes(data)
        with pytest.raises(SonifyError) as told:
            opened(Desk(), file, f"../../{name}.zip", home=True)
        assert 10 < len(str(told.value)) < 400 and "../" not in str(told.value), name
    assert [path.name for path in tmp_path.iterdir()] == ["theirs"], "nothing of them is unpacked"


def test_a_pack_is_sent_as_bytes_by_the_page_alone(client: httpx.Client, running: Running) -> None:
    kinds = {"Content-Type": "application/json"}
    assert client.post("/api/open", content=b"PK", headers=kinds).status_code == 415
    assert client.post("/api/shelf", content=b"{}", headers={"Content-Type": "text/plain"}).status_code == 415
    plain = httpx.post(
        f"{running.address}/api/open", content=b"PK", headers={"Content-Type": "application/octet-stream"}
    )
    assert plain.status_code == 403, "no form of another page can"
    assert client.get("/api/shelf").status_code == 404 or client.get("/api/shelf").status_code == 405
    assert not list(running.folders()[0].glob("sent-*")), "what was sent is gone"


def test_what_was_kept_lies_where_it_was_told_to(shelf: Any, running: Running) -> None:
    keep(shelf)
    assert [each.name for each in Keeping(running.scratch / "kept").all()] == ["Two cups"]


def test_forgetting_everything_forgets_what_tablets_sent_too(shelf: Any, client: httpx.Client) -> None:
    client.post("/api/offer", json={"part": "The rain", "boxes": ["x. xx x. x."], "name": "ours"}).raise_for_status()
    client.post(
        "/api/sent-sound/file?part=x&name=a.wav",
        content=as_wav((9_000 * np.sin(np.arange(11_025) * 0.06)).astype("<i2").tobytes()),
        headers={"Content-Type": "application/octet-stream"},
    ).raise_for_status()
    assert client.get("/api/offers").json()["offers"] and client.get("/api/sent-sounds").json()["sounds"]
    shelf("forget")
    assert client.get("/api/offers").json() == {"offers": []} and client.get("/api/sent-sounds").json() == {
        "sounds": []
    }
