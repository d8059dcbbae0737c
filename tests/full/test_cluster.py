"""Many packs on a dask cluster of two worker processes, one of them killed in the middle, as it is typed.

pip install -e '.[cluster]' && python -m pytest tests/full/test_cluster.py
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

from sonify import lesson
from sonify.batch.ledger import NAME
from sonify.storage.pack import facts_of, whole

pytest.importorskip("distributed")

ROOT = Path(__file__).resolve().parent.parent.parent
LONGEST_S = 300.0
TYPED = [sys.executable, "-m", "sonify", "make", "two-cups", "own/windowsill é.toml", "--classes", "rooms"]


class LocalCluster:
    """A scheduler and two workers, each a process of its own that can be killed."""

    def __init__(self, folder: Path, running: ExitStack) -> None:
        self.folder, self.running = folder, running
        told = folder / "scheduler.json"
        self.scheduler = self.start("scheduler", "--host", "127.0.0.1", "--port", "0", "--scheduler-file", str(told))
        wait_for(told.is_file)
        self.address = str(json.loads(told.read_text(encoding="utf-8"))["address"])
        self.workers = [
            self.start("worker", self.address, "--nthreads", "1", "--no-nanny", "--local-directory", str(folder / name))
            for name in ("one", "two")
        ]

    def start(self, what: str, *words: str) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-m", f"distributed.cli.dask_{what}", "--no-dashboard", *words]
        with (self.folder / f"{what}.log").open("ab") as log:
            process = subprocess.Popen(command, cwd=self.folder, env=environment(), stdout=log, stderr=log)
        self.running.callback(process.wait)
        self.running.callback(process.kill)
        return process


def environment() -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(ROOT)}


def wait_for(there: object) -> None:
    until = time.monotonic() + LONGEST_S
    while not there():  # type: ignore[operator]
        assert time.monotonic() < until, "it did not come to that"
        time.sleep(0.05)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """Two classes, and a scene of a person's own with a table beside it."""
    for name in ("rooms", "own", "cluster"):
        (tmp_path / name).mkdir()
    shutil.copy(ROOT / "examples/few-instruments.toml", tmp_path / "rooms/4B Übung.toml")
    shutil.copy(ROOT / "examples/well-stocked.toml", tmp_path / "rooms/5A.toml")
    shutil.copy(ROOT / "scenes/stretch-test.toml", tmp_path / "own/windowsill é.toml")
    shutil.copy(ROOT / "scenes/stretch-test.csv", tmp_path / "own/stretch-test.csv")
    return tmp_path


@pytest.fixture
def cluster(tmp_path_factory: pytest.TempPathFactory) -> Iterator[LocalCluster]:
    with ExitStack() as running:
        yield LocalCluster(tmp_path_factory.mktemp("cluster"), running)


def manifests(out: Path) -> dict[str, int]:
    """Each whole pack, and when it was made."""
    found = [path.parent for path in out.glob("[!.]*/[!.]*/pack.json")]
    return {pack.relative_to(out).as_posix(): (pack / "pack.json").stat().st_mtime_ns for pack in found if whole(pack)}


def test_one_of_two_workers_killed_in_the_middle_and_then_the_scheduler(
    place: Path, cluster: LocalCluster, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = place / "packs"
    typed = [*TYPED, "--out", "packs", "--no-stems", "--scheduler", cluster.address]
    run = subprocess.Popen(typed, cwd=place, env=environment(), stderr=subprocess.PIPE)
    wait_for(lambda: manifests(out))
    cluster.workers[0].send_signal(signal.SIGKILL)
    wait_for(lambda: len(manifests(out)) > 1)
    stood = manifests(out)
    cluster.scheduler.send_signal(signal.SIGKILL)
    assert run.stderr is not None
    told = run.stderr.read().decode()
    assert run.wait(LONGEST_S) == 2 and "no longer answers" in told and "Traceback" not in told
    stood |= manifests(out)
    with ExitStack() as running:
        typed[-1] = LocalCluster(place / "cluster", running).address
        done = subprocess.run(typed, cwd=place, env=environment(), capture_output=True, check=False)
        assert done.returncode == 0, done.stderr.decode()
    now = manifests(out)
    assert len(now) == 4 and now | stood == now  # nothing missing, nothing twice
    times = sqlite3.connect(out / NAME).execute("SELECT folder, state, times FROM packs").fetchall()
    assert sorted(times) == [(folder, "made", 1) for folder in sorted(now)]
    assert list(out.rglob(".sonify*")) == []
    monkeypatch.chdir(place)
    for scene, name in (("own/windowsill é.toml", "windowsill é"), ("two-cups", "two-cups")):
        alone = lesson.make(scene, "rooms/4B Übung.toml", out=f"alone {name}", wishes=lesson.Wishes(stems=False))
        assert facts_of(alone) == facts_of(out / name / "4B Übung")
