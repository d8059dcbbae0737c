"""A TOML text with some of its values set anew, tables added and tables taken out: all else stays as it is written.

What is changed is cut out of the text and put in where it stood, letter by letter, so that the author's comments, order
and spacing stay, and a second change finds everything where the first one left it.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import field
from itertools import pairwise
from typing import Any

from sonify.frozen import dataclass
from sonify.inputs.toml_lines import NotToml, Walk

_PLAIN_KEY = re.compile(r"[A-Za-z0-9_-]+")
#: What a TOML text in quotation marks may not hold as it is: control characters, the mark itself and the backslash.
_ESCAPED = re.compile(r'["\\\x00-\x1f\x7f]')
#: A list is written on one line up to so many characters.
LONGEST_LINE = 110


@dataclass(slots=True)
class Table:
    """One table of a text: its dotted key ("hear.3", "" for the top), where its header begins and its last line ends.

    keys: where the line of each of its own keys begins, and where that of its value ends.
    """

    name: str
    start: int
    end: int
    keys: dict[str, tuple[int, int]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Places:
    """tables: in the order of the text. values: dotted key -> where its value begins and ends."""

    tables: tuple[Table, ...]
    values: Mapping[str, tuple[int, int]]

    def table(self, name: str) -> Table | None:
        return next((table for table in self.tables if table.name == name), None)


class _Watched(Walk):
    """The walk, with the place of each table and value."""

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.tables = [Table("", 0, 0)]
        self.values: dict[str, tuple[int, int]] = {}
        self.last = ""  # the key whose value was read last, at the top of its table

    def header(self) -> str:
        start = self.at
        name = super().header()
        self.tables.append(Table(name, start, self.line_end()))
        return name

    def pair(self, table: str, depth: int) -> None:
        start = self.at
        super().pair(table, depth)
        if depth == 0:
            here = self.tables[-1]
            here.end = self.line_end()
            here.keys.setdefault(self.last, (start, here.end))

    def value(self, key: str, depth: int) -> None:
        start = self.at
        super().value(key, depth)
        self.values.setdefault(key, (start, start + len(self.text[start : self.at].rstrip())))
        if depth == 0:
            self.last = key

    def line_end(self) -> int:
        """Where the line ends that the walk is on, its remark and its line break within it."""
        end = self.text.find("\n", self.at)
        return len(self.text) if end < 0 else end + 1


def places_in(text: str) -> Places:
    """Where everything stands in a TOML text."""
    walk = _Watched(text)
    with suppress(NotToml):
        walk.document()
    return Places(tuple(walk.tables), walk.values)


def rewritten(
    text: str,
    values: Mapping[tuple[str, str], Any],
    *,
    added: Sequence[tuple[str, Mapping[str, Any]]] = (),
    removed: Sequence[str] = (),
) -> str:
    """The text with values set anew by (table, key), None taking a key out; tables added and taken out.

    Tables as `places_in` names them. A table that a value is for and that is not there is left alone: whoever asks has
    looked. added: (name of the array of tables, its lines), each after the last one of its kind.

    >>> print(rewritten('a = 1 # one\\n[[b]]\\nc = "x"\\n', {("b.0", "c"): "y", ("", "a"): 2}))
    a = 2 # one
    [[b]]
    c = "y"
    <BLANKLINE>
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if not text.endswith("\n"):
        text += "\n"
    places = places_in(text)
    cuts: list[tuple[int, int, str]] = []
    for (name, key), value in values.items():
        table = places.table(name)
        if table is not None and name not in removed:
            cuts += _set(text, places, table, key, value)
    for name in removed:
        if (table := places.table(name)) is not None:
            cuts.append((table.start, _past_blank(text, table.end), ""))
    for kind in dict.fromkeys(kind for kind, _ in added):
        rows = [_table(kind, row) for name, row in added if name == kind]
        of_kind = [table for table in places.tables if re.fullmatch(rf"{re.escape(kind)}\.\d+", table.name)]
        at = of_kind[-1].end if of_kind else len(text)
        cuts.append((at, at, "".join(f"\n{row}" for row in rows)))
    return _cut(text, cuts)


def _cut(text: str, cuts: Sequence[tuple[int, int, str]]) -> str:
    """The text with each stretch in another's place. None overlap; those that begin together keep their order."""
    ordered = sorted(cuts, key=lambda cut: (cut[0], cut[1]))
    edges = [(0, 0, ""), *ordered, (len(text), len(text), "")]
    return "".join(text[one[1] : two[0]] + two[2] for one, two in pairwise(edges))


def _set(text: str, places: Places, table: Table, key: str, value: Any) -> list[tuple[int, int, str]]:
    dotted = f"{table.name}.{key}" if table.name else key
    span = places.values.get(dotted)
    if span is None:
        if value is None:
            return []
        at = table.end if table.name or table.keys else _past_remarks(text)
        return [(at, at, f"{_key(key, table)} = {written(value)}\n")]
    if value is None:
        start, end = table.keys[dotted]
        return [(start, end, "")]
    old = text[span[0] : span[1]]
    return [] if same(old, value) else [(*span, written(value))]


def same(old: str, value: Any) -> bool:
    """Whether a value that is written already says the same: then it stays as its author wrote it."""
    try:
        found = tomllib.loads(f"a = {old}")["a"]
    except tomllib.TOMLDecodeError:
        return False
    return type(found) is type(value) and bool(found == value)


def _key(key: str, table: Table) -> str:
    """A key, with the room before its mark that the other keys of its table have."""
    bare = key if _PLAIN_KEY.fullmatch(key) else written(key)
    longest = max((len(each.rpartition(".")[2]) for each in table.keys), default=0)
    return bare.ljust(longest)


def _table(kind: str, row: Mapping[str, Any]) -> str:
    longest = max(map(len, row))
    lines = (f"{key.ljust(longest)} = {written(value)}\n" for key, value in row.items())
    return f"[[{kind}]]\n{''.join(lines)}"


def _past_blank(text: str, at: int) -> int:
    """The end of the empty lines that follow."""
    while at < len(text) and text[at] == "\n":
        at += 1
    return at


def _past_remarks(text: str) -> int:
    """Where the remarks at the head of a text end."""
    found = re.match(r"(?:[ \t]*(?:#[^\n]*)?\n)*", text)
    return found.end() if found else 0


def written(value: Any) -> str:
    """A plain value as TOML has it.

    >>> written(True), written([1, "a"]), written('say "x"')
    ('true', '[1, "a"]', '"say \\\\"x\\\\""')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, str):
        return f'"{_ESCAPED.sub(_escape, value)}"'
    line = f"[{', '.join(map(written, value))}]"
    if len(line) <= LONGEST_LINE:
        return line
    return "[\n" + "".join(f"    {written(each)},\n" for each in value) + "]"


def _escape(found: re.Match[str]) -> str:
    letter = found[0]
    return f"\\{letter}" if letter in '"\\' else f"\\u{ord(letter):04x}"
