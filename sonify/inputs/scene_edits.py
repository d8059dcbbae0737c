"""A scene's text with words, parts and rules of a person's own in it, as a page sends them.

Each edit is a path and a value, `part.2.texture`: "scatter". Parts and rules are counted as the scene had them before
any edit, so that an edit means the same whatever else is changed, and is taken back by leaving it out. What comes of it
is read as any scene file is: what may stand there is decided in one place.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import field
from typing import Any

from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.inputs.document import one_line
from sonify.inputs.part_names import claim_named, with_part_names
from sonify.inputs.pattern_edits import PATTERN
from sonify.inputs.sound_edits import SOUND
from sonify.inputs.toml_places import Places, places_in, rewritten
from sonify.records.fact import wrong

#: A change of a scene is so many edits at most, and each of its texts so long; the reader has tighter limits.
MOST_EDITS, LONGEST_TEXT, MOST_ITEMS = 200, 10_000, 40
TOP, STAGE, PART, RULE = "", "stage", "part", "hear"
#: What may be set anew, by its table, and what kind of value it takes. None takes a key away that may be missing.
KEYS: Mapping[str, Mapping[str, type]] = {
    TOP: {"title": str, "story": str},
    STAGE: {"caption": str, "why": str, "claims": list},
    PART: {
        "name": str,
        "texture": str,
        "sounds": list,
        "stages": list,
        "meaning": str,
        "rests": bool,
        "line": str,
        "silent": bool,
        "groups": list,
        "claims": list,
    },
    RULE: {"quantity": str, "as": str, "part": str, "from": list, "to": list, "why": str, "curve": str, "claims": list},
}
#: Where a [[sentence]] may be quoted from (`Scene.texts`).
_QUOTED = ("title", "story", "teacher_notes", "cautions", "stage", "part", "hear", "misconception", "question")
NEEDED = {
    (TOP, "title"),
    (PART, "name"),
    (PART, "texture"),
    (PART, "sounds"),
    (RULE, "quantity"),
    (RULE, "as"),
    (RULE, "why"),
}
#: "part.2.texture", "part.new-1", "hear.3"
_ROW = re.compile(r"(part|hear)\.(0|[1-9][0-9]?|new-[0-9]{1,3})(?:\.(\w+))?")
_STAGE = re.compile(r"stage\.(.{1,60})\.(caption|why|claims)")
#: Marks that turn the way a text runs: unseen, and able to make it read as something else.
_TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")


@dataclass(slots=True)
class SceneEdits:
    """Edits, sorted by what they do.

    values: (table, which, key) -> value; of a stage, which is its name. added: (table, which) -> its lines. removed:
    (table, which).
    """

    values: dict[tuple[str, str, str], Any] = field(default_factory=dict)
    added: dict[tuple[str, str], dict[str, Any]] = field(default_factory=dict)
    removed: list[tuple[str, str]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Edited:
    """An edited text, and by table which part or rule each of its rows was: "3", or "new-1". names: of the parts that
    are called anew, by what they were called."""

    text: str
    rows: Mapping[str, tuple[str, ...]]
    names: Mapping[str, str] = field(default_factory=dict)

    def which(self, key: str) -> str:
        """The name that a page knows a row by, of a key of the edited text: "hear.3" -> "3".

        >>> Edited("", {"hear": ("0", "2", "new-1")}).which("hear.1.why")
        '2'
        """
        table, number = [*key.split("."), "", ""][:2]
        rows = self.rows.get(table, ())
        return rows[int(number)] if number.isdigit() and int(number) < len(rows) else number

    def path(self, key: str) -> str:
        """A key of the edited text as a page knows it.

        >>> Edited("", {"hear": ("0", "2", "new-1")}).path("hear.1.why")
        'hear.2.why'
        """
        table, dot, rest = key.partition(".")
        if table not in (PART, RULE) or not dot:
            return key
        return ".".join([table, self.which(key), *rest.split(".")[1:]])


# --- reading what was sent -------------------------------------------------------------------------------------------


def scene_edits(given: Mapping[str, Any], *, file: str) -> SceneEdits:
    """Edits from plain data as a page sends it. Raises BadFile where they have another shape."""
    if len(given) > MOST_EDITS:
        raise BadFile(file, wrong("error_edits-too-many", most=MOST_EDITS))
    edits = SceneEdits()
    for path, value in given.items():
        if path.startswith((PATTERN, SOUND)):
            continue  # `pattern_edits` and `sound_edits` have them
        _sort(edits, str(path), value, file)
    return edits


def _sort(edits: SceneEdits, path: str, value: Any, file: str) -> None:
    if path in KEYS[TOP]:
        edits.values[TOP, "", path] = _plain(TOP, path, value, path, file)
    elif found := _STAGE.fullmatch(path):
        edits.values[STAGE, found[1], found[2]] = _plain(STAGE, found[2], value, path, file)
    elif found := _ROW.fullmatch(path):
        table, which, key = found.groups()
        new = which.startswith("new-")
        if key is not None and not new:
            edits.values[table, which, key] = _plain(table, key, value, path, file)
        elif key is None and new and isinstance(value, Mapping):
            row = {name: _plain(table, name, each, f"{path}.{name}", file) for name, each in value.items()}
            if not _lines(row):
                raise _unknown(path, file)
            edits.added[table, which] = row
        elif table == RULE and key is None and not new and value is None:
            edits.removed.append((table, which))
        else:
            raise _unknown(path, file)
    else:
        raise _unknown(path, file)


def _unknown(path: str, file: str) -> BadFile:
    return BadFile(file, wrong("error_edits-unknown", path=one_line(path, 60)), key=one_line(path, 120))


def _plain(table: str, key: str, value: Any, path: str, file: str) -> Any:
    """A value of its kind, its texts on one line and with nothing unseen in them. Raises BadFile."""
    kind = KEYS[table].get(key)
    if kind is None:
        raise _unknown(path, file)
    if value is None and (table, key) not in NEEDED:
        return None
    if (table, key, value) == (PART, "stages", "all"):
        return value
    if (table, key) == (PART, "groups"):
        return _numbers(value, path, file)
    texts: list[Any] = value if isinstance(value, list) else [value] if isinstance(value, str) else []
    if type(value) is not kind or not all(isinstance(each, str) for each in texts):
        raise BadFile(file, wrong("error_edits-kind", kind=kind.__name__), key=path)
    if len(texts) > MOST_ITEMS or any(len(each) > LONGEST_TEXT for each in texts):
        raise BadFile(file, wrong("error_edits-long", most=LONGEST_TEXT), key=path)
    if any(_TURNS.search(each) for each in texts):
        raise BadFile(file, wrong("error_edits-turned"), key=path)
    plain = [" ".join(each.split()) for each in texts]
    return plain[0] if kind is str else plain if kind is list else value


def _numbers(value: Any, path: str, file: str) -> list[int]:
    """A list of whole numbers; which they may be is for the reader to say. Raises BadFile."""
    if not isinstance(value, list) or len(value) > MOST_ITEMS or not all(type(each) is int for each in value):
        raise BadFile(file, wrong("error_edits-kind", kind="numbers"), key=path)
    return value


# --- writing it into the text ----------------------------------------------------------------------------------------


def edited(text: str, edits: SceneEdits, *, file: str) -> Edited:
    """The text with the edits in it. Raises BadFile for a part or rule that the scene does not have.

    Parts are called anew first: all else speaks of them by their new names, but for claims, which stand as the scene
    has them.
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    places = places_in(text)
    names = _new_names(text, places, edits)
    if names:
        text = with_part_names(text, names)
        places = places_in(text)
    counts = {table: _count(places, table) for table in (PART, RULE)}
    gone = {(table, int(which)) for table, which in edits.removed}
    for table, which in [*edits.removed, *((table, which) for table, which, _ in edits.values)]:
        if table in counts and int(which) >= counts[table]:
            raise _unknown(f"{table}.{which}", file)
    values: dict[tuple[str, str], Any] = {}
    added: list[tuple[str, Mapping[str, Any]]] = []
    stages = _stages(places, text)
    new_stages: dict[str, dict[str, Any]] = {}
    for (table, which, key), given in edits.values.items():
        value = [claim_named(each, names) for each in given] if key == "claims" and given else given
        if table == STAGE and which not in stages:
            new_stages.setdefault(which, {"name": which})[key] = value
        else:
            name = stages[which] if table == STAGE else f"{table}.{which}" if which else TOP
            values[name, key] = value
    added += [(STAGE, {key: value for key, value in row.items() if value is not None}) for row in new_stages.values()]
    rows: dict[str, tuple[str, ...]] = {}
    for table, count in counts.items():
        new = sorted((which for kind, which in edits.added if kind == table), key=_number)
        added += [(table, _lines(edits.added[table, which])) for which in new]
        rows[table] = (*(str(number) for number in range(count) if (table, number) not in gone), *new)
    removed = [f"{table}.{which}" for table, which in edits.removed]
    made = rewritten(text, values, added=added, removed=removed)
    return Edited(without_lost_sentences(made), rows, names)


