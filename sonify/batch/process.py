"""One worker process (`work`), as whoever started it sees it: tasks go in, lines of JSON come out."""

from __future__ import annotations

import json
import os
import subprocess
import threading
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import field
from typing import Any

from sonify.batch.pairs import Pair
from sonify.frozen import dataclass
from sonify.storage import program

WORKER = program.command("sonify.batch.work")
#: A worker is let go after so many packs: what a library never gives back goes with it.
PACKS_A_WORKER = 50
#: How long a worker that is to stop may take to clear its half-made pack away.
LEAVING_S = 5.0


@dataclass(eq=False)
class Worker:
    """One worker process and what it is at work on. listener: hears it, where a thread does."""

    process: subprocess.Popen[str]
    pair: Pair | None = None
    share: float = 0.0
    packs: int = 0
    listener: threading.Thread | None = field(default=None)


def started(command: Sequence[str] = WORKER) -> Worker:
    """One core is enough for a worker's algebra: others are at work beside it."""
    alone = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
    pipe = subprocess.PIPE
    return Worker(
        subprocess.Popen(command, stdin=pipe, stdout=pipe, encoding="utf-8", env={**program.environment(), **alone})
    )


def told_by(worker: Worker) -> Iterator[dict[str, Any]]:
    """What a worker says until its end. A library's own print is nothing of ours."""
    assert worker.process.stdout is not None
    with suppress(ValueError, OSError):
        for line in worker.process.stdout:
            with suppress(ValueError):
                said = json.loads(line)
                if isinstance(said, dict):
                    yield said


def hand(worker: Worker, task: dict[str, Any] | None) -> None:
    """A task to a worker; None: there are no more. One that has ended is noticed by who hears it."""
    assert worker.process.stdin is not None
    with suppress(OSError):
        if task is None:
            worker.process.stdin.close()
        else:
            print(json.dumps({**task, "maker": os.getpid()}), file=worker.process.stdin, flush=True)


def gone(worker: Worker) -> int:
    """Wait for a process that is to end, not for ever."""
    process = worker.process
    try:
        status = process.wait(LEAVING_S)
    except subprocess.TimeoutExpired:
        process.kill()
        status = process.wait()
    if worker.listener is not None:
        worker.listener.join(LEAVING_S)
    for stream in (process.stdin, process.stdout):
        if stream is not None:
            with suppress(OSError):  # what was not read any more
                stream.close()
    return status
