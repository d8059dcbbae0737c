"""What is slow to compute, kept between runs in the user's cache folder by its inputs. Losing it costs only time.

An entry is named by the digest of what went into it: the code, the versions of what the code rests on, and the key. It
begins with the digest of what it holds, so that a damaged one is computed anew. The folder may be deleted at any
moment; it is kept below LIMIT_BYTES, what was asked for least lately goes first. Of several processes that want the
same thing at once, one computes it and the others wait.

SONIFY_CACHE names another folder; set to nothing it turns the cache off.
"""

from __future__ import annotations

import hashlib
import os
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from sonify.constants import DAY_S
from sonify.storage.toolkit import stamp
from sonify.storage.workshop import locked

#: The folder's size: a run of the particle box is about 5 MB, the strokes of a well-stocked cupboard 100 MB.
LIMIT_BYTES = 1_000_000_000
#: The folder is looked through when a process has first written to it, and after so many bytes more.
SWEEP_AFTER_BYTES = 50_000_000
#: How long another process is waited for that computes the same; longer, and it is computed here as well.
PATIENCE_S, PAUSE_S = 300.0, 0.05
DIGEST_BYTES = hashlib.sha256().digest_size

_unswept = SWEEP_AFTER_BYTES


def folder() -> Path | None:
    """Where results are kept, or None where they are not."""
    named = os.environ.get("SONIFY_CACHE")
    if named is not None:
        return Path(named) if named else None
    home = Path(os.path.expanduser("~"))  # "~" itself for an account that has none
    if sys.platform == "win32":
        base = Path(os.environ.get("LOCALAPPDATA", home / "AppData" / "Local"))
    elif sys.platform == "darwin":
        base = home / "Library" / "Caches"
    else:
        base = Path(os.environ.get("XDG_CACHE_HOME", home / ".cache"))
    return base / "sonify" if base.is_absolute() else None


def remembered(
    key: str,
    compute: Callable[[], bytes],
    *,
    fresh: bool = False,
    alone: bool = True,
    place: Path | None = None,
    limit_bytes: int | None = None,
) -> bytes:
    """The bytes of an earlier `compute` under this key, else computed now and kept. fresh: compute in any case.

    alone: where another process computes the same, wait for it. place: another folder than the user's, with a limit of
    its own. A cache that cannot be read or written is no error.
    """
    place, limit_bytes = place or folder(), LIMIT_BYTES if limit_bytes is None else limit_bytes
    if place is None:
        return compute()
    file = place / _name(key)
    if not fresh and (found := _read(file)) is not None:
        return found
    if not alone:
        return _made(file, compute, limit_bytes)
    with _turn(file):
        if not fresh and (found := _read(file)) is not None:
            return found
        return _made(file, compute, limit_bytes)


def holds(key: str) -> bool:
    """Whether there is an earlier result under this key."""
    place = folder()
    return place is not None and (place / _name(key)).is_file()


def _name(key: str) -> str:
    return f"{hashlib.sha256(f'{stamp()} {key}'.encode()).hexdigest()}.bin"


def sealed(data: bytes) -> bytes:
    """What a file of the cache holds, behind its digest."""
    return hashlib.sha256(data).digest() + data


def _read(file: Path) -> bytes | None:
    """What a file of the cache holds; None where there is none, or it is damaged."""
    try:
        data = file.read_bytes()
    except OSError:
        return None
    held = data[DIGEST_BYTES:]
    if sealed(held) != data:
        return None
    with suppress(OSError):
        os.utime(file)  # asked for now: the last to go
    return held


def _made(file: Path, compute: Callable[[], bytes], limit_bytes: int) -> bytes:
    global _unswept
    data = compute()
    with suppress(OSError):
        file.parent.mkdir(parents=True, exist_ok=True)
        part = file.with_suffix(f".{os.getpid()}-{threading.get_ident()}.part")
        try:
            part.write_bytes(sealed(data))
            part.replace(file)
        except OSError:
            part.unlink(missing_ok=True)  # half of it would fill the disk for nothing
            raise
        _unswept += len(data)
        # What has a limit of its own is made in copies of a process, whose count is lost with them.
        if limit_bytes < LIMIT_BYTES or _unswept >= SWEEP_AFTER_BYTES:
            _unswept = 0
            sweep(file.parent, limit_bytes)
    return data


@contextmanager
def _turn(file: Path) -> Iterator[None]:
    """Ours alone to compute, as long as no process is waited for in vain and the drive has locks.

    Lock files are swept a day later, not at once: removed while another waits for it, a lock would be held twice.
    """
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        lock = os.open(file.with_suffix(".lock"), os.O_RDWR | os.O_CREAT, 0o644)
    except OSError:
        yield
        return
    try:
        until = time.monotonic() + PATIENCE_S
        while locked(lock) is False and time.monotonic() < until:
            time.sleep(PAUSE_S)
        yield
    finally:
        os.close(lock)


def sweep(place: Path, limit_bytes: int = LIMIT_BYTES) -> None:
    """Remove what was asked for least lately beyond a limit, and what killed processes left.

    Others may write and sweep meanwhile: what is gone already is gone.
    """
    kept = 0
    for _, size, path in sorted(_entries(place, "*.bin"), reverse=True):
        kept += size
        if kept > limit_bytes:
            path.unlink(missing_ok=True)
    for pattern in ("*.part", "*.lock"):
        for changed_s, _, path in _entries(place, pattern):
            if time.time() - changed_s > DAY_S:
                with suppress(OSError):  # on Windows, one that is held
                    path.unlink()


def _entries(place: Path, pattern: str) -> list[tuple[float, int, Path]]:
    """When each file was last asked for, its size, and the file."""
    found = []
    for path in place.glob(pattern):
        with suppress(OSError):
            info = path.stat()
            found.append((info.st_mtime, info.st_size, path))
    return found
