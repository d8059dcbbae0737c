"""A traced layer of the operating system: every step that changes the disk is counted, and one can be made to fail.

`traced(plan)` puts it in place inside a process. A step is a call that changes names or flushes (`os`), an exchange of
two paths, or one write to a file. At step `plan.at` the process is killed, or that one call fails with `plan.error`.
"""

from __future__ import annotations

import builtins
import io
import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from sonify.storage import workshop

#: Calls of `os` that change the disk, or make sure of it.
CALLS = ("mkdir", "rename", "replace", "rmdir", "unlink", "remove", "link", "symlink", "fsync", "write")
WRITING = set("wax+")


@dataclass(kw_only=True)
class Plan:
    """What happens at step `at`, counted from 1; 0: nothing, the steps are only counted. error: None kills."""

    at: int = 0
    error: int | None = None
    steps: list[str] = field(default_factory=list)

    def step(self, what: str) -> None:
        self.steps.append(what)
        if len(self.steps) != self.at:
            return
        if self.error is None:
            os.kill(os.getpid(), signal.SIGKILL)
        else:
            raise OSError(self.error, os.strerror(self.error))


class _Disk(io.FileIO):
    """A file whose writes are steps."""

    plan: Plan

    def write(self, data: Any, /) -> int:
        self.plan.step("write to a file")
        return super().write(data)


def _opened(plan: Plan, real: Callable[..., Any]) -> Callable[..., Any]:
    def opened(file: Any, mode: str = "r", buffering: int = -1, *args: Any, **more: Any) -> Any:
        if not WRITING & set(mode) or not isinstance(file, str | bytes | os.PathLike):
            return real(file, mode, buffering, *args, **more)
        plan.step("open for writing")
        place = {name: more.pop(name) for name in ("opener", "closefd") if name in more}
        disk = _Disk(file, mode.replace("b", "").replace("t", ""), **place)
        disk.plan = plan
        if buffering == 0:
            return disk
        held = io.BufferedRandom(disk) if "+" in mode else io.BufferedWriter(disk)
        return held if "b" in mode else io.TextIOWrapper(held, *args, **more)

    return opened


@contextmanager
def traced(plan: Plan) -> Iterator[None]:
    """The traced layer, in this process alone."""

    def stepping(what: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def call(*args: Any, **more: Any) -> Any:
            plan.step(what)
            return real(*args, **more)

        return call

    before = {name: getattr(os, name) for name in CALLS}
    exchanged, io_open, builtin_open = workshop.exchanged, io.open, builtins.open
    for name, real in before.items():
        setattr(os, name, stepping(name, real))
    workshop.exchanged = stepping("exchange", exchanged)
    io.open = builtins.open = _opened(plan, io_open)
    try:
        yield
    finally:
        for name, real in before.items():
            setattr(os, name, real)
        workshop.exchanged, io.open, builtins.open = exchanged, io_open, builtin_open


def in_a_copy(work: Callable[[], None]) -> int:
    """Do some work in a copy of this process: 0 done, 1 failed as it may (a SonifyError), 2 crashed, -9 killed."""
    from sonify.errors import SonifyError

    child = os.fork()
    if child == 0:
        status = 2
        try:
            work()
            status = 0
        except SonifyError:
            status = 1
        except BaseException:
            import traceback

            traceback.print_exc()
        finally:
            os._exit(status)
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status)


def main() -> None:
    """`python -m tests.campaign.faults STEP ERRNO FILE ARGUMENT...`: the command line with a fault at a step.

    How many steps there were is written to FILE.
    """
    import sys

    from sonify.cli import main as command_line

    at, error, file, *arguments = sys.argv[1:]
    plan = Plan(at=int(at), error=int(error))
    sys.argv = ["sonify", *arguments]
    real = open(file, "w", encoding="utf-8")  # noqa: SIM115 - opened before the layer is, written after it
    try:
        with traced(plan):
            command_line()
    finally:
        real.write(str(len(plan.steps)))
        real.close()


if __name__ == "__main__":
    main()
