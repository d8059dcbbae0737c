"""What one pack has in common with the last, kept as files while a server runs: sheets, engraved pages, the recording.

Each is named by what went into it, so that after one changed word only what shows the word is made anew. Nothing is
kept unless `keeping` names a folder, which `sonify make` does not.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

from sonify.storage.cache import remembered

#: A recording of three minutes is 32 MB, a file of sheets under one: room for the last few lessons.
LIMIT_BYTES = 300_000_000

_folder: ContextVar[Path | None] = ContextVar("kept", default=None)


@contextmanager
def keeping(folder: Path | None) -> Iterator[None]:
    """For a while keep what is made in this folder, and take it from there."""
    token = _folder.set(folder)
    try:
        yield
    finally:
        _folder.reset(token)


def is_keeping() -> bool:
    return _folder.get() is not None


def kept(key: str, make: Callable[[], bytes]) -> bytes:
    """What was made under this key, made now where it is not there. key: all that goes into it."""
    place = _folder.get()
    return make() if place is None else remembered(key, make, alone=False, place=place, limit_bytes=LIMIT_BYTES)
