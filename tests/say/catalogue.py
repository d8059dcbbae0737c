"""The catalogue as it is written: every message of `sonify/say/en` with what it declares."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from fluent.syntax import FluentParser, ast

import sonify

FOLDER = Path(sonify.__file__).parent / "say" / "en"
_DECLARED = re.compile(r"(claims|no claim|phrase|plain):\s*(.+)", re.DOTALL)


@dataclass(frozen=True)
class Message:
    """kind: "claims", "no claim", "phrase" or "plain", "" where nothing is declared; about: what stands behind it."""

    id: str
    file: str
    kind: str
    about: str
    entry: ast.Message

    @property
    def claims(self) -> tuple[frozenset[str], ...]:
        """What is claimed; where one of several ("rises or falls"), all of them in one set."""
        if self.kind != "claims":
            return ()
        return tuple(frozenset(each.strip() for each in words.split(" or ")) for words in self.about.split(","))

    def is_met_by(self, kinds: set[str]) -> bool:
        """Whether a fact that claims these kinds claims what is declared: each once, and nothing else."""
        return all(each & kinds for each in self.claims) and kinds <= set().union(*self.claims)


def resource(path: Path) -> ast.Resource:
    return FluentParser().parse(path.read_text(encoding="utf-8"))


@cache
def messages(files: str = "*.ftl") -> tuple[Message, ...]:
    """Every message, of all files or of some; a group's comment serves those of it that have none of their own."""
    found = []
    for path in sorted(FOLDER.glob(files)):
        group = ("", "")
        for entry in resource(path).body:
            if isinstance(entry, ast.GroupComment):
                group = _declared(entry.content or "")
            elif isinstance(entry, ast.Message):
                own = _declared(entry.comment.content or "") if entry.comment else ("", "")
                kind, about = own if own[0] else group
                found.append(Message(id=entry.id.name, file=path.name, kind=kind, about=about, entry=entry))
    return tuple(found)


def _declared(comment: str) -> tuple[str, str]:
    match = _DECLARED.match(comment.strip())
    return (match[1], match[2].strip()) if match else ("", "")
