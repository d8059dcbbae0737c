"""Who of a network is let in: nobody without the code, each browser once, and nobody who guesses."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from sonify.web import sharing
from sonify.web.errors import Refused
from sonify.web.safety import Guard
from sonify.web.sharing import ALPHABET, COOKIE, LENGTH, Door, marked, new_code, printed_code
from tests.web.running import HARBOUR, server

HOST = "192.0.2.7:8765"


def asked(address: str, cookie: str = "") -> Request:
    headers = [(b"cookie", f"{COOKIE}={cookie}".encode())] if cookie else []
    return Request({"type": "http", "client": (address, 5), "headers": headers, "method": "GET", "path": "/"})


def test_codes_are_drawn_anew_and_easy_to_read() -> None:
    codes = {new_code() for _ in range(200)}
    assert len(codes) == 200
    assert all(len(code) == LENGTH and set(code) <= set(ALPHABET) for code in codes)
    assert not set("il1o0") & set(ALPHABET)


def test_without_a_code_everybody_who_reaches_it_is_in() -> None:
    assert Door().is_open(asked("127.0.0.1"))


def test_the_code_gives_each_browser_its_own_cookie() -> None:
    door = Door("abcd2345")
    pupil = asked("192.0.2.20")
    assert not door.is_open(pupil)
    first, second = door.knock(pupil, "ABCD-2345"), door.knock(pupil, " abcd 2345 ")
    assert first != second
    assert door.is_open(asked("192.0.2.20", first))
    assert not door.is_open(asked("192.0.2.20", "guessed"))
    assert not door.is_open(asked("192.0.2.20", ""))
    assert door.is_open(asked("127.0.0.1"))  # the teacher at this machine


def test_wrong_codes_are_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    door, now = Door("abcd2345"), [1000.0]
    monkeypatch.setattr("sonify.web.sharing.time.monotonic", lambda: now[0])
    for _ in range(5):
        with pytest.raises(Refused, match="not the code"):
            door.knock(asked("192.0.2.20"), "zzzz9999")
    with pytest.raises(Refused, match="too many"):
        door.knock(asked("192.0.2.20"), "abcd2345")
    assert door.knock(asked("192.0.2.21"), "abcd2345")  # another pupil is not held up
    now[0] += 61.0
    assert door.knock(asked("192.0.2.20"), "abcd2345")


def test_guesses_from_everywhere_hold_up_nobody_else(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sharing, "MOST_ADDRESSES", 100)
    door = Door("abcd2345")
    for number in range(500):
        with pytest.raises(Refused, match="not the code"):
            door.knock(asked(f"198.51.{number // 250}.{number % 250}"), "wrong")
    assert door.knock(asked("192.0.2.200"), "abcd2345")
    assert len(door._wrong) <= 100


def test_a_cookie_counts_at_the_address_that_it_was_given_to() -> None:
    door = Door("abcd2345")
    cookie = door.knock(asked("192.0.2.20"), "abcd2345")
    assert door.is_open(asked("192.0.2.20", cookie))
    assert not door.is_open(asked("192.0.2.21", cookie))
    assert not door.is_open(asked("", ""))


@pytest.fixture
def pupil() -> Iterator[httpx.Client]:
    """A browser of the network at a guarded application, without a socket."""
    import anyio

    door = Door("abcd2345")

    async def inside(request: Request) -> Response:
        return JSONResponse({"inside": True})

    async def join(request: Request) -> Response:
        return marked(JSONResponse({}), door.knock(request, (await request.json())["code"]))

    routes = [Route("/", inside), Route("/api/plan", inside, methods=["POST"])]
    app = Guard(Starlette(routes=[*routes, Route("/api/join", join, methods=["POST"])]), [HOST], door)

    class Through(httpx.BaseTransport):
        def handle_request(self, request: httpx.Request) -> httpx.Response:
            async def sent() -> httpx.Response:
                transport = httpx.ASGITransport(app, client=("192.0.2.20", 5))
                inner = httpx.Request(request.method, request.url, headers=request.headers, content=request.read())
                answer = await transport.handle_async_request(inner)
                return httpx.Response(answer.status_code, headers=answer.headers, content=await answer.aread())

            return anyio.run(sent)

    with httpx.Client(transport=Through(), base_url=f"http://{HOST}", headers={"X-Sonify": "1"}) as client:
        yield client


def test_the_way_in(pupil: httpx.Client) -> None:
    before = pupil.get("/")
    assert before.status_code == 401
    assert "The code, please" in before.text
    assert "without encryption" in before.text and "keep the screen on" in before.text
    assert pupil.post("/api/plan", json={}).status_code == 401
    joined = pupil.post("/api/join", json={"code": "abcd-2345"})
    assert joined.status_code == 200
    assert pupil.get("/").json() == {"inside": True}
    assert pupil.post("/api/plan", json={}).json() == {"inside": True}
    assert pupil.get("/", headers={"Host": "evil.example"}).status_code == 403


def test_shared_for_real(tmp_path: Path) -> None:
    with server(tmp_path / "scratch", "--share") as running:
        said = "".join(running.said)
        assert "not encrypted" in said and "keep the screen on" in said
        found = re.search(r"Other machines: http://(\S+):\d+/  code (\w{4}-\w{4})", said)
        assert found
        address, code = found[1], found[2]
        with running.client() as teacher:
            assert teacher.post("/api/plan", json=HARBOUR).status_code == 200
            assert teacher.get("/api/start").json()["shared"] is True
        with httpx.Client(base_url=f"http://{address}:{running.port}", headers={"X-Sonify": "1"}, timeout=60) as other:
            try:
                first = other.get("/")
            except httpx.TransportError:
                pytest.skip("this machine has no network to share on")
            assert first.status_code == 401
            assert other.post("/api/join", json={"code": "wrong"}).status_code == 403
            assert other.post("/api/join", json={"code": code}).status_code == 200
            assert other.get("/").status_code == 200
            assert other.post("/api/plan", json=HARBOUR).status_code == 200


def test_not_shared_unless_asked(tmp_path: Path) -> None:
    with server(tmp_path / "scratch") as running:
        from sonify.web.serving import network_address

        address = network_address()
        if not address:
            pytest.skip("this machine has no network")
        with pytest.raises(httpx.ConnectError):
            httpx.get(f"http://{address}:{running.port}/", timeout=5)


def test_a_code_as_it_is_read_out() -> None:
    assert printed_code("abcd2345") == "abcd-2345"
