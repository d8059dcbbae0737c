"""Packs being made: a short queue, at most two at once, each in a process of its own that can be stopped.

All of this runs on the event loop and so needs no locks; what blocks is done by the processes and by threads.
"""

from __future__ import annotations

import asyncio
import secrets
import shutil
import sys
import traceback
from collections import OrderedDict
from contextlib import suppress
from dataclasses import dataclass, field
from http import HTTPStatus
from pathlib import Path
from typing import Any

from anyio.to_thread import run_sync

from sonify.records.fact import fact, wrong
from sonify.say import say
from sonify.web.errors import OUR_FAULT, Refused
from sonify.web.files import Listed, listed
from sonify.web.process import Workers, worked
from sonify.web.work import PACK, ZIP

AT_ONCE = 2
#: The folder, among those of the jobs, for what packs have in common.
KEPT = "kept"
#: So many may wait; of those that are ready, the newest are kept.
MOST_WAITING, MOST_READY, MOST_OVER = 8, 6, 60
#: A job that takes longer than this is stopped: the longest piece with every recording takes a few minutes.
LONGEST_S = 1800.0
FULL = wrong("error_web-enough-packs")


@dataclass(eq=False)
class Job:
    """One pack being made, or made. state: queued, making, ready, failed or cancelled."""

    id: str
    owner: str
    task: dict[str, Any]
    name: str
    folder: Path
    state: str = "queued"
    doing: str = field(default_factory=lambda: say(fact("progress-turn")))
    share: float = 0.0
    error: str = ""
    files: list[Listed] = field(default_factory=list)
    running: asyncio.Task[None] | None = None

    @property
    def over(self) -> bool:
        return self.state in ("ready", "failed", "cancelled")

    @property
    def zip(self) -> Path:
        return self.folder / ZIP

    @property
    def pack(self) -> Path:
        return self.folder / PACK


class Jobs:
    """All jobs of a server. folder: where they may write."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._jobs: OrderedDict[str, Job] = OrderedDict()
        self._turns = asyncio.Semaphore(AT_ONCE)
        self.workers = Workers(folder / KEPT)

    def add(self, owner: str, task: dict[str, Any], name: str) -> Job:
        """A new job in the queue. Raises Refused while one of the same owner's is under way, or the queue is full."""
        if any(job.owner == owner and not job.over for job in self._jobs.values()):
            raise Refused(HTTPStatus.CONFLICT, wrong("error_web-one-pack"))
        waiting = sum(job.state == "queued" for job in self._jobs.values())
        if waiting >= MOST_WAITING:
            raise Refused(HTTPStatus.SERVICE_UNAVAILABLE, FULL)
        number = secrets.token_urlsafe(12)
        job = Job(id=number, owner=owner, task=task, name=name, folder=self._folder / number)
        self._jobs[number] = job
        job.running = asyncio.get_running_loop().create_task(self._run(job))
        return job

    def job(self, number: str, owner: str) -> Job:
        """A job of this owner's. Raises Refused where there is none: another browser's is none of its business."""
        job = self._jobs.get(number)
        if job is None or job.owner != owner:
            raise Refused(HTTPStatus.NOT_FOUND, wrong("error_web-no-pack"))
        return job

    def ahead(self, job: Job) -> int:
        """How many wait or are being made before this one."""
        earlier = list(self._jobs.values())
        return sum(not each.over for each in earlier[: earlier.index(job)]) if not job.over else 0

    async def cancel(self, job: Job) -> None:
        if job.over or job.running is None:
            return
        job.running.cancel()
        with suppress(asyncio.CancelledError):
            await asyncio.shield(asyncio.wait({job.running}))

    async def close(self) -> None:
        """Stop everything."""
        for job in list(self._jobs.values()):
            await self.cancel(job)
        await self.workers.close()

    # --- one job -----------------------------------------------------------------------------------------------------

    async def _run(self, job: Job) -> None:
        try:
            async with self._turns:
                await self._make(job)
        except asyncio.CancelledError:
            job.state, job.doing = "cancelled", say(fact("progress-stopped"))
        except OSError as error:
            why = error.strerror or fact("error_web-full-disk")
            job.state, job.error = "failed", say(wrong("error_web-pack-failed", why=why))
        except Exception:
            traceback.print_exc(file=sys.stderr)
            job.state, job.error = "failed", say(OUR_FAULT)
        finally:
            job.task = {}  # it holds the readings, which may be large, and nobody asks for it again
            if job.state != "ready":
                await _removed([job.folder])
            if job.state == "failed":
                await _removed([self._folder / KEPT])  # the disk may be full of it
            await _removed(self._forgotten(job))

    async def _make(self, job: Job) -> None:
        job.state, job.doing = "making", say(fact("progress-starting"))
        job.folder.mkdir()
        try:
            async with asyncio.timeout(LONGEST_S):
                error = await worked(job.task, job.folder, lambda doing, share: _tell(job, doing, share), self.workers)
        except TimeoutError:
            error = say(fact("error_web-pack-too-long"))
        if error:
            job.state, job.error = "failed", error
            return
        job.files = await run_sync(lambda: listed(job.pack))
        job.state, job.doing, job.share = "ready", say(fact("progress-done")), 1.0

    def _forgotten(self, job: Job) -> list[Path]:
        """The folders of jobs that are forgotten now that this one is over.

        The newest packs are kept, one for each browser, and what became of the newest jobs of all kinds.
        """
        others = [each for each in self._jobs.values() if each.over and each is not job]
        old = others[:-MOST_OVER]
        if job.state == "ready":
            old += [each for each in others if each.owner == job.owner]
            ready = [each for each in others if each.state == "ready" and each not in old]
            old += ready[: max(0, len(ready) + 1 - MOST_READY)]
        return [gone.folder for each in old if (gone := self._jobs.pop(each.id, None))]


async def _removed(folders: list[Path]) -> None:
    """Remove folders in a thread: a pack is hundreds of megabytes."""
    for folder in folders:
        await run_sync(shutil.rmtree, folder, True)


def _tell(job: Job, doing: str, share: float) -> None:
    job.doing, job.share = doing, max(job.share, share)
