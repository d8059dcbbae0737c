"""The tables that stand on a sheet: their headings, units, titles and rows; turned where one lies on its side."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from sonify.frozen import dataclass
from sonify.inputs.document import one_line
from sonify.inputs.logger_cells import is_gap, looks_like_value
from sonify.inputs.logger_layout import GENERIC_LABELS
from sonify.inputs.logger_units import TIME_UNITS, name_and_unit, unit_named
from sonify.inputs.school_cells import is_number, tally, yes_or_no
from sonify.inputs.school_times import is_time
from sonify.inputs.sheet import Sheet
from sonify.units import NO_UNIT

#: "Test 1", "2nd try", "Trial B", and bare numbers: a heading of one of several tries.
TRY_WORDS = (
    "test|trial|try|attempt|go|run|reading|repeat|measurement|result|results|experiment|drop|throw|roll|shot|turn"
)
TRY = re.compile(
    rf"(?:(?:{TRY_WORDS})\s*(?:no\.?|number|#)?\s*(?:\d{{1,2}}|[a-h])|\d{{1,2}}(?:st|nd|rd|th)?\s*(?:{TRY_WORDS})?"
    rf"|(?:first|second|third|fourth|fifth)\s+(?:{TRY_WORDS}))",
    re.IGNORECASE,
)
#: A try named at the left of a row: a bare number there is a value.
_TRY_ROW = re.compile(rf"(?=.*[A-Za-z])(?:{TRY.pattern})", re.IGNORECASE)
ORDINAL = re.compile(r"\d{1,2}(?:st|nd|rd|th)?|first|second|third|fourth|fifth", re.IGNORECASE)
_TRY_NAME = re.compile(rf"(?:{TRY_WORDS})\s*(?:no\.?|number|#)?", re.IGNORECASE)
_NTH = re.compile(r"\d{1,2}(?:st|nd|rd|th)\b", re.IGNORECASE)
_BRACKETS = re.compile(r"\s*\([^)]*\)$")
LONGEST_HEADING = 100


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Block:
    """One table of a sheet.

    name: what to call it: its title, or its place. title: the line above it, "" for none. headings, over, units: of
    each column; over is the heading that spans several. body: rows of cells. rows: the row of the file of each, or its
    column where the table lay on its side. headed: the file has headings.
    """

    name: str
    title: str
    headings: tuple[str, ...]
    over: tuple[str, ...]
    units: tuple[str, ...]
    body: tuple[tuple[str, ...], ...]
    rows: tuple[int, ...]
    across: bool = False
    headed: bool = True


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of the sheet. kind: "blank", "lone" (one cell), "words" (could be headings) or "data"."""

    number: int
    cells: tuple[str, ...]
    kind: str


def blocks_of(sheet: Sheet, across: bool | None = None) -> tuple[Block, ...]:
    """The tables of a sheet, in order.

    across: whether they lie on their side, a quantity a row; None where that is to be found out.
    """
    found: list[Block] = []
    for part in _side_by_side(_filled(sheet)):
        found += _stacked(part, sheet, across)
    return tuple(replace(block, name=name) for block, name in zip(found, _names(found), strict=True))


def _names(blocks: Sequence[Block]) -> list[str]:
    titles = [block.title for block in blocks]
    if all(titles) and len(set(titles)) == len(titles):
        return titles
    return [f"table {number + 1}" for number in range(len(blocks))]


@lru_cache(maxsize=65_536)
def valued(cell: str) -> bool:
    """A cell that can be a reading, a time, a tally or an answer, and so is no heading."""
    if len(cell) > 60 or _NTH.match(cell) and not is_time(cell):
        return False
    return looks_like_value(cell) or is_number(cell) or tally(cell) is not None or is_time(cell)


def _answer(cell: str) -> bool:
    return valued(cell) or yes_or_no(cell) is not None


def _filled(sheet: Sheet) -> list[_Row]:
    """The rows of a sheet, without the columns in which nothing stands, and cells drawn as one filled down."""
    cells = [[one_line(" ".join(cell.split()), 200) for cell in row] for row in sheet.cells]
    width = max(map(len, cells), default=0)
    cells = [row + [""] * (width - len(row)) for row in cells]
    for top, left, bottom, right in sheet.merged:
        if right == left and top < len(cells) and left < width:
            for row in range(top + 1, min(bottom + 1, len(cells))):
                cells[row][left] = cells[row][left] or (cells[top][left] if valued(cells[row - 1][left]) or top else "")
    return [_Row(number, tuple(row), "") for number, row in zip(sheet.rows, cells, strict=True)]


