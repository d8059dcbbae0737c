"""Sounds that a teacher sends to the page of her own computer: what `/api/sound` and `/api/recordings` answer.

Only browsers of this machine are answered: a tablet has neither the microphone nor what was recorded.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping
from http import HTTPStatus
from pathlib import Path
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from sonify.inputs.sound_file import LARGEST_BYTES
from sonify.records.fact import wrong
from sonify.records.own_sound import KEPT_HZ
from sonify.web.desk import Desk
from sonify.web.errors import Refused
from sonify.web.http import answer, guarded, json_of, only_at_home, received
from sonify.web.inputs import file_name, refuse, text_at
from sonify.web.recordings import HEAD_BYTES, plain_sound

#: So many are read at a time, each in a process of its own.
AT_ONCE = 2
DOES = ("keep", "release", "delete", "undelete")


class OwnSounds:
    """The answers. at_home: whether a browser runs on this machine."""

    def __init__(
        self, desk: Desk, folder: Path, at_home: Callable[[Request], bool], compute: Callable[..., Any]
    ) -> None:
        self._desk, self._folder, self._at_home, self._compute = desk, folder, at_home, compute
        self._reading = asyncio.Semaphore(AT_ONCE)

    def routes(self) -> list[Route]:
        return [
            Route("/api/sound", guarded(self.take), methods=["POST"]),
            Route("/api/sound/{key}", guarded(self.give)),
            Route("/api/recordings", guarded(self.do), methods=["POST"]),
        ]

    def _check(self, request: Request) -> None:
        only_at_home(self._at_home(request))

    async def take(self, request: Request) -> Response:
        """A sound file, as its bytes; its name in the address."""
        self._check(request)
        name = file_name({"file": request.query_params.get("name", "")[:1000]}, "sound.wav")
        async with self._reading, received(request, self._folder) as file:
            return answer(await self._compute(lambda: self._taken(file, name)))

    def _taken(self, file: Path, name: str) -> dict[str, Any]:
        with file.open("rb") as sent:
            data = sent.read(LARGEST_BYTES + 1)
        wav = plain_sound(data, name)
        key = self._desk.recordings.add(wav)
        return {"key": key, "seconds": round((len(wav) - HEAD_BYTES) / 2 / KEPT_HZ, 2)}

    async def give(self, request: Request) -> Response:
        self._check(request)
        wav = self._desk.recordings.get(request.path_params["key"])
        if wav is None:
            raise Refused(HTTPStatus.NOT_FOUND, wrong("error_web-sound-not-here"))
        return Response(wav, media_type="audio/wav")

    async def do(self, request: Request) -> Response:
        """Keep a recording on the disk or no longer, delete it, have it back. Gives how it stands then."""
        self._check(request)
        given = await json_of(request)
        if not isinstance(given, dict):
            refuse(wrong("error_web-sound-ask"))
        return answer(await self._compute(lambda: self._done(given)))

    def _done(self, given: Mapping[str, Any]) -> dict[str, Any]:
        do, key, held = text_at(given, "do", 20, ""), text_at(given, "key", 32), self._desk.recordings
        if do in ("keep", "release"):
            held.keep(key, on=do == "keep")
        elif do in ("delete", "undelete"):
            held.delete(key) if do == "delete" else held.undelete(key)
            self._desk.let_recordings_go(key)
        elif do:
            refuse(wrong("error_web-sound-ask"), "do")
        return {"here": held.get(key) is not None, "kept": held.is_kept(key)}
