"""What is typed or lies on the disk in odd forms gets one message, and nothing that a terminal would obey."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path
from time import sleep

import pytest

from tests.cli.test_commands import SCENE, refused, sonify

POSIX = pytest.mark.skipif(os.name == "nt", reason="POSIX file names, pipes and devices")
ESCAPE, TURN = "\x1b[31m", "\u202e"


def test_a_seed_below_nought_is_refused_before_any_work(tmp_path: Path) -> None:
    for command in ("make", "show", "check"):
        told = refused(
            sonify(command, "no-such-scene" if command == "make" else "two-cups", "--seed", "-5", cwd=tmp_path)
        )
        assert "the seed is -5" in told
    assert list(tmp_path.iterdir()) == []


@pytest.mark.long
@POSIX
def test_names_that_are_not_utf_8_do_not_stop_a_command(tmp_path: Path) -> None:
    """As bytes: a file name on these systems may be any."""
    scene, room, out = (os.fsdecode(name) for name in (b"caf\xe9.toml", b"cl\xe4ss.toml", b"p\xe4ck"))
    (tmp_path / scene).write_text(SCENE, encoding="utf-8")
    (tmp_path / room).write_text("year = 4\npupils = 20\ngroups = 4\n", encoding="utf-8")
    done = sonify("make", scene, "--class", room, "--out", out, "--no-stems", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "The lesson pack is in p\\udce4ck" in done.stdout
    assert (tmp_path / out / "pack.json").is_file()
    for given in (b"sea_temperature=1\xe9 degC", b"s\xe9a=3 degC"):
        assert "--set" in refused(sonify("show", scene, "--set", os.fsdecode(given), cwd=tmp_path))


@POSIX
def test_readings_whose_name_no_scene_can_hold_are_refused(tmp_path: Path) -> None:
    name = os.fsdecode(b"caf\xe9.csv")
    (tmp_path / name).write_text("time (s),temp (degC)\n0,1\n1,2\n2,4\n3,5\n", encoding="utf-8")
    assert "rename it" in refused(sonify("measure", name, cwd=tmp_path))
    assert [p.name for p in tmp_path.iterdir()] == [name]


@POSIX
@pytest.mark.parametrize("command", [("show", "pipe.toml"), ("show", "two-cups", "--class", "pipe.toml")])
def test_a_pipe_in_the_place_of_a_file_is_not_waited_for(tmp_path: Path, command: tuple[str, ...]) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    assert "pipe.toml: this is no ordinary file" in refused(sonify(*command, cwd=tmp_path))


def test_very_long_names_get_one_message(tmp_path: Path) -> None:
    long = "n" * 300
    for args in (("show", long), ("show", f"{long}.toml"), ("make", "two-cups", "--class", long)):
        refused(sonify(*args, cwd=tmp_path))
    assert "cannot be" in refused(sonify("make", "two-cups", "--out", long, cwd=tmp_path))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_output_is_one_message(tmp_path: Path) -> None:
    with open("/dev/full", "w", encoding="utf-8") as full:
        done = subprocess.run(
            [sys.executable, "-m", "sonify", "scenes"],
            stdout=full,
            stderr=subprocess.PIPE,
            encoding="utf-8",
            cwd=tmp_path,
            check=False,
        )
    assert (done.returncode, done.stderr) == (2, "sonify: the output could not be written: No space left on device\n")


def test_no_escape_from_a_file_or_an_argument_reaches_the_terminal(tmp_path: Path) -> None:
    odd = SCENE.replace('title   = "', 'title   = "\\u202e', 1)
    odd, count = re.subn(r"(?m)^stages( *)= \[", r'stages\1= ["\\u001b[31mup\\u009b1A\\u0007", ', odd, count=1)
    assert count == 1
    (tmp_path / "odd.toml").write_text(SCENE.replace('title   = "', 'title   = "\\u202e', 1), encoding="utf-8")
    (tmp_path / "stages.toml").write_text(odd, encoding="utf-8")
    shown = sonify("show", "odd.toml", cwd=tmp_path)
    as_json = sonify("show", "odd.toml", "--json", cwd=tmp_path)
    stages = sonify("show", "stages.toml", cwd=tmp_path)
    unknown = sonify("show", f"{ESCAPE}x{TURN}", cwd=tmp_path)
    command = sonify(f"{ESCAPE}x", cwd=tmp_path)
    option = sonify("show", f"--{ESCAPE}x", cwd=tmp_path)
    extra = sonify("show", "two-cups", f"{ESCAPE}x", cwd=tmp_path)
    assert [r.returncode for r in (shown, as_json, stages, unknown, command, option, extra)] == [0, 0, 2, 2, 2, 2, 2]
    for done in (shown, as_json, stages, unknown, command, option, extra):
        text = done.stdout + done.stderr
        assert not set(text) & {"\x1b", "\x07", "\x9b", TURN}, text


def test_two_makes_into_one_folder_and_a_make_where_one_is(tmp_path: Path) -> None:
    """Both are told before any work, in words that fit."""
    (tmp_path / "pack").mkdir()
    told = refused(sonify("make", "two-cups", "--out", ".", cwd=tmp_path / "pack"))
    assert "the folder you are in" in told
    make = [sys.executable, "-m", "sonify", "make", "two-cups", "--no-stems", "--out", "pack"]
    with subprocess.Popen(make, cwd=tmp_path, stdout=subprocess.DEVNULL) as first:
        while not list(tmp_path.glob(".sonify-*/new")):
            assert first.poll() is None
            sleep(0.02)
        second = sonify("make", "two-cups", "--out", "pack", cwd=tmp_path)
    assert first.returncode == 0
    assert "another make is writing this folder" in refused(second)
    assert [p.name for p in tmp_path.iterdir()] == ["pack"]
