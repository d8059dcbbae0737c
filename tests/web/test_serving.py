"""Starting and stopping, as the terminal shows it."""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import anyio
import httpx
import pytest
from starlette.applications import Starlette

from sonify import lesson
from sonify.errors import SonifyError
from sonify.web import app
from sonify.web.desk import Desk
from sonify.web.serving import bound_socket, own_names
from sonify.web.sharing import Door
from tests.signals import with_its_signals
from tests.web.running import server


def test_a_port_in_use_is_one_clear_message(tmp_path: Path) -> None:
    with bound_socket("127.0.0.1", 0) as taken:
        port = taken.getsockname()[1]
        found = subprocess.run(
            [sys.executable, "-m", "sonify", "serve", "--port", str(port), "--no-browser"],
            capture_output=True,
            text=True,
            cwd=tmp_path,
            timeout=60,
        )
    assert found.returncode == 2
    assert found.stdout == ""
    assert found.stderr.count("\n") == 1
    assert f"port {port} is in use" in found.stderr and "--port 0" in found.stderr


@pytest.mark.parametrize("port", [-1, 65_536])
def test_no_such_port(port: int) -> None:
    with pytest.raises(SonifyError, match="from 0 to 65535"):
        bound_socket("127.0.0.1", port)


def test_its_names_carry_the_port() -> None:
    assert own_names(8765) == ["127.0.0.1:8765", "localhost:8765", "[::1]:8765"]
    assert "localhost" in own_names(80)


@pytest.mark.parametrize("way", [signal.SIGINT, pytest.param(signal.SIGTERM, marks=pytest.mark.long)])
def test_it_stops_cleanly(tmp_path: Path, way: signal.Signals) -> None:
    with server(tmp_path / "scratch") as running:
        assert httpx.get(running.address, timeout=60).status_code == 200
        running.process.send_signal(way)
        assert running.process.wait(20) == 0
        assert running.process.stdout is not None
        assert running.process.stdout.read() == "Stopped.\n"
        assert running.folders() == []


def test_it_stops_while_it_still_draws_the_scenes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It waits for the one that is being drawn, and draws no other."""
    drawn: list[str] = []

    def slowly(desk: Desk, name: str) -> dict[str, Any]:
        drawn.append(name)
        time.sleep(0.2)
        return {}

    monkeypatch.setattr(app, "kept_row", slowly)

    async def life() -> None:
        server = app.Server(tmp_path, Door())
        async with server.life(Starlette()):
            await anyio.sleep(0.1)

    anyio.run(life)
    assert drawn == lesson.scene_names()[:1]


@pytest.mark.long
def test_a_browser_that_cannot_be_opened_is_no_error(tmp_path: Path) -> None:
    """BROWSER names a program that is not there, and one that fails."""
    for program in ("/nowhere/browser", "false"):
        found = subprocess.Popen(
            [sys.executable, "-m", "sonify", "serve", "--port", "0"],
            stdout=subprocess.PIPE,
            text=True,
            cwd=tmp_path,
            env={"PATH": "/usr/bin:/bin", "BROWSER": program, "HOME": str(tmp_path)},
            preexec_fn=with_its_signals,
        )
        assert found.stdout is not None
        line = found.stdout.readline()
        assert "classroom page is at" in line
        address = line.split()[5]
        for _ in range(50):
            try:
                assert httpx.get(address, timeout=30).status_code == 200
                break
            except httpx.TransportError:
                continue
        found.send_signal(signal.SIGINT)
        assert found.wait(20) == 0
        found.stdout.close()
