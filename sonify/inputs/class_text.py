"""A class as the text of a class file that `read_class` reads back equal."""

from __future__ import annotations

from typing import Any

from sonify.records.classroom import Classroom
from sonify.records.instrument import Catalogue, Instrument

HEADING = "# A class for sonify: how many pupils, in how many groups, and what the music cupboard holds."
#: What a class file may leave out.
USUALLY: dict[str, Any] = {"minutes": 60, "needs": []}
COUNTED = "how many of each; a name with a space in it stands between quotation marks"


def class_text(classroom: Classroom, catalogue: Catalogue, *, base: str = "") -> str:
    """The class as a class file's text. base: an earlier one, a class file too, whose comments and order are kept."""
    import tomlkit

    fields: dict[str, Any] = {
        "year": classroom.year,
        "pupils": classroom.pupils,
        "groups": classroom.groups,
        "minutes": classroom.minutes,
        "needs": list(classroom.needs),
    }
    text = base.removeprefix("\ufeff").replace("\r\n", "\n") or f"{HEADING}\n\n"
    document = tomlkit.parse(text)
    if missing := {key: value for key, value in fields.items() if key not in document and value != USUALLY.get(key)}:
        # After the last table of the earlier text they would be that table's: they come first.
        document = tomlkit.parse(tomlkit.dumps(missing) + text if base else text + tomlkit.dumps(missing))
    for key, value in fields.items():
        if key in document and document[key] != value:
            document[key] = value
    _set_cupboard(document, classroom, catalogue)
    return tomlkit.dumps(document)


def _set_cupboard(document: Any, classroom: Classroom, catalogue: Catalogue) -> None:
    import tomlkit

    if "cupboard" not in document:
        table = tomlkit.table()
        table.comment(COUNTED)
        document["cupboard"] = table
    table = document["cupboard"]
    wanted = {stock.instrument: stock.count for stock in classroom.cupboard}
    lines: dict[str, list[str]] = {}
    for name in table:
        lines.setdefault(catalogue.find(name).id, []).append(name)
    for instrument, names in lines.items():
        count = wanted.pop(instrument, 0)
        if sum(table[name] for name in names) == count:
            continue
        for name in names[1:]:
            del table[name]
        table[names[0]] = count
    for instrument, count in wanted.items():
        table[_written(catalogue[instrument], catalogue)] = count


def _written(row: Instrument, catalogue: Catalogue) -> str:
    """The name that a person would write, where it finds this very row."""
    return next(name for name in (row.plural.lower(), row.name.lower(), row.id) if catalogue.find(name).id == row.id)
