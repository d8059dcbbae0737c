"""The pages that the server hands out, and the package's own files beside them: a fixed dictionary, read once."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING, Any

from sonify import lesson, page
from sonify.frozen import dataclass
from sonify.page.document import content_policy, environment, told
from sonify.storage import shelf
from sonify.templates import template

if TYPE_CHECKING:
    from sonify.web.desk import Study

#: The policy of an answer that is no page.
NOTHING_RUNS = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">')


@dataclass(frozen=True, slots=True)
class Asset:
    data: bytes
    kind: str


def assets() -> dict[str, Asset]:
    """What `/static/NAME` gives. Names are looked up here and nowhere else."""
    kinds = {".ttf": "font/ttf", ".woff2": "font/woff2"}
    return {
        path.name: Asset(path.read_bytes(), kinds[path.suffix])
        for path in sorted(shelf.fonts_folder().iterdir())
        if path.suffix in kinds
    }


def policy_of(html: str) -> str:
    """The content security policy that a page of ours declares, for the header; nothing runs where it declares none."""
    found = _POLICY.search(html)
    if not found:
        return NOTHING_RUNS
    return f"{unescape(found[1])}; frame-ancestors 'none'"


def front_page(start: dict[str, Any]) -> str:
    """The shell with Plan and Print."""
    return page.plan_page(start, lesson.palette())


def lesson_page(study: Study, *, home: bool) -> str:
    """The classroom page of a lesson: the very page of its pack, which here asks for its sounds.

    home: for a browser of this machine itself, which alone is led to "Our recording"."""
    return lesson.served_page_text(study.lesson, f"/lesson/{study.key}/sounds", records=home)


def recording_page(study: Study, phones: str) -> str:
    """Where a recording of the class is brought and read. phones: where a phone sends one."""
    return page.recording_html(study.lesson, study.key, phones, lesson.palette())


def send_page() -> str:
    """What a phone of the network sees to send a recording from."""
    return _plain(told("record-send-title"), _body("send.html"), template("web", "send.js"))


def gone_page() -> str:
    """What stands at the address of a lesson that the server no longer holds."""
    return _plain(told("server-gone-title"), _body("gone.html"), "")


def join_page() -> str:
    """What a browser of the network sees first: a field for the code."""
    return _plain(
        told("server-join-title"),
        environment().from_string(template("web", "join.html")).render(),
        template("web", "join.js"),
    )


def _body(name: str) -> str:
    return environment().from_string(template("web", name)).render()


def _plain(title: str, body: str, script: str) -> str:
    """A page of a few sentences. body and script are files of this package."""
    from markupsafe import Markup

    look = template("page", "page.css") + template("web", "plain.css")
    made = environment().from_string(template("web", "plain.html"))
    return made.render(
        policy=f"{content_policy(script, look)}; connect-src 'self'",
        title=title,
        style=Markup(look),
        body=Markup(body),
        script=Markup(script),
    )
