"""Recordings of the class: sent to this machine, measured in a process of its own, and gone.

All of it is for browsers of this machine alone: others of the network can only send, to the lesson that waits here.

A recording lies in the server's temporary folder until it is measured and no longer, whatever becomes of the measuring;
what a killed server left is removed at the next start. What is kept is figures and sentences, in memory.
"""

from __future__ import annotations

import asyncio
import json
import os
import re
import shutil
import sys
import tempfile
import time
import traceback
from collections import OrderedDict
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from http import HTTPStatus
from pathlib import Path
from typing import Any

from anyio.to_thread import run_sync
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from sonify.lesson.class_recording import listening_task
from sonify.records.fact import fact, wrong
from sonify.say import say
from sonify.web.desk import Study
from sonify.web.errors import OUR_FAULT, Refused
from sonify.web.http import answer, guarded, only_at_home, page, received
from sonify.web.pages import recording_page, send_page
from sonify.web.process import worked
from sonify.web.sharing import Door
from sonify.web.work import TOLD

#: So many recordings arrive or are measured at a time; so many results are kept, and beyond them those still awaited.
AT_ONCE, MOST_KEPT = 2, 40
#: A recording that takes longer than this to measure is given up; a phone is waited for so long.
LONGEST_S, WAITS_S = 900.0, 900.0
#: Of a sender's name for a file only its ending counts.
_ENDING = re.compile(r"\.([A-Za-z0-9]{1,5})$")


@dataclass(eq=False)
class Take:
    """One recording of one lesson by one browser.

    state: none, waiting (for a phone), arriving, measuring, ready, failed, cancelled.
    """

    state: str = "none"
    doing: str = ""
    share: float = 0.0
    error: str = ""
    told: dict[str, Any] | None = None
    asked_s: float = 0.0
    from_phone: bool = False
    fetched: bool = False
    arriving: asyncio.Task[tuple[dict[str, Any], Path]] | None = field(default=None, repr=False)
    running: asyncio.Task[None] | None = field(default=None, repr=False)

    @property
    def busy(self) -> bool:
        return self.state in ("arriving", "measuring")

    @property
    def waits(self) -> bool:
        """Whether what a phone sends now may be for this one."""
        return self.state == "waiting" and time.monotonic() - self.asked_s < WAITS_S

    @property
    def awaited(self) -> bool:
        """Whether somebody still counts on it, and it must not go for want of room."""
        return self.busy or self.waits or (self.state == "ready" and not self.fetched)

    def facts(self) -> dict[str, Any]:
        keys = ("state", "doing", "share", "error", "told", "from_phone")
        return {key: getattr(self, key) for key in keys}


