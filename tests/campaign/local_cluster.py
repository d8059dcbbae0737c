"""A dask scheduler and its workers on this machine, each a process of its own that can be killed."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
LONGEST_S = 200.0
#: What a worker is told to read first where it is to make small packs by the stub.
STUBBED = """
from sonify.batch import far
from tests.batch.stubbed import COMMAND
far.made.__defaults__ = (COMMAND,)
"""


class LocalCluster:
    """The scheduler answers at `address`; two workers are there. Left, all have ended."""

    def __init__(self, folder: Path, *, stubbed: bool = False) -> None:
        folder.mkdir(exist_ok=True)
        self.folder, self._running, self._more = folder, ExitStack(), list[str]()
        if stubbed:
            (folder / "stub_first.py").write_text(STUBBED, encoding="utf-8")
            self._more = ["--preload", str(folder / "stub_first.py")]
        told = folder / "scheduler.json"
        self.scheduler = self._start("scheduler", "--host", "127.0.0.1", "--port", "0", "--scheduler-file", str(told))
        wait_for(lambda: told.is_file() and told.read_text(encoding="utf-8").endswith("}"))
        self.address = str(json.loads(told.read_text(encoding="utf-8"))["address"])
        self.workers = [self.worker(), self.worker()]

    def __enter__(self) -> LocalCluster:
        return self

    def __exit__(self, *_: object) -> None:
        self._running.close()

    def worker(self) -> subprocess.Popen[bytes]:
        """One more."""
        place = ["--local-directory", str(self.folder / "places")]
        return self._start("worker", self.address, "--nthreads", "1", "--no-nanny", *place, *self._more)

    def _start(self, what: str, *words: str) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-m", f"distributed.cli.dask_{what}", "--no-dashboard", *words]
        env = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])}
        with (self.folder / f"{what}.log").open("ab") as log:
            process = subprocess.Popen(command, cwd=self.folder, env=env, stdout=log, stderr=log)
        self._running.callback(process.wait)
        self._running.callback(process.kill)
        return process


def wait_for(there: Callable[[], object]) -> None:
    until = time.monotonic() + LONGEST_S
    while not there():
        assert time.monotonic() < until, "it did not come to that"
        time.sleep(0.05)
