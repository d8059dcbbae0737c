"""Silence on standard error, for libraries that complain there past Python."""

from __future__ import annotations

import os
import threading
from collections.abc import Iterator
from contextlib import contextmanager

#: Standard error is one for all threads: the first that wants silence turns it off, the last turns it on.
_lock = threading.Lock()
_kept: list[int] = []  # standard error itself, once for each that wants silence now


@contextmanager
def quiet() -> Iterator[None]:
    """The MP3 decoder under soundfile complains on standard error, past Python, of files that it reads well."""
    with _lock:
        silent = _kept[0] if _kept else _silenced()
        if silent is not None:
            _kept.append(silent)
    try:
        yield
    finally:
        if silent is not None:
            with _lock:
                _kept.pop()
                if not _kept:
                    os.dup2(silent, 2)
                    os.close(silent)


def _silenced() -> int | None:
    """Turn standard error off. Gives it as it was; None where there is none."""
    try:
        kept = os.dup(2)
    except OSError:
        return None
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 2)
    os.close(nowhere)
    return kept
