"""Runs of the particle box, which take seconds: done in a process of their own, while the page waits and asks again.

A browser waits for one run: when its slider has moved on, the run before is stopped, unless another browser wants it.
"""

from __future__ import annotations

import asyncio
from contextlib import suppress
from dataclasses import dataclass, field
from http import HTTPStatus
from pathlib import Path
from typing import Any

from sonify.web.errors import Refused
from sonify.web.process import worked

MOST_WAITING = 6
LONGEST_S = 300.0
WAITING = "The particles are being simulated: this takes some seconds the first time, and none the next."
FULL = "enough simulations are waiting just now; try again in a minute"


@dataclass(eq=False)
class Run:
    owners: set[str]
    running: asyncio.Task[None] | None = None
    error: str = ""
    share: float = 0.0
    over: bool = False


@dataclass(eq=False)
class Runs:
    """All runs of a server, by the key of what is simulated."""

    folder: Path
    _runs: dict[str, Run] = field(default_factory=dict)
    _turn: asyncio.Semaphore = field(default_factory=lambda: asyncio.Semaphore(1))

    def waiting(self, key: str, owner: str, task: dict[str, Any]) -> dict[str, Any] | None:
        """What to tell a browser that has to wait for a run, which is begun if it is not under way; None: go on.

        Raises Refused where the run failed, or too many are waiting.
        """
        self._let_go(owner, key)
        run = self._runs.get(key)
        if run is None:
            if len([each for each in self._runs.values() if not each.over]) >= MOST_WAITING:
                raise Refused(HTTPStatus.SERVICE_UNAVAILABLE, FULL)
            run = self._runs[key] = Run(owners=set())
            run.running = asyncio.get_running_loop().create_task(self._run(key, run, task))
        run.owners.add(owner)
        if run.over:
            del self._runs[key]
            if run.error:
                raise Refused(HTTPStatus.BAD_REQUEST, run.error)
            return None
        return {"waiting": WAITING, "share": run.share}

    def _let_go(self, owner: str, wanted: str) -> None:
        for key, run in list(self._runs.items()):
            if key == wanted or owner not in run.owners:
                continue
            run.owners.discard(owner)
            if not run.owners:
                del self._runs[key]
                if run.running is not None:
                    run.running.cancel()

    async def _run(self, key: str, run: Run, task: dict[str, Any]) -> None:
        try:
            async with self._turn, asyncio.timeout(LONGEST_S):
                run.error = await worked(task, self.folder, lambda doing, share: None)
        except TimeoutError:
            run.error = "the simulation took longer than five minutes, and was stopped; take fewer particles"
        finally:
            run.over = True

    async def close(self) -> None:
        tasks = [run.running for run in self._runs.values() if run.running is not None]
        for task in tasks:
            task.cancel()
        with suppress(asyncio.CancelledError):
            await asyncio.gather(*tasks, return_exceptions=True)
