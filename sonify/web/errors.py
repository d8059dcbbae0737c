"""What the server answers where it cannot do what was asked: one clear message and a status."""

from __future__ import annotations

import os
import re
import tempfile
from http import HTTPStatus
from pathlib import Path
from typing import Any

from sonify.errors import BadCondition, BadFile, BadRule, SonifyError, Words
from sonify.records.fact import wrong

OUR_FAULT = wrong("error_web-our-fault")
#: Anything that looks like a folder on this machine: no answer tells how the machine is laid out.
_PLACE = re.compile(r"(?:(?<![\w.])/|[A-Za-z]:\\)(?:[^\s/\\:]+[/\\])+")


class Refused(SonifyError):
    """A request that cannot be answered, with its HTTP status. facts: what else the answer carries."""

    def __init__(self, status: HTTPStatus, message: Words, **facts: Any) -> None:
        super().__init__(message)
        self.status, self.facts = status, facts


def status_of(error: SonifyError) -> HTTPStatus:
    return error.status if isinstance(error, Refused) else HTTPStatus.BAD_REQUEST


def error_facts(error: SonifyError) -> dict[str, Any]:
    """The body of an answer: the message, and where the fault is."""
    told = str(error)
    if isinstance(error, BadFile) and not error.file:  # of a field of the page, which it stands beside
        told = told.removeprefix(f": {error.key}: ")
        told = f"{told[:1].upper()}{told[1:]}"
    facts: dict[str, Any] = {"error": without_places(told)}
    if isinstance(error, Refused):
        facts |= error.facts
    elif isinstance(error, BadFile | BadRule | BadCondition) and error.key:
        facts["where"] = error.key
    return facts


def without_places(message: str) -> str:
    """A message without the folders of this machine: the file's own name is enough.

    >>> without_places(f"{Path.cwd()}/my packs/a.wav cannot be written; rain in mm/h")
    'a.wav cannot be written; rain in mm/h'
    """
    home = Path(os.path.expanduser("~"))  # "~" itself for an account that has none
    for place in (Path.cwd(), Path(tempfile.gettempdir()), home):  # below these, names may have spaces in them
        message = re.sub(rf"{re.escape(str(place))}[/\\](?:(?:[^\s/\\:]+|[^/\\:\n;.]+)[/\\])*", "", message)
    return _PLACE.sub("", message)
