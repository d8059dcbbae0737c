"""The text of an error: what is wrong, with the place where it is."""

from __future__ import annotations

from typing import Any

from sonify.errors import (
    BadChange,
    BadCondition,
    BadFile,
    BadRule,
    OutOfRange,
    Said,
    SonifyError,
    UnknownName,
)
from sonify.records.fact import Fact, Words, did_you_mean, fact
from sonify.say.language import say, spoken


def told(error: SonifyError) -> str:
    """What a person reads of an error."""
    return say(error_words(error))


def error_words(error: SonifyError) -> Words:
    """An error as a fact, in which the errors that it holds are facts, too."""
    match error:
        case OutOfRange():
            value = f"{error.value:g} {error.unit}"
            return fact("error-out-of-range", name=error.name, value=value, by=error.by, covered=error.covered)
        case UnknownName():
            return _unknown(error)
        case BadCondition() | BadRule():
            return fact("error-at", place=error.key, message=_said(error.message))
        case BadChange():
            return fact("error-set", name=error.key, value=error.text, message=_said(error.message))
        case BadFile():
            return _in_file(error)
    return _words(error.words)


def _words(wrong: Any) -> Words:
    """What is wrong as words: an error that stands in another's place is said as itself."""
    match wrong:
        case SonifyError():
            return error_words(wrong)
        case Said():
            return fact(wrong.message, **wrong.places)
    words: Words = wrong
    return words


def _said(wrong: Any) -> str:
    return say(_words(wrong))


def _unknown(error: UnknownName) -> Fact:
    kind = spoken().name("kind", error.kind)
    if error.where:
        kind = say(fact("error-kind-in", kind=kind, where=error.where))
    near = did_you_mean(error.name, error.allowed)
    return fact("error-unknown", kind=kind, name=error.name, near=near, allowed=", ".join(error.allowed))


def _in_file(error: BadFile) -> Fact:
    place = error.file if error.line is None else say(fact("error-line", file=error.file, line=str(error.line)))
    if error.key is not None:
        place = say(fact("error-at", place=place, message=error.key))
    return fact("error-at", place=place, message=_several(error) if error.faults else _said(error.message))


def _several(error: BadFile) -> str:
    rows = [f"\n  {told(fault)}" for fault in error.faults]
    if error.beyond:
        rows.append("\n  " + say(fact("error-more", n=str(error.beyond))))
    return say(fact("error-several", n=str(len(error.faults) + error.beyond))) + "".join(rows)
