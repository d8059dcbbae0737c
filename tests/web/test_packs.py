"""Packs made for browsers: progress, files, pages, stopping, queue, a kill in the middle and a full disk."""

from __future__ import annotations

import io
import resource
import signal
import time
import zipfile
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from PIL import Image
from pypdf import PdfReader

from sonify import lesson
from sonify.data.exports import score_json
from sonify.web.desk import Desk
from sonify.web.inputs import read_inputs
from sonify.web.packs import Packs
from tests.web.running import HARBOUR, QUICK_PACK, Running, finished, pack_state, server, until

SHORT = {"scene": {"name": "stretch-test"}, "set": {"turn": "2 min"}}


def begun(client: httpx.Client, **options: object) -> str:
    answer = client.post("/api/pack", json={"inputs": SHORT, "options": {**QUICK_PACK, **options}})
    assert answer.status_code == 202, answer.text
    return str(answer.json()["job"])


@pytest.fixture(scope="module")
def made(running: Running) -> Iterator[tuple[httpx.Client, str]]:
    with running.client() as client:
        client.get("/")
        job = begun(client, click=True, audio=["ogg"])
        assert finished(client, job)["state"] == "ready"
        yield client, job


def test_the_list_and_every_file(made: tuple[httpx.Client, str]) -> None:
    client, job = made
    files = pack_state(client, job)["files"]
    names = [file["name"] for file in files]
    assert names[:3] == ["teacher.pdf", "conductor.pdf", "pupils.pdf"]
    assert {"soundscape.wav", "soundscape.ogg", "soundscape-with-click.wav", "page.html", "pack.json"} <= set(names)
    assert not any(name.startswith("stems/") for name in names)
    for file in files:
        answer = client.get(f"/api/pack/{job}/file/{file['n']}")
        assert len(answer.content) == file["bytes"]
        assert file["words"], file["name"]
        assert answer.headers["content-disposition"].startswith("attachment")
    for number in ("99", "-1", "x", "0%2f1"):
        assert client.get(f"/api/pack/{job}/file/{number}").status_code == 404


@pytest.mark.long
def test_a_file_that_has_gone_from_the_disk_is_told_and_no_fault_of_ours(running: Running) -> None:
    with running.client() as client:
        client.get("/")
        job = begun(client)
        assert finished(client, job)["state"] == "ready"
        numbers = {file["name"]: file["n"] for file in pack_state(client, job)["files"]}
        for name in ("poster.pdf", "pack.zip"):
            places = [path for folder in running.folders() for path in folder.rglob(name)]
            max(places, key=lambda path: path.stat().st_mtime_ns).unlink()  # of this pack, the newest
        for what in (f"file/{numbers['poster.pdf']}", f"file/{numbers['poster.pdf']}?open=1", "zip"):
            answer = client.get(f"/api/pack/{job}/{what}")
            assert answer.status_code == 410 and "no longer on the server's disk" in answer.json()["error"]
        assert client.get(f"/api/pack/{job}/page/{numbers['poster.pdf']}/1").status_code == 410


def test_the_zip_holds_the_pack_and_what_makes_it_again(made: tuple[httpx.Client, str], tmp_path: Path) -> None:
    client, job = made
    with zipfile.ZipFile(io.BytesIO(client.get(f"/api/pack/{job}/zip").content)) as archive:
        assert archive.testzip() is None
        names = archive.namelist()
        archive.extractall(tmp_path)
    assert {"stretch-test.toml", "class.toml", "stretch-test.csv", "stretch-test/conductor.pdf"} <= set(names)
    again = lesson.study(str(tmp_path / "stretch-test.toml"), tmp_path / "class.toml")
    assert score_json(again.score) == (tmp_path / "stretch-test" / "score.json").read_text(encoding="utf-8")


def test_pages_as_pictures(made: tuple[httpx.Client, str]) -> None:
    client, job = made
    file = pack_state(client, job)["files"][0]
    pdf = PdfReader(io.BytesIO(client.get(f"/api/pack/{job}/file/0").content))
    assert file["pages"] == len(pdf.pages)
    for page in (1, file["pages"]):
        with Image.open(io.BytesIO(client.get(f"/api/pack/{job}/page/0/{page}").content)) as picture:
            box = pdf.pages[page - 1].mediabox
            assert picture.width == pytest.approx(float(box.width) * 96 / 72, abs=2)
            assert picture.height == pytest.approx(float(box.height) * 96 / 72, abs=2)
            assert len(set(picture.convert("L").resize((64, 64)).tobytes())) > 3
    for page in ("0", str(file["pages"] + 1), "x"):
        assert client.get(f"/api/pack/{job}/page/0/{page}").status_code == 404


