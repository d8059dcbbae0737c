"""Patterns that tablets send: bounded, in a scene's own shape, and shown to the teacher's machine alone."""

from __future__ import annotations

from typing import Any

import anyio
import httpx
import pytest
from starlette.applications import Starlette

from sonify.web.offers import MOST, MOST_OF_ONE, Offers
from sonify.web.sharing import COOKIE, LOOPBACK, Door

MADE = {"part": "The rain", "boxes": ["x. xx x. x."], "notes": [], "name": "Group 2's own pattern"}


class Room:
    """A teacher's computer and tablets around one server, without a network."""

    def __init__(self) -> None:
        self.door = Door("abcd2345")
        self.app = Starlette(routes=Offers(self.door.owner, self.door.is_at_home).routes())

    def ask(self, who: str, method: str, path: str, body: Any = None) -> tuple[int, Any]:
        address = LOOPBACK[0] if who == "teacher" else f"192.0.2.{who}"

        async def asked() -> httpx.Response:
            transport = httpx.ASGITransport(self.app, client=(address, 5000))
            async with httpx.AsyncClient(transport=transport, base_url="http://room", cookies={COOKIE: who}) as client:
                return await client.request(method, path, json=body)

        answer = anyio.run(asked)
        return answer.status_code, answer.json()

    def waiting(self) -> list[dict[str, Any]]:
        status, found = self.ask("teacher", "GET", "/api/offers")
        assert status == 200
        return list(found["offers"])


def test_two_tablets_each_send_one_and_the_teacher_takes_one_and_leaves_one() -> None:
    room = Room()
    assert room.ask("7", "POST", "/api/offer", MADE) == (200, {"sent": True})
    assert room.ask("8", "POST", "/api/offer", {**MADE, "boxes": ["xxxx", "x..."], "name": ""})[0] == 200
    one, other = room.waiting()
    assert (one["part"], one["boxes"], one["name"]) == ("The rain", ["x. xx x. x."], "Group 2's own pattern")
    assert (other["boxes"], other["name"]) == (["xxxx", "x..."], "")
    for offer in (one, other):
        room.ask("teacher", "POST", "/api/offers", {"id": offer["id"]})
    assert room.waiting() == []


def test_a_tablet_neither_sees_nor_settles_what_others_sent() -> None:
    room = Room()
    room.ask("7", "POST", "/api/offer", MADE)
    assert room.ask("8", "GET", "/api/offers")[0] == 403
    assert room.ask("8", "POST", "/api/offers", {"id": 1})[0] == 403
    assert len(room.waiting()) == 1


def test_one_tablet_that_sends_without_end_takes_no_others_place() -> None:
    room = Room()
    room.ask("8", "POST", "/api/offer", {**MADE, "name": "first"})
    for number in range(10):
        assert room.ask("7", "POST", "/api/offer", {**MADE, "name": f"try {number}"})[0] == 200
    assert [each["name"] for each in room.waiting()] == ["first", "try 7", "try 8", "try 9"]
    for number in range(MOST):
        last = room.ask(str(20 + number), "POST", "/api/offer", MADE)
    assert last[0] == 429 and len(room.waiting()) == MOST and MOST_OF_ONE < MOST


@pytest.mark.parametrize(
    "change",
    [
        *({"boxes": []}, {"boxes": ["...."]}, {"boxes": ["<b>"]}, {"boxes": ["x"] * 5}, {"boxes": "x"}, {"boxes": [1]}),
        *(
            {"boxes": ["x" * 5000]},
            {"notes": ["H9"]},
            {"notes": "C4"},
            {"name": "a\nb\x07"},
            {"name": 7},
            {"part": None},
        ),
    ],
)
def test_whatever_else_is_sent_is_refused_and_nothing_of_it_waits(change: dict[str, Any]) -> None:
    room = Room()
    assert room.ask("7", "POST", "/api/offer", {**MADE, **change})[0] == 400
    assert room.waiting() == []
