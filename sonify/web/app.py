"""The application: which address gives what. Everything that takes time is done in threads, off the event loop."""

from __future__ import annotations

import json
import sys
import traceback
from collections.abc import Awaitable, Callable
from http import HTTPStatus
from typing import Any

import anyio
from anyio.to_thread import run_sync
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from sonify.errors import SonifyError
from sonify.web.desk import Desk
from sonify.web.errors import OUR_FAULT, Refused, error_facts, status_of
from sonify.web.inputs import read_inputs, wrong
from sonify.web.pages import Asset, assets, front_page, policy_of
from sonify.web.safety import Guard, TooLarge
from sonify.web.start import start_facts

#: Seconds that a request's body may take to arrive.
BODY_S = 60.0
#: So many requests are computed at a time; others wait their turn.
AT_ONCE = 2

Answering = Callable[[Request], Awaitable[Response]]


class Server:
    """The state of one running server, and its answers."""

    def __init__(self, *, shared: bool = False) -> None:
        self.desk = Desk()
        self.shared = shared
        self._turns: anyio.CapacityLimiter | None = None
        self._assets: dict[str, Asset] = assets()

    async def compute(self, work: Callable[[], Any]) -> Any:
        """The result of work that takes time, done in a thread."""
        if self._turns is None:
            self._turns = anyio.CapacityLimiter(AT_ONCE)
        return await run_sync(work, limiter=self._turns)

    # --- pages -------------------------------------------------------------------------------------------------------

    async def front(self, request: Request) -> Response:
        return page(await self.compute(lambda: front_page(start_facts(self.desk, shared=self.shared))))

    async def static(self, request: Request) -> Response:
        asset = self._assets.get(request.path_params["name"])
        if asset is None:
            raise Refused(HTTPStatus.NOT_FOUND, "there is no such file")
        return Response(asset.data, media_type=asset.kind)

    # --- answers -----------------------------------------------------------------------------------------------------

    async def start(self, request: Request) -> Response:
        return answer(await self.compute(lambda: start_facts(self.desk, shared=self.shared)))

    async def plan(self, request: Request) -> Response:
        inputs = read_inputs(await json_of(request))
        return answer(await self.compute(lambda: self.desk.plan(inputs)))

    def routes(self) -> list[Route]:
        return [
            Route("/", guarded(self.front)),
            Route("/static/{name}", guarded(self.static)),
            Route("/api/start", guarded(self.start)),
            Route("/api/plan", guarded(self.plan), methods=["POST"]),
        ]


def application(server: Server, hosts: list[str]) -> ASGIApp:
    """The whole application for the names under which it is reached ("127.0.0.1:8000")."""
    routed = Starlette(routes=server.routes(), exception_handlers={HTTPException: _not_here})
    return Guard(routed, hosts)


def guarded(answering: Answering) -> Answering:
    """An answer in which every failure has its message and its status, and none shows its insides."""

    async def safe(request: Request) -> Response:
        try:
            return await answering(request)
        except SonifyError as error:
            return answer(error_facts(error), status_of(error))
        except TooLarge:
            status = HTTPStatus.REQUEST_ENTITY_TOO_LARGE
            return answer({"error": "the request goes on for too long, and was not read to its end"}, status)
        except (ClientDisconnect, ConnectionError):
            return Response(status_code=400)
        except Exception:
            traceback.print_exc(file=sys.stderr)
            return answer({"error": OUR_FAULT}, HTTPStatus.INTERNAL_SERVER_ERROR)

    return safe


async def _not_here(request: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 500
    return answer({"error": "there is nothing at this address"}, status)


def answer(facts: Any, status: int = HTTPStatus.OK) -> JSONResponse:
    return JSONResponse(facts, status)


def page(html: str, status: int = HTTPStatus.OK) -> Response:
    """A page with the policy that it declares itself as a header too: no other script or style runs in it."""
    return Response(html, status, {"Content-Security-Policy": policy_of(html)}, media_type="text/html")


async def json_of(request: Request) -> Any:
    """The data of a request. Raises Refused where it is no plain JSON."""
    with anyio.move_on_after(BODY_S) as limit:
        body = await request.body()
    if limit.cancelled_caught:
        raise Refused(HTTPStatus.REQUEST_TIMEOUT, "the request took more than a minute to arrive")
    return await run_sync(lambda: parsed(body))


def parsed(body: bytes) -> Any:
    """JSON without what only Python allows (NaN, Infinity), and nothing nested beyond reading."""

    def refuse(name: str) -> Any:
        wrong(f"{name} is no number")

    try:
        return json.loads(body.decode("utf-8"), parse_constant=refuse)
    except RecursionError:
        wrong("the request is nested too deep")
    except ValueError as error:
        if isinstance(error, SonifyError):
            raise
        wrong("the request is no JSON")
