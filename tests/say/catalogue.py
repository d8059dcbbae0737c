"""The catalogue as it is written: every message of `sonify/say/en` with what it declares."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from fluent.syntax import FluentParser, ast

import sonify

FOLDER = Path(sonify.__file__).parent / "say" / "en"
_DECLARED = re.compile(r"(claims|no claim|plain):\s*(.+)", re.DOTALL)


@dataclass(frozen=True)
class Message:
    """kind: "claims", "no claim" or "plain", "" where nothing is declared; about: what stands behind it."""

    id: str
    file: str
    kind: str
    about: str
    entry: ast.Message

    @property
    def claims(self) -> set[str]:
        return {word.strip() for word in self.about.split(",")} if self.kind == "claims" else set()


def resource(path: Path) -> ast.Resource:
    return FluentParser().parse(path.read_text(encoding="utf-8"))


def messages() -> list[Message]:
    """Every message; a group's comment serves those of the group that have none of their own."""
    found = []
    for path in sorted(FOLDER.glob("*.ftl")):
        group = ("", "")
        for entry in resource(path).body:
            if isinstance(entry, ast.GroupComment):
                group = _declared(entry.content or "")
            elif isinstance(entry, ast.Message):
                own = _declared(entry.comment.content or "") if entry.comment else ("", "")
                kind, about = own if own[0] else group
                found.append(Message(id=entry.id.name, file=path.name, kind=kind, about=about, entry=entry))
    return found


def _declared(comment: str) -> tuple[str, str]:
    match = _DECLARED.match(comment.strip())
    return (match[1], match[2].strip()) if match else ("", "")
