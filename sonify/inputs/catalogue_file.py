"""The text of the instrument catalogue as a Catalogue. `Instrument` itself is the list of what a row may hold."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import MISSING, fields
from typing import Any

from sonify.inputs.document import Fault, read_document, refuse, shown
from sonify.kinds.cautions import CAUTIONS
from sonify.kinds.instruments import FAMILIES, STRUCK_WITH
from sonify.kinds.textures import TEXTURES
from sonify.records.fact import did_you_mean, wrong
from sonify.records.instrument import Catalogue, Instrument

CLEFS = ("treble", "bass", "percussion")

_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_FIELDS = {field.name: field for field in fields(Instrument) if field.name != "id"}
_WANTED = {
    "str": "error_inputs-wanted-text",
    "bool": "error_inputs-wanted-truth",
    "int": "error_inputs-wanted-whole",
    "float": "error_inputs-wanted-number",
    "tuple[str, ...]": "error_inputs-wanted-texts",
    "tuple[int, ...]": "error_inputs-wanted-numbers",
}


def read_catalogue(text: str, *, file: str) -> Catalogue:
    """All instruments of a catalogue's text, in its order.

    Raises BadFile, which names every fault with its line, its key and what is allowed.
    """
    try:
        data = tomllib.loads(text)
    except ValueError:
        data = read_document(text, file=file).data  # tells where it is no TOML
    faults: list[Fault] = []
    rows: list[Instrument] = []
    for key, row in data.items():
        found = list(_faults_of_shape(key, row))
        if not found:
            rows.append(_instrument(key, row))
            found = list(_faults_of_sense(rows[-1]))
        faults += found
    faults += _shared_names(rows)
    if not data:
        faults.append(Fault(key="", message=wrong("error_inputs-instrument-write-table")))
    if faults:
        refuse(faults, read_document(text, file=file).origin)
    return Catalogue(instruments=tuple(rows))


def _instrument(key: str, row: dict[str, Any]) -> Instrument:
    values: dict[str, Any] = {name: tuple(v) if isinstance(v, list) else v for name, v in row.items()}
    return Instrument(id=key, **values)


def _faults_of_shape(key: str, row: Any) -> Iterator[Fault]:
    if not _ID.fullmatch(key):
        yield Fault(key=key, message=wrong("error_inputs-instrument-id-lower"))
    if not isinstance(row, dict):
        yield Fault(key=key, message=wrong("error_inputs-wanted-table-each", row=shown(row)))
        return
    for name, value in row.items():
        if name not in _FIELDS:
            allowed = sorted(_FIELDS)
            message = wrong(
                "error_inputs-unknown-key", near=did_you_mean(name[:60], allowed), allowed=", ".join(allowed)
            )
            yield Fault(key=f"{key}.{name}", message=message)
        elif not _fits(value, str(_FIELDS[name].type)):
            yield Fault(
                key=f"{key}.{name}",
                message=wrong(
                    "error_inputs-wanted-3", value=shown(value), wanted=wrong(_WANTED[str(_FIELDS[name].type)])
                ),
            )
    for name, field in _FIELDS.items():
        if name not in row and field.default is MISSING:
            yield Fault(
                key=f"{key}.{name}",
                message=wrong("error_inputs-missing-wanted", wanted=wrong(_WANTED[str(field.type)])),
            )


def _fits(value: Any, kind: str) -> bool:
    """Whether a value of a TOML file is of a record's kind: a whole number is no bool, a number may be whole."""
    if kind.startswith("tuple"):
        inner = kind.removeprefix("tuple[").partition(",")[0]
        return isinstance(value, list) and all(_fits(item, inner) for item in value)
    if kind == "bool" or isinstance(value, bool):
        return kind == "bool" and isinstance(value, bool)
    if kind == "str":
        return isinstance(value, str) and bool(value.strip())
    number = isinstance(value, int) or (kind == "float" and isinstance(value, float))
    return number and abs(value) <= 10_000  # also refuses nan


def _faults_of_sense(row: Instrument) -> Iterator[Fault]:
    """What a single value cannot show: ranges, known words, and what pitched and unpitched instruments need."""
    checks = [
        ("family", row.family in FAMILIES, f"one of {', '.join(FAMILIES)}"),
        ("textures", row.textures and set(row.textures) <= set(TEXTURES), f"any of {', '.join(TEXTURES)}"),
        ("struck_with", row.struck_with in STRUCK_WITH, f"one of {', '.join(STRUCK_WITH)}"),
        ("clef", row.clef in CLEFS, f"one of {', '.join(CLEFS)}"),
        ("loud", row.loud in (1, 2, 3), "1, 2 or 3"),
        ("players", 1 <= row.players <= 6, "1 to 6"),
        ("fastest_per_s", 0.1 <= row.fastest_per_s <= 8, "0.1 to 8 strokes a second"),
        ("ring_s", 0 < row.ring_s <= 20, "more than 0, up to 20 seconds"),
        ("cautions", set(row.cautions) <= set(CAUTIONS), f"any of {', '.join(CAUTIONS)}"),
        ("on_request", row.bodily or not row.on_request, "true only where bodily is true"),
        ("bars", all(0 <= bar <= 11 for bar in row.bars), "pitch classes from 0 to 11"),
    ]
    if row.pitched:
        checks += [
            ("low", 0 <= row.low < row.high <= 127, "MIDI notes from 0 to 127, low below high"),
            ("gm_program", 1 <= row.gm_program <= 128, "1 to 128 for a pitched instrument"),
            ("gm_key", row.gm_key == 0, "no gm_key for a pitched instrument"),
            ("clef", row.clef != "percussion", "treble or bass for a pitched instrument"),
        ]
    else:
        checks += [
            ("gm_key", 35 <= row.gm_key <= 81, "35 to 81 for an unpitched instrument"),
            ("gm_program", row.gm_program == 0, "no gm_program for an unpitched instrument"),
            ("low", row.low == row.high == 0, "no low and high for an unpitched instrument"),
            ("clef", row.clef == "percussion", "no clef for an unpitched instrument"),
        ]
    for name, right, wanted in checks:
        if not right:
            value = getattr(row, name)
            said = f"is {shown(value)}" if isinstance(value, int | float | str) else "is not right"
            yield Fault(key=f"{row.id}.{name}", message=wrong("error_inputs-wanted-2", said=said, wanted=wanted))


def _shared_names(rows: list[Instrument]) -> Iterator[Fault]:
    """A name that two instruments go by: a class file could not tell which is meant."""
    owners: dict[str, str] = {}
    for row in rows:
        for name in row.names():
            owner = owners.setdefault(name, row.id)
            if owner != row.id:
                yield Fault(key=row.id, message=wrong("error_inputs-goes-does-name", name=shown(name), owner=owner))
