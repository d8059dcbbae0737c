"""A real server, started as a teacher starts it, and a client that speaks as the page does."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx

from tests.signals import with_its_signals

PAGE = {"X-Sonify": "1"}
HARBOUR = {"scene": {"name": "harbour-water-cycle"}}
QUICK_PACK = {"stems": False}


@dataclass
class Running:
    process: subprocess.Popen[str]
    port: int
    said: list[str]
    scratch: Path

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def client(self) -> httpx.Client:
        return httpx.Client(base_url=self.address, headers=PAGE, timeout=120)

    def folders(self) -> list[Path]:
        """What the server has in its temporary folder."""
        return sorted(self.scratch.glob("sonify-serve-*"))


@contextmanager
def server(
    scratch: Path, *options: str, env: Mapping[str, str] | None = None, before: Callable[[], None] | None = None
) -> Iterator[Running]:
    """A server with a temporary folder of its own, stopped by Ctrl-C at the end, if it still runs."""
    scratch.mkdir(exist_ok=True)

    def started() -> None:
        with_its_signals()
        if before:
            before()

    process = subprocess.Popen(
        [sys.executable, "-m", "sonify", "serve", "--port", "0", "--no-browser", *options],
        stdout=subprocess.PIPE,
        text=True,
        cwd=scratch,
        env={
            **os.environ,
            "TMPDIR": str(scratch),
            "SONIFY_CACHE": str(scratch.parent.parent / "cache"),
            "SONIFY_SHELF": str(scratch / "kept"),
            **(env or {}),
        },
        preexec_fn=started,
    )
    assert process.stdout is not None
    said: list[str] = []
    try:
        while not any("classroom page is at" in line for line in said):
            line = process.stdout.readline()
            assert line, f"the server stopped: {said}"
            said.append(line)
        if "--share" in options:
            said += [process.stdout.readline() for _ in range(3)]
        found = re.search(r"127\.0\.0\.1:(\d+)", "".join(said))
        assert found
        running = Running(process=process, port=int(found[1]), said=said, scratch=scratch)
        until(lambda: _answers(running), 60)
        yield running
    finally:
        if process.poll() is None:
            process.send_signal(signal.SIGINT)
        process.wait(30)
        process.stdout.close()


def _answers(running: Running) -> bool:
    try:
        httpx.get(f"{running.address}/static/none", timeout=60)
    except httpx.TransportError:
        return False
    return True


def until(holds: Callable[[], bool], seconds: float) -> None:
    """Wait until something holds."""
    end = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < end, "it never came"
        time.sleep(0.05)


def pack_state(client: httpx.Client, job: str) -> dict[str, Any]:
    found: dict[str, Any] = client.get(f"/api/pack/{job}").raise_for_status().json()
    return found


def finished(client: httpx.Client, job: str, seconds: float = 240) -> dict[str, Any]:
    """The state of a job when it is over."""
    until(lambda: pack_state(client, job)["state"] not in ("queued", "making"), seconds)
    return pack_state(client, job)