class Takes:
    """The answers about recordings. study_of: the lesson of a key, Refused where it is gone. compute: does work in a
    thread. elsewhere: the address by which other machines reach this one, "" where they do not."""

    def __init__(self, folder: Path, door: Door, study_of: Callable[[str], Study], compute: Callable[..., Any]) -> None:
        self._folder, self._door, self._study_of, self._compute = folder, door, study_of, compute
        self._takes: OrderedDict[tuple[str, str], Take] = OrderedDict()
        self._turns, self._arriving = asyncio.Semaphore(AT_ONCE), asyncio.Semaphore(AT_ONCE)
        self.elsewhere = ""

    def routes(self) -> list[Route]:
        return [
            Route("/lesson/{key}/recording", guarded(self.page)),
            Route("/send", guarded(self.send_page)),
            Route("/api/recording/{key}", guarded(self.state)),
            Route("/api/recording/{key}/file", guarded(self.take), methods=["POST"]),
            Route("/api/recording/{key}/wait", guarded(self.wait), methods=["POST"]),
            Route("/api/recording/{key}/cancel", guarded(self.cancel), methods=["POST"]),
            Route("/api/sent-recording/file", guarded(self.from_phone), methods=["POST"]),
        ]

    def _check(self, request: Request) -> None:
        only_at_home(self._door.is_at_home(request))

    def _take(self, request: Request) -> tuple[str, Take]:
        self._check(request)
        key = request.path_params["key"]
        place = (self._door.owner(request), key)
        if place not in self._takes:
            self._study_of(key)
            self._takes[place] = Take()
            while len(self._takes) > MOST_KEPT:
                old = next((each for each, take in self._takes.items() if not take.awaited), None)
                if old is None or old == place:
                    break
                del self._takes[old]
        return key, self._takes[place]

    # --- pages -------------------------------------------------------------------------------------------------------

    async def page(self, request: Request) -> Response:
        self._check(request)
        study = self._study_of(request.path_params["key"])
        phones = f"{self.elsewhere}send" if self.elsewhere else ""
        return page(await self._compute(lambda: recording_page(study, phones)))

    async def send_page(self, request: Request) -> Response:
        return page(await self._compute(send_page))

    # --- answers -----------------------------------------------------------------------------------------------------

    async def state(self, request: Request) -> Response:
        _, take = self._take(request)
        take.fetched = take.state == "ready"
        return answer(take.facts())

    async def wait(self, request: Request) -> Response:
        """From now on what a phone sends is for this lesson."""
        _, take = self._take(request)
        if not take.busy:
            take.state, take.asked_s, take.error, take.told = "waiting", time.monotonic(), "", None
        return answer(take.facts())

    async def cancel(self, request: Request) -> Response:
        _, take = self._take(request)
        while (task := take.arriving if take.state == "arriving" else take.running) is not None and take.busy:
            task.cancel()
            with suppress(asyncio.CancelledError):
                await asyncio.shield(asyncio.wait({task}))
            await asyncio.sleep(0)  # one that had just arrived begins to be measured, and is stopped then
        if take.state == "waiting":
            take.state = "none"
        return answer(take.facts())

    async def take(self, request: Request) -> Response:
        key, take = self._take(request)
        await self._received(request, key, take, from_phone=False)
        return answer(take.facts(), HTTPStatus.ACCEPTED)

    async def from_phone(self, request: Request) -> Response:
        """A recording for whichever lesson was the last to wait for one. The phone hears only that it came."""
        waiting = [(take.asked_s, key, take) for (_, key), take in self._takes.items() if take.waits]
        if not waiting:
            raise Refused(HTTPStatus.CONFLICT, wrong("error_web-nobody-waits"))
        _, key, take = max(waiting, key=lambda row: row[0])
        await self._received(request, key, take, from_phone=True)
        return answer({"sent": True}, HTTPStatus.ACCEPTED)

    async def _received(self, request: Request, key: str, take: Take, *, from_phone: bool) -> None:
        if take.busy:
            raise Refused(HTTPStatus.CONFLICT, wrong("error_web-one-recording"))
        if self._arriving.locked():
            raise Refused(HTTPStatus.SERVICE_UNAVAILABLE, wrong("error_web-enough-recordings"))
        before = take.state
        take.state, take.doing, take.share = "arriving", say(fact("record-arriving")), 0.0
        take.error, take.told, take.from_phone = "", None, from_phone
        take.arriving = asyncio.get_running_loop().create_task(self._arrived(request, key))
        try:
            task, folder = await take.arriving
        except asyncio.CancelledError:
            ends = asyncio.current_task()
            if ends is None or ends.cancelling():
                take.state = "none"
                raise
            take.state = "cancelled"
            raise Refused(HTTPStatus.CONFLICT, wrong("error_web-recording-stopped")) from None
        except BaseException:
            take.state = before if before == "waiting" else "none"
            raise
        take.state = "measuring"

        def over(_: asyncio.Task[None]) -> None:
            # not in the task: one that is cancelled before its first step never runs
            shutil.rmtree(folder, ignore_errors=True)
            if take.busy:
                take.state = "cancelled"

        take.running = asyncio.get_running_loop().create_task(self._measure(take, task, folder))
        take.running.add_done_callback(over)

    async def _arrived(self, request: Request, key: str) -> tuple[dict[str, Any], Path]:
        """What is to be measured, and the folder that it came to lie in."""
        task = {"task": "listen", "of": await self._compute(lambda: listening_task(self._study_of(key).lesson))}
        ending = _ENDING.search(request.query_params.get("name", "")[-12:])
        name = f"recording.{ending[1].lower() if ending else 'sound'}"
        async with self._arriving, received(request, self._folder) as file:
            folder = Path(tempfile.mkdtemp(dir=self._folder, prefix="recording-"))
            os.replace(file, folder / name)  # nothing is waited for from here on: a stop would leave it lying
        return {**task, "file": name}, folder

    async def _measure(self, take: Take, task: dict[str, Any], folder: Path) -> None:
        def tell(doing: str, share: float) -> None:
            take.doing, take.share = doing, max(take.share, share)

        try:
            async with self._turns, asyncio.timeout(LONGEST_S):
                take.error = await worked(task, folder, tell)
            if not take.error:
                take.told = json.loads(await run_sync((folder / TOLD).read_bytes))
            take.state = "failed" if take.error else "ready"
        except asyncio.CancelledError:
            take.state = "cancelled"
        except TimeoutError:
            take.state, take.error = "failed", say(fact("error_web-recording-too-long"))
        except OSError as error:
            why = error.strerror or fact("error_web-silent-disk")
            take.state, take.error = "failed", say(wrong("error_web-recording-failed", why=why))
        except Exception:
            traceback.print_exc(file=sys.stderr)
            take.state, take.error = "failed", say(OUR_FAULT)

    async def close(self) -> None:
        """Stop everything."""
        tasks = [take.running for take in self._takes.values() if take.running is not None and take.busy]
        for task in tasks:
            task.cancel()
        with suppress(asyncio.CancelledError):
            await asyncio.gather(*tasks, return_exceptions=True)
