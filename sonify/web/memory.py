"""What is no longer needed goes back to the system, where the C library (glibc) would keep it for itself.

Threads that come and go each leave a heap of their own behind, and in each of them what is still held keeps the rest
from going. So there are two heaps, large arrays have none, and now and then what lies free is given back.
"""

from __future__ import annotations

import asyncio
import ctypes
from contextlib import suppress

from anyio.to_thread import run_sync

#: Numbers of `mallopt`, from glibc's malloc.h.
M_MMAP_THRESHOLD, M_ARENA_MAX = -3, -8
ARENAS = 2
#: An array of more bytes than this comes from the system and goes back to it.
LARGE_BYTES = 1 << 20
EVERY_S = 20.0


def settle() -> None:
    """For the whole process, before its threads begin. Elsewhere than on glibc nothing is done."""
    with suppress(OSError, AttributeError, TypeError):
        library = ctypes.CDLL(None)
        library.mallopt(M_ARENA_MAX, ARENAS)
        library.mallopt(M_MMAP_THRESHOLD, LARGE_BYTES)


def give_back() -> None:
    """Give back what lies free in the heaps."""
    with suppress(OSError, AttributeError, TypeError):
        ctypes.CDLL(None).malloc_trim(0)


async def keep_giving_back() -> None:
    """Now and then, until this is cancelled."""
    while True:
        await asyncio.sleep(EVERY_S)
        await run_sync(give_back)
