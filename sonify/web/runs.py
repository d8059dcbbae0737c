"""Runs of the particle box, which take seconds: done in a process of their own, while the page waits and asks again.

A run is stopped when nobody has asked for it for a while: every slider has moved on, every tab that waited is closed.
"""

from __future__ import annotations

import asyncio
import sys
import traceback
from contextlib import suppress
from dataclasses import dataclass, field
from http import HTTPStatus
from pathlib import Path
from typing import Any

from sonify.records.fact import fact, wrong
from sonify.say import say
from sonify.web.errors import OUR_FAULT, Refused
from sonify.web.process import Workers, worked

MOST_WAITING = 6
LONGEST_S = 300.0
#: A run that nobody has asked for during so many seconds is of no interest any more; a page asks every 0.7 s.
UNASKED_S = 3.0
WAITING = fact("progress-particles")
FULL = wrong("error_web-enough-runs")


@dataclass(eq=False)
class Run:
    """One run. owners: who has asked for it. asked_s: when somebody last did, by the event loop's clock."""

    owners: set[str] = field(default_factory=set)
    asked_s: float = 0.0
    unasked: bool = False
    running: asyncio.Task[None] | None = None
    error: str = ""
    share: float = 0.0
    over: bool = False


@dataclass(eq=False)
class Runs:
    """All runs of a server, by the key of what is simulated."""

    folder: Path
    workers: Workers | None = None
    _runs: dict[str, Run] = field(default_factory=dict)
    _turn: asyncio.Semaphore = field(default_factory=lambda: asyncio.Semaphore(1))

    def waiting(self, key: str, owner: str, task: dict[str, Any], *, unasked: bool = False) -> dict[str, Any] | None:
        """What to tell a browser that has to wait for a run, which is begun if it is not under way; None: go on.

        unasked: nobody will ask for it, and it goes on all the same.

        Raises Refused where the run failed, or too many are waiting.
        """
        run = self._runs.get(key) or self._begun(key, owner, task)
        run.owners.add(owner)
        if run.over:
            del self._runs[key]
            if run.error:
                raise Refused(HTTPStatus.BAD_REQUEST, run.error)
            return None
        loop = asyncio.get_running_loop()
        run.asked_s = loop.time()
        run.unasked |= unasked
        if not run.unasked:
            loop.call_later(UNASKED_S, self._look_after, key, run)
        return {"waiting": say(WAITING), "share": run.share}

    def _begun(self, key: str, owner: str, task: dict[str, Any]) -> Run:
        under_way = {key: run for key, run in self._runs.items() if not run.over}
        if len(under_way) >= MOST_WAITING:
            own = [key for key, run in under_way.items() if run.owners == {owner}]
            if not own:
                raise Refused(HTTPStatus.SERVICE_UNAVAILABLE, FULL)
            self._drop(min(own, key=lambda each: under_way[each].asked_s))
        run = self._runs[key] = Run()
        run.running = asyncio.get_running_loop().create_task(self._run(key, run, task))
        return run

    def _look_after(self, key: str, run: Run) -> None:
        """Let go of a run that nobody has asked for since this look was planned."""
        since_s = asyncio.get_running_loop().time() - run.asked_s
        if self._runs.get(key) is run and since_s >= UNASKED_S - 0.01:
            self._drop(key)

    def _drop(self, key: str) -> None:
        run = self._runs.pop(key)
        if run.running is not None:
            run.running.cancel()

    async def _run(self, key: str, run: Run, task: dict[str, Any]) -> None:
        try:
            async with self._turn, asyncio.timeout(LONGEST_S):
                run.error = await worked(task, self.folder, lambda doing, share: None, self.workers)
        except TimeoutError:
            run.error = say(fact("error_web-run-too-long"))
        except OSError as error:
            why = error.strerror or fact("error_web-no-process")
            run.error = say(wrong("error_web-run-failed", why=why))
        except Exception:
            traceback.print_exc(file=sys.stderr)
            run.error = say(OUR_FAULT)
        finally:
            run.over = True

    async def close(self) -> None:
        tasks = [run.running for run in self._runs.values() if run.running is not None]
        for task in tasks:
            task.cancel()
        with suppress(asyncio.CancelledError):
            await asyncio.gather(*tasks, return_exceptions=True)
