"""Sounds of pupils' own put into a scene's text, as a page sends them: a part's, before all else that it may sound on.

Each is under its part's name: {"name": "our crisp packets", "file": "crisps.wav"} and, where she says it, like and how;
or None to take it out. What may stand in it is decided where scene files are read; all else in the text stays as its
author wrote it.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from sonify.errors import BadFile
from sonify.inputs.document import one_line, shown
from sonify.inputs.toml_places import places_in, rewritten
from sonify.records.fact import wrong

#: How a page names the sound of a part among its edits.
SOUND = "sound."
KEYS = ("name", "file", "like", "how")
LONGEST = 200


def own_sound_edits(given: Mapping[str, object], *, file: str) -> dict[str, dict[str, str] | None]:
    """The sounds among a page's edits, by their parts. Raises BadFile where one has another shape."""
    return {
        path.removeprefix(SOUND): _plain(value, one_line(path, 80), file)
        for path, value in given.items()
        if path.startswith(SOUND)
    }


def _plain(given: object, key: str, file: str) -> dict[str, str] | None:
    if given is None:
        return None
    if not isinstance(given, Mapping) or not {"name", "file"} <= set(given) <= set(KEYS):
        raise BadFile(file, wrong("error_sound-wanted"), key=key)
    if not all(isinstance(each, str) and len(each) <= LONGEST for each in given.values()):
        raise BadFile(file, wrong("error_sound-wanted"), key=key)
    row = {each: " ".join(given[each].split()) for each in KEYS if given.get(each)}
    if not {"name", "file"} <= set(row):
        raise BadFile(file, wrong("error_sound-wanted"), key=key)
    return row


def with_own_sounds(text: str, sounds: Mapping[str, Mapping[str, str] | None], *, file: str) -> str:
    """The text with each part sounding first on this, and on no other sound of pupils' own.

    Raises BadFile for a part that the scene has not, and for a name that another part's sound has from another file.
    """
    for part, row in sounds.items():
        text = _with_own_sound(text.removeprefix("\ufeff").replace("\r\n", "\n"), part, row, file)
    return text


def _with_own_sound(text: str, part: str, row: Mapping[str, str] | None, file: str) -> str:
    document = tomllib.loads(text)
    parts, known = document.get("part", []), document.get("sound", [])
    at = next((n for n, each in enumerate(parts) if _plain_name(each.get("name", "")) == part), None)
    if at is None and row is None:
        return text
    if at is None or places_in(text).table(f"part.{at}") is None:
        raise BadFile(file, wrong("error_sound-no-part", part=one_line(part, 60)), key="sound")
    own = [_plain_name(each.get("name", "")).lower() for each in known]
    kept = [name for name in parts[at].get("sounds", []) if _plain_name(name).lower() not in own]
    others = [each for n, each in enumerate(parts) if n != at]
    asked = {_plain_name(name).lower() for each in others for name in each.get("sounds", [])}
    # What was this part's alone goes out with it.
    mine = {_plain_name(name).lower() for name in parts[at].get("sounds", [])} - asked
    gone = [n for n, name in enumerate(own) if name in mine]
    added = []
    if row is not None:
        kept = [row["name"], *kept]
        same = [each for each, name in zip(known, own, strict=True) if name == row["name"].lower() and name in asked]
        if same and same[0].get("file") != row["file"]:
            raise BadFile(file, wrong("error_sound-other-file", name=shown(row["name"])), key="sound")
        if not same:  # else another part has this very sound: one for both
            added = [("sound", row)]
    return rewritten(text, {(f"part.{at}", "sounds"): kept}, added=added, removed=[f"sound.{n}" for n in gone])


def _plain_name(name: Any) -> str:
    return " ".join(str(name).split())
