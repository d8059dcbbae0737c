"""Turns at what takes time: browsers that wait are served one after the other, however much one of them asks."""

from __future__ import annotations

import asyncio
from collections import OrderedDict, deque
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from contextvars import ContextVar
from typing import TypeVar

import anyio
from anyio.to_thread import run_sync

Value = TypeVar("Value")

#: The browser whose request is being answered; the server itself is "".
ASKING: ContextVar[str] = ContextVar("asking", default="")


class Turns:
    """So many at a time. The browsers that wait stand in a ring, and each has one turn before any has its next.

    Held to one event loop: nothing here is for several threads.
    """

    def __init__(self, at_once: int) -> None:
        self._free = at_once
        self._ring: OrderedDict[str, deque[asyncio.Future[None]]] = OrderedDict()
        self._threads = anyio.CapacityLimiter(at_once)

    async def run(self, work: Callable[[], Value]) -> Value:
        """The result of work that takes time, done in a thread when its browser's turn has come."""
        async with self._turn(ASKING.get()):
            return await run_sync(work, limiter=self._threads)

    @asynccontextmanager
    async def _turn(self, browser: str) -> AsyncIterator[None]:
        if self._free:
            self._free -= 1
        else:
            await self._waited(browser)
        try:
            yield
        finally:
            self._next()

    async def _waited(self, browser: str) -> None:
        turn = asyncio.get_running_loop().create_future()
        self._ring.setdefault(browser, deque()).append(turn)
        try:
            await turn
        except BaseException:
            if turn.done() and not turn.cancelled():
                self._next()  # it was given a turn and goes without taking it
            raise

    def _next(self) -> None:
        """Give a turn to the browser that stands first, and send it to the end of the ring if it waits for more."""
        while self._ring:
            browser, waiting = self._ring.popitem(last=False)
            turn = waiting.popleft()
            if waiting:
                self._ring[browser] = waiting
            if not turn.done():
                turn.set_result(None)
                return
        self._free += 1
