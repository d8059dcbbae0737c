"""The application: which address gives what. Everything that takes time is done in threads, off the event loop."""

from __future__ import annotations

import asyncio
import secrets
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from functools import partial
from http import HTTPStatus
from pathlib import Path
from typing import Any

from anyio.to_thread import run_sync
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route
from starlette.types import ASGIApp

from sonify import lesson
from sonify.data.authoring import words_facts
from sonify.data.differences import differences
from sonify.errors import UnknownName
from sonify.inputs.scene_edits import LONGEST_TEXT, MOST_ITEMS
from sonify.page.audio import sounds_data
from sonify.page.document import json_text, lesson_data
from sonify.records.fact import wrong
from sonify.storage.keeping import folder as kept_folder
from sonify.web import drafts
from sonify.web.axis import axis_facts
from sonify.web.desk import Desk, Study, size_of
from sonify.web.errors import Refused
from sonify.web.http import answer, guarded, inputs_of, json_of, not_here, page, received
from sonify.web.inputs import Inputs, refuse, table_at, text_at, texts_at
from sonify.web.jobs import Jobs
from sonify.web.keeping import Shelf
from sonify.web.memory import keep_giving_back, lightened
from sonify.web.mending import mends
from sonify.web.offers import Offers
from sonify.web.opening import opened
from sonify.web.packs import Packs, sent
from sonify.web.pages import Asset, assets, front_page, gone_page, lesson_page
from sonify.web.reading import read_given
from sonify.web.recordings import FOLDER as RECORDINGS
from sonify.web.recordings import Recordings
from sonify.web.results import Limit, Results
from sonify.web.runs import Runs
from sonify.web.safety import Guard
from sonify.web.sent_sounds import SentSounds
from sonify.web.sharing import COOKIE, Door, marked
from sonify.web.sounds import OwnSounds
from sonify.web.start import kept_row, slow_scenes, start_facts
from sonify.web.takes import Takes
from sonify.web.turns import Turns, Value

# The sounds of a lesson for its page: rendered as soon as the lesson is asked for, in a thread, and kept.

#: About 5 MB each: a lesson, one beside it to compare, and some that were heard before.
MOST_KEPT = 6


class Sounds:
    """Kept by the Score's own inputs: what sounds is a function of the Score alone."""

    def __init__(self, keeps: Callable[[Study], bool], limit: Limit) -> None:
        self.kept: Results[bytes] = Results(MOST_KEPT, limit, weigh=size_of)
        self._keeps = keeps

    def of(self, study: Study) -> bytes:
        """The sounds as JSON, as the page reads them."""
        score = study.lesson.score
        return self.kept.of(
            study.key,
            lambda: json_text(sounds_data(lesson.sounds_of(score))).encode(),
            keep=lambda: self._keeps(study),
        )


#: So many requests are computed at a time; others wait their turn.
AT_ONCE = 2
#: Sounds take seconds: they have turns of their own, so that a Plan never waits for them.
SOUNDS_AT_ONCE = 2
#: So many are rendered before anybody asks for them, or wait for that; each holds its lesson meanwhile.
MOST_BEGUN = 8
#: So many packs are sent to be opened at a time: each takes room on the disk meanwhile.
OPENED_AT_ONCE = 2
#: Lessons' pages are kept without their sounds, about 1 MB each.
MOST_PAGES = 6


