"""Letting other machines of the school's network in: each browser gives a printed code once and gets a cookie for it.

The cookie also tells browsers apart, so that each has its own packs; on one machine alone it does only that.
"""

from __future__ import annotations

import secrets
import time
from collections import deque
from http import HTTPStatus

from starlette.requests import Request
from starlette.responses import Response

from sonify.records.fact import wrong
from sonify.web.errors import Refused

COOKIE = "sonify-browser"
#: Letters and digits that cannot be taken for one another on a projector.
ALPHABET = "abcdefghjkmnpqrstuvwxyz23456789"
LENGTH = 8
#: Wrong codes allowed in so many seconds from one address. 250 addresses that guess at that pace all day find the code
#: with a chance of one in 470,000: no need to hold up a class for somebody else's guesses.
MOST_WRONG, WITHIN_S = 5, 60.0
MOST_BROWSERS, MOST_ADDRESSES = 500, 1000
LOOPBACK = ("127.0.0.1", "::1")


class Door:
    """Who is let in. code: "" where the server is for one machine and everybody who reaches it is."""

    def __init__(self, code: str = "") -> None:
        self.code = code
        self._known: dict[str, str] = {}  # cookie -> the address that it was given to
        self._wrong: dict[str, deque[float]] = {}

    def owner(self, request: Request) -> str:
        """The name under which a browser's packs are kept."""
        return request.cookies.get(COOKIE, "")[:100] or f"address {_address(request)}"

    def is_open(self, request: Request) -> bool:
        """Whether a browser is let in: at this machine itself, or with a cookie that its address gave a code for."""
        if not self.code or _address(request) in LOOPBACK:
            return True
        return self._known.get(request.cookies.get(COOKIE, "")) == _address(request)

    def is_at_home(self, request: Request) -> bool:
        """Whether a browser runs on this machine itself: what is kept here is for no other."""
        return _address(request) in LOOPBACK

    def knock(self, request: Request, given: str) -> str:
        """A new cookie for the right code. Raises Refused for a wrong one, and for too many of one address."""
        address = _address(request)
        if self._too_many(address):
            raise Refused(HTTPStatus.TOO_MANY_REQUESTS, wrong("error_web-many-codes"))
        plain = "".join(given.lower().split()).replace("-", "")
        if not self.code or not secrets.compare_digest(plain.encode(), self.code.encode()):
            self._wrong.setdefault(address, deque(maxlen=MOST_WRONG)).append(time.monotonic())
            while len(self._wrong) > MOST_ADDRESSES:
                del self._wrong[next(iter(self._wrong))]
            raise Refused(HTTPStatus.FORBIDDEN, wrong("error_web-wrong-code"))
        while len(self._known) >= MOST_BROWSERS:
            del self._known[next(iter(self._known))]
        cookie = secrets.token_urlsafe(24)
        self._known[cookie] = address
        return cookie

    def _too_many(self, address: str) -> bool:
        since = time.monotonic() - WITHIN_S
        found = self._wrong.get(address, deque())
        while found and found[0] < since:
            found.popleft()
        if not found:
            self._wrong.pop(address, None)
        return len(found) >= MOST_WRONG


def new_code() -> str:
    """A code for one run of the server: about 40 bits by lot."""
    return "".join(secrets.choice(ALPHABET) for _ in range(LENGTH))


def printed_code(code: str) -> str:
    """A code as it is read out: two groups of four.

    >>> printed_code("abcd2345")
    'abcd-2345'
    """
    return f"{code[:4]}-{code[4:]}"


def marked(response: Response, cookie: str) -> Response:
    """The answer with the browser's cookie: no script can read it, no other site's page makes it travel."""
    response.set_cookie(COOKIE, cookie, httponly=True, samesite="strict", path="/")
    return response


def _address(request: Request) -> str:
    return request.client.host if request.client else ""
