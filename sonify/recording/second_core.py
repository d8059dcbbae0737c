"""Work beside this process: a copy of it, on the other core.

`beside` hands over sound step by step through shared memory, `Copies` do whole pieces of work and hand over what comes
of them. Threads would not do: the steps are short, and Python lets one thread run at a time. What is made does not
depend on where it is made, so the bytes of a recording are the same with one core and with many.
"""

from __future__ import annotations

import ctypes
import mmap
import multiprocessing
import os
import signal
import sys
import threading
import warnings
from collections.abc import Callable, Generator, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from typing import Any, Generic, NoReturn, TypeVar, cast

import numpy as np

from sonify.sound.hands import Sounds, Steps, here
from sonify.sound.rate import Samples

#: Memory for what is handed over and not yet taken, and the fewest steps it holds.
RING_BYTES, FEWEST_SLOTS = 24_000_000, 4
#: What the copy tells with every step: a byte for each sound; or one byte for its end.
SILENT, SOUND, DONE, FAILED = b"\0", b"\1", b"\2", b"\3"
#: Linux: the signal that a process gets when the one that started it has gone.
PR_SET_PDEATHSIG = 1

Made = TypeVar("Made")
#: Told which share of the whole is done, 0 to 1.
Tell = Callable[[float], None]


def can_help() -> bool:
    """Whether a copy of this process can work beside it: a second core, a system that copies processes, one thread.

    A process that has other threads at work is not copied: a copy would inherit their locks, and not them. There the
    other core is in use already.
    """
    if not sys.platform.startswith("linux") or threading.active_count() > 1:
        return False
    return len(os.sched_getaffinity(0)) > 1


def beside(steps: Steps, count: int, shape: tuple[int, int]) -> Generator[Sounds]:
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
        _gone(child)


@contextmanager
def copies() -> Iterator[Copies | None]:
    """What begins work in copies of this process, or None where none can help."""
    if can_help():
        with Copies() as begun:
            yield begun
    else:
        yield None


def alone(work: Callable[[], Made]) -> Made:
    """What comes of some work in a copy of this process, with which the memory that it took goes; in this process where
    no copy can help."""
    with copies() as begun:
        return work() if begun is None else begun.begin(lambda tell: work())()


def in_a_copy(work: Callable[[], None]) -> int:
    """Some work in a copy of this process, waited for: the copy's exit status, 0 where it came to its end."""
    child = _copy_of_this_process()
    if child == 0:
        status = 1
        try:
            work()
            status = 0
        except BaseException:
            sys.excepthook(*sys.exc_info())
        finally:
            sys.stdout.flush()
            os._exit(status)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


class Copies:
    """Pieces of work, each in a copy of this process. However this is left, no copy stays.

    While one is waited for all are heard, so that none waits with what it has to tell.
    """

    def __init__(self) -> None:
        self._begun: list[_Begun[Any]] = []

    def __enter__(self) -> Copies:
        return self

    def __exit__(self, *_: object) -> None:
        for begun in self._begun:
            _gone(begun.child)
            begun.told.close()

    def begin(
        self, work: Callable[[Tell], Made], tell: Tell = lambda share: None, *, yielding: int = 0
    ) -> Callable[[], Made]:
        """Begin some work. What comes back waits for it and hands over what it made.

        yielding: by how much it lets other work go before it (the system's "niceness").

        What is made, and an error that stopped it, come over as pickles. tell: told how far it is, while any work is
        waited for. Raises RuntimeError where the copy ended before its work was done.
        """
        ours, theirs = multiprocessing.Pipe(duplex=False)
        child = _copy_of_this_process()
        if child == 0:
            ours.close()
            os.nice(yielding)
            _whole(work, theirs)
        theirs.close()
        begun: _Begun[Made] = _Begun(child, ours, tell)
        self._begun.append(begun)
        return lambda: self._made(begun)

    def _made(self, wanted: _Begun[Made]) -> Made:
        while not wanted.over:
            listening = {begun.told: begun for begun in self._begun if not begun.over}
            for told in wait(list(listening)):
                listening[told].hear()  # type: ignore[index]  # these are all connections
        if isinstance(wanted.failed, BaseException):
            raise wanted.failed
        return cast(Made, wanted.made)


@dataclass(eq=False)
class _Begun(Generic[Made]):
    """A copy at work, and what was heard of it."""

    child: int
    told: Connection
    tell: Tell
    over: bool = False
    made: Made | None = None
    failed: BaseException | None = None

    def hear(self) -> None:
        try:
            what, value = self.told.recv()
        except (EOFError, OSError):
            what, value = "failed", RuntimeError("work on the other core ended before it was done")
        if what == "share":
            self.tell(value)
            return
        self.over = True
        if what == "failed":
            self.failed = value
        else:
            self.made = value


def _whole(work: Callable[[Tell], Made], theirs: Connection) -> NoReturn:
    """All that the copy does of a whole piece of work."""
    try:
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        try:
            theirs.send(("made", work(lambda share: theirs.send(("share", share)))))
        except Exception as error:
            theirs.send(("failed", error))
    except BaseException:  # nobody listens any longer, or an error that cannot be sent
        sys.excepthook(*sys.exc_info())
    finally:
        os._exit(0)


def _gone(child: int) -> None:
    with suppress(ProcessLookupError):
        os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)


def _close(*files: int) -> None:
    for file in files:
        os.close(file)


def _copy_of_this_process() -> int:
    with warnings.catch_warnings():  # newer Pythons warn of the threads that a linear algebra library keeps waiting
        warnings.simplefilter("ignore", DeprecationWarning)
        maker = os.getpid()
        child = os.fork()
    if child == 0:
        goes_with(maker)
    return child


def goes_with(maker: int) -> bool:
    """From now on this process is killed with the one that started it; False where that cannot be had."""
    if sys.platform != "linux":
        return False
    ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != maker:  # gone before it was asked for
        os._exit(1)
    return True


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
