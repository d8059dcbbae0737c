"""The rhythm bank: bars that children of an age can learn, written in time names.

w 4 beats, H 3, h 2, d 1 1/2, q 1, e 1/2, s 1/4; capital R a rest of 2, r of 1, x of 1/2. Crotchets, quavers and minims
first; dots, off-beats and a pair of semiquavers from Year 5, sparingly. (Common practice; the bank is our own.)
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache, cached_property

from sonify.frozen import dataclass

_LENGTHS = {
    "w": Fraction(4),
    "H": Fraction(3),
    "h": Fraction(2),
    "d": Fraction(3, 2),
    "q": Fraction(1),
    "e": Fraction(1, 2),
    "s": Fraction(1, 4),
    "R": Fraction(2),
    "r": Fraction(1),
    "x": Fraction(1, 2),
}
_RESTS = "Rrx"

#: Beats in a bar -> (text, from which year). Within a count of strokes the plainest comes first.
_BANK: dict[int, tuple[tuple[str, int], ...]] = {
    4: (
        ("w", 3),
        ("h R", 3),
        ("h h", 3),
        ("q r q r", 3),
        ("h q r", 3),
        ("q q h", 3),
        ("h q q", 3),
        ("q q q r", 3),
        ("d e h", 5),
        ("q q q q", 3),
        ("q ee h", 3),
        ("q ee q r", 3),
        ("d e q q", 5),
        ("q xe q xe", 5),
        ("q q ee q", 3),
        ("ee q q q", 3),
        ("q ee q q", 3),
        ("d e ee q", 5),
        ("ee q ee q", 3),
        ("q ee ee q", 3),
        ("q ess q q", 5),
        ("ee ee q q", 3),
        ("ee ee ee q", 3),
        ("q ess ee q", 5),
        ("ee ee ee ee", 3),
    ),
    3: (
        ("H", 3),
        ("q R", 3),
        ("h q", 3),
        ("q q r", 3),
        ("q r q", 3),
        ("q q q", 3),
        ("h ee", 3),
        ("d e q", 5),
        ("q ee q", 3),
        ("ee q q", 3),
        ("q d e", 5),
        ("ee ee q", 3),
        ("q ess q", 5),
        ("ee ee ee", 3),
    ),
    2: (
        ("h", 3),
        ("q r", 3),
        ("q q", 3),
        ("d e", 5),
        ("q ee", 3),
        ("ee q", 3),
        ("ee ee", 3),
        ("ess q", 5),
    ),
}


@dataclass(frozen=True, kw_only=True)
class Rhythm:
    """One bar: hits are (beat from 0, beats). Not slotted: its onsets are worked out once and kept."""

    text: str
    hits: tuple[tuple[Fraction, Fraction], ...]

    def __hash__(self) -> int:
        return hash(self.text)

    @cached_property
    def onsets(self) -> frozenset[Fraction]:
        return frozenset(start for start, _ in self.hits)


@cache
def rhythm(text: str) -> Rhythm:
    """A bar as written in the bank.

    >>> [str(start) for start, _ in rhythm("q ee h").hits]
    ['0', '1', '3/2', '2']
    """
    at, hits = Fraction(0), []
    for letter in text.replace(" ", ""):
        if letter not in _RESTS:
            hits.append((at, _LENGTHS[letter]))
        at += _LENGTHS[letter]
    return Rhythm(text=text, hits=tuple(hits))


@cache
def rhythms(beats: int, year: int) -> tuple[Rhythm, ...]:
    """All bars for a metre and a school year, from few strokes to many."""
    found = [rhythm(text) for text, since in _BANK[beats] if year >= since]
    return tuple(sorted(found, key=lambda r: len(r.hits)))


#: The beat itself, and every second beat of it.
_ON_BEAT = {4: ("q q q q", "q r q r"), 3: ("q q q", "q R"), 2: ("q q", "q r")}


def on_beat(beats: int, *, halved: bool) -> Rhythm:
    """One stroke on every beat; halved: on beats 1 and 3, in shorter bars on beat 1."""
    return rhythm(_ON_BEAT[beats][halved])


#: Bars whose strokes lie at equal distances, from few to many.
_EVEN = {4: ("w", "h h", "q q q q", "ee ee ee ee"), 3: ("H", "d d", "q q q", "ee ee ee"), 2: ("h", "q q", "ee ee")}


@cache
def evenly(beats: int) -> tuple[Rhythm, ...]:
    """The bars whose strokes lie at equal distances: two of them against three make a cross-rhythm.

    >>> [str(start) for start, _ in evenly(3)[1].hits]
    ['0', '3/2']
    """
    return tuple(rhythm(text) for text in _EVEN[beats])


def breathed(bar: Rhythm, beats: int) -> Rhythm:
    """The bar with its last beat left silent, so that a phrase ends with a breath; a bar of one stroke stays."""
    end = Fraction(beats - 1)
    kept = tuple((start, min(length, end - start)) for start, length in bar.hits if start < end)
    return Rhythm(text=bar.text, hits=kept) if len(bar.hits) > 1 and kept else bar
