"""Starting and stopping, as the terminal shows it."""

from __future__ import annotations

import signal
import subprocess
import sys
from pathlib import Path

import httpx
import pytest

from sonify.errors import SonifyError
from sonify.web.serving import bound_socket, own_names
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
