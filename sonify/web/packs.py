"""Making packs for browsers: what `/api/pack` and all below it answer."""

from __future__ import annotations

import os
import pickle
from base64 import b64encode
from collections.abc import Callable
from http import HTTPStatus
from pathlib import Path
from typing import Any
from urllib.parse import quote

from anyio.to_thread import run_sync
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import Route

from sonify import lesson
from sonify.errors import UnknownName
from sonify.lesson.morning import lines_of
from sonify.records.fact import wrong
from sonify.records.words import plain_name
from sonify.web.desk import Desk
from sonify.web.errors import Refused
from sonify.web.files import KINDS, Listed
from sonify.web.http import answer, guarded, inputs_of, json_of
from sonify.web.inputs import Inputs, refuse, text_at
from sonify.web.jobs import Job, Jobs
from sonify.web.options import read_options

LOST = wrong("error_web-lost")
GONE = wrong("error_web-gone")
#: A lesson with more readings is computed again by the pack's process.
HEAVY_BYTES = 5_000_000


class Packs:
    """The answers about packs. owner: tells browsers apart. compute: does work in a thread. at_home: whether a browser
    runs on this machine."""

    def __init__(
        self,
        desk: Desk,
        jobs: Jobs,
        owner: Callable[[Request], str],
        compute: Callable[..., Any],
        at_home: Callable[[Request], bool],
    ) -> None:
        self._desk, self.jobs, self._owner, self._compute, self._at_home = desk, jobs, owner, compute, at_home

    def routes(self) -> list[Route]:
        return [
            Route("/api/pack", guarded(self.make), methods=["POST"]),
            Route("/api/redeal", guarded(self.redeal), methods=["POST"]),
            Route("/api/pack/{job}", guarded(self.state)),
            Route("/api/pack/{job}/cancel", guarded(self.cancel), methods=["POST"]),
            Route("/api/pack/{job}/zip", guarded(self.whole)),
            Route("/api/pack/{job}/file/{number}", guarded(self.file)),
            Route("/api/pack/{job}/page/{number}/{page}", guarded(self.page)),
        ]

    async def make(self, request: Request) -> Response:
        given = await json_of(request)
        if not isinstance(given, dict):
            refuse(wrong("error_web-wanted-inputs"))
        options = read_options(given.get("options"))
        inputs = await inputs_of(given.get("inputs"), self._desk, home=self._at_home(request))
        name = await self._compute(lambda: self._checked(inputs, options["without"]))
        readings = await self._compute(lambda: self._desk.readings(inputs))
        task = {
            "task": "pack",
            "name": name,
            "inputs": sent(inputs, self._desk),
            "options": options,
            "readings": readings,
            "recordings": await self._compute(lambda: recordings_of(inputs, self._desk)) if options["sounds"] else {},
            "study": await self._compute(lambda: self._known(inputs)),
        }
        job = self.jobs.add(self._owner(request), task, name)
        return answer({"job": job.id, "ahead": self.jobs.ahead(job)}, HTTPStatus.ACCEPTED)

    async def redeal(self, request: Request) -> Response:
        """What to write on the cards where pupils are absent or an instrument is broken."""
        given = await json_of(request)
        if not isinstance(given, dict):
            refuse(wrong("error_web-wanted-inputs"))
        inputs = await inputs_of(given.get("inputs"), self._desk, home=self._at_home(request))
        absent, broken = (text_at(given, key, 200, "") for key in ("absent", "broken"))
        lines = await self._compute(lambda: lines_of(self._desk.study(inputs).lesson, absent, broken))
        return answer({"lines": lines})

    def _checked(self, inputs: Inputs, without: list[str]) -> str:
        """The name of the pack. Raises SonifyError for a mistake in what was asked, which is told at once.

        Where the science takes many seconds, what only the whole lesson tells is left to the process of the pack.
        """
        scene = self._desk.draft(inputs).scene
        if self._desk.knows(inputs) or lesson.is_quick(scene):
            known = [part.name for part in self._desk.study(inputs).lesson.score.group_parts]
            if odd := [name for name in without if name not in known]:
                raise UnknownName("group", odd[0], known)
        else:
            self._desk.classroom(inputs)
        return plain_name(scene.name)

    def _known(self, inputs: Inputs) -> str:
        """The lesson for the pack's process, where it is here and light enough to be handed over; "" where not.

        One with recordings is not: they leave only where that is ticked, and the process is given those alone.
        """
        study = None if inputs.sounds else self._desk.kept_study(inputs.key)
        if study is None:
            return ""
        table = study.lesson.scene.table
        if table is not None and table.nbytes > HEAVY_BYTES:
            return ""
        try:
            return b64encode(pickle.dumps(study)).decode()
        except (pickle.PicklingError, AttributeError, TypeError):  # a process that has a function of its own in it
            return ""

    def _job(self, request: Request) -> Job:
        return self.jobs.job(request.path_params["job"], self._owner(request))

    async def state(self, request: Request) -> Response:
        job = self._job(request)
        files = [
            {
                "n": number,
                "name": file.name,
                "bytes": file.bytes,
                "kind": file.kind,
                "words": file.words,
                "pages": file.pages,
            }
            for number, file in enumerate(job.files)
        ]
        return answer(
            {
                "state": job.state,
                "ahead": self.jobs.ahead(job),
                "doing": job.doing,
                "share": job.share,
                "error": job.error,
                "name": job.name,
                "files": files,
            }
        )

    async def cancel(self, request: Request) -> Response:
        job = self._job(request)
        await self.jobs.cancel(job)
        return answer({"state": job.state})

    def _ready(self, request: Request) -> Job:
        job = self._job(request)
        if job.state != "ready":
            raise Refused(HTTPStatus.NOT_FOUND, wrong("error_web-not-ready"))
        return job

    async def whole(self, request: Request) -> Response:
        job = self._ready(request)
        return _sent(job.zip, "application/zip", _attached(f"{job.name}.zip"))

    def _file(self, request: Request) -> Listed:
        job, number = self._ready(request), request.path_params["number"]
        if not (number.isascii() and number.isdecimal() and len(number) < 6 and int(number) < len(job.files)):
            raise Refused(HTTPStatus.NOT_FOUND, GONE)
        return job.files[int(number)]

    async def file(self, request: Request) -> Response:
        file = self._file(request)
        name = file.name.rpartition("/")[2]
        if request.query_params.get("open") == "1" and file.kind == KINDS[".pdf"]:
            return _sent(file.path, file.kind, _shown(name))
        return _sent(file.path, file.kind, _attached(name))

    async def page(self, request: Request) -> Response:
        file, page = self._file(request), request.path_params["page"]
        if not (page.isascii() and page.isdecimal() and len(page) < 6 and 1 <= int(page) <= file.pages):
            raise Refused(HTTPStatus.NOT_FOUND, wrong("error_web-no-page", pages=file.pages))
        if not file.path.is_file():
            raise Refused(HTTPStatus.GONE, LOST)
        png = await run_sync(lambda: lesson.pdf_page_png(file.path, int(page)))
        return Response(png, media_type="image/png")


