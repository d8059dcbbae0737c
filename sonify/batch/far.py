"""On another machine: a pack made of what was sent, by a worker process beside the one that was asked.

A process of its own for each pack that is under way: packs are made on one thread each, a library that breaks down
takes only its pack with it, and all goes when the one that was asked goes.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any

from sonify.batch.parcel import files_in, seen, unpacked
from sonify.batch.process import PACKS_A_WORKER, WORKER, Worker, gone, hand, started, told_by
from sonify.batch.room import workers_for
from sonify.storage.scratch import scratch_folder
from sonify.storage.toolkit import about, about_now
from sonify.storage.workshop import removed

#: A parcel is unpacked in a folder called so, which goes with it: a class's file says what pupils need.
PREFIX = "sonify-parcel-"

_idle: list[Worker] = []
_idle_lock = threading.Lock()


def made(parcel: Mapping[str, Any], command: Sequence[str] = WORKER) -> dict[str, Any]:
    """What became of a parcel: `card` and `place` or `files` of the pack; else `failed` (why), `ended` (a status: the
    worker broke down) or `differs` (what is here, where that would make other bytes)."""
    for here in (about(), about_now()):  # it may have been replaced under this process
        if parcel["about"] != here:
            return {"differs": here}
    with _turns(), scratch_folder(PREFIX) as folder:
        began_s = time.monotonic()
        place = seen(parcel["arrivals"])
        task = unpacked(parcel, folder)
        pack = (place or folder) / "pack"
        said = _asked({**task, "out": str(pack), "replace": False}, command)
        if "made" in said:
            found = {"place": place.name} if place else {"files": files_in(pack)}
            return {"card": said["card"], "seconds": time.monotonic() - began_s, **found}
        if place is not None:
            removed(place)
        return {key: _as_called(value, task) for key, value in said.items() if key != "card"}


@cache
def _turns() -> threading.Semaphore:
    """No more packs at once than this machine has cores and memory for, however many threads a scheduler uses."""
    return threading.Semaphore(workers_for(1_000))


def _asked(task: Mapping[str, Any], command: Sequence[str]) -> dict[str, Any]:
    """All that a worker process says of a task, as one."""
    worker = _one_that_waits(command) or started(command)
    worker.packs += 1
    hand(worker, dict(task))
    said: dict[str, Any] = {}
    for line in told_by(worker):
        said |= line
        if "card" in line:
            hand(worker, {})
        elif "made" in line or "failed" in line:
            break
    else:
        return {"ended": gone(worker)}
    if worker.packs < PACKS_A_WORKER:
        with _idle_lock:
            _idle.append(worker)
    else:
        hand(worker, None)
        gone(worker)
    return said


def _one_that_waits(command: Sequence[str]) -> Worker | None:
    with _idle_lock:
        for worker in _idle:
            if worker.process.args == command and worker.process.poll() is None:
                _idle.remove(worker)
                return worker
    return None


def let_go() -> None:
    """No worker process waits any longer."""
    with _idle_lock:
        while _idle:
            worker = _idle.pop()
            hand(worker, None)
            gone(worker)


def _as_called(told: Any, task: Mapping[str, Any]) -> Any:
    """A message with the names of files as the one who sent them calls them."""
    if isinstance(told, str):
        for what, name in task["called"].items():
            told = told.replace(str(task[what]), name)
    return told
