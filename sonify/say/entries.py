"""A Fluent file in its single messages, so that only those that are said are parsed: a lesson says half of them."""

from __future__ import annotations

import re

#: Where a message begins: its identifier in the first column. All of it that follows is indented, or closes a brace.
_BEGINS = re.compile(r"^([A-Za-z][\w-]*)[ ]*=", re.MULTILINE)
_COMMENT = re.compile(r"^#.*\n?", re.MULTILINE)
#: Another message that stands in a place of this one. What is not the name of one does no harm.
_NAMED = re.compile(r"\{\s*([A-Za-z][\w-]*)")


def entries(text: str) -> dict[str, str]:
    """The source of each message by its identifier, comments left out.

    >>> entries("# said first\\nhello = Hello\\nleaving =\\n    Goodbye,\\n    { $name }\\n")
    {'hello': 'hello = Hello\\n', 'leaving': 'leaving =\\n    Goodbye,\\n    { $name }\\n'}
    """
    bare = _COMMENT.sub("", text.replace("\r\n", "\n"))
    begins = list(_BEGINS.finditer(bare))
    ends = [*(begin.start() for begin in begins[1:]), len(bare)]
    return {begin[1]: bare[begin.start() : end] for begin, end in zip(begins, ends, strict=True)}


def plain_text(entry: str) -> str | None:
    """What a message of one line without places says; None for any other.

    >>> plain_text("hello = Hello \\n"), plain_text("hello = Hello, { $name }\\n")
    ('Hello', None)
    """
    line = entry.strip()
    if "\n" in line or "{" in line or "}" in line:
        return None
    return line.partition("=")[2].strip() or None


def needs_places(entry: str) -> bool:
    """Whether a message might have places to fill: only those are looked at more closely."""
    return "$" in entry


def named_in(entry: str, known: dict[str, str]) -> list[str]:
    """The other messages of its file that a message holds."""
    return [name for name in _NAMED.findall(entry) if name in known]
