"""On which line of a TOML text each key stands.

`tomllib` tells what a file says, not where. This walk over the same text only finds places: it judges nothing, stops
quietly where the text is no TOML (tomllib then says so), and takes time in proportion to the text.
"""

from __future__ import annotations

import re
import tomllib
from contextlib import suppress
from dataclasses import dataclass, field

from sonify.errors import SonifyError
from sonify.records.fact import Fact, wrong

#: Tables and lists within each other. Scene files need three; tomllib's own time grows with the square of this.
DEEPEST = 24
LONGEST_KEY = 200
#: Keys, tables and list items together.
MOST_KEYS = 100_000

# Each alternative begins with a character that no other does, so a failed match gives up in proportion to the text.
# Possessive repeats would say so; CPython 3.11.0 to 3.11.4 match those of a choice wrongly (gh-106052).
_BLANK = re.compile(r"[ \t\r\n]*(?:#[^\n]*[ \t\r\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_BASIC = re.compile(r'"[^"\\\n]*(?:\\.[^"\\\n]*)*"')
_LITERAL = re.compile(r"'[^'\n]*'")
# A closing mark may have one or two quotation marks before it that belong to the text.
_LONG_BASIC = re.compile(r'"""[^"\\]*(?:(?:\\.|"(?!""))[^"\\]*)*"""(?:"{0,2})', re.DOTALL)
_LONG_LITERAL = re.compile(r"'''[^']*(?:'(?!'')[^']*)*'''(?:'{0,2})", re.DOTALL)
_SCALAR = re.compile(r"[^\s,\]}#=\"'\[{][^,\]}#\n=\"'\[{]*")
_VALUES = (('"""', _LONG_BASIC), ("'''", _LONG_LITERAL), ('"', _BASIC), ("'", _LITERAL), ("", _SCALAR))


class TooMuch(SonifyError):
    """On this line the text goes beyond what any scene needs; reading on could take hours."""

    def __init__(self, line: int, message: Fact) -> None:
        super().__init__(message)
        self.line, self.message = line, message


class NotToml(Exception):
    """The walk met something that no TOML has at this place."""


@dataclass(slots=True)
class KeyLines:
    """lines: dotted key -> line from 1, items of lists by number from 0 (`hear.0.from.1`).

    repeated: (dotted key, its first line, its second line) for keys that are given a value twice.
    """

    lines: dict[str, int] = field(default_factory=dict)
    repeated: list[tuple[str, int, int]] = field(default_factory=list)


def key_lines(text: str) -> KeyLines:
    """The line of every key, table and list item of a TOML text; of a broken text, of all before the break.

    Raises TooMuch.

    >>> key_lines('title = "One drop"\\n[[hear]]\\nfrom = ["1 m", "2 m"]').lines["hear.0.from"]
    3
    """
    walk = Walk(text)
    with suppress(NotToml):  # what was found so far is right, and tomllib explains the rest
        walk.document()
    return walk.found


