"""What stands in one message, taken apart: texts and places, verbs that agree, choices, and other messages.

Fluent's own parser and resolver take most of the time in which a lesson is said, and their import as much again, in
each process that says anything. The catalogue uses little of their syntax, which is read here; whatever else stands in
a message (None) is theirs. `tests/say/test_written.py` holds every message of the catalogue against both.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple, NoReturn, TypeAlias


class Place(NamedTuple):
    """{ $name }"""

    name: str


class Verb(NamedTuple):
    """{ RISES($quantity) }: a verb as what fills a place wants it."""

    verb: str
    place: str


class Other(NamedTuple):
    """{ another-message }"""

    name: str


class Literal(NamedTuple):
    """{ "a text in quotation marks" }, spaces at its ends and all"""

    text: str


class Choice(NamedTuple):
    """{ $place -> [key] ... *[key] ... }. usual: which of the variants is taken where no key fits."""

    place: str
    variants: tuple[tuple[str | int, tuple[Any, ...]], ...]
    usual: int


Piece: TypeAlias = str | Place | Verb | Other | Literal | Choice
Written: TypeAlias = tuple[Piece, ...]

_NAME = r"[A-Za-z][\w-]*"
_BLANK = re.compile(r"[ \n]*")
_SPACES = re.compile(r" *")
_LINES = re.compile(r"((?: *\n)+)( *)")
_TEXT = re.compile(r"[^{}\n]+")
_EXPRESSION = re.compile(
    rf'(?P<literal>"[^"\\\n]*")|\$(?P<place>{_NAME})|(?P<verb>[A-Z][A-Z0-9_-]*)\([ \n]*\$(?P<whose>{_NAME})[ \n]*\)'
    rf"|(?P<other>{_NAME})(?![\w.(-])",
    re.ASCII,
)
_KEY = re.compile(rf"(?P<usual>\*?)\[[ \n]*(?:(?P<number>0|[1-9]\d*)|(?P<name>{_NAME}))[ \n]*\]", re.ASCII)
#: Numbers below this are written without a mark between thousands.
GROUPED_FROM = 1000


class _Unknown(Exception):
    """Something that is not read here, or not filled."""


def written(entry: str) -> Written | None:
    """The pieces of a message's source; None where something stands in it that only Fluent reads.

    >>> written("hello = Hello, { $name }!\\n"), written("told = { NUMBER($many, digits: 1) }\\n")
    (('Hello, ', Place(name='name'), '!'), None)
    """
    text = entry.replace("\r\n", "\n")
    try:
        pieces, at = _pattern(text, text.index("=") + 1)
    except (_Unknown, ValueError):
        return None
    return pieces if pieces and not text[at:].strip() else None


def _pattern(text: str, at: int) -> tuple[Written, int]:
    """The pieces from here on, and where they end: at what is not indented, or at the next key or the last brace.

    What all lines but the first are indented by is no text; nor is the indentation of the first, where it stands alone.
    """
    at = _spaces(text, at)
    found: list[
        Piece | tuple[str, int]
    ] = []  # texts, expressions, and breaks: their newlines and the next line's indent
    begun = not text.startswith("\n", at)
    while at < len(text):
        if text[at] == "\n":
            lines = _LINES.match(text, at)
            assert lines is not None
            if not _goes_on(text, lines):
                break
            found.append(("\n" * lines[1].count("\n") if begun else "", len(lines[2])))
            begun, at = True, lines.end()
        elif text[at] == "{":
            piece, at = _placeable(text, at + 1)
            found.append(piece)
        else:
            run = _TEXT.match(text, at) or _unknown()
            found.append(run[0])
            at = run.end()
    return _dedented(found), at


def _goes_on(text: str, lines: re.Match[str]) -> bool:
    following = text[lines.end() : lines.end() + 1]
    return following == "{" or bool(lines[2] and following and following not in "}.[*")


def _dedented(found: list[Any]) -> Written:
    common = min((piece[1] for piece in found if type(piece) is tuple), default=0)
    pieces: list[Piece] = []
    for piece in found:
        if type(piece) is tuple:
            piece = piece[0] + " " * (piece[1] - common)
        if piece == "":
            continue
        if isinstance(piece, str) and pieces and isinstance(pieces[-1], str):
            pieces[-1] += piece
        else:
            pieces.append(piece)
    last = pieces[-1] if pieces else None
    if isinstance(last, str):
        pieces[-1:] = filter(None, [last.rstrip(" \n\r")])
    return tuple(pieces)


def _placeable(text: str, at: int) -> tuple[Piece, int]:
    found = _EXPRESSION.match(text, _blank(text, at)) or _unknown()
    at = _blank(text, found.end())
    piece: Piece
    if found["place"] and text.startswith("->", at):
        piece, at = _choice(found["place"], text, at + 2)
    elif found["place"]:
        piece = Place(found["place"])
    elif found["verb"]:
        piece = Verb(found["verb"], found["whose"])
    elif found["other"]:
        piece = Other(found["other"])
    else:
        piece = Literal(found["literal"][1:-1])
    if not text.startswith("}", at):
        _unknown()
    return piece, at + 1


def _choice(place: str, text: str, at: int) -> tuple[Choice, int]:
    variants: list[tuple[str | int, Written]] = []
    usual = -1
    at = _spaces(text, at)
    while not text.startswith("}", at := _blank(text, at)):
        key = _KEY.match(text, at) or _unknown()
        if key["usual"]:
            usual = len(variants) if usual < 0 else _unknown()
        pieces, at = _pattern(text, key.end())
        if not pieces or not text.startswith("\n", at):
            _unknown()
        variants.append((int(key["number"]) if key["number"] else key["name"], pieces))
    return (Choice(place, tuple(variants), usual), at) if usual >= 0 else _unknown()


def _spaces(text: str, at: int) -> int:
    return _end(_SPACES, text, at)


def _blank(text: str, at: int) -> int:
    return _end(_BLANK, text, at)


def _end(what: re.Pattern[str], text: str, at: int) -> int:
    found = what.match(text, at)
    return at if found is None else found.end()


def _unknown() -> NoReturn:
    raise _Unknown


def filled(
    pieces: Written,
    args: Mapping[str, Any],
    other: Callable[[str], Written | None],
    agreeing: Callable[[str, str], str],
    *,
    english: bool,
) -> str | None:
    """A message with its places filled; None where that is left to Fluent: what is no text and no whole number below a
    thousand, or nothing at all, and numbers in other languages than English.

    other: the pieces of another message. agreeing: a verb as a noun wants it.
    """

    def said(pieces: Written) -> str:
        return "".join([piece if type(piece) is str else expressed(piece) for piece in pieces])

    def expressed(piece: Any) -> str:
        kind = type(piece)
        if kind is Place:
            return str(value(piece.name))
        if kind is Choice:
            return said(_chosen(piece, value(piece.place)))
        if kind is Literal:
            return str(piece.text)
        if kind is Verb:
            whose = value(piece.place)
            return agreeing(piece.verb, whose) if type(whose) is str else _unknown()
        return said(other(piece.name) or _unknown())

    def value(place: str) -> str | int:
        given = args.get(place)
        if type(given) is str or (english and type(given) is int and 0 <= given < GROUPED_FROM):
            return given
        return _unknown()

    try:
        return said(pieces)
    except (_Unknown, LookupError):  # Fluent says what is wrong
        return None


def _chosen(choice: Choice, value: str | int) -> Written:
    """The variant for a text or a number. As in Fluent a number has the key of its plural, too: 1 is "one"."""
    for key, pieces in choice.variants:
        if key == value or (type(key) is not type(value) and _plural(key, value)):
            return pieces
    return choice.variants[choice.usual][1]


def _plural(one: str | int, two: str | int) -> bool:
    number, name = (one, two) if type(one) is int else (two, one)
    return name == ("one" if number == 1 else "other")
