"""A scene file's text with some of its values set anew: the author's comments, order and spacing stay."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.inputs.document import one_line
from sonify.records.fact import wrong

if TYPE_CHECKING:
    from tomlkit import TOMLDocument


_Value = str | int | tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleEdit:
    """What is set anew in one [[hear]]; None leaves it. `low_high` is its `from`."""

    low_high: tuple[str, str] | None = None
    to: tuple[str, str] | None = None
    curve: str | None = None


def edited_scene_text(
    text: str,
    conditions: Mapping[str, str | int],
    rules: Mapping[int, RuleEdit],
    *,
    file: str,
    lines: Mapping[str, int] | None = None,
) -> str:
    """The text with conditions and rules set anew. The text has been read before, so it is a scene file.

    Values that are there already are left as they are written. lines: of its keys (`Origin.lines`), where they are
    known: a key that has a line of its own is then changed there, which is much quicker than reading the whole anew.
    Raises BadFile for a rule that the file does not have.

    >>> print(edited_scene_text("wind = 4  # km/h\\n[conditions]", {"wind": "9 m/s"}, {}, file="a.toml"))
    wind = 4  # km/h
    [conditions]
    wind = "9 m/s"
    <BLANKLINE>
    """
    if not conditions and not rules:
        return text
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if lines is not None and (quick := _edited_lines(text, _by_key(conditions, rules), lines)) is not None:
        return quick
    import tomlkit

    document = tomlkit.parse(text)
    _set_conditions(document, conditions)
    for number, edit in rules.items():
        _set_rule(document, number, edit, file)
    return tomlkit.dumps(document)


def _by_key(conditions: Mapping[str, str | int], rules: Mapping[int, RuleEdit]) -> dict[tuple[str, str], _Value]:
    """Every value to set, by its table and its key there."""
    found: dict[tuple[str, str], _Value] = {("conditions", name): value for name, value in conditions.items()}
    for number, edit in rules.items():
        values = {"from": edit.low_high, "to": edit.to, "curve": edit.curve}
        found |= {(f"hear.{number}", key): value for key, value in values.items() if value is not None}
    return found


def _edited_lines(text: str, values: Mapping[tuple[str, str], _Value], where: Mapping[str, int]) -> str | None:
    """The text with each value set on its key's own line; None where one of them has no such line."""
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    rows = text.split("\n")
    for (table, key), value in values.items():
        line = where.get(f"{table}.{key}")
        if line is None:
            return None
        try:
            row: Any = tomlkit.parse(rows[line - 1])
        except TOMLKitError:
            return None
        if list(row) != [key]:
            return None
        _put(row, key, list(value) if isinstance(value, tuple) else value)
        rows[line - 1] = tomlkit.dumps(row)
    return "\n".join(rows)


def _set_conditions(document: TOMLDocument, conditions: Mapping[str, str | int]) -> None:
    import tomlkit

    if conditions and "conditions" not in document:
        document["conditions"] = tomlkit.table()
    table: Any = document.get("conditions")
    for name, value in conditions.items():
        _put(table, name, value)


def _set_rule(document: TOMLDocument, number: int, edit: RuleEdit, file: str) -> None:
    rows: Any = document.get("hear", [])
    if not 0 <= number < len(rows):
        raise BadFile(file, wrong("error_inputs-rule-scene", value=number + 1, rows=len(rows)), key=f"hear.{number}")
    row = rows[number]
    if edit.low_high is not None:
        _put(row, "from", list(edit.low_high))
    if edit.to is not None:
        _put(row, "to", list(edit.to))
    if edit.curve is not None and (edit.curve != "linear" or "curve" in row):
        _put(row, "curve", edit.curve)


def _put(table: Any, key: str, value: str | int | Sequence[str]) -> None:
    """Set a key unless it has the value already: what is not changed stays as its author wrote it."""
    if key not in table or table[key] != value:
        table[key] = value


def edit_of(number: str, given: object, *, file: str) -> tuple[int, RuleEdit]:
    """One rule's number and its edit, from plain data as a page sends it. Raises BadFile where it has another shape."""
    key = f"hear.{one_line(number, 10)}"
    if not (number.isascii() and number.isdigit() and len(number) < 3) or not isinstance(given, dict):
        raise BadFile(file, wrong("error_inputs-changed-rule-number"), key=key)
    if unknown := sorted(set(given) - {"from", "to", "curve"}):
        raise BadFile(file, wrong("error_inputs-curve-changed-here", unknown=one_line(unknown[0], 40)), key=key)
    curve = given.get("curve")
    if curve is not None and not isinstance(curve, str):
        raise BadFile(file, wrong("error_inputs-curve-word-quotation"), key=f"{key}.curve")
    ends = {}
    for name in ("from", "to"):
        pair = given.get(name)
        if pair is not None and not (
            isinstance(pair, list) and len(pair) == 2 and all(isinstance(end, str) for end in pair)
        ):
            raise BadFile(file, wrong("error_inputs-wanted-list-texts"), key=f"{key}.{name}")
        ends[name] = None if pair is None else (pair[0], pair[1])
    return int(number), RuleEdit(low_high=ends["from"], to=ends["to"], curve=curve)
