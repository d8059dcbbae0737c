"""Texts fit for an engraved page: broken into lines, and in letters that the sheets' font can draw."""

from __future__ import annotations

import re
import unicodedata

from sonify.records.letters import STAND_IN
from sonify.records.letters import drawable as font_letters

_BESIDES_ASCII = re.compile(r"[^\x00-\x7f]")


def wrapped(text: str, length: int) -> str:
    """The text in lines of about so many letters, as even as may be, broken between words or within a longer one.

    >>> wrapped("Start: both hands up, then down on one", 26)
    'Start: both hands up,\\nthen down on one'
    >>> wrapped("Aaaaaaaaaaaaah!", 8)
    'Aaaaaaaa\\naaaaah!'
    """
    words = [word[at : at + length] for word in text.split() for at in range(0, len(word), length)]
    lines = -(-len(text) // length)
    target = len(text) / max(lines, 1)
    out: list[str] = []
    row = ""
    for word in words:
        if row and (len(row) + len(word) / 2 > target or len(row) + len(word) >= 1.25 * length):
            out.append(row)
            row = word
        else:
            row = f"{row} {word}".strip()
    return "\n".join([*out, row])


def drawable(text: str) -> str:
    """The text with a stand-in for every letter that the sheets' font cannot draw; marks on letters go without.

    A PDF that readers for the blind can use may hold no missing letter. The list is the one that paper prints by.
    """
    return _BESIDES_ASCII.sub(lambda found: _shown(found[0]), unicodedata.normalize("NFC", text))


def _shown(letter: str) -> str:
    if ord(letter) in font_letters():
        return letter
    return "" if unicodedata.category(letter) in ("Cf", "Mn", "Me") else STAND_IN
