"""Patterns of pupils' own put into a scene's text, as a page sends them: all else in it stays as its author wrote it.

Each is under its part's name: {"boxes": ["x. xx x. x."], "notes": ["C5"], "name": "..."}, or None to take it out. What
may stand in it is decided where scene files are read.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from sonify.errors import BadFile
from sonify.inputs.document import one_line
from sonify.inputs.toml_places import places_in, rewritten
from sonify.records.fact import wrong

#: How a page names the pattern of a part among its edits.
PATTERN = "pattern."
KEYS = ("name", "boxes", "notes")
MOST_TEXTS, LONGEST = 64, 100


def own_pattern_edits(given: Mapping[str, object], *, file: str) -> dict[str, dict[str, Any] | None]:
    """The patterns among a page's edits, by their parts. Raises BadFile where one has another shape."""
    return {
        path.removeprefix(PATTERN): _plain(value, one_line(path, 80), file)
        for path, value in given.items()
        if path.startswith(PATTERN)
    }


def _plain(given: object, key: str, file: str) -> dict[str, Any] | None:
    if given is None:
        return None
    if not isinstance(given, Mapping) or not {"boxes"} <= set(given) <= set(KEYS):
        raise BadFile(file, wrong("error_pattern-wanted"), key=key)
    name, lists = given.get("name", ""), [given.get(each, []) for each in ("boxes", "notes")]
    texts = [name, *(text for each in lists if isinstance(each, list) for text in each)]
    short = len(texts) <= MOST_TEXTS + 6 and all(isinstance(text, str) and len(text) <= LONGEST for text in texts)
    if not all(isinstance(each, list) for each in lists) or not short:
        raise BadFile(file, wrong("error_pattern-wanted"), key=key)
    row = {"name": " ".join(str(name).split()), "boxes": list(lists[0]), "notes": list(lists[1])}
    return {each: value for each, value in row.items() if value}


def with_own_patterns(text: str, patterns: Mapping[str, Mapping[str, Any] | None], *, file: str) -> str:
    """The text with these patterns in it, or without those that are None.

    >>> with_own_patterns('title = "Rain"\\n', {"The rain": {"boxes": ["x."]}}, file="a.toml").splitlines()[-1]
    'boxes = ["x."]'
    """
    for part, row in patterns.items():
        text = _with_own_pattern(text.removeprefix("\ufeff").replace("\r\n", "\n"), part, row, file)
    return text


def _with_own_pattern(text: str, part: str, row: Mapping[str, Any] | None, file: str) -> str:
    rows: Any = tomllib.loads(text).get("pattern", [])
    if not isinstance(rows, list) or (rows and places_in(text).table("pattern.0") is None):
        raise BadFile(file, wrong("error_pattern-wanted"), key="pattern")
    at = next((n for n, each in enumerate(rows) if " ".join(str(each.get("part", "")).split()) == part), None)
    if row is None:
        return text if at is None else rewritten(text, {}, removed=[f"pattern.{at}"])
    if at is None:
        return rewritten(text, {}, added=[("pattern", {"part": part, **row})])
    return rewritten(text, {(f"pattern.{at}", key): row.get(key) for key in KEYS})
