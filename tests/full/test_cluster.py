"""Many packs on a dask cluster of two worker processes, one of them killed in the middle, as it is typed.

pip install -e '.[cluster]' && python -m pytest tests/full/test_cluster.py
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from sonify import lesson
from sonify.storage.pack import facts_of, whole
from tests.batch.stubbed import lines
from tests.campaign.local_cluster import LocalCluster, wait_for

pytest.importorskip("distributed")

ROOT = Path(__file__).resolve().parent.parent.parent
TYPED = [sys.executable, "-m", "sonify", "make", "two-cups", "own/windowsill é.toml", "--classes", "rooms"]


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """Two classes, and a scene of a person's own with a table beside it."""
    for name in ("rooms", "own"):
        (tmp_path / name).mkdir()
    shutil.copy(ROOT / "examples/few-instruments.toml", tmp_path / "rooms/4B Übung.toml")
    shutil.copy(ROOT / "examples/well-stocked.toml", tmp_path / "rooms/5A.toml")
    shutil.copy(ROOT / "scenes/stretch-test.toml", tmp_path / "own/windowsill é.toml")
    shutil.copy(ROOT / "scenes/stretch-test.csv", tmp_path / "own/stretch-test.csv")
    return tmp_path


def manifests(out: Path) -> dict[str, int]:
    """Each whole pack, and when it was made."""
    found = [path.parent for path in out.glob("[!.]*/[!.]*/pack.json")]
    return {pack.relative_to(out).as_posix(): (pack / "pack.json").stat().st_mtime_ns for pack in found if whole(pack)}


def test_one_of_two_workers_killed_in_the_middle_and_then_the_scheduler(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out, env = place / "packs", {**os.environ, "PYTHONPATH": str(ROOT)}
    typed = [*TYPED, "--out", "packs", "--no-stems", "--scheduler"]
    with LocalCluster(place / "one") as cluster:
        run = subprocess.Popen([*typed, cluster.address], cwd=place, env=env, stderr=subprocess.PIPE)
        wait_for(lambda: manifests(out))
        cluster.workers[0].send_signal(signal.SIGKILL)
        wait_for(lambda: len(manifests(out)) > 1)
        stood = manifests(out)
        cluster.scheduler.send_signal(signal.SIGKILL)
        told = run.communicate()[1].decode()
        assert run.returncode == 2 and "no longer answers" in told and "Traceback" not in told
    stood |= manifests(out)
    with LocalCluster(place / "other") as cluster:
        done = subprocess.run([*typed, cluster.address], cwd=place, env=env, capture_output=True, check=False)
        assert done.returncode == 0, done.stderr.decode()
    now = manifests(out)
    assert len(now) == 4 and now | stood == now  # nothing missing, nothing twice
    assert lines(out, "folder, state, times") == [(folder, "made", 1) for folder in sorted(now)]
    assert list(out.rglob(".sonify*")) == []
    monkeypatch.chdir(place)
    for scene, name in (("own/windowsill é.toml", "windowsill é"), ("two-cups", "two-cups")):
        alone = lesson.make(scene, "rooms/4B Übung.toml", out=f"alone {name}", wishes=lesson.Wishes(stems=False))
        assert facts_of(alone) == facts_of(out / name / "4B Übung")
