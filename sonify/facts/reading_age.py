"""How hard a text is to read: a reading age by the Flesch-Kincaid grade, the science's own words excepted.

The grade is that of Kincaid, Fishburne, Rogers and Chissom (1975), from words a sentence and syllables a word; the
reading age is grade + 5 (common practice). It knows nothing of meaning and is made for whole sentences. Syllables are
counted by rule, as no dictionary is at hand: tests/facts/test_reading_age.py holds them to a library that has one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

#: The age that the pupils' sheets keep to.
OLDEST = 9.0
#: A sentence has so many words at least; "No." goes with the one that follows.
SENTENCE_WORDS = 3
_WORD = re.compile(r"[^\W\d_][\w’'-]*")
_SENTENCE = re.compile(r"[.!?]+(?=\s|$)")
_NUMBER = re.compile(r"[−-]?\d[\d.,:]*(?: ?(?:%|°C|[mck]?m|k?g)\b)?(?<![.,])")
_VOWELS = re.compile(r"[aeiouy]+")
#: Words that scenes use much and no rule gets right.
_OTHERS = {
    **dict.fromkeys(("our", "hour", "flour", "quiet", "science", "vapour", "metre", "layer", "square", "rhythm"), 2),
    **dict.fromkeys(("people", "foxes", "something", "hundred", "quarter", "equal"), 2),
    **dict.fromkeys(("everybody", "material"), 4),
    **dict.fromkeys(("somebody", "everything", "temperature"), 3),
}
#: Two vowels that are said apart, and endings that are written and not said.
_APART = re.compile(r"(?:ia(?!l\b|n\b)|io(?!us\b|n)|eo(?!us\b)|ua|uo(?!y)|iu|[aeou]ing\b|ying\b|yi|[^q]ue[rl]|ii)")
_SILENT = re.compile(
    r"(?:[^aeiouyl]|[aeiouy]l)e\b|[^aeiouytd]ed\b|[aeiouy](?:[^aeiouy]{1,2})es\b(?<!ses)(?<!zes)(?<!ches)(?<!shes)(?<!ges)(?<!ces)"
)


@lru_cache(maxsize=20_000)
def syllables(word: str) -> int:
    """How many syllables an English word has, by rule.

    >>> [syllables(word) for word in ("water", "vapour", "evaporation", "climbed", "the")]
    [2, 2, 5, 1, 1]
    """
    word = word.lower().replace("’", "").replace("'", "")
    if (known := _OTHERS.get(word) or _OTHERS.get(word.removesuffix("s"))) is not None:
        return known
    if "-" in word:
        return sum(syllables(piece) for piece in word.split("-") if piece) or 1
    found = len(_VOWELS.findall(word)) + len(_APART.findall(word)) - bool(_SILENT.search(word))
    return max(1, found)


@lru_cache(maxsize=64)
def _pattern(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, words))})(?:e?s)?\b", re.IGNORECASE)


def reading_age(text: str, words: Iterable[str] = ()) -> float | None:
    """The reading age of a text; None where there is no word in it. words: those that count as one short word each."""
    known = tuple(words)
    plain = _pattern(known).sub("thing", text) if known else text
    plain = _NUMBER.sub("ten", plain)
    said = _WORD.findall(plain)
    if not said:
        return None
    sentences = sum(len(_WORD.findall(piece)) >= SENTENCE_WORDS for piece in _SENTENCE.split(plain)) or 1
    grade = 0.39 * len(said) / sentences + 11.8 * sum(map(syllables, said)) / len(said) - 15.59
    return grade + 5.0
