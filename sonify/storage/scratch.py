"""Temporary folders that only this user can read, and that go with their process.

A marker file in each, locked as long as its process runs, tells the next process which were left by one that was
killed: the system lets the lock go with its process, whatever the name or the process number.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from sonify.storage.workshop import locked

MARKER = "sonify-serves-from-here"
_WORDS = b"A running sonify holds the lock of this file.\n"


@contextmanager
def scratch_folder(prefix: str) -> Iterator[Path]:
    """A new folder whose name begins so, removed at the end; first those go that killed processes left.

    Raises OSError where it cannot be had.
    """
    sweep(Path(tempfile.gettempdir()), prefix)
    folder = Path(tempfile.mkdtemp(prefix=prefix))
    marker = marked(folder)
    try:
        yield folder
    finally:
        os.close(marker)  # first: an open file cannot be removed on Windows
        shutil.rmtree(folder, ignore_errors=True)


def marked(folder: Path) -> int:
    """A marker in a folder, its lock taken before its words are written: one without words is nobody's yet."""
    marker = os.open(folder / MARKER, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600)
    locked(marker)
    os.write(marker, _WORDS)
    return marker


def sweep(place: Path, prefix: str) -> None:
    """Remove folders of processes that are gone: this user's own, with a marker that nobody holds."""
    with os.scandir(place) as entries:
        ours = [Path(entry.path) for entry in entries if entry.name.startswith(prefix) and _is_ours(Path(entry.path))]
    for folder in ours:
        if _is_left(folder):
            shutil.rmtree(folder, ignore_errors=True)


def _is_ours(folder: Path) -> bool:
    try:
        found = folder.lstat()
    except OSError:
        return False
    owned = not hasattr(os, "getuid") or found.st_uid == os.getuid()
    return owned and not folder.is_symlink() and folder.is_dir()


def _is_left(folder: Path) -> bool:
    """Whether a process was here and none is."""
    try:
        marker = os.open(folder / MARKER, os.O_RDWR | getattr(os, "O_NOFOLLOW", 0))
    except OSError:
        return False
    try:
        with suppress(OSError):
            return locked(marker) is True and os.read(marker, len(_WORDS) + 1) == _WORDS
        return False
    finally:
        os.close(marker)
