"""Patterns that tablets send to the teacher: what `/api/offer` takes and `/api/offers` shows to this machine alone.

Nothing of them is trusted or kept: each is a few short texts in memory until she takes it or not, so many of a tablet
at a time, and all of them gone with the program.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.inputs.own_pattern import bar_boxes
from sonify.inputs.pattern_edits import PATTERN, own_pattern_edits
from sonify.inputs.readings import UnreadableWord, note_number
from sonify.records.fact import wrong
from sonify.records.own_pattern import MOST_BARS
from sonify.web.http import answer, guarded, json_of, only_at_home
from sonify.web.inputs import refuse, text_at
from sonify.web.waiting import Waiting

#: So many wait for her at a time, and of one tablet so many.
MOST, MOST_OF_ONE = 60, 3
LONGEST_NAME = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    id: int
    owner: str
    part: str
    pattern: dict[str, Any]


class Offers:
    """The answers. owner: tells browsers apart. at_home: whether a browser runs on this machine."""

    def __init__(self, owner: Callable[[Request], str], at_home: Callable[[Request], bool]) -> None:
        self._owner, self._at_home = owner, at_home
        self._waiting = Waiting[Offer](most=MOST, most_of_one=MOST_OF_ONE)

    def routes(self) -> list[Route]:
        return [
            Route("/api/offer", guarded(self.take), methods=["POST"]),
            Route("/api/offers", guarded(self.list)),
            Route("/api/offers", guarded(self.settle), methods=["POST"]),
        ]

    async def take(self, request: Request) -> Response:
        """A pattern from a browser that is let in. Of a tablet that sends more than wait, the newest stand."""
        given = await json_of(request)
        if not isinstance(given, dict):
            refuse(wrong("error_web-offer"))
        part, pattern = text_at(given, "part", LONGEST_NAME), _pattern(given)
        owner, called = self._owner(request), " ".join(part.split())
        self._waiting.add(lambda number: Offer(id=number, owner=owner, part=called, pattern=pattern), owner)
        return answer({"sent": True})

    def _check(self, request: Request) -> None:
        only_at_home(self._at_home(request))

    async def list(self, request: Request) -> Response:
        self._check(request)
        return answer(self._listed())

    async def settle(self, request: Request) -> Response:
        """One that she has taken into her plan, or not: either way it waits no longer."""
        self._check(request)
        await self._waiting.settled(request, wrong("error_web-offer"))
        return answer(self._listed())

    def forget(self) -> None:
        """Nothing that was sent is left."""
        self._waiting.forget()

    def _listed(self) -> dict[str, Any]:
        return {"offers": [{"id": each.id, "part": each.part, **each.pattern} for each in self._waiting.all()]}


def _pattern(given: dict[str, Any]) -> dict[str, Any]:
    """A pattern in the shape that a scene has, whatever its metre and key. Raises Refused."""
    row = {key: given[key] for key in ("boxes", "notes", "name") if key in given}
    try:
        found = own_pattern_edits({f"{PATTERN}it": row}, file="")["it"] or {}
        boxes = [bar_boxes(bar) for bar in found.get("boxes", ())]
        for note in found.get("notes", ()):
            note_number(note)
    except (BadFile, UnreadableWord):
        refuse(wrong("error_web-offer"))
    name = str(found.get("name", ""))[:LONGEST_NAME]
    if not 0 < len(boxes) <= MOST_BARS or not any("x" in bar for bar in boxes) or not (name + " ").isprintable():
        refuse(wrong("error_web-offer"))
    return {**found, "name": name}
