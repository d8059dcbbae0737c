"""A recording of the class brought to the server: measured by it, kept nowhere, told to the browser it came from."""

from __future__ import annotations

import asyncio
import io
import json
import socket
import time
from collections.abc import Callable
from http import HTTPStatus
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import httpx
import numpy as np
import pytest
import soundfile
from starlette.requests import Request
from starlette.responses import Response

from sonify import lesson as lesson_room
from sonify.page import served_page_html
from sonify.web import app, takes
from sonify.web.errors import Refused
from sonify.web.safety import MICROPHONE
from sonify.web.sharing import Door
from sonify.web.takes import MOST_KEPT, WAITS_S, Takes
from tests.studies import studied
from tests.web.running import HARBOUR, Running

SENT = {"Content-Type": "application/octet-stream"}


def wav(seconds: float, rate_hz: int = 8_000) -> bytes:
    """Noise: no piece is in it, and no silence that would be told at once."""
    out = io.BytesIO()
    samples = 0.1 * np.random.default_rng(4).normal(size=int(seconds * rate_hz))
    soundfile.write(out, samples, rate_hz, format="WAV", subtype="PCM_16")
    return out.getvalue()


@pytest.fixture
def lesson(client: httpx.Client) -> str:
    while "key" not in (found := client.post("/api/lesson", json=HARBOUR).json()):
        time.sleep(0.3)
    return str(found["key"])


def state(client: httpx.Client, key: str, until: Callable[[dict[str, Any]], bool]) -> dict[str, Any]:
    for _ in range(600):
        found = client.get(f"/api/recording/{key}").json()
        if until(found):
            return dict(found)
        time.sleep(0.1)
    raise AssertionError(found)


def left(running: Running) -> list[str]:
    return [
        path.name
        for folder in running.folders()
        for path in folder.iterdir()
        if "ecord" in path.name or "sent" in path.name
    ]


def test_a_recording_is_measured_and_gone(running: Running, client: httpx.Client, lesson: str) -> None:
    address = f"/api/recording/{lesson}"
    assert client.post(f"{address}/file?name=a.wav", content=wav(50.0), headers=SENT).status_code == 202
    found = state(client, lesson, lambda now: now["state"] not in ("arriving", "measuring"))
    assert (found["state"], found["told"]["recognised"], found["told"]["stages"]) == ("ready", False, [])
    assert found["told"]["why"] and left(running) == []
    # what is no recording is one plain message, and a name that is a path is only a name
    client.post(f"{address}/file?name=../../a.wav", content=b"no sound at all" * 99, headers=SENT)
    found = state(client, lesson, lambda now: now["state"] not in ("arriving", "measuring"))
    assert found["state"] == "failed" and "recording.wav" in found["error"] and left(running) == []
    # another browser has nothing of it
    with running.client() as other:
        other.get("/")
        assert other.get(address).json()["state"] == "none"


@pytest.mark.long
def test_measuring_can_be_stopped(running: Running, client: httpx.Client, lesson: str) -> None:
    address = f"/api/recording/{lesson}"
    client.post(f"{address}/file?name=a.wav", content=wav(600.0), headers=SENT)
    busy = client.post(f"{address}/file?name=b.wav", content=wav(1.0), headers=SENT)
    assert busy.status_code == 409 and "already" in busy.json()["error"]
    assert client.post(f"{address}/cancel", json={}).json()["state"] == "cancelled"
    assert left(running) == []


@pytest.mark.long
def test_a_phone_sends_for_the_lesson_that_waits(running: Running, client: httpx.Client, lesson: str) -> None:
    with running.client() as phone:
        refused = phone.post("/api/sent-recording/file?name=a.m4a", content=wav(1.0), headers=SENT)
        assert refused.status_code == 409 and "Wait for a phone" in refused.json()["error"]
        assert client.post(f"/api/recording/{lesson}/wait", json={}).json()["state"] == "waiting"
        sent = phone.post("/api/sent-recording/file?name=a.wav", content=wav(1.0), headers=SENT)
    assert sent.json() == {"sent": True}
    found = state(client, lesson, lambda now: now["state"] == "ready")
    assert found["from_phone"] and found["told"]["why"]


def test_the_microphone_is_for_the_page_that_records(client: httpx.Client, lesson: str) -> None:
    page = client.get(f"/lesson/{lesson}/recording")
    assert page.headers["Permissions-Policy"] == MICROPHONE
    assert "policy before you record" in page.text
    for other in (f"/lesson/{lesson}", "/send"):
        assert "microphone=()" in client.get(other).headers["Permissions-Policy"]


@pytest.mark.parametrize(
    ("headers", "status"),
    [({"Content-Type": "application/json"}, 415), ({**SENT, "X-Sonify": "0"}, 403)],
)
def test_a_recording_is_refused_that_no_page_of_ours_sends(
    headers: dict[str, str], status: int, client: httpx.Client, lesson: str
) -> None:
    answer = client.post(f"/api/recording/{lesson}/file", content=b"x", headers=headers)
    assert answer.status_code == status


def test_who_is_refused_while_still_sending_hears_why(running: Running, lesson: str) -> None:
    """The body comes after the answer is known: it is waited for a moment, and the line is not cut."""
    head = (
        f"POST /api/recording/{lesson}/file HTTP/1.1\r\nHost: 127.0.0.1:{running.port}\r\nX-Sonify: 0\r\n"
        "Content-Type: application/octet-stream\r\nContent-Length: 3\r\n\r\n"
    )
    with socket.create_connection(("127.0.0.1", running.port), timeout=10) as line:
        for piece in (head.encode(), b"a", b"bc"):
            line.sendall(piece)
            time.sleep(0.2)
        assert b" 403 " in line.recv(1000)


