"""The messages that the page's scripts say themselves, taken apart so that a script of a few lines can fill them."""

from __future__ import annotations

from functools import cache
from typing import Any

from sonify.say.language import Language, spoken
from sonify.say.written import Choice, Literal, Place, Written, written

Piece = Any  # a text; {place}; {place, variants, other}: texts by name, the usual one's name


def script_words(topic: str = "script") -> dict[str, list[Piece]]:
    """Every message of a file of the catalogue as its pieces, in the language of the moment."""
    return _script_words(spoken(), topic)


@cache
def _script_words(language: Language, topic: str) -> dict[str, list[Piece]]:
    return {identifier: _pieces(_taken_apart(identifier, text)) for identifier, text in language.sources(topic).items()}


def _taken_apart(identifier: str, text: str) -> Written:
    pieces = written(text)
    if pieces is None:
        raise ValueError(f"the page's script cannot say {identifier}")
    return pieces


def _pieces(pieces: Written) -> list[Piece]:
    return [piece if isinstance(piece, str) else _piece(piece) for piece in pieces]


def _piece(piece: object) -> Piece:
    """One place of a message. ValueError: something that the page's script does not know."""
    if isinstance(piece, Literal):
        return piece.text
    if isinstance(piece, Place):
        return {"place": piece.name}
    if isinstance(piece, Choice):
        return {
            "place": piece.place,
            "variants": {str(key): _pieces(variant) for key, variant in piece.variants},
            "other": str(piece.variants[piece.usual][0]),
        }
    raise ValueError(f"the page's script cannot say {type(piece).__name__}")
