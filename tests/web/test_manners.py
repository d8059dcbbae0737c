"""Who is served when many ask, and which connections are let go: no one browser or address holds up the others."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack

import anyio
import pytest
import uvicorn
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from sonify.web import connections
from sonify.web.connections import patient
from sonify.web.turns import ASKING, Turns

HEAD = b"GET / HTTP/1.1\r\nHost: x\r\n"


def served(asked: list[tuple[str, int]]) -> list[tuple[str, int]]:
    """The order in which requests are served, one at a time, that all wait before the first is done."""
    order: list[tuple[str, int]] = []

    async def ask(turns: Turns, browser: str, number: int) -> None:
        ASKING.set(browser)
        await turns.run(lambda: order.append((browser, number)))

    async def all_of_them() -> None:
        turns, gate = Turns(1), threading.Event()
        async with anyio.create_task_group() as group:
            group.start_soon(turns.run, gate.wait)
            for browser, number in asked:
                await anyio.sleep(0)
                group.start_soon(ask, turns, browser, number)
            await anyio.sleep(0.05)
            gate.set()

    anyio.run(all_of_them)
    return order


def test_browsers_take_turns_however_much_one_of_them_asks() -> None:
    greedy = [("greedy", number) for number in range(5)]
    assert served([*greedy, ("b", 0), ("c", 0), ("b", 1)]) == [
        ("greedy", 0),
        ("b", 0),
        ("c", 0),
        ("greedy", 1),
        ("b", 1),
        *greedy[2:],
    ]


def test_who_stops_waiting_or_fails_gives_its_turn_on() -> None:
    done: list[str] = []

    async def all_of_them() -> None:
        turns, gate = Turns(2), threading.Event()
        async with anyio.create_task_group() as group:
            group.start_soon(turns.run, gate.wait)
            group.start_soon(turns.run, gate.wait)
            await anyio.sleep(0.02)
            with anyio.move_on_after(0.02):
                await turns.run(lambda: done.append("given up"))
            gate.set()
        with pytest.raises(ZeroDivisionError):
            await turns.run(lambda: 1 / 0)
        with anyio.fail_after(5):
            for number in range(3):
                await turns.run(lambda number=number: done.append(f"{number}"))

    anyio.run(all_of_them)
    assert done == ["0", "1", "2"]


@pytest.fixture
def port(monkeypatch: pytest.MonkeyPatch) -> Iterator[int]:
    """A server of one word that waits a moment for heads and has room for few."""
    monkeypatch.setattr(connections, "HEAD_S", 0.4)
    monkeypatch.setattr(connections, "MOST_OF_ONE", 4)
    monkeypatch.setattr(connections, "MOST_IN_ALL", 6)

    async def word(request: Request) -> Response:
        return PlainTextResponse(f"yes {len(await request.body())}")

    app = Starlette(routes=[Route("/", word, methods=["GET", "POST"])])
    server = uvicorn.Server(uvicorn.Config(app, log_level="critical", http=patient))  # type: ignore[arg-type]
    with socket.create_server(("127.0.0.1", 0)) as sock:
        thread = threading.Thread(target=server.run, kwargs={"sockets": [sock]})
        thread.start()
        try:
            yield sock.getsockname()[1]
        finally:
            server.should_exit = True
            thread.join(10)


def connected(port: int, address: str = "127.0.0.1") -> socket.socket:
    """A connection from an address of this machine."""
    return socket.create_connection(("127.0.0.1", port), timeout=5, source_address=(address, 0))


def answered(line: socket.socket) -> bool:
    line.sendall(HEAD + b"\r\n")
    return b"yes 0" in said(line)


def said(line: socket.socket) -> bytes:
    """An answer with its body, or what came until the line was closed."""
    found = b""
    while b"yes" not in found and (more := line.recv(1000)):
        found += more
    return found


def is_closed(line: socket.socket) -> bool:
    try:
        return line.recv(1000) == b""
    except ConnectionResetError:
        return True


def test_idle_connections_of_an_address_make_room_for_its_next(port: int) -> None:
    with ExitStack() as stack:
        first = stack.enter_context(connected(port))
        assert answered(first)
        working = stack.enter_context(connected(port))
        working.sendall(HEAD.replace(b"GET", b"POST") + b"Content-Length: 5\r\n\r\nab")
        time.sleep(0.1)  # until it was read
        for _ in range(6):
            stack.enter_context(connected(port))
        assert answered(stack.enter_context(connected(port)))
        assert is_closed(first)
        working.sendall(b"cde")
        assert b"yes 5" in said(working), "a request under way is never cut off"


def test_one_address_cannot_take_all_there_is(port: int) -> None:
    with ExitStack() as stack:
        for number in range(8):
            stack.enter_context(connected(port, f"127.0.0.{2 + number % 2}"))
        assert answered(stack.enter_context(connected(port, "127.0.0.9")))


@pytest.mark.parametrize("sent", [b"", HEAD], ids=["nothing", "half a head"])
def test_a_head_that_does_not_come_is_not_waited_for(port: int, sent: bytes) -> None:
    with connected(port) as halting, connected(port) as steady:
        assert answered(steady)
        begun = time.monotonic()
        halting.sendall(sent)
        assert is_closed(halting)
        assert 0.2 < time.monotonic() - begun < 4.0
        assert answered(steady), "a browser that was answered may ask again later"