def test_a_lesson_that_is_gone_takes_no_recording(client: httpx.Client) -> None:
    answer = client.post("/api/recording/nobody/file?name=a.wav", content=wav(0.1), headers=SENT)
    assert answer.status_code == 404 and "no longer has this lesson" in answer.json()["error"]


# --- who may what: without a socket ----------------------------------------------------------------------------------

HOME, TABLET = "127.0.0.1", "192.0.2.20"


def asked(address: str, key: str = "a") -> Request:
    async def receive() -> dict[str, Any]:
        return {"type": "http.request", "body": b"sound", "more_body": False}

    scope = {"type": "http", "client": (address, 5), "headers": [], "method": "POST", "path": "/", "query_string": b""}
    return Request({**scope, "path_params": {"key": key}}, receive)


async def now(work: Callable[[], Any]) -> Any:
    return work()


@pytest.fixture
def held(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Takes:
    """The recordings of a shared server whose measuring never ends."""

    async def endless(*given: Any) -> str:
        await asyncio.sleep(60.0)
        return ""

    monkeypatch.setattr(takes, "listening_task", lambda lesson: {})
    monkeypatch.setattr(takes, "worked", endless)
    return Takes(tmp_path, Door("abcd2345"), lambda key: SimpleNamespace(lesson=None), now)  # type: ignore[arg-type,return-value]


def told(response: Response) -> str:
    return str(json.loads(bytes(response.body))["state"])


def test_a_tablet_can_send_and_nothing_else(held: Takes) -> None:
    async def all_of_it() -> None:
        assert told(await held.wait(asked(HOME))) == "waiting"
        for each in (held.page, held.state, held.wait, held.take, held.cancel):
            with pytest.raises(Refused) as refused:
                await each(asked(TABLET, "b"))
            assert refused.value.status == HTTPStatus.FORBIDDEN, each
        assert (await held.from_phone(asked(TABLET))).status_code == HTTPStatus.ACCEPTED
        assert told(await held.state(asked(HOME))) == "measuring"  # hers, not that of whoever asked last
        await held.close()

    asyncio.run(all_of_it())


def test_only_this_machine_is_led_to_our_recording(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SONIFY_SHELF", str(tmp_path))
    server = app.Server(tmp_path, Door("abcd2345"))
    monkeypatch.setattr(server.desk, "kept_study", lambda key: SimpleNamespace(key=key, lesson=None))
    monkeypatch.setattr(server, "begin_sounds", lambda study: None)
    monkeypatch.setattr(app, "lesson_page", lambda study, home: f"at home: {home}")
    pages = [bytes(asyncio.run(server.lesson_page(asked(of))).body).decode() for of in (HOME, TABLET, HOME)]
    assert pages == ["at home: True", "at home: False", "at home: True"]
    piece, palette = studied("one-string"), lesson_room.palette()
    with_it, without = (served_page_html(piece, palette, "", "s/sounds", records=yes) for yes in (True, False))
    assert 'href="s/recording"' in with_it and 'href="s/recording"' not in without


def test_what_is_awaited_does_not_go_for_want_of_room(held: Takes, monkeypatch: pytest.MonkeyPatch) -> None:
    async def looked_at() -> None:
        for number in range(2 * MOST_KEPT):
            await held.state(asked(HOME, f"other-{number}"))

    def known() -> set[str]:
        return {key for _, key in held._takes}

    async def all_of_it() -> None:
        await held.wait(asked(HOME, "waiting"))
        await held.wait(asked(HOME, "ready"))
        held._takes[next(place for place in held._takes if place[1] == "ready")].state = "ready"
        await looked_at()
        assert len(known()) == MOST_KEPT and known() >= {"waiting", "ready"}
        assert told(await held.state(asked(HOME, "ready"))) == "ready"
        start_s = time.monotonic()
        monkeypatch.setattr(takes.time, "monotonic", lambda: start_s + WAITS_S)
        await looked_at()
        assert not known() & {"waiting", "ready"}  # the one is over, the other was fetched

    asyncio.run(all_of_it())


def test_a_phones_recording_is_stopped_while_it_still_arrives(held: Takes, tmp_path: Path) -> None:
    """The phone hears why, and nothing of what it had sent is left; one sent anew is measured."""

    async def all_of_it() -> None:
        begun = asyncio.Event()

        async def slowly() -> dict[str, Any]:
            if begun.is_set():
                await asyncio.sleep(60.0)
            begun.set()
            return {"type": "http.request", "body": b"half of it", "more_body": True}

        await held.wait(asked(HOME))
        sent = asyncio.ensure_future(held.from_phone(Request(asked(TABLET).scope, slowly)))
        await begun.wait()
        while not list(tmp_path.iterdir()):
            await asyncio.sleep(0.01)
        assert told(await held.state(asked(HOME))) == "arriving"
        assert told(await held.cancel(asked(HOME))) == "cancelled"
        with pytest.raises(Refused, match="stopped"):
            await sent
        assert not list(tmp_path.iterdir())
        assert told(await held.wait(asked(HOME))) == "waiting"
        assert (await held.from_phone(asked(TABLET))).status_code == HTTPStatus.ACCEPTED
        assert told(await held.cancel(asked(HOME))) == "cancelled"

    asyncio.run(all_of_it())


def test_measuring_that_is_stopped_before_it_begins_leaves_nothing(held: Takes, tmp_path: Path) -> None:
    async def all_of_it() -> None:
        await held.take(asked(HOME))
        assert [path.name[:10] for path in tmp_path.iterdir()] == ["recording-"]
        assert told(await held.cancel(asked(HOME))) == "cancelled"  # the task has not had its first step
        assert not list(tmp_path.iterdir())

    asyncio.run(all_of_it())
