"""Sweeping up after a server that was killed removes its folder, and nothing else."""

from __future__ import annotations

import os
from pathlib import Path

from sonify.storage.scratch import MARKER, marked, sweep
from sonify.web.serving import PREFIX


def test_only_folders_of_servers_that_are_gone_go(tmp_path: Path) -> None:
    dead, alive, mine, empty, elsewhere = (
        tmp_path / name
        for name in (f"{PREFIX}abc", f"{PREFIX}def", f"{PREFIX}99999-plans", f"{PREFIX}ghi", "elsewhere")
    )
    for folder in (dead, alive, mine, empty, elsewhere):
        folder.mkdir()
        (folder / "precious").write_bytes(b"x")
    os.close(marked(dead))
    os.close(marked(elsewhere))
    held = marked(alive)
    (empty / MARKER).touch()  # a server that is just starting has not written its words yet
    link = tmp_path / f"{PREFIX}link"
    link.symlink_to(elsewhere, target_is_directory=True)
    file = tmp_path / f"{PREFIX}file"
    file.write_bytes(b"x")
    try:
        sweep(tmp_path, PREFIX)
    finally:
        os.close(held)
    assert not dead.exists()
    assert all((folder / "precious").exists() for folder in (alive, mine, empty, elsewhere))
    assert file.exists() and link.is_symlink()
