"""Requests in, answers out: every failure has its message and its status, and none shows its insides."""

from __future__ import annotations

import json
import os
import sys
import tempfile
import traceback
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager, suppress
from http import HTTPStatus
from pathlib import Path
from typing import Any

import anyio
from anyio.to_thread import run_sync
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, Response

from sonify.errors import SonifyError
from sonify.records.fact import fact, wrong
from sonify.say import on_page, say
from sonify.web.desk import Desk
from sonify.web.errors import OUR_FAULT, Refused, error_facts, status_of
from sonify.web.inputs import Inputs, read_inputs, refuse
from sonify.web.pages import policy_of
from sonify.web.safety import TooLarge

#: Seconds that a request's body may take to arrive.
BODY_S = 60.0
#: A whole pack may take longer.
FILE_S = 180.0

#: The policy of a page stands in its first lines.
HEAD_BYTES = 10_000

Answering = Callable[[Request], Awaitable[Response]]


def guarded(answering: Answering) -> Answering:
    """The same answer, with a plain one for everything that goes wrong in it."""

    async def safe(request: Request) -> Response:
        try:
            with on_page():
                return await answering(request)
        except SonifyError as error:
            with on_page():
                return answer(error_facts(error), status_of(error))
        except TooLarge:
            status = HTTPStatus.REQUEST_ENTITY_TOO_LARGE
            return answer({"error": say(fact("error_web-endless"))}, status)
        except (ClientDisconnect, ConnectionError):
            return Response(status_code=HTTPStatus.BAD_REQUEST)
        except Exception:
            traceback.print_exc(file=sys.stderr)
            return answer({"error": say(OUR_FAULT)}, HTTPStatus.INTERNAL_SERVER_ERROR)

    return safe


def only_at_home(at_home: bool) -> None:
    """Refuse a browser of another machine what is for those of this one alone."""
    if not at_home:
        raise Refused(HTTPStatus.FORBIDDEN, wrong("error_web-not-at-home"))


async def not_here(request: Request, error: Exception) -> Response:
    """The answer for an address that is none of ours."""
    status = error.status_code if isinstance(error, HTTPException) else HTTPStatus.INTERNAL_SERVER_ERROR
    return answer({"error": say(fact("error_web-no-address"))}, status)


def answer(facts: Any, status: int = HTTPStatus.OK) -> JSONResponse:
    return JSONResponse(facts, status)


def page(html: str | bytes, status: int = HTTPStatus.OK) -> Response:
    """A page, with the policy that it declares itself as a header too: no other script or style runs in it."""
    head = html if isinstance(html, str) else html[:HEAD_BYTES].decode("utf-8", "ignore")
    return Response(html, status, {"Content-Security-Policy": policy_of(head)}, media_type="text/html")


async def json_of(request: Request) -> Any:
    """The data of a request. Raises Refused where it is no plain JSON."""
    with anyio.move_on_after(BODY_S) as limit:
        body = await request.body()
    if limit.cancelled_caught:
        raise Refused(HTTPStatus.REQUEST_TIMEOUT, wrong("error_web-slow"))
    return await run_sync(lambda: parsed(body))


@asynccontextmanager
async def received(request: Request, folder: Path) -> AsyncIterator[Path]:
    """The body of a request as a file in a folder, removed at the end. Raises Refused where it is too slow."""
    handle, name = await run_sync(lambda: tempfile.mkstemp(dir=folder, prefix="sent-"))
    try:
        with os.fdopen(handle, "wb") as file, anyio.move_on_after(FILE_S) as limit:
            async for chunk in request.stream():
                await run_sync(file.write, chunk)
        if limit.cancelled_caught:
            raise Refused(HTTPStatus.REQUEST_TIMEOUT, wrong("error_web-slow"))
        yield Path(name)
    except OSError as error:
        raise Refused(
            HTTPStatus.INSUFFICIENT_STORAGE, wrong("error_web-room-temporary-files", strerror=error.strerror)
        ) from None
    finally:
        with suppress(OSError):
            os.unlink(name)


async def inputs_of(given: Any, desk: Desk, *, home: bool) -> Inputs:
    """The inputs in a request's data, read in a thread, with the recordings that are here for the browser that asks.

    home: whether it runs on this machine. Raises Refused as `read_inputs` does.
    """
    return await run_sync(lambda: desk.heard(read_inputs(given), home=home))


def parsed(body: bytes) -> Any:
    """JSON without what only Python allows (NaN, Infinity), and nothing nested beyond reading."""

    def no_number(name: str) -> Any:
        refuse(wrong("error_web-no-number", name=name))

    try:
        return json.loads(body.decode("utf-8"), parse_constant=no_number)
    except RecursionError:
        refuse(wrong("error_web-nested"))
    except ValueError:
        refuse(wrong("error_web-no-json"))