def test_a_pack_belongs_to_its_browser(made: tuple[httpx.Client, str]) -> None:
    client, job = made
    with httpx.Client(base_url=client.base_url, headers={"X-Sonify": "1"}) as other:
        assert other.get(f"/api/pack/{job}").status_code == 404
        assert other.get(f"/api/pack/{job}/zip").status_code == 404
        assert other.post(f"/api/pack/{job}/cancel", json={}).status_code == 404


@pytest.mark.parametrize(
    "options",
    [
        {"audio": ["aiff"]},
        {"audio": "ogg"},
        {"paper": "a3"},
        {"stems": "yes"},
        {"out": "/tmp"},
        {"without": ["nobody"]},
        [],
    ],
)
def test_odd_options_are_refused_at_once(client: httpx.Client, options: object) -> None:
    answer = client.post("/api/pack", json={"inputs": HARBOUR, "options": options})
    assert answer.status_code == 400
    assert "/tmp" not in answer.text


def test_a_mistake_in_the_inputs_is_told_at_once(client: httpx.Client) -> None:
    answer = client.post("/api/pack", json={"inputs": {**HARBOUR, "set": {"wind": "99 m/s"}}})
    assert answer.status_code == 400
    assert answer.json()["where"] == "conditions.wind"


def test_no_second_pack_stopping_and_the_queue(tmp_path: Path) -> None:
    with server(tmp_path / "scratch") as running:
        browsers = [running.client() for _ in range(11)]
        for browser in browsers:
            browser.get("/")
        jobs = [begun(browser) for browser in browsers[:10]]
        second = browsers[0].post("/api/pack", json={"inputs": SHORT, "options": QUICK_PACK})
        assert second.status_code == 409
        assert "already" in second.json()["error"]
        full = browsers[10].post("/api/pack", json={"inputs": SHORT, "options": QUICK_PACK})
        assert full.status_code == 503
        assert "wait" in full.json()["error"]
        until(lambda: pack_state(browsers[0], jobs[0])["share"] > 0.0, 60)
        states = [pack_state(browser, job) for browser, job in zip(browsers, jobs, strict=False)]
        assert [state["state"] for state in states] == ["making"] * 2 + ["queued"] * 8
        assert [state["ahead"] for state in states] == list(range(10))
        for place in (9, 0):  # one that waits, one that is being made
            began = time.monotonic()
            answer = browsers[place].post(f"/api/pack/{jobs[place]}/cancel", json={})
            assert answer.json() == {"state": "cancelled"}
            assert time.monotonic() - began < 5.0
        until(lambda: pack_state(browsers[2], jobs[2])["state"] == "making", 30)
        assert not [each for folder in running.folders() for each in folder.iterdir() if each.name == jobs[0]]
        begun(browsers[0])  # now it may
        for browser in browsers:
            browser.close()
    assert running.folders() == []  # and Ctrl-C in the middle of all this leaves nothing behind


def test_a_kill_in_the_middle_leaves_nothing_after_the_next_start(tmp_path: Path) -> None:
    scratch = tmp_path / "scratch"
    with server(scratch) as running, running.client() as client:
        job = begun(client)
        until(lambda: pack_state(client, job)["share"] > 0.0, 60)
        workers = children(running.process.pid)
        assert workers
        running.process.send_signal(signal.SIGKILL)
        running.process.wait(10)
        assert running.folders()
        until(lambda: not any(Path(f"/proc/{worker}").exists() for worker in workers), 15)
    stranger = scratch / f"sonify-serve-{running.process.pid}-mine"  # no server's, though its name might be
    stranger.mkdir()
    with server(scratch) as running, running.client() as client:
        assert stranger in running.folders() and len(running.folders()) == 2
        assert client.get(f"/api/pack/{job}").status_code == 404
        assert client.post("/api/plan", json=HARBOUR).status_code == 200


def children(pid: int) -> list[int]:
    found = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii").split()
    return [int(each) for each in found]


def test_a_disk_that_is_full(tmp_path: Path) -> None:
    """A limit on the size of any file stands for it: the same error at the same places."""

    def small_disk() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (3_000_000, 3_000_000))

    with server(tmp_path / "scratch", before=small_disk) as running, running.client() as client:
        state = finished(client, begun(client))
        assert state["state"] == "failed"
        assert "File too large" in state["error"]
        assert str(tmp_path) not in state["error"] and "Traceback" not in state["error"]
        assert client.post("/api/plan", json=HARBOUR).status_code == 200
        assert [
            each for folder in running.folders() for each in folder.iterdir() if each.name != "sonify-serves-from-here"
        ] == []


@pytest.mark.long
def test_a_lesson_that_cannot_be_handed_over_is_left_to_the_process_of_the_pack() -> None:
    """Some processes have a function of their own, which Python does not pickle."""
    desk = Desk()
    inputs = read_inputs({"scene": {"name": "ice-on-the-hob"}})
    desk.study(inputs)
    packs = Packs(desk, None, lambda request: "", None, lambda request: True)  # type: ignore[arg-type]
    assert vars(Packs)["_known"](packs, inputs) == ""
