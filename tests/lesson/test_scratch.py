"""Scratch space and half-written files: gone on any exit, whatever stops a recording in the middle."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

import pytest

from sonify import recording
from sonify.errors import SonifyError
from sonify.recording import rendered, second_core, write_wav
from tests.sound.recording import brief_score

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def scratch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of its own for all temporary files."""
    folder = tmp_path / "scratch"
    folder.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(folder))
    return folder


def open_in(folder: Path) -> list[str]:
    """What this process still holds open in a folder, by name or already without one (Linux tells; others: nothing)."""
    links = Path("/proc/self/fd")
    if not links.is_dir():
        return []
    targets = []
    for link in links.iterdir():
        try:
            targets.append(os.readlink(link))
        except FileNotFoundError:  # the one that lists them
            continue
    return [target for target in targets if target.startswith(str(folder))]


class Stopped(Exception):
    pass


def stop(share: float) -> None:
    if share > 0.3:
        raise Stopped


def test_scratch_is_held_while_it_is_needed_and_then_gone(scratch: Path) -> None:
    with rendered(brief_score()) as rendering:
        assert rendering.scratch.seek(0, 2) == 8 * rendering.frames
        assert not Path("/proc/self/fd").is_dir() or open_in(scratch)
    assert not list(scratch.iterdir()) and not open_in(scratch)


def test_an_error_in_mid_render_leaves_no_scratch(scratch: Path) -> None:
    with pytest.raises(Stopped), rendered(brief_score(), stop):
        pass
    assert not list(scratch.iterdir()) and not open_in(scratch)


def test_an_error_after_rendering_leaves_no_scratch(scratch: Path) -> None:
    with pytest.raises(Stopped), rendered(brief_score()):
        raise Stopped
    assert not list(scratch.iterdir()) and not open_in(scratch)


@pytest.mark.skipif(sys.platform != "linux", reason="only there a process can be asked for its children")
def test_the_hand_that_makes_stems_is_gone_with_the_recording(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(second_core, "can_help", lambda: True)
    told = Path(f"/proc/{os.getpid()}/task/{threading.get_native_id()}/children")
    before = told.read_text(encoding="ascii")
    with pytest.raises(Stopped), rendered(brief_score(), stems=True):
        assert told.read_text(encoding="ascii") != before
        raise Stopped
    assert told.read_text(encoding="ascii") == before


@pytest.mark.parametrize(
    ("stopped_by", "raised"),
    [(KeyboardInterrupt(), KeyboardInterrupt), (OSError(errno.ENOSPC, "No space left on device"), SonifyError)],
    ids=["Ctrl-C", "full disk"],
)
def test_no_half_file_is_left(
    stopped_by: BaseException,
    raised: type[BaseException],
    scratch: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*args: object, **options: object) -> None:
        assert list(tmp_path.glob(".sonify-*"))  # the folder in which half a file is at this moment
        raise stopped_by

    monkeypatch.setattr(recording, "write_rendering", fail)
    with pytest.raises(raised):
        write_wav(brief_score(), tmp_path / "x.wav")
    assert [path.name for path in tmp_path.iterdir()] == ["scratch"]
    assert not list(scratch.iterdir()) and not open_in(scratch)


@pytest.mark.skipif(os.name == "nt", reason="POSIX signals")
def test_a_killed_process_leaves_no_scratch(tmp_path: Path) -> None:
    script = (
        "import os, signal\n"
        "from sonify.recording import rendered\n"
        "from tests.sound.recording import brief_score\n"
        "with rendered(brief_score()) as rendering:\n"
        "    assert rendering.scratch.seek(0, 2)\n"
        "    os.kill(os.getpid(), signal.SIGKILL)\n"
    )
    env = {**os.environ, "TMPDIR": str(tmp_path), "PYTHONPATH": str(ROOT)}
    run = subprocess.run([sys.executable, "-c", script], cwd=ROOT, env=env, check=False)
    assert run.returncode == -signal.SIGKILL
    assert not list(tmp_path.iterdir())
