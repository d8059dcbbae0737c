"""Which letters the sheets' font can draw, and what stands in for the others: a PDF/UA file may hold no missing glyph.

Data is made printable once, here, before it is typeset; the sheet then says which letters it could not print.
"""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from typing import Any

from sonify.records.fact import fact
from sonify.records.letters import STAND_IN, drawable
from sonify.records.safe_text import turns
from sonify.say import say

LONGEST_WORD = 24
_POWER = re.compile(r"(?<=× 10)\^([-−]?\d+)")
_RAISED = str.maketrans("0123456789-−", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁻")
_LONG = re.compile(rf"\S{{{LONGEST_WORD + 1},}}")


def printable(text: str, missing: Counter[str]) -> str:
    """One line of text that the font can draw; what it cannot is counted in `missing` and shown as STAND_IN.

    White space becomes single spaces, powers of ten are raised, and a word too long for a line may break every
    LONGEST_WORD letters.

    >>> printable("under 3 × 10^−16", Counter())
    'under 3 × 10⁻¹⁶'
    """
    composed = unicodedata.normalize("NFC", text.replace("\N{ZERO WIDTH SPACE}", ""))
    composed = _POWER.sub(lambda power: power[1].translate(_RAISED), composed)
    kept: list[str] = []
    for letter in " ".join(composed.split()):
        if ord(letter) in drawable() and not turns(letter) and unicodedata.category(letter) != "Cc":
            kept.append(letter)
            continue
        missing[letter] += 1
        if unicodedata.category(letter) not in {"Cc", "Cf", "Mn", "Me"}:  # those draw nothing of their own
            kept.append(STAND_IN)
    return _LONG.sub(_breakable, "".join(kept))


def _breakable(word: re.Match[str]) -> str:
    letters = word.group()
    return "\N{ZERO WIDTH SPACE}".join(
        letters[start : start + LONGEST_WORD] for start in range(0, len(letters), LONGEST_WORD)
    )


def printable_data(data: Any, missing: Counter[str]) -> Any:
    """JSON-like data with every text in it made printable. Keys are ours and stay."""
    if isinstance(data, str):
        return printable(data, missing)
    if isinstance(data, dict):
        return {key: printable_data(value, missing) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [printable_data(value, missing) for value in data]
    return data


def missing_note(missing: Counter[str], most: int = 6) -> str:
    """The sentence that owns up to letters left out, or nothing."""
    if not missing:
        return ""
    names = [f"{unicodedata.name(letter, '?').lower()} (U+{ord(letter):04X})" for letter in sorted(missing)]
    more = max(0, len(names) - most)
    return say(fact("sheet-missing", stand_in=STAND_IN, letters=", ".join(names[:most]), more=more))
