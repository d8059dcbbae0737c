"""Sounds that tablets send: bounded, heard and settled by the teacher's machine alone, gone with everything else."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anyio
import httpx
import numpy as np
import pytest
from starlette.applications import Starlette

from sonify.errors import SonifyError
from sonify.web import sent_sounds
from sonify.web.recordings import Recordings, as_wav
from sonify.web.sent_sounds import MOST, MOST_OF_ONE, SentSounds
from sonify.web.sharing import COOKIE, LOOPBACK, Door

WAV = as_wav(np.arange(-2000, 2000, dtype="<i2").tobytes())
SEND = "/api/sent-sound/file?part=The+rain&called=our+bags&name=bags.wav"


class Room:
    """A teacher's computer and tablets around one server, without a network."""

    def __init__(self, folder: Path) -> None:
        async def compute(work: Any) -> Any:
            return work()

        door = Door("abcd2345")
        self.held = Recordings()
        self.sounds = SentSounds(folder, door.owner, door.is_at_home, self.held.add, compute)
        self.app = Starlette(routes=self.sounds.routes())

    def ask(self, who: str, method: str, path: str, **how: Any) -> httpx.Response:
        address = LOOPBACK[0] if who == "teacher" else f"192.0.2.{who}"

        async def asked() -> httpx.Response:
            transport = httpx.ASGITransport(self.app, client=(address, 5000))
            async with httpx.AsyncClient(transport=transport, base_url="http://room", cookies={COOKIE: who}) as client:
                return await client.request(method, path, **how)

        return anyio.run(asked)

    def waiting(self) -> list[dict[str, Any]]:
        return list(self.ask("teacher", "GET", "/api/sent-sounds").json()["sounds"])


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Room:
    def plain(data: bytes, name: str) -> bytes:
        if not data.startswith(b"RIFF"):
            raise SonifyError(f"{name}: no sound")
        return data

    monkeypatch.setattr(sent_sounds, "plain_sound", plain)
    return Room(tmp_path)


def test_the_teacher_hears_each_and_takes_one_and_leaves_one(room: Room, tmp_path: Path) -> None:
    assert room.ask("7", "POST", SEND, content=WAV).json() == {"sent": True, "seconds": 0.09}
    assert room.ask("8", "POST", "/api/sent-sound/file?part=The+sea", content=WAV + b"\0\0").status_code == 200
    one, other = room.waiting()
    assert (one["part"], one["name"], other["part"], other["name"]) == ("The rain", "our bags", "The sea", "")
    assert room.ask("teacher", "GET", f"/api/sent-sounds/{one['id']}").content == WAV
    left = room.ask("teacher", "POST", "/api/sent-sounds", json={"id": other["id"], "take": False}).json()
    assert left["key"] == "" and [each["id"] for each in left["sounds"]] == [one["id"]]
    taken = room.ask("teacher", "POST", "/api/sent-sounds", json={"id": one["id"], "take": True}).json()
    assert room.held.get(taken["key"]) == WAV and taken["sounds"] == []
    again = room.ask("teacher", "POST", "/api/sent-sounds", json={"id": one["id"], "take": True}).json()
    assert again["key"] == "" and list(tmp_path.iterdir()) == []


def test_a_tablet_hears_and_settles_nothing_and_one_that_goes_on_takes_no_others_place(room: Room) -> None:
    room.ask("8", "POST", SEND, content=WAV)
    (first,) = room.waiting()
    for method, path in (("GET", "/api/sent-sounds"), ("GET", f"/api/sent-sounds/{first['id']}")):
        assert room.ask("8", method, path).status_code == 403
    assert room.ask("8", "POST", "/api/sent-sounds", json={"id": first["id"], "take": True}).status_code == 403
    for _ in range(5):
        assert room.ask("7", "POST", SEND, content=WAV).status_code == 200
    assert len(room.waiting()) == 1 + MOST_OF_ONE and first in room.waiting()
    for number in range(MOST):
        last = room.ask(str(20 + number), "POST", SEND, content=WAV).status_code
    assert last == 429 and len(room.waiting()) == MOST
    room.sounds.forget()
    assert room.waiting() == [] and room.held.get("0" * 32) is None


@pytest.mark.parametrize("words", ["part=" + "x" * 61, "part=a%07b", "called=" + "y" * 41, "called=%E2%80%AEz"])
def test_a_label_that_is_none_is_refused_and_so_is_what_is_no_sound(room: Room, words: str) -> None:
    assert room.ask("7", "POST", f"/api/sent-sound/file?{words}", content=WAV).status_code == 400
    answer = room.ask("7", "POST", "/api/sent-sound/file?name=..%2F..%2Fx.wav", content=b"<html>")
    assert answer.status_code == 400 and "/" not in answer.json()["error"] and room.waiting() == []
