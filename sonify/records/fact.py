"""A fact: what is to be said, without words. `say` makes the sentence of it, `facts` finds out whether it is true.

A fact names a message of the catalogue in `say` and fills its places with figures. A figure carries the `Reading` it
comes from, so that other code can take the same reading of the Timeline or the Score and compare; what a sentence says
beside its figures ("it rises", "they play together") it carries as claims.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import TypeAlias, TypeGuard

from sonify.errors import nearest_name
from sonify.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One number that a program can take again. how: a row of `kinds.readings`, which says what `of` names.

    start, end: where it is taken, in model seconds for the science, in bars (the last one not included) for the Score.
    level: the value that is reached, for the `when` readings. less, per, times: (reading - less) / per * times.
    """

    how: str
    of: str = ""
    start: float = 0.0
    end: float = 0.0
    level: float = 0.0
    beside: str = ""  # the second part or quantity, where `how` compares two
    less: Reading | None = None
    per: Reading | None = None
    times: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """What a sentence says besides its figures. kind: a row of `kinds.claims`, which says what is compared.

    slack: how far from it the reading may lie for the claim to hold still, as a share; 0 takes the kind's own.
    """

    kind: str
    left: Reading
    right: Reading | None = None
    slack: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """A number with its unit, to so many significant digits, or to fixed decimal places where `places` is given.

    source: the reading it was taken from, in SI; None where no program can take it again (then `given` says why).
    """

    value: float  # in `unit`
    unit: str = "1"
    digits: int = 3
    places: int | None = None
    grain: float = 0.0  # the value was rounded to whole multiples of this, where it was
    source: Reading | None = None
    given: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Duration:
    """A stretch of time, told in its most readable unit."""

    seconds: float
    digits: int = 2
    source: Reading | None = None
    given: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClockTime:
    """A time of day, to the minute. source: model time; hour_zero: the hour of the day at model time 0."""

    hours: float
    source: Reading | None = None
    hour_zero: float = 0.0
    given: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Date:
    """A day, counted from 1 January of the year 1. parts: which of day, month and year are said, "dmy"."""

    day: int
    parts: str = "dmy"
    source: Reading | None = None
    given: str = ""


@dataclass(frozen=True, slots=True)
class Note:
    """A pitch by its letter and octave."""

    midi: int


@dataclass(frozen=True, slots=True)
class Elapsed:
    """How far into the recording: minutes and seconds, "2:05"."""

    seconds: float


@dataclass(frozen=True, slots=True)
class Named:
    """Something by its identifier: its name stands in the catalogue as KIND-IDENTIFIER; a person's own is itself."""

    kind: str  # "quantity", "stage", "instrument", "need", ...
    id: str


@dataclass(frozen=True, slots=True)
class Fact:
    """message: its identifier in the catalogue. args: what fills its places, by name.

    otherwise: the weaker fact that is told where a claim of this one does not hold; None: it is left out.
    """

    message: str
    args: tuple[tuple[str, Arg], ...] = ()
    claims: tuple[Claim, ...] = ()
    otherwise: Fact | None = None

    def or_else(self, weaker: Fact) -> Fact:
        """The same fact, with a weaker one to tell in its place where it does not hold."""
        return replace(self, otherwise=weaker)

    def figures(self) -> Iterator[Figure]:
        """Every figure in it, those of the facts it holds included."""
        for _, arg in self.args:
            yield from _figures(arg)

    def all_claims(self) -> Iterator[Claim]:
        """Its claims, and those of the facts it holds."""
        yield from self.claims
        for _, arg in self.args:
            yield from _claims(arg)


Figure: TypeAlias = Amount | Duration | ClockTime | Date
Arg: TypeAlias = "str | int | Fact | Figure | Note | Elapsed | Named | tuple[Arg, ...]"
#: What the output rooms print: a person's own text, a fact, or several sentences one after the other.
Words: TypeAlias = "str | Fact | tuple[Words, ...]"


def _figures(arg: Arg) -> Iterator[Figure]:
    if isinstance(arg, Fact):
        yield from arg.figures()
    elif isinstance(arg, tuple):
        for inner in arg:
            yield from _figures(inner)
    elif isinstance(arg, Amount | Duration | ClockTime | Date):
        yield arg


def _claims(arg: Arg) -> Iterator[Claim]:
    if isinstance(arg, Fact):
        yield from arg.all_claims()
    elif isinstance(arg, tuple):
        for inner in arg:
            yield from _claims(inner)


def fact(message: str, /, *claims: Claim, **args: Arg) -> Fact:
    """A fact, written as a call: fact("cooling-apart", stretch.rises("gap"), most=stretch.figure("gap", "most"))."""
    return Fact(message, tuple(args.items()), claims)


def wrong(message: str, /, **places: object) -> Fact:
    """A fact of an error: whatever fills a place is quoted as Python writes it, a fact as it is said.

    A small whole number stays one, so that a message can say "one pack" of it; longer ones are quoted without commas.
    """
    return fact(message, **{name: each if _as_it_is(each) else str(each) for name, each in places.items()})


def _as_it_is(place: object) -> TypeGuard[Fact | int]:
    return isinstance(place, Fact) or (type(place) is int and 0 <= place < 1000)


def did_you_mean(name: str, allowed: Iterable[str], otherwise: str = "error-full-stop") -> Fact:
    """What follows an unknown name in an error: the nearest known one as a question, or the end of the sentence."""
    near = nearest_name(name, allowed)
    return fact("error-did-you-mean", near=near) if near else fact(otherwise)


def with_notes(words: Words, name: Callable[[int], str]) -> Words:
    """The same words with every pitch named in another way: as a part's own bars name it."""

    def named(arg: Arg) -> Arg:
        match arg:
            case Note():
                return name(arg.midi)
            case Fact():
                return replace(arg, args=tuple((key, named(each)) for key, each in arg.args))
            case tuple():
                return tuple(map(named, arg))
        return arg

    if isinstance(words, tuple):
        return tuple(with_notes(each, name) for each in words)
    return words if isinstance(words, str) else replace(words, args=tuple((k, named(a)) for k, a in words.args))


def facts_in(words: Words) -> Iterator[Fact]:
    """The facts of a text, in order."""
    if isinstance(words, Fact):
        yield words
    elif isinstance(words, tuple):
        for inner in words:
            yield from facts_in(inner)
