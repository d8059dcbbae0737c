"""What is no longer needed goes back to the system, where the C library (glibc) would keep it for itself.

Threads that come and go each leave a heap of their own behind, and in each of them what is still held keeps the rest
from going. So there are two heaps, large arrays have none, and now and then what lies free is given back.
"""

from __future__ import annotations

import asyncio
import ctypes
import gc
import sys
from collections.abc import Callable
from contextlib import suppress
from typing import TypeVar

from anyio.to_thread import run_sync

Value = TypeVar("Value")

#: Numbers of `mallopt`, from glibc's malloc.h.
M_MMAP_THRESHOLD, M_ARENA_MAX = -3, -8
ARENAS = 2
#: An array of more bytes than this comes from the system and goes back to it.
LARGE_BYTES = 1 << 20
EVERY_S = 5.0
#: About 6 MB of Python's own objects. To look through all of a full server's took 0.14 s of a busy processor (292,971
#: objects in November 2026): under load once in a minute or two.
MORE_BLOCKS = 100_000


def settle() -> None:
    """For the whole process, before its threads begin. Elsewhere than on glibc nothing is done."""
    with suppress(OSError, AttributeError, TypeError):
        library = ctypes.CDLL(None)
        library.mallopt(M_ARENA_MAX, ARENAS)
        library.mallopt(M_MMAP_THRESHOLD, LARGE_BYTES)


def give_back() -> None:
    """Give back what lies free in the heaps: 10 to 25 ms after a piece was rendered, 0.2 ms where nothing does."""
    with suppress(OSError, AttributeError, TypeError):
        ctypes.CDLL(None).malloc_trim(0)


def lightened(work: Callable[[], Value]) -> Value:
    """The result of work that needs much for a while (a piece's sounds 125 MB, of arrays too small to be large ones).

    A lower LARGE_BYTES (256 kB) would give half of it back, and render a piece in 1.4 times the time.
    """
    try:
        return work()
    finally:
        give_back()


class Circles:
    """What refers to itself in a circle: a library's own records, a refusal and the call that it came from.

    It is found only when Python looks through all that there is, which it does of itself when a quarter has been added:
    here after 25 MB and five minutes, and what Python had to ask the system for meanwhile seldom goes back.
    """

    def __init__(self) -> None:
        self._least = sys.getallocatedblocks()

    def look(self) -> None:
        """Look for them once so much more is held than after the last time."""
        if sys.getallocatedblocks() > self._least + MORE_BLOCKS:
            gc.collect()
            self._least = sys.getallocatedblocks()


async def keep_giving_back() -> None:
    """Now and then, until this is cancelled."""
    circles = Circles()
    while True:
        await asyncio.sleep(EVERY_S)
        await run_sync(circles.look)
        await run_sync(give_back)
