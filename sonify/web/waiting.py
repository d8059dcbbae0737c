"""What tablets sent and the teacher has not settled yet: in memory, so many of a tablet, and gone with the program."""

from __future__ import annotations

import threading
from collections.abc import Callable
from http import HTTPStatus
from itertools import count
from typing import Any, Generic, Protocol, TypeVar

from starlette.requests import Request

from sonify.records.fact import Words, wrong
from sonify.web.errors import Refused
from sonify.web.http import json_of
from sonify.web.inputs import refuse


class Sent(Protocol):
    @property
    def owner(self) -> str:
        """The browser it came from."""


One = TypeVar("One", bound=Sent)


class Waiting(Generic[One]):
    """The list, by number. most: of all tablets. most_of_one: of one, whose newest stand."""

    def __init__(self, *, most: int, most_of_one: int) -> None:
        self._most, self._most_of_one = most, most_of_one
        self._held: dict[int, One] = {}
        self._numbers, self._lock = count(1), threading.Lock()

    def check_room(self) -> None:
        """Raises Refused where all places are taken."""
        if len(self._held) >= self._most:
            raise Refused(HTTPStatus.TOO_MANY_REQUESTS, wrong("error_web-offers-full"))

    def add(self, sent: Callable[[int], One], owner: str) -> One:
        """One more, made with its number. Raises Refused where others have all places."""
        with self._lock:
            own = [number for number, each in self._held.items() if each.owner == owner]
            for old in own[: max(0, len(own) + 1 - self._most_of_one)]:
                del self._held[old]
            self.check_room()
            number = next(self._numbers)
            self._held[number] = sent(number)
            return self._held[number]

    def get(self, number: int) -> One | None:
        return self._held.get(number)

    def all(self) -> list[One]:
        with self._lock:
            return list(self._held.values())

    async def settled(self, request: Request, unreadable: Words) -> tuple[One | None, dict[str, Any]]:
        """The one whose number a request holds, which waits no longer, and all that the request says."""
        given = await json_of(request)
        number = given.get("id") if isinstance(given, dict) else None
        if type(number) is not int:
            refuse(unreadable, "id")
        with self._lock:
            return self._held.pop(number, None), given

    def forget(self) -> None:
        with self._lock:
            self._held.clear()
