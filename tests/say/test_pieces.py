"""What the page's scripts say: each message they ask for is there, and its pieces say what Fluent says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import sonify
from sonify.say import ENGLISH
from sonify.say.pieces import script_words

PAGE = Path(sonify.__file__).parent / "page"
ASKED, NAMED = re.compile(r"phrase\(([^,)]*)"), re.compile(r"'(script(?:_record)?-[a-z0-9-]+)'")
#: The files of the catalogue that scripts ask for.
TOPICS = ("script", "script_record")
#: A text in quotation marks that a person would read: two words, or one with a capital letter.
SPOKEN = re.compile(r"'([A-Z][a-z]+|[^'\n]*[a-z]{2,} [a-z]{2,}[^'\n]*)'")


def asked() -> set[str]:
    texts = [path.read_text(encoding="utf-8") for path in PAGE.glob("*.js")]
    return {name for text in texts for first in ASKED.findall(text) for name in NAMED.findall(first)}


def test_scripts_ask_for_messages_that_are_there_and_for_each_of_them() -> None:
    assert asked() == {message for topic in TOPICS for message in script_words(topic)}


def filled(pieces: list, places: dict) -> str:
    """The page's own few lines, written again."""
    text = ""
    for piece in pieces:
        if isinstance(piece, str):
            text += piece
            continue
        value = places[piece["place"]]
        variants = piece.get("variants")
        if variants is None:
            text += str(value)
        else:
            wanted = ("one" if value == 1 else "other") if isinstance(value, int) else value
            text += filled(variants.get(wanted, variants[piece["other"]]), places)
    return text


@pytest.mark.parametrize("count", [1, 2])
@pytest.mark.parametrize("message", sorted(script_words()))
def test_the_pieces_of_a_message_say_what_fluent_says(message: str, count: int) -> None:
    found = re.findall(r"'place': '([a-z0-9-]+)'", str(script_words()[message]))
    places = dict.fromkeys(found, count)
    assert filled(script_words()[message], places) == ENGLISH.message(message, places)
