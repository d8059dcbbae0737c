"""A language made by program: every letter of English marked and every vowel doubled, so about a third longer.

What is left unmarked in an output was not said by the catalogue: it is a person's own, or a word that a program holds.
`with speaking(PSEUDO):` says everything in it. The sheets' font has every letter of it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date

from fluent.syntax import FluentParser, FluentSerializer, ast
from fluent.syntax.visitor import Transformer

from sonify.say import ENGLISH, Language
from sonify.say.numbers import Numbers

PLAIN = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
MARKED = "áƀćđéƒǥħíĵķłɱñóƥɋřśŧúṽŵẋýžÁƁĆĐÉƑǤĦÍĴĶŁṀÑÓƤɊŘŚŦÚṼŴẊÝŽ"
VOWELS = "aeiouyAEIOUY"
_MARKS = str.maketrans(PLAIN, MARKED)
_UNMARKED = re.compile(r"[A-Za-z]{2,}")


def marked(text: str) -> str:
    """A text in this language.

    >>> marked("Put it in order.")
    'Ƥúúŧ ííŧ ííñ óóřđééř.'
    """
    return "".join(letter + letter.lower() if letter in VOWELS else letter for letter in text).translate(_MARKS)


def unmarked(text: str) -> list[str]:
    """The words of a text that this language did not say: two letters and more."""
    return _UNMARKED.findall(text)


class _Marking(Transformer):
    """Texts and literals of a message; what it selects by stays."""

    def visit_TextElement(self, node: ast.TextElement) -> ast.TextElement:
        node.value = marked(node.value)
        return node

    def visit_StringLiteral(self, node: ast.StringLiteral) -> ast.StringLiteral:
        node.value = marked(node.value)
        return node


def pseudo_messages(stem: str) -> str:
    """The text of a Fluent file of English, marked. LookupError: there is none of that name."""
    resource = FluentParser().parse(ENGLISH.messages(stem))
    return FluentSerializer().serialize(_Marking().visit(resource))


class _PseudoNumbers(Numbers):
    """Figures as in English; the words that Babel knows, months and "and", are marked."""

    def date(self, day: int, parts: str = "dmy") -> str:
        found = date.fromordinal(day)
        said = {"d": str(found.day), "m": marked(found.strftime("%B")), "y": str(found.year)}
        return " ".join(said[part] for part in parts)

    def listed(self, items: Sequence[str]) -> str:
        return f" {marked('and')} ".join(filter(None, (", ".join(items[:-1]), *items[-1:])))


def _pseudo() -> Language:
    language = Language("pseudo", "en_GB", pseudo_messages)
    language.numbers = _PseudoNumbers("en_GB", language.message)
    return language


PSEUDO = _pseudo()
