"""A full disk, a place that cannot be written, Ctrl-C and a reader that goes away: one message, and no half file."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.cli.test_commands import SCENE, refused, sonify
from tests.signals import with_its_signals

#: Run with every file held to half a megabyte: what a full disk does to a writer, for one process.
CRAMPED = """
import resource, sys
resource.setrlimit(resource.RLIMIT_FSIZE, (500_000, 500_000))
sys.argv = ["sonify", *sys.argv[1:]]
from sonify.cli import main
main()
"""


def long_scene(folder: Path, length: str) -> None:
    text, count = re.subn(r"(?m)^length .*", f'length = "{length}"', SCENE)
    assert count == 1
    (folder / "long.toml").write_text(text, encoding="utf-8")


def left_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.mark.skipif(sys.platform == "win32", reason="resource limits are POSIX")
@pytest.mark.parametrize("command", [("make", "harbour-water-cycle"), ("sounds", "--out", "sounds.wav")])
def test_a_full_disk_gets_one_message_and_leaves_nothing(tmp_path: Path, command: tuple[str, ...]) -> None:
    (tmp_path / "here").mkdir()
    (tmp_path / "scratch").mkdir()
    result = subprocess.run(
        [sys.executable, "-c", CRAMPED, *command],
        cwd=tmp_path / "here",
        env={**os.environ, "TMPDIR": str(tmp_path / "scratch")},
        capture_output=True,
        encoding="utf-8",
        timeout=240,
        check=False,
    )
    assert re.search(r"(could not|cannot) be written: File too large", refused(result))
    assert left_in(tmp_path / "here") == left_in(tmp_path / "scratch") == []


def test_a_place_below_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")
    assert "notes.txt" in refused(sonify("make", "harbour-water-cycle", "--out", "notes.txt/pack", cwd=tmp_path))
    assert "notes.txt" in refused(sonify("sounds", "--out", "notes.txt/sounds.wav", cwd=tmp_path))
    assert left_in(tmp_path) == ["notes.txt"]
    assert (tmp_path / "notes.txt").read_text(encoding="utf-8") == "mine"


@pytest.mark.skipif(sys.platform == "win32", reason="SIGINT goes to one process on POSIX only")
@pytest.mark.parametrize(
    "number",
    ["SIGINT", pytest.param("SIGTERM", marks=pytest.mark.long), pytest.param("SIGHUP", marks=pytest.mark.long)],
)
def test_ctrl_c_while_an_hour_is_recorded_stops_soon_and_leaves_nothing(tmp_path: Path, number: str) -> None:
    (tmp_path / "here").mkdir()
    (tmp_path / "scratch").mkdir()
    long_scene(tmp_path / "here", "60 min")
    with subprocess.Popen(
        [sys.executable, "-m", "sonify", "make", "long.toml", "--out", "pack"],
        cwd=tmp_path / "here",
        env={**os.environ, "TMPDIR": str(tmp_path / "scratch")},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        encoding="utf-8",
        preexec_fn=with_its_signals,
    ) as process:
        until = time.monotonic() + 120
        while not list((tmp_path / "here").glob(".sonify-*/new/soundscape.mid")):
            assert process.poll() is None and time.monotonic() < until
            time.sleep(0.05)
        process.send_signal(getattr(signal, number))
        _, told = process.communicate(timeout=60)  # an hour takes far longer to record
    assert process.returncode == 130
    assert told == "sonify: stopped; nothing was written\n"
    assert left_in(tmp_path / "here") == ["long.toml"]
    assert left_in(tmp_path / "scratch") == []


@pytest.mark.parametrize("command", [("scenes",), ("show", "two-cups")])
@pytest.mark.parametrize("unbuffered", ["1", ""])
def test_a_reader_that_goes_away_is_no_fault(tmp_path: Path, command: tuple[str, ...], unbuffered: str) -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "sonify", *command],
        cwd=tmp_path,
        env={**os.environ, "PYTHONUNBUFFERED": unbuffered},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        encoding="utf-8",
    ) as process:
        assert process.stdout and process.stderr
        process.stdout.close()
        told = process.stderr.read()
    assert (process.returncode, told) == (0, "")


def test_three_hours_are_refused_with_the_limit(tmp_path: Path) -> None:
    long_scene(tmp_path, "3 h")
    told = refused(sonify("make", "long.toml", "--out", "pack", cwd=tmp_path))
    assert "3 h" in told and "60 min" in told and re.search(r"long\.toml, line \d+", told)
    assert left_in(tmp_path) == ["long.toml"]


def test_an_unknown_group_or_format_is_told_the_allowed_ones(tmp_path: Path) -> None:
    told = refused(sonify("make", "harbour-water-cycle", "--audio", "aiff", cwd=tmp_path))
    assert '"aiff"' in told and "flac, mp3, ogg, wav24" in told
    told = refused(sonify("make", "harbour-water-cycle", "--without", "The sae", cwd=tmp_path))
    assert '"The sae"' in told and 'did you mean "The sea"' in told and "The rain" in told
    assert left_in(tmp_path) == []


@pytest.mark.skipif(sys.platform == "win32", reason="POSIX links and FIFOs")
def test_a_recording_touches_no_neighbour_follows_a_link_and_replaces_no_fifo(tmp_path: Path) -> None:
    from sonify.errors import SonifyError
    from sonify.lesson import write_wav
    from tests.sample import sample_score

    (tmp_path / ".a.wav.part").write_text("mine", encoding="utf-8")
    (tmp_path / "a.wav").symlink_to("behind.wav")
    write_wav(sample_score(), tmp_path / "a.wav")
    assert (tmp_path / ".a.wav.part").read_text(encoding="utf-8") == "mine"
    assert (tmp_path / "a.wav").is_symlink() and (tmp_path / "behind.wav").stat().st_size > 1_000_000
    os.mkfifo(tmp_path / "b.wav")
    with pytest.raises(SonifyError, match="is no file"):
        write_wav(sample_score(), tmp_path / "b.wav")
    assert left_in(tmp_path) == [".a.wav.part", "a.wav", "b.wav", "behind.wav"]
