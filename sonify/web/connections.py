"""Connections that nobody uses are let go, so that no one address, and nothing that stops halfway, locks others out."""

from __future__ import annotations

import asyncio
from collections import Counter
from typing import Any

from uvicorn.protocols.http.h11_impl import H11Protocol

#: Seconds for the head of a request to arrive whole, from its first byte or from the connection's beginning.
HEAD_S = 10.0
#: Connections of one address, and of all together.
MOST_OF_ONE, MOST_IN_ALL = 100, 380


class PatientProtocol(H11Protocol):
    """HTTP as uvicorn speaks it, with a limit to waiting for heads and to the connections of each address.

    Where there is no room for a newcomer, the connection that has been idle longest makes it: of the newcomer's own
    address if that has its share, else of the one that has most. Where all are at work, the newcomer is turned away.
    """

    _head: asyncio.TimerHandle | None = None
    _idle_since_s = 0.0

    @property
    def is_idle(self) -> bool:
        """Whether no request is being answered, or its body being read."""
        return self.cycle is None or self.cycle.response_complete

    @property
    def address(self) -> str:
        return self.client[0] if self.client else ""

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        super().connection_made(transport)
        self._idle_since_s = self.loop.time()
        self._expect_head()
        others = [each for each in self.connections if isinstance(each, PatientProtocol) and each is not self]
        crowded = [each for each in others if each.address == self.address]
        if len(crowded) < MOST_OF_ONE:
            if len(others) < MOST_IN_ALL:
                return
            [(most, _)] = Counter(each.address for each in others).most_common(1)
            crowded = [each for each in others if each.address == most]
        idle = [each for each in crowded if each.is_idle]
        gives_way = min(idle, key=lambda each: each._idle_since_s) if idle else self
        gives_way.let_go()

    def connection_lost(self, exc: Exception | None) -> None:
        self._head_came()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        super().data_received(data)
        if self.is_idle and not self.transport.is_closing():
            self._expect_head()
        else:
            self._head_came()

    def on_response_complete(self) -> None:
        self._idle_since_s = self.loop.time()
        super().on_response_complete()

    def let_go(self) -> None:
        """Close it at once, whatever it has not read yet."""
        self.connections.discard(self)
        self.transport.abort()

    def _expect_head(self) -> None:
        if self._head is None:
            self._head = self.loop.call_later(HEAD_S, self.let_go)

    def _head_came(self) -> None:
        if self._head is not None:
            self._head.cancel()
            self._head = None


def patient(**given: Any) -> asyncio.Protocol:
    """A protocol for one connection, as `uvicorn.Config(http=...)` asks for it."""
    return PatientProtocol(**given)