class Walk:
    """Goes over a text once; `toml_places` looks over its shoulder."""

    def __init__(self, text: str) -> None:
        self.text, self.at, self.line = text, 0, 1
        self.found = KeyLines()
        self.newest: dict[str, int] = {}  # the number of the last table of each array of tables

    def take(self, pattern: re.Pattern[str]) -> str:
        """Step over what the pattern matches here: "" where it does not match."""
        match = pattern.match(self.text, self.at)
        if not match:
            return ""
        self.line += self.text.count("\n", self.at, match.end())
        self.at = match.end()
        return match[0]

    def sees(self, mark: str) -> bool:
        return self.text.startswith(mark, self.at)

    def step(self, mark: str) -> bool:
        """Step over `mark` if it stands here."""
        if not self.sees(mark):
            return False
        self.at += len(mark)
        return True

    def need(self, mark: str) -> None:
        if not self.step(mark):
            raise NotToml

    def note(self, key: str) -> None:
        self.found.lines.setdefault(key, self.line)
        if len(self.found.lines) > MOST_KEYS:
            raise TooMuch(self.line, wrong("error_toml-too-many-keys", most=MOST_KEYS))

    def document(self) -> None:
        table = ""
        self.take(_BLANK)
        while self.at < len(self.text):
            if self.sees("["):
                table = self.header()
            else:
                self.pair(table, 0)
            self.take(_BLANK)

    def header(self) -> str:
        """`[a.b]` or `[[a.b]]`: the dotted key of the table it opens."""
        array = self.step("[[")
        if not array:
            self.need("[")
        *outer, last = self.key()
        table = ""
        for part in outer:
            table = self.current(_joined(table, part))
        table = _joined(table, last)
        if array:
            self.note(table)
            self.newest[table] = self.newest.get(table, -1) + 1
        table = self.current(table)
        self.need("]]" if array else "]")
        return table

    def current(self, table: str) -> str:
        """The table itself or, of an array of tables, the last one."""
        self.note(table)
        if table in self.newest:
            table = f"{table}.{self.newest[table]}"
            self.note(table)
        return table

    def key(self) -> list[str]:
        parts: list[str] = []
        while not parts or self.step("."):
            self.take(_SPACE)
            parts.append(self.key_part())
            self.take(_SPACE)
            if len(parts[-1]) > LONGEST_KEY:
                raise TooMuch(self.line, wrong("error_toml-long-key", most=LONGEST_KEY))
            self.bound(len(parts))
        return parts

    def bound(self, depth: int) -> None:
        if depth > DEEPEST:
            raise TooMuch(self.line, wrong("error_toml-too-deep", most=DEEPEST))

    def key_part(self) -> str:
        if self.sees('"'):
            quoted = self.take(_BASIC)
            return _unquoted(quoted) if "\\" in quoted else self.inner(quoted)
        if self.sees("'"):
            return self.inner(self.take(_LITERAL))
        bare = self.take(_BARE)
        if not bare:
            raise NotToml
        return bare

    def inner(self, quoted: str) -> str:
        if not quoted:
            raise NotToml
        return quoted[1:-1]

    def pair(self, table: str, depth: int) -> None:
        *outer, last = self.key()
        for part in outer:
            table = _joined(table, part)
            self.note(table)
        key = _joined(table, last)
        if key in self.found.lines:
            self.found.repeated.append((key, self.found.lines[key], self.line))
        self.note(key)
        self.need("=")
        self.take(_SPACE)
        self.value(key, depth)

    def value(self, key: str, depth: int) -> None:
        self.bound(depth)
        if self.step("["):
            self.array(key, depth)
        elif self.step("{"):
            self.inline_table(key, depth)
        else:
            self.scalar()

    def array(self, key: str, depth: int) -> None:
        number = 0
        self.take(_BLANK)
        while not self.step("]"):
            self.note(f"{key}.{number}")
            self.value(f"{key}.{number}", depth + 1)
            number += 1
            self.take(_BLANK)
            if not self.sees("]"):
                self.need(",")
                self.take(_BLANK)

    def inline_table(self, key: str, depth: int) -> None:
        self.take(_BLANK)
        while not self.step("}"):
            self.pair(key, depth + 1)
            self.take(_BLANK)
            if not self.sees("}"):
                self.need(",")
                self.take(_BLANK)

    def scalar(self) -> None:
        pattern = next(pattern for mark, pattern in _VALUES if self.sees(mark))
        if not self.take(pattern):
            raise NotToml


def _joined(table: str, part: str) -> str:
    return f"{table}.{part}" if table else part


def _unquoted(quoted: str) -> str:
    """A quoted key with its escapes read, by the reader that knows them all."""
    try:
        return next(iter(tomllib.loads(f"{quoted} = 0")))
    except tomllib.TOMLDecodeError:
        raise NotToml from None
