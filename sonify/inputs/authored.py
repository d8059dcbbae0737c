"""Claims of a scene's author, read: plain words to what is claimed of which quantity, part and stage."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cache

from sonify.errors import SonifyError
from sonify.inputs.document import Fault, shown
from sonify.inputs.readings import UnreadableWord, measure, measure_or_word
from sonify.kinds.authored import FORMS, TIES, Form
from sonify.records.fact import did_you_mean, wrong
from sonify.records.scene import AuthoredClaim, Measure, Tie

_NAMES = {
    "{quantity}": "quantity",
    "{other quantity}": "other_quantity",
    "{part}": "part",
    "{other part}": "other_part",
    "{stage}": "than",
    "{value}": "value",
}
_VALUE = r"-?[0-9.]+ ?\S*"
_TIE = re.compile(r"([a-z][a-z0-9_]*) is (?:(at least|at most) )?(\S+(?: \S+)?)")
_WHOLE = re.compile(r"-?\d{1,7}")
_PLACE = re.compile(r"(\{[a-z ]+\})")


@cache
def _patterns(words: str) -> tuple[re.Pattern[str], ...]:
    """The ways to read a form: with no stage named, and with one, names as long or as short as can be ("in" may be part
    of a name)."""
    here = "{here}" in words
    ways = (" here", " in (?P<within>.+)") if here else ("", " in (?P<within>.+)") if "{in}" in words else ("",)
    found = []
    for within in ways:
        for name in (".+", ".+?") if "within" in within else (".+",):
            pieces = (
                within
                if piece in ("{in}", "{here}")
                else f"(?P<{_NAMES[piece]}>{_VALUE if piece == '{value}' else name})"
                if piece in _NAMES
                else re.escape(piece)
                for piece in _PLACE.split(words)
            )
            found.append(re.compile("".join(pieces), re.IGNORECASE))
    return tuple(found)


@cache
def _fixed(words: str) -> tuple[str, ...]:
    """What any text of a form has in it."""
    return tuple(piece.lower() for piece in _PLACE.split(words) if not _PLACE.fullmatch(piece))


def _readings(text: str) -> Iterator[tuple[Form, dict[str, str]]]:
    for form, found in _matches(text):
        yield form, {name: value for name, value in found.groupdict().items() if value}


def _matches(text: str) -> Iterator[tuple[Form, re.Match[str]]]:
    lower = text.lower()
    for form in FORMS:
        if text.isascii() and not all(piece in lower for piece in _fixed(form.words)):
            continue  # its patterns take longer to make than a scene to read
        for pattern in _patterns(form.words):
            found = pattern.fullmatch(text)
            if found is not None:
                yield form, found


def known_form(text: str) -> str:
    """The text itself, where it is one of the forms. UnreadableWord lists them."""
    text = " ".join(text.split())
    if not any(_readings(text)):
        told = "; ".join(form.words.replace("{in}", "").replace("{here}", " here") for form in FORMS)
        raise UnreadableWord(wrong("error_inputs-claim-forms-names", text=shown(text), told=told))
    return text


def known_tie(text: str) -> str:
    """The text itself, where it is one of the forms, or what a condition is. UnreadableWord lists them."""
    if tied(text) is not None:
        return " ".join(text.split())
    try:
        return known_form(text)
    except UnreadableWord as error:
        raise UnreadableWord(wrong("error_inputs-tie-forms", forms="; ".join(TIES), told=error)) from None


def tied(text: str) -> Tie | None:
    """What a condition is to be, as a record: "wind is at least 1 m/s", "substance is butter"."""
    found = _TIE.fullmatch(" ".join(text.split()))
    if found is None:
        return None
    try:
        value = _counted(found[3]) or (measure(found[3]) if found[2] else measure_or_word(found[3]))
    except (SonifyError, UnreadableWord):
        return None
    return Tie(condition=found[1], way=found[2] or "is", value=value)


def _counted(text: str) -> Measure | None:
    """What is counted, as a scene writes it: a bare whole number."""
    return Measure(text=text, value=float(text), unit="1") if _WHOLE.fullmatch(text) else None


def authored(text: str, *, key: str, stage: str, parts: Collection[str]) -> AuthoredClaim | Fault:
    """A claim as a record. stage: that of its sentence, "" for the whole piece. parts: names of all.

    A Fault where no part is called so, or where nothing says which stage is meant.
    """
    text = " ".join(text.split())
    faults: list[Fault] = []
    found: list[AuthoredClaim] = []
    for form, names in _readings(text):
        fault = _fault(form.words, names, key, stage, parts)
        if fault is not None:
            faults.append(fault)
            continue
        found.append(
            AuthoredClaim(
                text=text,
                kind=form.kind,
                how=form.how,
                quantity=names.get("quantity", ""),
                beside_quantity=names.get("other_quantity", ""),
                part=_part(names.get("part", ""), parts),
                beside=_part(names.get("other_part", ""), parts),
                stage=names.get("within", stage),
                than=names.get("than", ""),
                value=measure(names["value"]) if "value" in names else None,
                key=key,
            )
        )
    return replace(found[0], otherwise=tuple(found[1:])) if found else faults[0]


def claim_with_parts(text: str, names: Mapping[str, str]) -> str:
    """A claim with its parts called as `names` says; the text itself where it speaks of none of them."""
    text = " ".join(text.split())
    for _, found in _matches(text):
        spans = [found.span(kind) for kind in ("part", "other_part") if kind in found.re.groupindex]
        known = [(span, _part(text[slice(*span)], names)) for span in sorted(spans, reverse=True)]
        if any(name for _, name in known):
            for (start, end), name in known:
                text = text[:start] + (names[name] if name else text[start:end]) + text[end:]
            return text
    return text


def _part(name: str, parts: Iterable[str]) -> str:
    return next((part for part in parts if part.casefold() == name.casefold()), "")


def _fault(form: str, names: dict[str, str], key: str, stage: str, parts: Collection[str]) -> Fault | None:
    for kind in ("part", "other_part"):
        if kind in names and not _part(names[kind], parts):
            allowed = ", ".join(sorted(parts))
            near = did_you_mean(names[kind][:60], parts)
            return Fault(
                key=key,
                message=wrong("error_inputs-part-called-allowed", name=shown(names[kind]), near=near, allowed=allowed),
            )
    if "value" in names:
        try:
            measure(names["value"])
        except SonifyError as error:
            return Fault(key=key, message=error.words)
    if ("{here}" in form or "{stage}" in form) and not (stage or "within" in names):
        where = wrong("error_inputs-in-place-of-here" if "{here}" in form else "error_inputs-than-in-stage")
        return Fault(key=key, message=wrong("error_inputs-sentence-belongs-stage", where=where))
    return None
