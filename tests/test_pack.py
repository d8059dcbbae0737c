"""A pack is written whole or not at all, and never over somebody's own work."""

from __future__ import annotations

import hashlib
import json
import os
import signal
import subprocess
import sys
import textwrap
import time
from pathlib import Path

import pytest

from sonify.errors import PackInTheWay, SonifyError
from sonify.storage import workshop
from sonify.storage.pack import MANIFEST, building


def make(out: Path, text: str = "one", *, replace: bool = False) -> None:
    with building(out, {"seed": 0}, replace=replace) as work:
        (work / "stems").mkdir()
        (work / "page.html").write_text(text, encoding="utf-8")
        (work / "stems" / "a.wav").write_bytes(b"\x00\x01")


def leftovers(folder: Path) -> list[str]:
    return [p.name for p in folder.iterdir() if p.name.startswith(".")]


def test_the_manifest_gives_the_digest_of_every_file(tmp_path: Path) -> None:
    make(tmp_path / "pack")
    manifest = json.loads((tmp_path / "pack" / MANIFEST).read_text(encoding="utf-8"))
    # hashlib on the bytes as read back: SHA-256 is FIPS 180-4
    assert manifest["files"] == {
        "page.html": hashlib.sha256(b"one").hexdigest(),
        "stems/a.wav": hashlib.sha256(b"\x00\x01").hexdigest(),
    }
    assert leftovers(tmp_path) == []


def test_a_pack_made_again_replaces_the_old_one(tmp_path: Path) -> None:
    make(tmp_path / "pack", "one")
    make(tmp_path / "pack", "two")
    assert (tmp_path / "pack" / "page.html").read_text(encoding="utf-8") == "two"
    assert leftovers(tmp_path) == []


def test_a_changed_and_an_added_file_are_both_named_and_kept(tmp_path: Path) -> None:
    out = tmp_path / "pack"
    make(out)
    (out / "page.html").write_text("mine", encoding="utf-8")
    (out / "notes.txt").write_text("mine too", encoding="utf-8")
    with pytest.raises(PackInTheWay, match=r"page.html \(changed\), notes.txt \(added\).*--replace"):
        make(out, "two")
    assert (out / "page.html").read_text(encoding="utf-8") == "mine"


def test_replace_overwrites_changed_files_and_keeps_added_ones(tmp_path: Path) -> None:
    out = tmp_path / "pack"
    make(out)
    (out / "page.html").write_text("mine", encoding="utf-8")
    (out / "extra").mkdir()
    (out / "extra" / "notes.txt").write_text("mine too", encoding="utf-8")
    make(out, "two", replace=True)
    assert (out / "page.html").read_text(encoding="utf-8") == "two"
    assert (out / "extra" / "notes.txt").read_text(encoding="utf-8") == "mine too"


def test_a_file_changed_while_the_pack_was_being_made_is_not_lost(tmp_path: Path) -> None:
    out = tmp_path / "pack"
    make(out)
    with pytest.raises(PackInTheWay, match="page.html"), building(out, {}) as work:
        (work / "page.html").write_text("two", encoding="utf-8")
        (out / "page.html").write_text("mine", encoding="utf-8")
    assert (out / "page.html").read_text(encoding="utf-8") == "mine"
    assert leftovers(tmp_path) == []


@pytest.mark.parametrize("replace", [False, True])
def test_a_folder_that_is_no_pack_is_refused_even_with_replace(tmp_path: Path, replace: bool) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "a.jpg").write_bytes(b"x")
    with pytest.raises(PackInTheWay, match="no lesson pack"):
        make(tmp_path / "photos", replace=replace)


def test_a_file_in_the_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "pack").write_text("x", encoding="utf-8")
    with pytest.raises(PackInTheWay, match="is a file"):
        make(tmp_path / "pack")


def test_an_error_leaves_what_was_there_and_no_new_folders(tmp_path: Path) -> None:
    make(tmp_path / "pack")
    for out in (tmp_path / "pack", tmp_path / "new" / "deep" / "pack"):
        with pytest.raises(ZeroDivisionError), building(out, {}) as work:
            (work / "page.html").write_text("half", encoding="utf-8")
            _ = 1 / 0
    assert (tmp_path / "pack" / "page.html").read_text(encoding="utf-8") == "one"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["pack"]


def test_a_full_disk_is_one_clear_message(tmp_path: Path) -> None:
    with pytest.raises(SonifyError, match="could not be written: No space left"), building(tmp_path / "pack", {}):
        raise OSError(28, "No space left on device")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_renamed_asks_to_close_the_viewer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on Windows: there is no exchange, and a folder with an open file in it cannot be renamed."""
    out = tmp_path / "pack"
    make(out)
    real = os.rename

    def held_open(path: Path, target: Path) -> None:
        if path == out:
            raise PermissionError(13, "Access is denied")
        real(path, target)

    monkeypatch.setattr(workshop, "exchanged", lambda one, other: False)
    monkeypatch.setattr(os, "rename", held_open)
    with pytest.raises(SonifyError, match="open in another program"):
        make(out, "two")
    assert (out / "page.html").read_text(encoding="utf-8") == "one"
    assert leftovers(tmp_path) == []


@pytest.mark.skipif(os.name == "nt", reason="POSIX signals")
def test_a_make_killed_halfway_leaves_the_old_pack_and_the_next_start_clears_up(tmp_path: Path) -> None:
    out = tmp_path / "pack"
    make(out)
    script = textwrap.dedent("""
        import sys, time
        from pathlib import Path
        from sonify.storage.pack import building
        with building(Path(sys.argv[1]), {}) as work:
            (work / "page.html").write_text("half")
            print("ready", flush=True)
            time.sleep(60)
    """)
    with subprocess.Popen([sys.executable, "-c", script, str(out)], stdout=subprocess.PIPE) as child:
        assert child.stdout is not None and child.stdout.readline().strip() == b"ready"
        child.send_signal(signal.SIGKILL)
    assert (out / "page.html").read_text(encoding="utf-8") == "one"
    assert leftovers(tmp_path)
    time.sleep(0.05)
    make(out, "two")
    assert (out / "page.html").read_text(encoding="utf-8") == "two"
    assert leftovers(tmp_path) == []
