"""The server's temporary folder: packs while they are made and until they are fetched. Gone when the server is.

Its name carries the number of the server's process, so that a server that starts sweeps up after one that was killed.
"""

from __future__ import annotations

import os
import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from http import HTTPStatus
from pathlib import Path

from sonify.web.errors import Refused

PREFIX = "sonify-serve-"
SECONDS_A_DAY = 86_400.0


@contextmanager
def scratch_folder() -> Iterator[Path]:
    """A new folder that only this user can read, removed at the end."""
    sweep(Path(tempfile.gettempdir()))
    try:
        folder = Path(tempfile.mkdtemp(prefix=f"{PREFIX}{os.getpid()}-"))
    except OSError as error:
        message = f"there is no room for temporary files ({error.strerror}); free some space on the disk"
        raise Refused(HTTPStatus.INSUFFICIENT_STORAGE, message) from None
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def sweep(place: Path) -> None:
    """Remove folders of servers that are gone: this user's own, by their names."""
    for folder in place.glob(f"{PREFIX}*-*"):
        if _is_ours(folder) and not _is_running(folder):
            shutil.rmtree(folder, ignore_errors=True)


def _is_ours(folder: Path) -> bool:
    try:
        found = folder.lstat()
    except OSError:
        return False
    owned = not hasattr(os, "getuid") or found.st_uid == os.getuid()
    return owned and not folder.is_symlink() and folder.is_dir()


def _is_running(folder: Path) -> bool:
    """Whether the process in the folder's name lives. Windows cannot be asked safely: there, its age tells."""
    number = folder.name.removeprefix(PREFIX).partition("-")[0]
    if not number.isdecimal():
        return True  # not a name of ours
    if os.name == "nt":
        return time.time() - folder.stat().st_mtime < SECONDS_A_DAY
    try:
        os.kill(int(number), 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
