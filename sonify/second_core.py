"""Work beside this process: a copy of it, on the other core, hands over sound through shared memory.

Threads would not do: the steps of rendering are short, and Python lets one thread run at a time. What is made does not
depend on where it is made, so the bytes of a recording are the same with one core and with many.
"""

from __future__ import annotations

import mmap
import os
import signal
import sys
import threading
import warnings
from collections.abc import Iterator
from contextlib import suppress
from typing import NoReturn

import numpy as np

from sonify.sound.hands import Sounds, Steps, here
from sonify.sound.rate import Samples

#: Memory for what is handed over and not yet taken, and the fewest steps it holds.
RING_BYTES, FEWEST_SLOTS = 24_000_000, 4
#: What the copy tells with every step: a byte for each sound; or one byte for its end.
SILENT, SOUND, DONE, FAILED = b"\0", b"\1", b"\2", b"\3"


def can_help() -> bool:
    """Whether a copy of this process can work beside it: a second core, a system that copies processes, one thread.

    A process that has other threads at work is not copied: a copy would inherit their locks, and not them. There the
    other core is in use already.
    """
    if not sys.platform.startswith("linux") or threading.active_count() > 1:
        return False
    return len(os.sched_getaffinity(0)) > 1


def beside(steps: Steps, count: int, shape: tuple[int, int]) -> Iterator[Sounds]:
    """The steps of an iterator, worked out in a copy of this process where that helps, and here where it does not.

    Every step is `count` float32 arrays of one `shape`, or None in place of one; they are lent until the next step.
    Raises RuntimeError where the copy ended before its work was done.
    """
    if not can_help():
        yield from here(steps, count, shape)
        return
    size = 4 * count * shape[0] * shape[1]
    slots = max(FEWEST_SLOTS, RING_BYTES // size)
    ring = np.frombuffer(mmap.mmap(-1, slots * size), dtype=np.float32).reshape(slots, count, *shape)
    told, tell = os.pipe()
    freed, free = os.pipe()
    child = _copy_of_this_process()
    if child == 0:
        _close(told, free)
        _work(steps, ring, tell, freed)
    _close(tell, freed)
    try:
        yield from _taken(ring, told, free)
    finally:
        _close(told, free)
        with suppress(ProcessLookupError):
            os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)


def _close(*files: int) -> None:
    for file in files:
        os.close(file)


def _copy_of_this_process() -> int:
    with warnings.catch_warnings():  # newer Pythons warn of the threads that a linear algebra library keeps waiting
        warnings.simplefilter("ignore", DeprecationWarning)
        return os.fork()


def _taken(ring: Samples, told: int, free: int) -> Iterator[Sounds]:
    slots, count = ring.shape[:2]
    step = 0
    while True:
        flags = _read(told, count)
        if flags[:1] == DONE:
            return
        if len(flags) < count or FAILED in flags:
            raise RuntimeError("a part of the recording could not be made; the reason stands above")
        slot = ring[step % slots]
        yield [slot[i] if flags[i] else None for i in range(count)]
        with suppress(BrokenPipeError):  # the copy has made all it had to
            os.write(free, SOUND)
        step += 1


def _read(file: int, size: int) -> bytes:
    """So many bytes, or fewer where the other end is gone or has said that it is done."""
    found = b""
    while len(found) < size and found != DONE and (more := os.read(file, size - len(found))):
        found += more
    return found


def _work(steps: Steps, ring: Samples, tell: int, freed: int) -> NoReturn:
    """All that the copy does. It leaves without a word to what it has inherited: files, locks, what runs at exit."""
    status = 1
    try:
        signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is this process's own to answer; it ends the copy, too
        slots, count = ring.shape[:2]
        for number, sounds in enumerate(steps()):
            if number >= slots and not os.read(freed, 1):
                break
            for place, sound in enumerate(sounds):
                if sound is not None:
                    ring[number % slots, place] = sound
            os.write(tell, b"".join(SILENT if sound is None else SOUND for sound in sounds))
        else:
            os.write(tell, DONE)
            status = 0
    except BrokenPipeError:
        status = 0
    except BaseException:
        sys.excepthook(*sys.exc_info())
        with suppress(OSError):
            os.write(tell, FAILED * ring.shape[1])
    finally:
        os._exit(status)
