"""Messages taken apart: what stands in them is what Fluent's own parser finds, and they say what its resolver says.

The witness is the reference implementation for Python, `fluent.syntax` and `fluent.runtime`.
"""

from __future__ import annotations

import random
from importlib import resources
from pathlib import Path
from typing import Any

import pytest
from babel.lists import format_list
from fluent.syntax import FluentParser, ast

from sonify.say import ENGLISH, Language
from sonify.say.entries import entries
from sonify.say.language import VERBS
from sonify.say.written import Choice, Literal, Other, Place, Verb, Written, written
from tests.say.pseudo import pseudo_messages

STEMS = sorted(path.name.removesuffix(".ftl") for path in Path(str(resources.files("sonify") / "say/en")).iterdir())
PARSER = FluentParser(with_spans=False)


def by_fluent(pattern: ast.Pattern) -> Written:
    """The same pieces from Fluent's syntax tree."""

    def piece(element: Any) -> Any:
        if isinstance(element, ast.TextElement):
            return element.value
        match element.expression:
            case ast.VariableReference(id=name):
                return Place(name.name)
            case ast.StringLiteral() as literal:
                return Literal(literal.parse()["value"])
            case ast.FunctionReference(id=name, arguments=arguments):
                return Verb(name.name, arguments.positional[0].id.name)
            case ast.MessageReference(id=name):
                return Other(name.name)
            case ast.SelectExpression(selector=selector, variants=variants):
                usual = [n for n, variant in enumerate(variants) if variant.default]
                return Choice(selector.id.name, tuple((key(v.key), by_fluent(v.value)) for v in variants), usual[0])
        raise AssertionError(element.expression)

    def key(found: Any) -> str | int:
        return int(found.value) if isinstance(found, ast.NumberLiteral) else found.name

    return tuple(piece(element) for element in pattern.elements)


def parsed(text: str) -> ast.Pattern | None:
    body = PARSER.parse(text).body
    return body[0].value if len(body) == 1 and isinstance(body[0], ast.Message) else None


@pytest.mark.parametrize("messages", [ENGLISH.messages, pseudo_messages], ids=["english", "as Fluent writes it"])
def test_every_message_of_the_catalogue_is_taken_apart_as_fluent_does(messages: Any) -> None:
    found = 0
    stems = STEMS if messages is ENGLISH.messages else STEMS[::4]  # Fluent's serialiser takes its time
    for stem in stems:
        for source in entries(messages(stem)).values():
            if messages is ENGLISH.messages and "\n" not in source.strip() and "{" not in source:
                continue  # a plain line is not taken apart
            pattern = parsed(source)
            assert pattern is not None and written(source) == by_fluent(pattern), source
            found += 1
    assert found > 400


ODD = (
    "a =\n\n    one\n\n      two { $x }\n     three\n",
    "a = one  \n     two\n\n\n       three\n",
    "a =\n  { $x }\n    more\n",
    "a =\n{ $x }\n  more\n",
    'a = {$x}{ $y }{""}{ " " } .\n',
    "a = { $x ->\n*[one] 1\n[two] 2\n}\n",
    "a = b { $x ->\n    [0]\n        c\n         d\n   *[ other ] e { $y ->\n      [p] q\n     *[r] s\n    } t\n} u\n",
    "a = { b } { c-d }\n",
    "a = \u00e9t\u00e9 { $x }\u00a0\n",
    "a = x\n    [no key\n",
    "a = x\n    .title = y\n",
    "a = \r\n    b\r\n    c\r\n",
)
#: What is left to Fluent: its functions, numbers, terms, attributes, escapes, things in things, and what is no message.
LEFT = (
    "a = { NUMBER($x, minimumFractionDigits: 1) }\n",
    "a = { 1 }\n",
    "a = { -term }\n",
    "a = { b.title }\n",
    'a = { "\\u0041" }\n',
    "a = { { $x } }\n",
    "a = { NUMBER($x) ->\n   *[one] b\n}\n",
    "a = { $x ->\n    [1.5] b\n   *[two] c\n}\n",
    "a = { $x ->\n    [one] b\n    [two] c\n}\n",
    "a = { $x ->\n   *[one] b\n   *[two] c\n}\n",
    "a = { $x\n",
    "a = b }\n",
    "a =\n",
    "a = x\n    .title = y\n",
)


