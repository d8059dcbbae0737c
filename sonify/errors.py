"""Every exception this package raises on purpose.

The command line prints the text of a SonifyError and stops with exit status 2; anything else is our own mistake.
"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


class SonifyError(Exception):
    """Base class: its text is one clear message for the person who typed the command."""


class OutOfRange(SonifyError, ValueError):
    """A value lies outside what its formula, rule, condition or instrument covers."""

    def __init__(self, name: str, value: float, unit: str, covered: str, by: str) -> None:
        super().__init__(f"{name} is {value:g} {unit}; {by} covers {covered}")
        self.name, self.value, self.unit, self.covered, self.by = name, value, unit, covered, by


class UnknownName(SonifyError, LookupError):
    """A name that is not in a list of known ones; says what is allowed and the nearest spelling."""

    def __init__(self, kind: str, name: str, allowed: Iterable[str]) -> None:
        names = sorted(allowed)
        super().__init__(f'unknown {kind} "{name}"{nearest(name, names) or "."} Allowed: {", ".join(names)}')
        self.kind, self.name, self.allowed = kind, name, names


class BadCondition(SonifyError, ValueError):
    """A condition of a scene is missing, unknown, of the wrong unit or outside its range.

    `key` is the condition's name in the scene file, so that `lesson` can add the file and the line.
    """

    def __init__(self, key: str, message: str) -> None:
        super().__init__(f"{key}: {message}")
        self.key, self.message = key, message


class BadChange(SonifyError, ValueError):
    """A condition set for one run that cannot be: a wrong name, a wrong unit, a value out of range."""

    def __init__(self, key: str, text: str, message: str) -> None:
        super().__init__(f'--set {key}="{text}": {message}')
        self.key, self.text, self.message = key, text, message


class BadRule(SonifyError, ValueError):
    """A mapping rule that cannot work: a wrong unit, no range, two rules for one control.

    `key` is the dotted key in the scene file ("hear.0.from"), so that `lesson` can add the file and the line.
    """

    def __init__(self, key: str, message: str) -> None:
        super().__init__(f"{key}: {message}")
        self.key, self.message = key, message


class BadFile(SonifyError, ValueError):
    """A file that a person wrote is wrong: which file, which line, which key, what is allowed, what to do."""

    def __init__(self, file: str, message: str, *, line: int | None = None, key: str | None = None) -> None:
        place = file if line is None else f"{file}, line {line}"
        super().__init__(f"{place}: {message}" if key is None else f"{place}: {key}: {message}")
        self.file, self.line, self.key, self.message = file, line, key, message

    @classmethod
    def several(cls, faults: Iterable[BadFile], most: int = 20) -> BadFile:
        """One error that names the faults of one file in the order of their lines; beyond `most` they are counted."""
        ordered = sorted(faults, key=lambda fault: fault.line or 0)
        if len(ordered) == 1:
            return ordered[0]
        rows = [f"\n  {fault}" for fault in ordered[:most]]
        if len(ordered) > most:
            rows.append(f"\n  and {len(ordered) - most} more")
        return cls(ordered[0].file, f"{len(ordered)} things to mend{''.join(rows)}")


class BadName(SonifyError, ValueError):
    """A name that a person gave to a new file cannot be a file's name on every system."""


class PackInTheWay(SonifyError):
    """The output folder holds something that would be lost by writing there."""


class InUse(SonifyError):
    """Another make is at work on the same output."""


def nearest(name: str, allowed: Iterable[str]) -> str:
    """The words `; did you mean "..."?` for the nearest allowed spelling, or nothing.

    >>> nearest("glockenspeil", ["glockenspiel", "triangle"])
    '; did you mean "glockenspiel"?'
    """
    names = {n.lower(): n for n in allowed}
    found = get_close_matches(name.lower(), list(names), n=1, cutoff=0.6)
    return f'; did you mean "{names[found[0]]}"?' if found else ""
