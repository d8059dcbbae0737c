"""Sweeping up after a server that was killed removes its folder, and nothing else."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from sonify.web.scratch import PREFIX, sweep


def test_only_folders_of_servers_that_are_gone_go(tmp_path: Path) -> None:
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    dead, elsewhere = tmp_path / f"{PREFIX}{gone.pid}-abc", tmp_path / "elsewhere"
    dead.mkdir()
    (dead / "pack.zip").write_bytes(b"x")
    elsewhere.mkdir()
    (elsewhere / "precious").write_bytes(b"x")
    link = tmp_path / f"{PREFIX}{gone.pid}-link"
    link.symlink_to(elsewhere, target_is_directory=True)
    alive, other = tmp_path / f"{PREFIX}{os.getpid()}-abc", tmp_path / f"{PREFIX}notes-abc"
    for folder in (alive, other):
        folder.mkdir()
    file = tmp_path / f"{PREFIX}{gone.pid}-file"
    file.write_bytes(b"x")
    sweep(tmp_path)
    assert not dead.exists()
    assert (elsewhere / "precious").exists()
    assert alive.exists() and other.exists() and file.exists()