@pytest.mark.parametrize("source", ODD)
def test_odd_ways_to_write_a_message_are_read_as_fluent_reads_them_or_not_at_all(source: str) -> None:
    pattern = parsed(source)
    assert written(source) is None or (pattern is not None and written(source) == by_fluent(pattern))


@pytest.mark.parametrize("source", LEFT)
def test_what_only_fluent_reads_is_left_to_it(source: str) -> None:
    assert written(source) is None


def places_in(pieces: Written) -> dict[str, set[str | int]]:
    """Each place of a message, with the keys that it chooses by."""
    found: dict[str, set[str | int]] = {}
    for piece in pieces:
        match piece:
            case Place(name=name) | Verb(place=name):
                found.setdefault(name, set())
            case Choice(place=name, variants=variants):
                found.setdefault(name, set()).update(key for key, _ in variants)
                for _, variant in variants:
                    for inner, keys in places_in(variant).items():
                        found.setdefault(inner, set()).update(keys)
    return found


def test_messages_say_what_fluent_says() -> None:
    """With texts, numbers and keys in their places, drawn by lot (seed 7): each message of the catalogue that has more
    than texts and places, and a tenth of the others."""
    random_of, said = random.Random(7), 0
    given = ["the gap", "frogs", "1,000 { $x }", "one", "other", "", " ", 0, 1, 2, 5, 999]
    for stem in STEMS:
        file = ENGLISH._file(stem)
        assert file is not None
        for identifier, source in file.sources.items():
            pieces = written(source)
            assert pieces is not None
            easy = all(isinstance(piece, str | Place) for piece in pieces)
            if identifier in file.plain or (easy and random_of.random() > 0.1):
                continue
            wanted = {name: [*given, *keys, *map(str, keys)] for name, keys in places_in(pieces).items()}
            bundle = file.holding(identifier)
            pattern = bundle.get_message(identifier).value
            for _ in range(6):
                args = {name: random_of.choice(values) for name, values in wanted.items()}
                text, faults = bundle.format_pattern(pattern, args)
                if not faults:
                    assert ENGLISH.message(identifier, args) == text, (identifier, args)
                    said += 1
    assert said > 2_000


def language(text: str, locale: str = "en_GB") -> Language:
    return Language("test", locale, lambda stem: text if stem == "try" else ENGLISH.messages(stem))


def test_large_numbers_parts_of_one_and_other_languages_are_left_to_fluent() -> None:
    assert language("try-it = { $n } cups\n").message("try-it", {"n": 1000}) == "1,000 cups"
    assert language("try-it = { $n } cups\n").message("try-it", {"n": 0.5}) == "0.5 cups"
    few = "try-it = { $n ->\n    [few] szklanki\n   *[other] other\n}\n"  # 2 is "few" in Polish (CLDR)
    assert language(few, "pl_PL").message("try-it", {"n": 2}) == "szklanki"
    assert language(few).message("try-it", {"n": 2}) == "other"


def test_what_is_missing_or_unknown_is_told() -> None:
    for text in ("try-it = { $it }\n", "try-it = { IT($it) }\n", "try-it = { try-no }\n"):
        with pytest.raises(LookupError, match="try-it"):
            language(text).message("try-it", {} if "{ $it" in text else {"it": "cup"})


def test_a_verb_is_found_by_its_capitals() -> None:
    assert {verb.upper() for verb in VERBS} >= {"RISES", "IS"}
    assert language("try-it = It { RISES($it) }.\n").message("try-it", {"it": "frogs"}) == "It rise."


def test_lists_are_written_as_babel_writes_them() -> None:
    """Unicode CLDR by Babel, the language's own list pattern."""
    for count in range(6):
        items = [f"{n} {{0}}, and" for n in range(count)]
        assert ENGLISH.numbers.listed(items) == format_list(items, locale="en_GB")