def _sent(file: Path, kind: str, headers: dict[str, str]) -> Response:
    """A file as an answer; Refused where something on this machine has taken it away since it was made."""
    try:
        return FileResponse(file, media_type=kind, headers=headers, stat_result=os.stat(file))
    except OSError:
        raise Refused(HTTPStatus.GONE, LOST) from None


def sent(inputs: Inputs, desk: Desk) -> dict[str, Any]:
    """The inputs for a process that remembers nothing: the readings go with them."""
    facts = inputs.as_sent()
    if inputs.csv_key:
        facts["scene"]["csv"] = inputs.csv if inputs.csv is not None else desk.csv(inputs.csv_key)
        del facts["scene"]["csv_key"]
    return facts


def recordings_of(inputs: Inputs, desk: Desk) -> dict[str, str]:
    """The recordings that a plan names and that are here, by their keys, as JSON can have them."""
    held = {key: desk.recordings.get(key) for key in inputs.sounds.values()}
    return {key: b64encode(wav).decode("ascii") for key, wav in held.items() if wav is not None}


def _shown(name: str) -> dict[str, str]:
    """The headers that show a PDF of ours in the browser, to print it from there. Its viewer is a page of its own."""
    policy = "frame-ancestors 'none'"
    return {"Content-Disposition": f"inline; filename*=UTF-8''{quote(name)}", "Content-Security-Policy": policy}


def _attached(name: str) -> dict[str, str]:
    """The header that saves a file under its name in place of showing it."""
    return {"Content-Disposition": f"attachment; filename*=UTF-8''{quote(name)}"}
