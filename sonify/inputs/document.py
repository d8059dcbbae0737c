"""A TOML text as tables that know their lines, and all its faults as one message."""

from __future__ import annotations

import hashlib
import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, NoReturn

from sonify.errors import BadFile
from sonify.inputs.toml_lines import KeyLines, TooMuch, key_lines
from sonify.records.scene import Origin, enclosing_line

#: Beyond so many faults nothing is explained any more: it takes time, and only the first are listed.
MOST_ADVICE = 100

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")

#: How tomllib's commonest messages begin, and what a teacher can do about each.
_ADVICE = (
    ("Expected '=' after a key", 'a name with a space in it needs quotation marks: "ocean drum" = 1'),
    ("Invalid value", 'a text needs quotation marks: title = "One drop"'),
    ("Invalid statement", 'a line reads key = "value", [table], or # remark'),
    ("Illegal character", "a text ends on the line where it began, or stands between triple quotation marks"),
    ("Unterminated", "a closing quotation mark is missing"),
    ("Unclosed", "a closing bracket is missing"),
    ("Expected newline", "one line holds one key; a list needs square brackets and commas"),
    ("Unescaped '\\'", "write a backslash twice, or use single quotation marks"),
    ("Cannot declare", "a table that comes more than once has double brackets: [[part]]"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """The tables of a TOML text, and where each key stands."""

    data: dict[str, Any]
    origin: Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing to mend: the dotted key and the message."""

    key: str
    message: str


def read_document(text: str, *, file: str) -> Document:
    """The tables of a TOML text. Raises BadFile with the line where it is no TOML."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    try:
        found = key_lines(text)
    except TooMuch as error:
        raise BadFile(file, error.message, line=error.line) from None
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _not_toml(str(error), found, text, file) from None
    except ValueError:  # not from tomllib but from int(): the one number it cannot read is a very long one
        raise BadFile(file, "a number has more than 4300 digits") from None
    digest = hashlib.sha256(text.encode("utf-8")).hexdigest()
    origin = Origin(file=file, lines=tuple(found.lines.items()), sha256=digest)
    return Document(data=data, origin=origin)


def _not_toml(message: str, found: KeyLines, text: str, file: str) -> BadFile:
    if message.startswith("Cannot overwrite") and found.repeated:
        key, first, again = found.repeated[0]
        return BadFile(file, f"given twice, first on line {first}; keep one of them", line=again, key=one_line(key))
    place = _PLACE.search(message)
    line = int(place[1]) if place and place[1] else text.rstrip().count("\n") + 1
    plain = _PLACE.sub("", message)
    column = f" at column {place[2]}" if place and place[2] else ""
    advice = next((f"; {advice}" for start, advice in _ADVICE if plain.startswith(start)), "")
    return BadFile(file, f"not valid TOML{column}: {plain}{advice}", line=line)


def refuse(faults: Iterable[Fault], origin: Origin) -> NoReturn:
    """Raise one BadFile that names every fault with its line."""
    lines = dict(origin.lines)
    placed = sorted(((enclosing_line(fault.key, lines), fault) for fault in faults), key=lambda row: row[0] or 0)
    raise BadFile.several(
        BadFile(origin.file, one_line(fault.message, 2000), line=line, key=one_line(fault.key, 200) or None)
        for line, fault in placed
    )


def one_line(text: str, most: int | None = None) -> str:
    """A text on one line, with nothing in it that a terminal would obey; cut after `most` letters."""
    line = "".join(letter if letter.isprintable() else " " for letter in text[:most])
    return line if most is None or len(text) <= most else f"{line}…"


def shown(value: object) -> str:
    """A value as a message quotes it.

    >>> shown("drum"), shown(True), shown([1]), shown(7.5)
    ('"drum"', 'true', 'a list', '7.5')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) and abs(value) >= 10**15:
        return "a number of more than 15 digits"
    if isinstance(value, int | float):
        return f"{value:.15g}"
    if isinstance(value, str):
        return f'"{one_line(value, 60)}"'
    if isinstance(value, dict):
        return "a table"
    return "a list" if isinstance(value, list) else "a date or time"
