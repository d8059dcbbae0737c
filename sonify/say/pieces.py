"""The messages that the page's scripts say themselves, taken apart so that a script of a few lines can fill them."""

from __future__ import annotations

from functools import cache
from typing import Any

from sonify.say.language import Language, patterns, spoken

Piece = Any  # a text; {place}; {place, variants, other}: texts by name, the usual one's name


def script_words(topic: str = "script") -> dict[str, list[Piece]]:
    """Every message of a file of the catalogue as its pieces, in the language of the moment."""
    return _script_words(spoken(), topic)


@cache
def _script_words(language: Language, topic: str) -> dict[str, list[Piece]]:
    return {identifier: _pieces(pattern) for identifier, pattern in patterns(language, topic).items()}


def _pieces(pattern: Any) -> list[Piece]:
    from fluent.syntax import ast

    return [
        element.value if isinstance(element, ast.TextElement) else _piece(element.expression)
        for element in pattern.elements
    ]


def _piece(expression: Any) -> Piece:
    """One place of a pattern. ValueError: something that the page's script does not know."""
    from fluent.syntax import ast

    if isinstance(expression, ast.StringLiteral):
        return expression.parse()["value"]
    if isinstance(expression, ast.VariableReference):
        return {"place": expression.id.name}
    if isinstance(expression, ast.SelectExpression) and isinstance(expression.selector, ast.VariableReference):
        return {
            "place": expression.selector.id.name,
            "variants": {_key(variant): _pieces(variant.value) for variant in expression.variants},
            "other": next(_key(variant) for variant in expression.variants if variant.default),
        }
    raise ValueError(f"the page's script cannot say {type(expression).__name__}")


def _key(variant: Any) -> str:
    return str(getattr(variant.key, "name", None) or variant.key.value)
