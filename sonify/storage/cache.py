"""What is slow to compute, kept between runs in the user's cache folder by its inputs. Losing it costs only time.

SONIFY_CACHE names another folder; set to nothing it turns the cache off.
"""

from __future__ import annotations

import hashlib
import os
import sys
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from sonify import __version__
from sonify.constants import DAY_S

#: The newest files kept; older ones go. A run of the particle box is about 5 MB.
KEPT = 20


def folder() -> Path | None:
    """Where results are kept, or None where they are not."""
    named = os.environ.get("SONIFY_CACHE")
    if named is not None:
        return Path(named) if named else None
    if sys.platform == "win32":
        base = Path(os.environ.get("LOCALAPPDATA", Path.home() / "AppData" / "Local"))
    elif sys.platform == "darwin":
        base = Path.home() / "Library" / "Caches"
    else:
        base = Path(os.environ.get("XDG_CACHE_HOME", Path.home() / ".cache"))
    return base / "sonify"


def remembered(key: str, compute: Callable[[], bytes], *, fresh: bool = False) -> bytes:
    """The bytes of an earlier `compute` under this key, else computed now and kept. fresh: compute in any case.

    A cache that cannot be read or written is no error.
    """
    place = folder()
    if place is None:
        return compute()
    file = place / _name(key)
    if not fresh:
        with suppress(OSError):
            return file.read_bytes()
    data = compute()
    with suppress(OSError):
        place.mkdir(parents=True, exist_ok=True)
        part = file.with_suffix(f".{os.getpid()}-{threading.get_ident()}.part")
        part.write_bytes(data)
        part.replace(file)
        _sweep(place)
    return data


def _sweep(place: Path) -> None:
    """Remove what is old, and what was half written when its process was killed."""
    for old in sorted(place.glob("*.bin"), key=lambda path: path.stat().st_mtime)[:-KEPT]:
        old.unlink(missing_ok=True)
    for part in place.glob("*.part"):
        with suppress(FileNotFoundError):  # another process writes, and has just finished
            if time.time() - part.stat().st_mtime > DAY_S:
                part.unlink()


def holds(key: str) -> bool:
    """Whether there is an earlier result under this key."""
    place = folder()
    return place is not None and (place / _name(key)).is_file()


def _name(key: str) -> str:
    return f"{hashlib.sha256(f'{__version__} {key}'.encode()).hexdigest()}.bin"
