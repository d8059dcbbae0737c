"""A class as the text of a class file that `read_class` reads back equal."""

from __future__ import annotations

from typing import Any

from sonify.kinds.instruments import STAND_INS
from sonify.records.classroom import Classroom
from sonify.records.instrument import Catalogue, Instrument, OwnInstrument

HEADING = "# A class for sonify: how many pupils, in how many groups, and what the music cupboard holds."
#: What a class file may leave out.
USUALLY: dict[str, Any] = {"minutes": 60, "lessons": 1, "needs": []}
COUNTED = "how many of each; a name with a space in it stands between quotation marks"


def class_text(classroom: Classroom, catalogue: Catalogue, *, base: str = "") -> str:
    """The class as a class file's text. base: an earlier one, a class file too, whose comments and order are kept."""
    import tomlkit

    fields: dict[str, Any] = {
        "year": classroom.year,
        "pupils": classroom.pupils,
        "groups": classroom.groups,
        "minutes": classroom.minutes,
        "lessons": classroom.lessons,
        "needs": list(classroom.every_need),
    }
    if classroom.line:
        fields["line"] = classroom.line
    text = base.removeprefix("\ufeff").replace("\r\n", "\n") or f"{HEADING}\n\n"
    document = tomlkit.parse(text)
    if missing := {key: value for key, value in fields.items() if key not in document and value != USUALLY.get(key)}:
        # After the last table of the earlier text they would be that table's: they come first.
        document = tomlkit.parse(tomlkit.dumps(missing) + text if base else text + tomlkit.dumps(missing))
    for key, value in fields.items():
        if key in document and document[key] != value:
            document[key] = value
    _set_cupboard(document, classroom, catalogue)
    _set_other(document, classroom, catalogue)
    return tomlkit.dumps(document)


def _set_cupboard(document: Any, classroom: Classroom, catalogue: Catalogue) -> None:
    import tomlkit

    if "cupboard" not in document:
        table = tomlkit.table()
        table.comment(COUNTED)
        document["cupboard"] = table
    table = document["cupboard"]
    own = {one.id for one in classroom.own}
    wanted = {stock.instrument: stock.count for stock in classroom.cupboard if stock.instrument not in own}
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


def _set_other(document: Any, classroom: Classroom, catalogue: Catalogue) -> None:
    """The class's own instruments, a table each; an earlier text's stay as they stand where they are the same."""
    import tomlkit

    rows = [_other(one, classroom.count(one.id), catalogue) for one in classroom.own]
    if rows == [_other_in(row, catalogue) for row in document.get("other", ())]:
        return
    document.pop("other", None)
    if rows:
        tables = tomlkit.aot()
        for row in rows:
            table = tomlkit.table()
            table.update({key: value for key, value in row.items() if value not in ("", None)})
            tables.append(table)
        document["other"] = tables


def _other(one: OwnInstrument, count: int, catalogue: Catalogue) -> dict[str, Any]:
    like = catalogue[one.like]
    named = "" if STAND_INS[like.family] == like.id else _written(like, catalogue)
    return {"name": one.name, "family": like.family, "like": named, "count": count, "how": one.how}


def _other_in(row: Any, catalogue: Catalogue) -> dict[str, Any]:
    """A table of an earlier text as `_other` would write it."""
    like = catalogue.find(row["like"]) if row.get("like") else catalogue[STAND_INS[row["family"]]]
    one = OwnInstrument(name=str(row["name"]), like=like.id, number=1, how=str(row.get("how", "")))
    return _other(one, row.get("count", 1), catalogue)


def _written(row: Instrument, catalogue: Catalogue) -> str:
    """The name that a person would write, where it finds this very row."""
    return next(name for name in (row.plural.lower(), row.name.lower(), row.id) if catalogue.find(name).id == row.id)
