"""Where a parcel is unpacked: a folder that goes with it, for it holds a class's file, which says what pupils need."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from sonify.storage.workshop import locked

PREFIX, HELD = "sonify-parcel-", "held"


@contextmanager
def lodging() -> Iterator[Path]:
    """A folder of our own, cleared away at the end; so is, first, whatever a process that was killed left of its own.

    While a folder is in use a file in it is locked, which the system lets go with its process.
    """
    for folder in Path(tempfile.gettempdir()).glob(f"{PREFIX}*"):
        _clear(folder)
    folder, lock = _held()
    try:
        yield folder
    finally:
        os.close(lock)
        shutil.rmtree(folder, ignore_errors=True)


def _held() -> tuple[Path, int]:
    """A new folder, and its lock: another process may have cleared it away before that was ours."""
    while True:
        folder = Path(tempfile.mkdtemp(prefix=PREFIX))
        with suppress(FileNotFoundError):
            lock = os.open(folder / HELD, os.O_RDWR | os.O_CREAT, 0o600)
            if locked(lock) is not False and (folder / HELD).exists():
                return folder, lock
            os.close(lock)


def _clear(folder: Path) -> None:
    """Remove a folder whose process is gone. What is somebody else's, or cannot be told, stays."""
    with suppress(OSError):
        lock = os.open(folder / HELD, os.O_RDWR)
        try:
            gone = locked(lock) is True
            if gone:
                shutil.rmtree(folder, ignore_errors=True)
        finally:
            os.close(lock)
        if gone:
            shutil.rmtree(folder, ignore_errors=True)  # where a file that is open cannot be removed