def _side_by_side(rows: list[_Row]) -> Iterator[list[_Row]]:
    """The parts of a sheet that an empty column keeps apart, where each is a table by itself; else the whole."""
    width = len(rows[0].cells) if rows else 0
    held = [any(row.cells[at] for row in rows) for at in range(width)]
    parts: list[list[int]] = [[]]
    for at, there in enumerate(held):
        if there:
            parts[-1].append(at)
        elif parts[-1]:
            parts.append([])
    parts = [part for part in parts if part]
    alone = len(parts) > 1 and all(len(part) > 1 and _is_table(rows, part) for part in parts)
    whole = [at for at, there in enumerate(held) if there]
    for columns in parts if alone else [whole]:
        cut = [replace(row, cells=tuple(row.cells[at] for at in columns)) for row in rows]
        yield [replace(row, kind=_kind(row.cells)) for row in cut]


def _is_table(rows: Sequence[_Row], part: Sequence[int]) -> bool:
    """Headings over at least two rows of readings, in columns of its own."""
    cut = [[row.cells[at] for at in part] for row in rows]
    kinds = [_kind(row) for row in cut]
    return "words" in kinds and kinds[kinds.index("words") :].count("data") >= 2


def _kind(cells: Sequence[str]) -> str:
    there = [cell for cell in cells if cell]
    if not there:
        return "blank"
    if len(there) == 1 < len(cells):
        return "lone"
    values = sum(map(_answer, there))
    if not values:
        return "words"
    return "data"


def _stacked(rows: list[_Row], sheet: Sheet, across: bool | None) -> list[Block]:
    """The tables that stand under each other: a new one begins with headings after a blank line or a title."""
    found: list[Block] = []
    loose: list[_Row] = []  # titles, notes and headings since the last row of readings
    body: list[_Row] = []
    headings: list[_Row] = []
    apart = False
    for row in rows:
        if row.kind == "blank":
            apart = True
        elif row.kind == "data" or (row.kind == "lone" and _is_a_gap(row, body, loose, apart)):
            if body and any(each.kind == "words" for each in loose):
                found += _made(headings, body, sheet, across)
                headings, body = loose, []
            elif not body:
                headings = loose
            loose, apart = [], False
            body.append(row)
        elif row.kind == "words" and body and not loose and not apart:
            # A row of words among readings: the same headings once more (a page break), or readings that are missing.
            if row.cells not in [each.cells for each in headings]:
                body.append(row)
        else:
            loose.append(row)
    if body:
        found += _made(headings, body, sheet, across)
    return found


def _is_a_gap(row: _Row, body: Sequence[_Row], loose: Sequence[_Row], apart: bool) -> bool:
    """A row that has its time or its name, and no reading."""
    if not body:
        return valued(row.cells[0]) and any(each.kind == "words" for each in loose)
    whole = len([cell for cell in body[-1].cells if cell]) > 1
    return not apart and (valued(row.cells[0]) or whole and 0 < len(row.cells[0]) <= 30)


def _made(headings: Sequence[_Row], body: Sequence[_Row], sheet: Sheet, across: bool | None) -> list[Block]:
    """A block, unless nothing can be made of it; turned where it lies on its side."""
    first = next((at for at, row in enumerate(headings) if row.kind == "words"), len(headings))
    over = [row for row in headings[:first][-1:] if row.cells and not row.cells[0] and row.kind == "lone"]
    titles = [row for row in headings[:first] if row.kind == "lone" and row not in over]
    heads = [*over, *(row for row in headings[first:] if row.kind == "words")]
    between = [row for row in headings[first:] if row.kind == "lone" and not row.cells[0]]
    heads = sorted([*heads, *between], key=lambda row: row.number) if heads else []
    lines = [next(filter(None, row.cells)) for row in titles]
    title = max((line for line in reversed(lines) if not is_time(line)), key=len, default="")
    table = list(body)
    unnamed = bool(heads) and not heads[-1].cells[0] and len(heads) == 1 and heads[0].kind == "lone"
    if (not heads or unnamed and not _answer(table[0].cells[0])) and _headed_by_values(table, unnamed=unnamed):
        heads, table = [*heads, table[0]], table[1:]
    if across is None:
        across = _lies(heads, table)
    if across:
        heads, table = _unit_at_rows(heads, table)
        turned = _turned([*heads, *table])
        heads, table = turned[:1], turned[1:]
    if not table:
        return []
    return [_block(title, heads, table, sheet, across)]


def _headed_by_values(table: Sequence[_Row], *, unnamed: bool) -> bool:
    """Headings that are values: "Minutes, 30 °C, 40 °C" over rows of numbers, "Material, 1, 2" over rows of words.

    unnamed: a heading that spans these values stands above them already.
    """
    if len(table) < 2:
        return False
    if unnamed and all(name_and_unit(cell)[1] != NO_UNIT for cell in table[0].cells[1:] if cell):
        return True
    times = [cell for cell in table[0].cells[1:] if cell]
    if len(times) > 1 and all(map(is_time, times)) and not any(is_time(c) for row in table[1:] for c in row.cells[1:]):
        return True
    corner, below = table[0].cells[0], [row.cells[0] for row in table[1:]]
    if corner.casefold() in GENERIC_LABELS:
        return True
    return bool(corner) and not _answer(corner) and all(map(valued, filter(None, below))) and any(below)


