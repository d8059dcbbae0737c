"""A TOML text as tables that know their lines, and all its faults as one message."""

from __future__ import annotations

import hashlib
import re
import tomllib
from collections.abc import Iterable
from typing import Any, NoReturn

from sonify.errors import BadFile, Words
from sonify.frozen import dataclass
from sonify.inputs.toml_lines import KeyLines, TooMuch, key_lines
from sonify.records.fact import Fact, fact, wrong
from sonify.records.scene import Origin, enclosing_line

#: Beyond so many faults nothing is explained any more: it takes time, and only the first are listed.
MOST_ADVICE = 100

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")

#: How tomllib's commonest messages begin, and what a teacher can do about each.
_ADVICE = (
    ("Expected '=' after a key", "name-with-space"),
    ("Invalid value", "text-quoted"),
    ("Invalid statement", "line-reads"),
    ("Illegal character", "text-ends"),
    ("Unterminated", "closing-mark"),
    ("Unclosed", "closing-bracket"),
    ("Expected newline", "one-line"),
    ("Unescaped '\\'", "backslash"),
    ("Cannot declare", "double-brackets"),
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
    message: Words


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
        raise BadFile(file, wrong("error_inputs-number-more-digits")) from None
    digest = hashlib.sha256(text.encode("utf-8")).hexdigest()
    origin = Origin(file=file, lines=tuple(found.lines.items()), sha256=digest, text=text)
    return Document(data=data, origin=origin)


def _not_toml(message: str, found: KeyLines, text: str, file: str) -> BadFile:
    if message.startswith("Cannot overwrite") and found.repeated:
        key, first, again = found.repeated[0]
        return BadFile(file, wrong("error_inputs-given-twice-first", first=first), line=again, key=one_line(key))
    place = _PLACE.search(message)
    line = int(place[1]) if place and place[1] else text.rstrip().count("\n") + 1
    plain = _PLACE.sub("", message)
    told = wrong("error_toml-not-valid", plain=plain)
    if place and place[2]:
        told = wrong("error_toml-not-valid-at", column=place[2], plain=plain)
    advice = next((advice for start, advice in _ADVICE if plain.startswith(start)), "")
    if advice:
        told = wrong("error_toml-and", told=told, advice=wrong(f"error_toml-{advice}"))
    return BadFile(file, told, line=line)


def refuse(faults: Iterable[Fault], origin: Origin) -> NoReturn:
    """Raise one BadFile that names every fault with its line."""
    lines = dict(origin.lines)
    placed = sorted(((enclosing_line(fault.key, lines), fault) for fault in faults), key=lambda row: row[0] or 0)
    raise BadFile.several(
        BadFile(origin.file, _on_one_line(fault.message), line=line, key=one_line(fault.key, 200) or None)
        for line, fault in placed
    )


def _on_one_line(message: Words) -> Words:
    """What a fault says, with nothing that breaks its line in what fills its places."""
    if isinstance(message, Fact):
        places = {name: one_line(arg, 2000) if isinstance(arg, str) else arg for name, arg in message.args}
        return fact(message.message, **places)
    return one_line(message, 2000) if isinstance(message, str) else message


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
