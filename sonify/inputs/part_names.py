"""A scene's text with parts called by other names: wherever the file speaks of a part as a part, and nowhere else.

A story may tell of the sea whatever the part is called that plays it: in free texts only what plays, rests or comes in
is a part for certain, and follows, where a sentence begins with it and its verb agrees with the new name as well.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from sonify.inputs.authored import claim_with_parts, tied
from sonify.inputs.toml_places import rewritten

#: Where the name of a part stands alone, and where texts of claims stand that may have it in them.
_NAMED = {("part", "name"), ("part", "with"), ("hear", "part"), ("pattern", "part"), ("sound", "part")}
_CLAIMED = {(table, "claims") for table in ("hear", "part", "stage", "misconception", "question")}
_TIED = ("sentence", "only_if")
_TEXTS = {
    *(("question", key) for key in ("ask", "answer")),
    *(("misconception", key) for key in ("belief", "correction", "ask")),
    *(("sentence", key) for key in ("text", "otherwise")),
    *(("stage", key) for key in ("caption", "why")),
    ("part", "meaning"),
    ("hear", "why"),
}
_OF_THE_WHOLE = ("story", "teacher_notes", "cautions")
_BEGINS = r"(?:(?<=[.!?]\s)|(?<=[.!?][”\"’]\s)|(?<=\n)|^)"
_PLAYS = (r"(?=\s+(?:plays|rests|comes in|is silent|drops out|joins in)\b)", r"(?=\s+(?:play|rest|come in|join in)\b)")


def with_part_names(text: str, names: Mapping[str, str]) -> str:
    """The text with each part of `names` called as it says there."""
    try:
        data = tomllib.loads(text.removeprefix("\ufeff"))
    except (tomllib.TOMLDecodeError, ValueError):
        return text  # whoever reads it next says what is wrong
    return rewritten(text, dict(_changes(data, names)))


def _changes(data: Mapping[str, Any], names: Mapping[str, str]) -> Iterator[tuple[tuple[str, str], Any]]:
    parts = data.get("part")
    for number, part in enumerate(parts if isinstance(parts, list) else []):
        name = part.get("name") if isinstance(part, dict) else None
        if isinstance(name, str) and " ".join(name.split()) in names and "lot" not in part:
            yield (f"part.{number}", "lot"), " ".join(name.split())  # it plays the same notes under its other name
    for key in _OF_THE_WHOLE:
        if (told := _told(data.get(key), names)) != data.get(key):
            yield ("", key), told
    for table, key in sorted({*_NAMED, *_CLAIMED, _TIED, *_TEXTS}):
        rows = data.get(table)
        for number, row in enumerate(rows if isinstance(rows, list) else []):
            value = row.get(key) if isinstance(row, dict) else None
            if (table, key) in _NAMED:
                told = names.get(" ".join(value.split()), value) if isinstance(value, str) else value
            elif (table, key) in _TEXTS:
                told = _told(value, names)
            else:
                rows_of_claims = value if isinstance(value, list) else []
                told = [claim_named(each, names) if isinstance(each, str) else each for each in rows_of_claims] or value
            if told != value:
                yield (f"{table}.{number}", key), told


def _told(value: Any, names: Mapping[str, str]) -> Any:
    """A free text, or a list of them, in which a part that plays or rests is called anew.

    >>> _told("The rain plays. When The rain plays, listen to the rain sounds.", {"The rain": "Our shower"})
    'Our shower plays. When The rain plays, listen to the rain sounds.'
    >>> _told("The rain plays.", {"The rain": "Our drops"})
    'The rain plays.'
    """
    if isinstance(value, list):
        return [_told(each, names) for each in value]
    if not isinstance(value, str):
        return value
    for many, plays in enumerate(_PLAYS):
        fitting = sorted((old for old, new in names.items() if _is_many(new) is bool(many)), key=len, reverse=True)
        if fitting:
            any_name = "|".join(map(re.escape, fitting))
            value = re.sub(rf"{_BEGINS}({any_name}){plays}", lambda found: names[found[1]], value)
    return value


def _is_many(name: str) -> bool:
    """Whether a name reads as several things: a rule of thumb, and where it is wrong the old words stay."""
    return bool(re.search(r"[^s’']s$| and ", name))


def claim_named(text: str, names: Mapping[str, str]) -> str:
    """A claim, or what a sentence is tied to, with its parts called anew.

    >>> claim_named("the rain plays in every bar", {"The rain": "Our drops"})
    'Our drops plays in every bar'
    >>> claim_named("the rain rate rises", {"The rain": "Our drops"})
    'the rain rate rises'
    """
    return text if tied(text) is not None else claim_with_parts(text, names)
