"""Sounds of pupils' own put into a scene's text, as a page sends them: a part's, before all else that it may sound on.

Each is under its part's name: {"name": "our crisp packets", "file": "crisps.wav"} and, where she says it, like and how;
or None to take it out. What may stand in it is decided where scene files are read.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sonify.errors import BadFile
from sonify.inputs.document import one_line
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

    Raises BadFile for a part that the scene has not.
    """
    if not sounds:
        return text
    import tomlkit

    document: Any = tomlkit.parse(text.removeprefix("\ufeff").replace("\r\n", "\n"))
    for part, row in sounds.items():
        parts = [each for each in document.get("part", []) if " ".join(str(each.get("name", "")).split()) == part]
        if not parts:
            raise BadFile(file, wrong("error_sound-no-part", part=one_line(part, 60)), key="sound")
        _take_out(document, parts[0])
        if row is not None:
            _put_in(document, parts[0], row)
    return str(tomlkit.dumps(document))


def _names(document: Any) -> list[str]:
    return [" ".join(str(each.get("name", "")).split()).lower() for each in document.get("sound", [])]


def _take_out(document: Any, part: Any) -> None:
    """The part without sounds of pupils' own, and the scene without those that no other part has."""
    own = set(_names(document))
    kept = [name for name in part.get("sounds", []) if " ".join(str(name).split()).lower() not in own]
    if len(kept) == len(part.get("sounds", [])):
        return
    part["sounds"] = kept
    asked = {" ".join(str(name).split()).lower() for each in document["part"] for name in each.get("sounds", [])}
    for place in reversed(range(len(document["sound"]))):
        if _names(document)[place] not in asked:
            del document["sound"][place]
    if not document["sound"]:
        del document["sound"]


def _put_in(document: Any, part: Any, row: Mapping[str, str]) -> None:
    import tomlkit

    part["sounds"] = [row["name"], *part.get("sounds", [])]
    if row["name"].lower() in _names(document):
        return  # another part has it already: one sound for both
    table = tomlkit.table()
    for key, value in row.items():
        table[key] = value
    if "sound" in document:
        document["sound"].append(table)
        return
    rows = tomlkit.aot()
    rows.append(table)
    document.append("sound", rows)
