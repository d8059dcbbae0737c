"""Python's search for objects that hold each other, put off while much is made that stays."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock

#: A lesson makes some hundred thousand objects, and nearly all stay: looking for cycles after every 700, as Python
#: does, takes a fifth of the time in which our modules are read, and a twelfth of a slider's answer.
SELDOM = 200_000

_changing = Lock()
_within = 0
_usual: tuple[int, int, int] = gc.get_threshold()


@contextmanager
def seldom_looked_for() -> Iterator[None]:
    """For a while cycles are looked for as seldom as `SELDOM` says, then as before. Whoever has switched the search
    off, or looks more seldom, is left alone. Any number of threads may be in here at once."""
    global _within, _usual
    with _changing:
        _within += 1
        if _within == 1:
            _usual = gc.get_threshold()
            if 0 < _usual[0] < SELDOM:
                gc.set_threshold(SELDOM, *_usual[1:])
    try:
        yield
    finally:
        with _changing:
            _within -= 1
            if not _within:
                gc.set_threshold(*_usual)