def _lies(heads: Sequence[_Row], table: Sequence[_Row]) -> bool:
    """Whether a table lies on its side: what a column should be called stands at the left of a row."""
    labels = [row.cells[0] for row in table]
    corner = heads[-1].cells[0] if heads else ""
    if _TRY_NAME.fullmatch(corner) and all(map(ORDINAL.fullmatch, labels)):
        names = [cell for cell in heads[-1].cells[1:] if cell]
        return len(names) > 1 and all(name_and_unit(name)[1] == NO_UNIT for name in names)
    if any(map(_answer, filter(None, labels))) and not all(_TRY_ROW.fullmatch(label) for label in labels):
        return False
    if not heads:
        # "Day, 1, 2, 3" over "sill, 0, 2, 11": the first row is all values, the first column all words.
        return len(table) > 1 and len(table[0].cells) > 2 and sum(map(_answer, table[0].cells[1:])) > 1
    top = heads[-1].cells[1:]
    if len(heads) > 1 or len([cell for cell in top if cell]) < 2:
        return False
    if all(is_time(_bare(cell)) for cell in top if cell) and not any(TRY.fullmatch(cell) for cell in top):
        return True
    if len(table) == 1 and len(table[0].cells) > 2:
        return True
    if all(_TRY_ROW.fullmatch(label) for label in labels):
        return not any(TRY.fullmatch(cell) for cell in top)
    united = [name_and_unit(label)[1] != NO_UNIT for label in labels]
    return all(united) and not any(name_and_unit(cell)[1] != NO_UNIT for cell in top)


def _bare(cell: str) -> str:
    return _BRACKETS.sub("", cell)


def _unit_at_rows(heads: Sequence[_Row], table: Sequence[_Row]) -> tuple[list[_Row], list[_Row]]:
    """Times that all carry the unit of what was read then, "After 1 day (g)", without it: the rows' names carry it."""
    if not heads:
        return list(heads), list(table)
    top = heads[-1].cells
    units = {found[0] for cell in top[1:] if cell and (found := _BRACKETS.search(cell))}
    bare = (top[0], *map(_bare, top[1:]))
    if len(units) != 1 or not all(
        is_time(cell) and cell != at for cell, at in zip(bare[1:], top[1:], strict=True) if at
    ):
        return list(heads), list(table)
    (unit,) = units
    named = [replace(row, cells=(f"{row.cells[0]}{unit}" if row.cells[0] else "", *row.cells[1:])) for row in table]
    return [*heads[:-1], replace(heads[-1], cells=bare)], named


def _turned(rows: Sequence[_Row]) -> list[_Row]:
    """The columns of a table as its rows. Their numbers are those of the columns."""
    columns = zip(*(row.cells for row in rows), strict=True)
    turned = (_Row(number, tuple(cells), _kind(cells)) for number, cells in enumerate(columns, 1))
    return [row for row in turned if row.kind != "blank"]


def _block(title: str, heads: Sequence[_Row], table: Sequence[_Row], sheet: Sheet, across: bool) -> Block:
    width = len(table[0].cells)
    heads, units = _units_apart(heads, width)
    names = [row.cells for row in heads]
    lowest = names[-1] if names else ("",) * width
    headings, over = list(lowest), [""] * width
    for row in reversed(names[:-1]):
        spanning = ""
        for at, cell in enumerate(row):
            spanning = cell or spanning
            if not lowest[at] and cell:
                headings[at] = headings[at] or cell
            elif lowest[at]:
                over[at] = over[at] or spanning
    kept = [at for at in range(width) if headings[at] or any(row.cells[at] for row in table)]
    return Block(
        name="",
        title=one_line(title, LONGEST_HEADING),
        headings=tuple(one_line(headings[at], LONGEST_HEADING) for at in kept),
        over=tuple(one_line(over[at], LONGEST_HEADING) for at in kept),
        units=tuple(units[at] for at in kept),
        body=tuple(
            tuple("" if is_gap(row.cells[at]) and row.cells[at] != "none" else row.cells[at] for at in kept)
            for row in table
        ),
        rows=tuple(row.number for row in table),
        across=across,
        headed=bool(heads),
    )


def _units_apart(heads: Sequence[_Row], width: int) -> tuple[Sequence[_Row], list[str]]:
    """The rows of headings without the row of units beneath them, and the unit of each column, "" for none."""
    none = [""] * width
    if len(heads) < 2:
        return heads, none
    units = [unit_named(cell.strip("()[] ")) or "" for cell in heads[-1].cells]
    written = [cell for cell in heads[-1].cells if cell and not is_gap(cell)]
    if not any(units) or sum(map(bool, units)) < len(written):
        return heads, none
    return heads[:-1], units


def is_time_unit(heading: str) -> bool:
    """A heading that is nothing but a unit of time: "Minutes".

    >>> is_time_unit("Minutes"), is_time_unit("Days"), is_time_unit("Height")
    (True, True, False)
    """
    unit = unit_named(heading.strip(" .:_").casefold())
    return len(heading.strip(" .:_")) > 1 and unit in TIME_UNITS
