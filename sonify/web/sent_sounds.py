"""Sounds that tablets send to the teacher: what `/api/sent-sound` takes and `/api/sent-sounds` gives to this machine.

Nothing of them is trusted or kept: each is read in a process of its own and waits in memory until she takes it or not,
so many of a tablet at a time, and all of them gone with the program. Nobody but she hears one.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from http import HTTPStatus
from pathlib import Path
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from sonify.frozen import dataclass
from sonify.inputs.sound_file import LARGEST_BYTES
from sonify.records.fact import wrong
from sonify.records.own_sound import KEPT_HZ
from sonify.web.errors import Refused
from sonify.web.http import answer, guarded, only_at_home, received
from sonify.web.inputs import file_name, refuse
from sonify.web.recordings import HEAD_BYTES, plain_sound
from sonify.web.waiting import Waiting

#: So many wait for her at a time, at 0.9 MB each, and of one tablet so many; so many arrive or are read at once.
MOST, MOST_OF_ONE, AT_ONCE = 24, 2, 1
LONGEST_PART, LONGEST_NAME = 60, 40


@dataclass(frozen=True, slots=True, kw_only=True)
class SentSound:
    id: int
    owner: str
    part: str
    name: str
    wav: bytes

    @property
    def seconds(self) -> float:
        return round((len(self.wav) - HEAD_BYTES) / 2 / KEPT_HZ, 2)

    def facts(self) -> dict[str, Any]:
        return {"id": self.id, "part": self.part, "name": self.name, "seconds": self.seconds}


class SentSounds:
    """The answers. owner: tells browsers apart. at_home: whether a browser runs on this machine. add: holds a sound for
    her plan, and gives its key. compute: does work in a thread."""

    def __init__(
        self,
        folder: Path,
        owner: Callable[[Request], str],
        at_home: Callable[[Request], bool],
        add: Callable[[bytes], str],
        compute: Callable[..., Any],
    ) -> None:
        self._folder, self._owner, self._at_home, self._add, self._compute = folder, owner, at_home, add, compute
        self._waiting = Waiting[SentSound](most=MOST, most_of_one=MOST_OF_ONE)
        self._reading = asyncio.Semaphore(AT_ONCE)
        self._sending: set[str] = set()

    def routes(self) -> list[Route]:
        return [
            Route("/api/sent-sound/file", guarded(self.take), methods=["POST"]),
            Route("/api/sent-sounds", guarded(self.list)),
            Route("/api/sent-sounds", guarded(self.settle), methods=["POST"]),
            Route("/api/sent-sounds/{id:int}", guarded(self.give)),
        ]

    async def take(self, request: Request) -> Response:
        """A sound file from a browser that is let in, as its bytes. Of a tablet that sends more, the newest wait."""
        part, name = _label(request, "part", LONGEST_PART), _label(request, "called", LONGEST_NAME)
        file = file_name({"file": request.query_params.get("name", "")[:1000]}, "sound.wav")
        owner = self._owner(request)
        if owner in self._sending:  # one at a time, so that a tablet does not hold up the others
            raise Refused(HTTPStatus.CONFLICT, wrong("error_web-one-sound"))
        self._waiting.check_room()
        self._sending.add(owner)
        try:
            async with received(request, self._folder) as sent, self._reading:
                wav = await self._compute(lambda: plain_sound(_bytes_of(sent), file))
        finally:
            self._sending.discard(owner)
        sound = self._waiting.add(
            lambda number: SentSound(id=number, owner=owner, part=part, name=name, wav=wav), owner
        )
        return answer({"sent": True, "seconds": sound.seconds})

    def _check(self, request: Request) -> None:
        only_at_home(self._at_home(request))

    async def list(self, request: Request) -> Response:
        self._check(request)
        return answer(self._listed())

    async def give(self, request: Request) -> Response:
        """One that waits, for her to hear before she takes it."""
        self._check(request)
        sound = self._waiting.get(request.path_params["id"])
        if sound is None:
            raise Refused(HTTPStatus.NOT_FOUND, wrong("error_web-sound-not-here"))
        return Response(sound.wav, media_type="audio/wav")

    async def settle(self, request: Request) -> Response:
        """One that she takes into her plan, or not: it waits no longer. Gives the key of one that is taken."""
        self._check(request)
        sound, given = await self._waiting.settled(request, wrong("error_web-sound-ask"))
        taken = sound is not None and given.get("take") is True
        return answer({**self._listed(), "key": self._add(sound.wav) if sound is not None and taken else ""})

    def forget(self) -> None:
        """Nothing that was sent is left."""
        self._waiting.forget()

    def _listed(self) -> dict[str, Any]:
        return {"sounds": [each.facts() for each in self._waiting.all()]}


def _bytes_of(file: Path) -> bytes:
    with file.open("rb") as sent:
        return sent.read(LARGEST_BYTES + 1)


def _label(request: Request, key: str, most: int) -> str:
    """A short text of the address, on one line. Raises Refused."""
    text = " ".join(request.query_params.get(key, "").split())
    if len(text) > most or not (text + " ").isprintable():
        refuse(wrong("error_web-sound-label"), key)
    return text
