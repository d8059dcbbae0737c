"""Parts of sentences that many sheets share: figures, counts, lists, tempo and loudness in words."""

from __future__ import annotations

from collections.abc import Sequence

from sonify.records.fact import Elapsed, fact
from sonify.records.score import Part
from sonify.records.words import pace
from sonify.say.language import say, spoken


def number(value: float, digits: int = 3) -> str:
    """A number to so many significant digits."""
    return spoken().numbers.number(value, digits)


def elapsed(seconds: float) -> str:
    """How far into the recording: "2:05"."""
    return say(fact("value-alone", value=Elapsed(seconds)))


def listed(items: Sequence[str]) -> str:
    """Items as a sentence lists them."""
    return spoken().numbers.listed(items)


def counted(what: str, number: int) -> str:
    """A number with its noun, a message of `count.ftl`: "4 bars"."""
    return say(fact(f"count-{what}", n=number))


def bars(first: int, count: int) -> str:
    """ "bar 3" or "bars 3 to 6"."""
    return say(fact("count-bars-at", first=first, last=first + count - 1, n=count))


def tempo_words(bpm: float) -> str:
    """A tempo in plain words: "walking pace"."""
    return say(fact(f"tempo-{pace(bpm)}"))


def own_name(part: Part) -> str:
    """A part's name where its group is named beside it: "The pulse", not "The pulse, group 3"."""
    return part.name.replace(f", group {part.group}", "") if part.pulse else part.name


def dynamic_words(mark: str) -> str:
    """A dynamic mark in plain words: "fairly loud"."""
    return say(fact(f"dynamic-{mark}"))


def dynamic_with_mark(mark: str) -> str:
    """The words with the mark: "fairly loud (mf)"."""
    return say(fact("dynamic-with-mark", words=dynamic_words(mark), mark=mark))
