"""The pages that the server hands out, and the package's own files beside them: a fixed dictionary, read once."""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import escape, unescape
from typing import Any

from sonify import page, shelf
from sonify.page.document import content_policy, json_text
from sonify.web.safety import NOTHING_RUNS

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
    """The shell with all views."""
    made = getattr(page, "plan_page", None)
    if made is not None:
        return str(made(json_text(start)))
    rows = "".join(f"<li>{escape(scene['title'])}</li>" for scene in start["scenes"])
    return _bare("Ready-made scenes", f"<ul>{rows}</ul>")


def _bare(title: str, body: str) -> str:
    policy = content_policy("", "")
    return (
        '<!DOCTYPE html>\n<html lang="en-GB">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{escape(policy)}">\n'
        f"<title>{escape(title)}</title>\n</head>\n<body><main><h1>{escape(title)}</h1>{body}</main></body>\n</html>\n"
    )
