"""What every request has to get past, and what every answer carries: one wrapper around the whole application.

The server is for one machine. A page of another site that the same browser has open may neither read from it nor make
it work: foreign Host and Origin headers are refused (so a foreign name that points here does not help), and a POST
needs a header that no foreign form can send.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from http import HTTPStatus

import anyio
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from sonify.inputs.sound_file import LARGEST_BYTES
from sonify.records.fact import fact, wrong
from sonify.say import say
from sonify.web.inputs import MOST_FILE
from sonify.web.pages import NOTHING_RUNS, join_page, policy_of
from sonify.web.sharing import Door
from sonify.web.turns import ASKING

#: Bytes of a request's body: what `inputs.MOST_CSV` characters can take, and room for the scene.
MOST_BODY = 80_000_000
MOST_SMALL_BODY = 4_000_000
#: Of a body that is too large so much is let arrive.
MOST_READ_AWAY, READ_AWAY_S = 300_000_000, 20.0
#: And of one that is refused for something else.
MOST_REFUSED, REFUSED_S = 1_000_000, 2.0
LARGE_BODIES = ("/api/read", "/api/plan", "/api/lesson", "/api/pack", "/api/shelf")
#: A pack is sent as the bytes that it is, and so are sounds and recordings of the class.
FILES, FILES_END = ("/api/open", "/api/sound"), "/file"
MARK = "x-sonify"
#: The pages of this computer alone may ask for the microphone, where a sound or the class is recorded: no tablet is let
#: near it.
HER_PAGES, MICROPHONE = re.compile(r"/|/lesson/[^/]+/recording"), "camera=(), microphone=(self), geolocation=()"

HEADERS = {
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=()",
}


class Guard:
    """Refuses what is not from this server's own page, and adds the headers of safety to every answer.

    hosts: "127.0.0.1:8000" and the other names of this server, with its port. door: who of the network is let in.
    """

    def __init__(self, app: ASGIApp, hosts: Iterable[str], door: Door) -> None:
        self._app, self._door = app, door
        self._hosts = frozenset(host.lower() for host in hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            return  # no web sockets here: the connection is closed without a word
        at_home = self._door.is_at_home(Request(scope))
        safe = _safe_send(scope, send, MICROPHONE if at_home and HER_PAGES.fullmatch(scope["path"]) else "")
        refusal = self.refusal(scope)
        if refusal is None and not self._is_let_in(scope):
            if scope["method"] == "POST":
                await _read_away(receive, MOST_REFUSED, REFUSED_S)
            await asked_for_code(scope)(scope, receive, safe)
            return
        if refusal is None:
            ASKING.set(self._door.owner(Request(scope)))
            await self._app(scope, _bounded(receive, _most_body(scope["path"])), safe)
            return
        status, message = refusal
        if status is HTTPStatus.REQUEST_ENTITY_TOO_LARGE:
            await _read_away(receive, MOST_READ_AWAY, READ_AWAY_S)
        elif scope["method"] == "POST":
            await _read_away(receive, MOST_REFUSED, REFUSED_S)
        answer = JSONResponse({"error": message}, status, {"Connection": "close"})
        await answer(scope, receive, safe)

    def _is_let_in(self, scope: Scope) -> bool:
        return scope["path"] == "/api/join" or self._door.is_open(Request(scope))

    def refusal(self, scope: Scope) -> tuple[HTTPStatus, str] | None:
        """Why a request is not let in, or None."""
        headers = Headers(scope=scope)
        if headers.getlist("host") and len(headers.getlist("host")) > 1 or headers.get("host", "") == "":
            return HTTPStatus.FORBIDDEN, say(fact("error_web-no-host"))
        if headers["host"].lower() not in self._hosts:
            return HTTPStatus.FORBIDDEN, say(fact("error_web-other-host"))
        origin = headers.get("origin")
        if origin is not None and origin.lower() not in {f"http://{host}" for host in self._hosts}:
            return HTTPStatus.FORBIDDEN, say(fact("error_web-other-page"))
        if scope["path"].startswith("/api/") and headers.get("sec-fetch-site", "same-origin") not in (
            "same-origin",
            "none",
        ):
            return HTTPStatus.FORBIDDEN, say(fact("error_web-other-page"))
        if scope["method"] == "POST":
            return _post_refusal(headers, scope["path"])
        if scope["method"] not in ("GET", "HEAD"):
            return HTTPStatus.METHOD_NOT_ALLOWED, say(fact("error_web-method"))
        return None


async def _read_away(receive: Receive, left: int, seconds: float) -> None:
    """Let a body that is refused arrive, at most so many bytes and seconds, and keep none of it: a browser that is cut
    off in the middle of sending shows no answer at all."""
    with anyio.move_on_after(seconds):
        while left > 0:
            message = await receive()
            left -= len(message.get("body", b""))
            if not message.get("more_body", False):
                return


def _post_refusal(headers: Headers, path: str) -> tuple[HTTPStatus, str] | None:
    most, kind = _most_body(path), "application/octet-stream" if _is_file(path) else "application/json"
    if headers.get(MARK) != "1":
        return HTTPStatus.FORBIDDEN, say(fact("error_web-no-mark"))
    if headers.get("content-type", "").partition(";")[0].strip().lower() != kind:
        return HTTPStatus.UNSUPPORTED_MEDIA_TYPE, say(fact("error_web-says-json"))
    length = headers.get("content-length", "0")
    if not (length.isascii() and length.isdecimal()) or int(length) > most:
        return HTTPStatus.REQUEST_ENTITY_TOO_LARGE, say(wrong("error_web-too-large", most=f"{most / 1e6:g}"))
    return None


def _is_file(path: str) -> bool:
    return path in FILES or (path.startswith("/api/") and path.endswith(FILES_END))


def _most_body(path: str) -> int:
    if path in ("/api/sound", "/api/sent-sound/file"):
        return LARGEST_BYTES
    if _is_file(path):
        return MOST_FILE
    return MOST_BODY if path in LARGE_BODIES else MOST_SMALL_BODY


def asked_for_code(scope: Scope) -> Response:
    """The answer for a browser that has not given the code yet: a page that asks for it, or a plain refusal."""
    if scope["path"].startswith("/api/") or scope["path"].endswith("/sounds"):
        return JSONResponse({"error": say(fact("error_web-code-first"))}, HTTPStatus.UNAUTHORIZED)
    html = join_page()
    headers = {"Content-Security-Policy": policy_of(html)}
    return Response(html, HTTPStatus.UNAUTHORIZED, headers, media_type="text/html")


class TooLarge(Exception):
    """A body that goes on beyond what is allowed, whatever its header said."""


def _bounded(receive: Receive, most: int) -> Receive:
    got = 0

    async def counted() -> Message:
        nonlocal got
        message = await receive()
        got += len(message.get("body", b""))
        if got > most:
            raise TooLarge
        return message

    return counted


def _safe_send(scope: Scope, send: Send, permissions: str = "") -> Send:
    async def safe(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
            if permissions:
                headers["Permissions-Policy"] = permissions
            headers.setdefault("Content-Security-Policy", NOTHING_RUNS)
            headers.setdefault("Cache-Control", "no-store")
        await send(message)

    return safe
