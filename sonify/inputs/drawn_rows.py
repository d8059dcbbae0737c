"""Drawn quantities added to a scene's text, renamed in it and taken out, with the rules that hear them.

The author's comments, order and spacing stay. What else speaks of a quantity that goes is named by whoever reads the
text next, with its line.
"""

from __future__ import annotations

import re
from typing import Any

from sonify.errors import BadFile
from sonify.inputs.document import one_line
from sonify.inputs.scene_blocks import part_name, unlike
from sonify.inputs.scene_sounds import SHIMMER
from sonify.records.fact import wrong

LONGEST = 60
#: What a new curve is until somebody draws it, and what it is heard as: loud where it is high.
BEGINS = {"from": 0, "to": 10}
ROUND, OPEN = {"shape": "swings", "times": 1}, {"shape": "rises"}
UNIT = "marks"
HEARD_AS = {"as": "dynamics", "to": ["pp", "f"]}


def with_quantity(text: str, name: str, unit: str, *, file: str) -> str:
    """The text with one more drawn quantity, a rule that hears it and a part that plays it. Raises BadFile."""
    name, unit = _named(name, file), one_line(unit, 20).strip() or UNIT
    document = _read(text)
    shape = ROUND if document.get("circle") else OPEN
    if _find(document, name) is not None:
        raise BadFile(file, wrong("error_drawn-name-there-already", name=name), key="drawn.name")
    called = [str(part.get("name", "")) for part in document.get("part", [])]
    part = unlike([*called, part_name(name)])[-1]
    rows: dict[str, dict[str, Any]] = {
        "drawn": {"name": name, "unit": unit, **shape, **BEGINS},
        "hear": {
            "quantity": name,
            "as": HEARD_AS["as"],
            "part": part,
            "from": [f"{BEGINS[end]} {unit}" for end in ("from", "to")],
            "to": HEARD_AS["to"],
            "why": f"The greater the {name}, the louder we play.",
        },
        "part": {"name": part, "texture": "tremolo", "sounds": list(SHIMMER), "meaning": f"You are the {name}."},
    }
    for table, row in rows.items():
        _append(document, table, row)
    return _written(document)


def renamed(text: str, number: int, name: str, *, file: str) -> str:
    """The text with another name for a drawn quantity, wherever it is heard or spoken of in a claim. Raises BadFile."""
    document = _read(text)
    row = _row(document, number, file)
    before, name = str(row["name"]), _named(name, file)
    if name == before:
        return text
    if _find(document, name) is not None:
        raise BadFile(file, wrong("error_drawn-name-there-already", name=name), key="drawn.name")
    row["name"] = name
    for each in _tables(document):
        for key in ("quantity", "follows"):
            if each.get(key) == before:
                each[key] = name
        if "claims" in each:
            each["claims"] = [_spoken(str(claim), before, name) for claim in each["claims"]]
    return _written(document)


def without(text: str, number: int, *, file: str) -> str:
    """The text without a drawn quantity, its rules, and the parts that only they moved. Raises BadFile."""
    document = _read(text)
    name = str(_row(document, number, file)["name"])
    del document["drawn"][number]
    rules = document.get("hear", [])
    gone = {str(rule["part"]) for rule in rules if rule.get("quantity") == name and "part" in rule}
    for place in reversed(range(len(rules))):
        if rules[place].get("quantity") == name:
            del rules[place]
    moved = {str(rule["part"]) for rule in rules if "part" in rule}
    parts = document.get("part", [])
    _unclaimed(document, name)
    for place in reversed(range(len(parts))):
        part = str(parts[place].get("name"))
        if part in gone - moved and len(parts) > 1 and not _spoken_of(document, part):
            del parts[place]
    for table in ("drawn", "hear", "part"):
        if table in document and not len(document[table]):
            del document[table]
    return _written(document)


def _named(name: str, file: str) -> str:
    name = " ".join(name.split())
    if not name or len(name) > LONGEST:
        raise BadFile(file, wrong("error_drawn-wanted-name", most=LONGEST), key="drawn.name")
    return name


def _read(text: str) -> Any:
    import tomlkit

    return tomlkit.parse(text.removeprefix("\ufeff").replace("\r\n", "\n"))


def _written(document: Any) -> str:
    import tomlkit

    return str(tomlkit.dumps(document))


def _row(document: Any, number: int, file: str) -> Any:
    rows = document.get("drawn", [])
    if not 0 <= number < len(rows):
        message = wrong("error_drawn-drawn-quantity-scene", value=number + 1, rows=len(rows))
        raise BadFile(file, message, key="drawn")
    return rows[number]


def _find(document: Any, name: str) -> Any:
    return next(
        (row for row in document.get("drawn", []) if str(row.get("name", "")).casefold() == name.casefold()), None
    )


def _tables(document: Any) -> list[Any]:
    """Every table of the scene that may speak of a quantity."""
    return [row for table in document.values() if isinstance(table, list) for row in table if hasattr(row, "get")]


def _unclaimed(document: Any, name: str) -> None:
    """Takes out what is claimed of a quantity that is gone: its sentences stay the author's word."""
    for each in _tables(document):
        if each.get("follows") == name:
            del each["follows"]
        if "claims" in each and any(_spoken(str(claim), name, "") != str(claim) for claim in each["claims"]):
            kept = [str(claim) for claim in each["claims"] if _spoken(str(claim), name, "") == str(claim)]
            each["claims"] = kept
            if not kept:
                del each["claims"]


def _spoken_of(document: Any, part: str) -> bool:
    """Whether a part is claimed something of, or is another one's partner."""
    every = _tables(document)
    claims = [str(claim) for each in every for claim in each.get("claims", [])]
    return any(part in claim for claim in claims) or any(each.get("with") == part for each in every)


def _spoken(claim: str, before: str, name: str) -> str:
    """A claim with a quantity's other name, where it stands as words of its own."""
    return re.sub(rf"(?<!\w){re.escape(before)}(?!\w)", lambda _: name, claim)


def _append(document: Any, table: str, row: dict[str, Any]) -> None:
    import tomlkit

    made = tomlkit.table()
    for key, value in row.items():
        made[key] = value
    if table in document:
        document[table].append(made)
        return
    rows = tomlkit.aot()
    rows.append(made)
    document.append(table, rows)