class Server:
    """One running server: what it holds, and what it answers. folder: its temporary folder."""

    def __init__(self, folder: Path, door: Door) -> None:
        place = kept_folder()
        recordings = Recordings(None if place is None else place / RECORDINGS)
        self.desk, self.door = Desk(recordings), door
        self.sounds = Sounds(self.desk.keeps, self.desk.limit)
        self.offers = Offers(door.owner, door.is_at_home)
        self.own_sounds = OwnSounds(self.desk, folder, door.is_at_home, self.compute)
        self.sent_sounds = SentSounds(folder, door.owner, door.is_at_home, recordings.add, self.compute)
        self.packs = Packs(self.desk, Jobs(folder), door.owner, self.compute, door.is_at_home)
        self.runs = Runs(folder, self.packs.jobs.workers)
        self.takes = Takes(folder, door, self._kept, self.compute)
        self.shelf = Shelf(self.desk, door.is_at_home, self.compute, also_forget=self._forget_sent)
        self._folder, self._opening = folder, asyncio.Semaphore(OPENED_AT_ONCE)
        self._turns, self._sounding = Turns(AT_ONCE), Turns(SOUNDS_AT_ONCE)
        self._assets: dict[str, Asset] = assets()
        self._pages: Results[bytes] = Results(MOST_PAGES, self.desk.limit, weigh=size_of)
        self._begun: dict[str, asyncio.Task[bytes]] = {}
        self.desk.made_of_lessons += [self.sounds.kept, self._pages]

    def _forget_sent(self) -> None:
        """Nothing of what tablets sent is left."""
        self.offers.forget()
        self.sent_sounds.forget()

    async def compute(self, work: Callable[[], Any]) -> Any:
        """The result of work that takes time, done in a thread when the browser that asks has its turn."""
        return await self._turns.run(work)

    async def sounds_of(self, study: Study) -> bytes:
        """The sounds of a lesson, rendered in a thread where they are not kept: once, however many ask meanwhile."""
        kept = self.sounds.kept.get(study.key)
        return kept if kept is not None else await asyncio.shield(self._rendering(study))

    def _rendering(self, study: Study) -> asyncio.Task[bytes]:
        """What renders the sounds of a lesson, or waits for its turn. Who asks for the same takes no second turn."""
        task = self._begun.get(study.key)
        if task is None:
            work = self._sounding.run(lambda: lightened(lambda: self.sounds.of(study)))
            task = self._begun[study.key] = asyncio.get_running_loop().create_task(work)
            task.add_done_callback(lambda done: self._rendered(study.key, done))
        return task

    def _rendered(self, key: str, task: asyncio.Task[bytes]) -> None:
        self._begun.pop(key, None)
        if not task.cancelled():
            task.exception()  # whoever asked for it is told; where nobody did, it is asked for again

    def begin_sounds(self, study: Study) -> None:
        """Render what somebody will soon ask for, unless so many wait already."""
        if self.sounds.kept.get(study.key) is None and len(self._begun) < MOST_BEGUN:
            self._rendering(study)

    def start_facts(self, *, home: bool = False) -> dict[str, Any]:
        """home: for a browser of this machine itself, which alone has what is kept and recorded here."""
        keeps = home and self.shelf.keeps
        return {**start_facts(self.desk, shared=bool(self.door.code)), "keeps": keeps, "home": home}

    # --- pages -------------------------------------------------------------------------------------------------------

    async def front(self, request: Request) -> Response:
        home = self.door.is_at_home(request)
        shown = page(await self.compute(lambda: self._front(home)))
        return shown if COOKIE in request.cookies else marked(shown, secrets.token_urlsafe(24))

    def _front(self, home: bool) -> str:
        """The page, with or without what is kept and recorded here."""

        def drawn() -> tuple[str, bool]:
            start = self.start_facts(home=home)
            return front_page(start), all(scene["picture"] for scene in start["scenes"])

        return self.desk.once_complete(f"front {home}", drawn)

    async def static(self, request: Request) -> Response:
        asset = self._assets.get(request.path_params["name"])
        if asset is None:
            raise Refused(HTTPStatus.NOT_FOUND, wrong("error_web-no-file"))
        return Response(asset.data, media_type=asset.kind)

    async def lesson_page(self, request: Request) -> Response:
        study = self.desk.kept_study(request.path_params["key"])
        if study is None:
            return page(gone_page(), HTTPStatus.NOT_FOUND)
        self.begin_sounds(study)
        home = self.door.is_at_home(request)

        def shown() -> bytes:
            def made() -> bytes:
                return lesson_page(study, home=home).encode()

            return self._pages.of((study.key, home), made, keep=lambda: self.desk.keeps(study))

        return page(await self.compute(shown))

    async def lesson_sounds(self, request: Request) -> Response:
        study = self._kept(request.path_params["key"])
        return Response(await self.sounds_of(study), media_type="application/json")

    def _kept(self, key: str) -> Study:
        study = self.desk.kept_study(key)
        if study is None:
            raise Refused(HTTPStatus.NOT_FOUND, wrong("error_web-no-lesson"))
        return study

    # --- answers -----------------------------------------------------------------------------------------------------

    async def start(self, request: Request) -> Response:
        return answer(await self.compute(self.start_facts))

    async def data(self, request: Request) -> Response:
        try:
            file, data = await self.compute(lambda: drafts.shipped_data(request.path_params["name"]))
        except UnknownName as error:
            raise Refused(HTTPStatus.NOT_FOUND, str(error)) from None
        if not file:
            raise Refused(HTTPStatus.NOT_FOUND, wrong("error_web-no-readings-file"))
        return Response(data, media_type="text/csv")

    async def read(self, request: Request) -> Response:
        given = await json_of(request)
        if not isinstance(given, dict):
            refuse(wrong("error_web-wanted-kind"))
        kind = text_at(given, "kind", 20)
        return answer(await self.compute(lambda: read_given(self.desk, kind, given)))

    async def open(self, request: Request) -> Response:
        """A pack that was sent to be opened again: its name in the address, its bytes as they are."""
        name = request.query_params.get("name", "")[:1000]
        home = self.door.is_at_home(request)
        async with self._opening, received(request, self._folder) as file:
            return answer(await self.compute(lambda: opened(self.desk, file, name, home=home)))

    async def _inputs(self, request: Request, given: Any) -> Inputs:
        return await inputs_of(given, self.desk, home=self.door.is_at_home(request))

    async def plan(self, request: Request) -> Response:
        inputs = await self._inputs(request, await json_of(request))
        found = await self._once_known(inputs, request, self.desk.plan_text)
        return found if isinstance(found, Response) else Response(found, media_type="application/json")

    async def _once_known(self, inputs: Inputs, request: Request, work: Callable[[Inputs], Value]) -> Value | Response:
        """The result of work on a lesson, in one turn; or, where its science takes seconds, the answer meanwhile."""
        found: Value | None = await self.compute(lambda: work(inputs) if self._is_quick(inputs) else None)
        if found is not None:
            return found
        wait = await self._run_for(inputs, self.door.owner(request), "science")
        if wait is not None:
            return answer(wait, HTTPStatus.ACCEPTED)
        return await self._turns.run(lambda: work(inputs))

    def _is_quick(self, inputs: Inputs) -> bool:
        return self.desk.knows(inputs) or lesson.is_quick(self.desk.draft(inputs).scene)

    async def words(self, request: Request) -> Response:
        """How words read that are being written: nothing of them is kept."""
        given = await json_of(request)
        inputs = await self._inputs(request, given)
        words = table_at(given, "words")
        asked = {"text": text_at(words, "text", LONGEST_TEXT), "claims": texts_at(words, "claims", MOST_ITEMS)}
        found = await self._once_known(inputs, request, lambda given: words_facts(self.desk.study(given).lesson, asked))
        return found if isinstance(found, Response) else answer(found)

    async def mend(self, request: Request) -> Response:
        """What would mend a part that cannot be played as it is."""
        given = await json_of(request)
        inputs = await self._inputs(request, given)
        part = text_at(given, "part", 20)
        found = await self._once_known(inputs, request, lambda given: {"mends": mends(self.desk, given, part)})
        return found if isinstance(found, Response) else answer(found)

    async def compare(self, request: Request) -> Response:
        """How a plan differs from another one, in words, and the other one's curves."""
        given = await json_of(request)
        inputs = await self._inputs(request, given)
        other = await self._inputs(request, table_at(given, "other"))
        first = await self._once_known(other, request, self.desk.plan)
        if isinstance(first, Response):
            return first
        second = await self._once_known(inputs, request, self.desk.plan)
        if isinstance(second, Response):
            return second
        return answer(
            {"lines": differences(first, second), **{key: first[key] for key in ("curves", "title", "length")}}
        )

    async def timing(self, request: Request) -> Response:
        """Where the bars and stages of a lesson are, for a page that plays it beside another one."""
        study = self._kept(request.path_params["key"])
        facts = await self.compute(lambda: lesson_data(study.lesson, lesson.palette()))
        return answer({key: facts[key] for key in ("timing", "stages", "parts")})

    async def axis(self, request: Request) -> Response:
        """What a rule sounds like along its key."""
        given = await json_of(request)
        inputs = await self._inputs(request, given)
        name = text_at(given, "rule", 20)
        study = await self._once_known(inputs, request, self.desk.study)
        if isinstance(study, Response):
            return study
        return answer(await self._sounding.run(lambda: lightened(lambda: axis_facts(study, name))))

    async def _run_for(self, inputs: Inputs, owner: str, what: str, *, unasked: bool = False) -> dict[str, Any] | None:
        draft = await self.compute(lambda: self.desk.draft(inputs))
        key = f"{what} {self.desk.science_key(draft.scene)}"
        return self.runs.waiting(key, owner, {"task": what, "inputs": sent(inputs, self.desk)}, unasked=unasked)

    async def lesson(self, request: Request) -> Response:
        inputs = await self._inputs(request, await json_of(request))
        study = await self._once_known(inputs, request, self.desk.study)
        if isinstance(study, Response):
            return study
        self.begin_sounds(study)
        if not await self.compute(lambda: lesson.film_is_quick(study.lesson)):
            wait = await self._run_for(inputs, self.door.owner(request), "film")
            if wait is not None:
                return answer(wait, HTTPStatus.ACCEPTED)
        return answer({"key": study.key})

    async def join(self, request: Request) -> Response:
        given = await json_of(request)
        code = text_at(given if isinstance(given, dict) else {}, "code", 100, "")
        return marked(answer({"joined": True}), self.door.knock(request, code))

    # --- all of it ---------------------------------------------------------------------------------------------------

    def routes(self) -> list[Route]:
        return [
            Route("/", guarded(self.front)),
            Route("/static/{name}", guarded(self.static)),
            Route("/lesson/{key}", guarded(self.lesson_page)),
            Route("/lesson/{key}/sounds", guarded(self.lesson_sounds)),
            Route("/api/start", guarded(self.start)),
            Route("/api/data/{name}", guarded(self.data)),
            Route("/api/read", guarded(self.read), methods=["POST"]),
            Route("/api/plan", guarded(self.plan), methods=["POST"]),
            Route("/api/mend", guarded(self.mend), methods=["POST"]),
            Route("/api/compare", guarded(self.compare), methods=["POST"]),
            Route("/lesson/{key}/timing", guarded(self.timing)),
            Route("/api/axis", guarded(self.axis), methods=["POST"]),
            Route("/api/words", guarded(self.words), methods=["POST"]),
            Route("/api/lesson", guarded(self.lesson), methods=["POST"]),
            Route("/api/join", guarded(self.join), methods=["POST"]),
            Route("/api/open", guarded(self.open), methods=["POST"]),
            *self.shelf.routes(),
            *self.own_sounds.routes(),
            *self.offers.routes(),
            *self.sent_sounds.routes(),
            *self.packs.routes(),
            *self.takes.routes(),
        ]

    async def _warm(self) -> None:
        """Draw the front page, and simulate what this machine never has, before anybody asks.

        A scene at a time: who stops the server meanwhile, or asks, waits for one at most.
        """
        for name in await self.compute(lesson.scene_names):
            await self.compute(partial(kept_row, self.desk, name))
        await self.compute(lambda: self._front(True))
        for inputs in await self.compute(lambda: slow_scenes(self.desk)):
            await self._run_for(inputs, f"the server itself, for {inputs.name}", "science", unasked=True)

    @asynccontextmanager
    async def life(self, app: Starlette) -> AsyncIterator[None]:
        """The pictures of the scenes are begun at once; whatever still runs at the end is stopped."""
        loop = asyncio.get_running_loop()
        warming, giving = loop.create_task(self._warm()), loop.create_task(keep_giving_back())
        try:
            yield
        finally:
            self.desk.is_closing = True
            warming.cancel()
            giving.cancel()
            await self.runs.close()
            await self.packs.jobs.close()
            await self.takes.close()
            await run_sync(self.shelf.lapse)
            await run_sync(self.desk.recordings.lapse)


def application(server: Server, hosts: list[str]) -> ASGIApp:
    """The whole application for the names under which it is reached ("127.0.0.1:8000")."""
    routed = Starlette(routes=server.routes(), exception_handlers={HTTPException: not_here}, lifespan=server.life)
    return Guard(routed, hosts, server.door)
