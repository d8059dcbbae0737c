"""The page in the pseudo-language: what a reader sees that is not marked was said by nobody, or is a person's own."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from lxml import html

from sonify.page.plan import plan_page
from sonify.say import speaking
from tests.page.lessons import page_of
from tests.page.test_plan import PALETTE, start
from tests.paper.said import not_own
from tests.say.pseudo import PSEUDO, unmarked
from tests.studies import SCENES, studied

#: Attributes that are read aloud or shown.
READ = ("aria-label", "title", "alt", "placeholder", "aria-valuetext")
#: Names that are nobody's words: files of a pack, formats, keys of a keyboard, ourselves.
NAMES = {"sonify", "csv", "toml", "pdf", "html", "wav", "mid", "midi", "musicxml", "zip", "mp", "ogg", "flac"}


def shown(text: str) -> Iterator[str]:
    """What a reader sees of a page or has read to him, and the pieces that its scripts say."""
    root = html.fromstring(text)
    for element in root.iter():
        if element.tag in ("script", "style") or not isinstance(element.tag, str):
            continue
        yield from (each for each in (element.text, *(element.get(name) for name in READ)) if each)
    yield from (element.tail for element in root.iter() if element.tail and isinstance(element.tag, str))
    (words,) = re.findall(r'id="words-data">(.*?)</script>', text, re.DOTALL)
    yield from _texts(json.loads(words))


def _texts(piece: Any) -> Iterator[str]:
    if isinstance(piece, str):
        yield piece
    elif isinstance(piece, dict):
        for name, value in piece.items():
            if name not in ("place", "other"):
                yield from _texts(value)
    elif isinstance(piece, list):
        for each in piece:
            yield from _texts(each)


@pytest.mark.parametrize("name", ["harbour-water-cycle", "stretch-test", "two-cups"])
def test_every_word_of_a_lessons_page_is_said(name: str) -> None:
    assert name in SCENES
    lesson = studied(name)
    with speaking(PSEUDO):
        text = page_of(lesson)
    left = {word for word in not_own(shown(text), lesson) if word.lower() not in NAMES}
    assert left == set()


def test_every_word_of_the_plan_is_said() -> None:
    with speaking(PSEUDO):
        text = plan_page(start(), PALETTE)
    own = {word.lower() for each in _texts(start()) for word in unmarked(each)} | NAMES
    own |= {word.lower() for word in unmarked(json.dumps(start()))}
    left = {word for each in shown(text) for word in unmarked(each) if word.lower() not in own}
    assert left == set()


def test_the_check_sees_a_word_that_nobody_said() -> None:
    lesson = studied("two-cups")
    with speaking(PSEUDO):
        text = page_of(lesson).replace("</h2>", " Unsaid words</h2>", 1)
    assert "Unsaid" in not_own(shown(text), lesson)
