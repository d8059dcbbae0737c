"""Every exception this package raises on purpose.

The command line prints the text of a SonifyError and stops with exit status 2; anything else is our own mistake. Like
all that is told below the edge, an error carries facts: what is wrong as `records.fact.Words`, and its figures by name.
Its text is made where it is read, by what `told_by` was given (`sonify/__init__.py` gives it `say.errors`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeAlias

Words: TypeAlias = Any  # what `records.fact.Words` is; the ground imports nothing of ours


class Said:
    """A message of the catalogue with what fills its places: a fact, for the ground, which has none."""

    def __init__(self, message: str, **places: str) -> None:
        self.message, self.places = message, places

    def __reduce__(self) -> tuple[Any, ...]:
        return _said, (self.message, self.places)


def _said(message: str, places: dict[str, str]) -> Said:
    return Said(message, **places)


class SonifyError(Exception):
    """Base class: its text is one clear message for the person who typed the command.

    words: what is wrong, or another error that says so.
    """

    def __init__(self, words: Words = "") -> None:
        super().__init__(words)
        self.words = words

    def __str__(self) -> str:
        return _tell(self)


class OutOfRange(SonifyError, ValueError):
    """A value lies outside what its formula, rule, condition or instrument covers."""

    def __init__(self, name: str, value: float, unit: str, covered: str, by: str) -> None:
        super().__init__()
        self.args = (name, value, unit, covered, by)
        self.name, self.value, self.unit, self.covered, self.by = name, value, unit, covered, by


class UnknownName(SonifyError, LookupError):
    """A name that is not in a list of known ones; says what is allowed and the nearest spelling.

    kind: a row of the messages `kind-...`. where: the key in the file, where the name alone would not tell.
    """

    def __init__(self, kind: str, name: str, allowed: Iterable[str], where: str = "") -> None:
        names = sorted(allowed)
        super().__init__()
        self.args = (kind, name, names, where)
        self.kind, self.name, self.allowed, self.where = kind, name, names, where


class BadCondition(SonifyError, ValueError):
    """A condition of a scene is missing, unknown, of the wrong unit or outside its range.

    `key` is the condition's name in the scene file, so that `lesson` can add the file and the line.
    """

    def __init__(self, key: str, message: Words) -> None:
        super().__init__(message)
        self.args = (key, message)
        self.key, self.message = key, message


class BadChange(SonifyError, ValueError):
    """A condition set for one run that cannot be: a wrong name, a wrong unit, a value out of range."""

    def __init__(self, key: str, text: str, message: Words) -> None:
        super().__init__(message)
        self.args = (key, text, message)
        self.key, self.text, self.message = key, text, message


class BadRule(SonifyError, ValueError):
    """A mapping rule that cannot work: a wrong unit, no range, two rules for one control.

    `key` is the dotted key in the scene file ("hear.0.from"), so that `lesson` can add the file and the line.
    """

    def __init__(self, key: str, message: Words) -> None:
        super().__init__(message)
        self.args = (key, message)
        self.key, self.message = key, message


class BadFile(SonifyError, ValueError):
    """A file that a person wrote is wrong: which file, which line, which key, what is allowed, what to do.

    faults: where it is wrong in several places, each of them; `beyond` more are only counted.
    """

    def __init__(self, file: str, message: Words, *, line: int | None = None, key: str | None = None) -> None:
        super().__init__(message)
        self.args = (file, message)
        self.file, self.line, self.key, self.message = file, line, key, message
        self.faults: tuple[BadFile, ...] = ()
        self.beyond = 0

    @classmethod
    def several(cls, faults: Iterable[BadFile], most: int = 8) -> BadFile:
        """One error that names the faults of one file in the order of their lines; beyond `most` they are counted."""
        ordered = sorted(faults, key=lambda fault: fault.line or 0)
        if len(ordered) == 1:
            return ordered[0]
        error = cls(ordered[0].file, "")
        error.faults, error.beyond = tuple(ordered[:most]), max(0, len(ordered) - most)
        return error


class BadName(SonifyError, ValueError):
    """A name that a person gave to a new file cannot be a file's name on every system."""


class PackInTheWay(SonifyError):
    """The output folder holds something that would be lost by writing there."""


class InUse(SonifyError):
    """Another make is at work on the same output."""


def _untold(error: SonifyError) -> str:
    return " ".join(str(arg) for arg in error.args)


_tell: Callable[[SonifyError], str] = _untold


def told_by(tell: Callable[[SonifyError], str]) -> None:
    """From now on this makes the text of every error."""
    global _tell
    _tell = tell


def nearest_name(name: str, allowed: Iterable[str]) -> str:
    """The nearest allowed spelling, "" where none is near.

    >>> nearest_name("glockenspeil", ["glockenspiel", "triangle"])
    'glockenspiel'
    """
    names = {n.lower(): n for n in allowed}
    from difflib import get_close_matches  # only where something is wrong

    found = get_close_matches(name.lower(), list(names), n=1, cutoff=0.6)
    return names[found[0]] if found else ""


def nearest(name: str, allowed: Iterable[str]) -> str:
    """The words `; did you mean "..."?` for the nearest allowed spelling, or nothing.

    >>> nearest("glockenspeil", ["glockenspiel", "triangle"])
    '; did you mean "glockenspiel"?'
    """
    found = nearest_name(name, allowed)
    return f'; did you mean "{found}"?' if found else ""
