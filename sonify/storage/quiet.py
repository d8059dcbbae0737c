"""Silence on standard error, for libraries that complain there past Python."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def quiet() -> Iterator[None]:
    """The MP3 decoder under soundfile complains on standard error, past Python, of files that it reads well."""
    try:
        kept = os.dup(2)
    except OSError:  # there is no standard error
        yield
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 2)
        yield
    finally:
        os.dup2(kept, 2)
        os.close(kept)
        os.close(nowhere)
