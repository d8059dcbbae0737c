"""A class set of tablets: many browsers at once, each answered with its own, and nothing mixed up."""

from __future__ import annotations

import socket
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import httpx
import pytest

from tests.web.running import HARBOUR, Running, server


def degrees(number: int) -> int:
    return 12 + number % 10


def one_browser(running: Running, number: int) -> dict[str, Any]:
    """A first visit, a change, and the lesson with its sounds."""
    inputs = {**HARBOUR, "set": {"sea_temperature": f"{degrees(number)} degC"}}
    with httpx.Client(base_url=running.address, headers={"X-Sonify": "1"}, timeout=300) as client:
        front = client.get("/")
        assert front.status_code == 200
        plan = client.post("/api/plan", json=inputs)
        assert plan.status_code == 200, plan.text
        key = client.post("/api/lesson", json=HARBOUR).json()["key"]
        sounds = client.get(f"/lesson/{key}/sounds")
        assert sounds.status_code == 200
        found: dict[str, Any] = {
            **plan.json(),
            "sounds": len(sounds.content),
            "cookie": client.cookies["sonify-browser"],
        }
        return found


@pytest.mark.parametrize("browsers", [6, pytest.param(30, marks=pytest.mark.long)])
def test_many_browsers_at_once(tmp_path: Path, browsers: int) -> None:
    with server(tmp_path / "scratch") as running:
        with ThreadPoolExecutor(browsers) as pool:
            found = list(pool.map(lambda number: one_browser(running, number), range(browsers)))
        for number, plan in enumerate(found):
            row = next(row for row in plan["conditions"] if row["name"] == "sea_temperature")
            assert row["text"] == f"{degrees(number)} degC"
            assert f'sea_temperature = "{degrees(number)} degC"' in plan["scene_toml"]
        assert len({plan["cookie"] for plan in found}) == browsers
        assert len({plan["sounds"] for plan in found}) == 1
        assert len({plan["key"] for plan in found}) == min(browsers, 10)
        with running.client() as client:
            assert client.post("/api/plan", json=HARBOUR).status_code == 200


def test_a_slow_request_does_not_hold_up_another(running: Running) -> None:
    """While a body trickles in, others are answered."""
    head = (
        f"POST /api/plan HTTP/1.1\r\nHost: 127.0.0.1:{running.port}\r\nX-Sonify: 1\r\n"
        "Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n{"
    )
    with socket.create_connection(("127.0.0.1", running.port)) as slow, running.client() as client:
        slow.sendall(head.encode())
        assert client.get("/api/start").status_code == 200
        assert client.post("/api/plan", json=HARBOUR).status_code == 200