def _new_names(text: str, places: Places, edits: SceneEdits) -> dict[str, str]:
    """What parts of the scene are to be called, by their names there."""
    found = {}
    for (table, which, key), value in edits.values.items():
        span = places.values.get(f"{table}.{which}.name")
        if (table, key) == (PART, "name") and span is not None:
            name = " ".join(str(tomllib.loads(f"a = {text[slice(*span)]}")["a"]).split())
            if name != value:
                found[name] = value
    return found


def _lines(row: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in row.items() if value is not None}


def _number(which: str) -> int:
    return int(which.removeprefix("new-"))


def _count(places: Places, table: str) -> int:
    return sum(bool(re.fullmatch(rf"{table}\.\d+", each.name)) for each in places.tables)


def _stages(places: Places, text: str) -> dict[str, str]:
    """The table of each stage that has one, by the stage's name."""
    found: dict[str, str] = {}
    for table in places.tables:
        if re.fullmatch(r"stage\.\d+", table.name) and (span := places.values.get(f"{table.name}.name")):
            name = tomllib.loads(f"a = {text[slice(*span)]}")["a"]
            found.setdefault(" ".join(str(name).split()), table.name)
    return found


def without_lost_sentences(text: str) -> str:
    """The text without the [[sentence]] tables whose words no text of the scene has any more.

    They said what stands in the place of words that a person has since put others for.
    """
    try:
        data = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, ValueError):
        return text  # whoever reads it next says what is wrong
    rows = data.pop("sentence", None)
    if not isinstance(rows, list):
        return text
    every = [" ".join(each.split()) for each in _texts({key: data.get(key) for key in _QUOTED})]
    lost = [
        f"sentence.{number}"
        for number, row in enumerate(rows)
        if isinstance(row, dict) and not any(" ".join(str(row.get("text")).split()) in each for each in every)
    ]
    return rewritten(text, {}, removed=lost) if lost else text


def _texts(data: Any) -> Iterator[str]:
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for value in data.values():
            yield from _texts(value)
    elif isinstance(data, list):
        for value in data:
            yield from _texts(value)
