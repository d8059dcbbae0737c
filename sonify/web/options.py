"""What a person ticks before a pack is made: formats, recordings, paper."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sonify import lesson
from sonify.kinds.pupil_sheets import ALSO
from sonify.lesson import Printing, Wishes
from sonify.records.fact import wrong
from sonify.records.sheet import PAPERS
from sonify.web.inputs import refuse

#: "needs", "sounds": what some pupils need, and what they recorded, goes into the files that are sent on.
SWITCHES = ("stems", "click", "large_print", "for_keyboard", "midi_count_in", "needs", "sounds")
USUALLY = {"midi_count_in": True}


def read_options(given: Any) -> dict[str, Any]:
    """The options of a request, every one there. Raises Refused for one that is unknown or of another kind."""
    if given is None:
        given = {}
    if not isinstance(given, dict):
        refuse(wrong("error_web-options"), "options")
    known = {*SWITCHES, "audio", "without", "paper", "also"}
    if unknown := sorted(set(given) - known):
        refuse(wrong("error_web-no-option", name=unknown[0][:40], allowed=", ".join(sorted(known))), "options")
    options: dict[str, Any] = {name: _switch(given, name) for name in SWITCHES}
    options["audio"] = _texts(given, "audio")
    if odd := [kind for kind in options["audio"] if kind not in lesson.AUDIO]:
        refuse(wrong("error_web-no-format", name=odd[0][:40], allowed=", ".join(lesson.AUDIO)), "audio")
    options["without"] = _texts(given, "without")
    options["also"] = _texts(given, "also")
    if odd := [name for name in options["also"] if name not in ALSO]:
        refuse(wrong("error_web-no-sheet", name=odd[0][:40], allowed=", ".join(ALSO)), "also")
    options["paper"] = given.get("paper", PAPERS[0])
    if options["paper"] not in PAPERS:
        refuse(wrong("error_web-paper", allowed=", ".join(PAPERS)), "paper")
    return options


def _switch(given: Mapping[str, Any], name: str) -> bool:
    value = given.get(name, USUALLY.get(name, False))
    if not isinstance(value, bool):
        refuse(wrong("error_web-true-or-false", name=name), name)
    return value


def _texts(given: Mapping[str, Any], name: str) -> list[str]:
    values = given.get(name) or []
    if not isinstance(values, list) or len(values) > 20 or not all(isinstance(v, str) and len(v) < 100 for v in values):
        refuse(wrong("error_web-list-of-texts", name=name), name)
    return list(dict.fromkeys(values))


def wishes_of(options: Mapping[str, Any]) -> Wishes:
    """What to record. Raises SonifyError for a group that the piece does not have when the pack is made."""
    return Wishes(
        audio=tuple(options["audio"]),
        without=tuple(options["without"]),
        click=options["click"],
        stems=options["stems"],
        for_keyboard=options["for_keyboard"],
        midi_count_in=options["midi_count_in"],
    )


def printing_of(options: Mapping[str, Any]) -> Printing:
    """What to print on."""
    return Printing(paper=options["paper"], large_print=options["large_print"], also=tuple(options["also"]))
