"""What each column of a table is by its cells and its heading: numbers, times, words, answers, strokes."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from sonify.constants import DAY_S
from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.inputs.document import one_line
from sonify.inputs.logger_cells import Numerals, number_and_unit, numerals_of
from sonify.inputs.logger_layout import COUNTERS, in_a_sentence
from sonify.inputs.logger_times import SECONDS, TIME_NAMES
from sonify.inputs.logger_units import TIME_UNITS, name_and_unit, unit_named
from sonify.inputs.school_cells import Figure, duration_s, figure, tally, yes_or_no
from sonify.inputs.school_names import as_noun
from sonify.inputs.school_times import Times, pointed_clocks, times
from sonify.inputs.sheet_blocks import ORDINAL, Block, is_time_unit
from sonify.records.fact import wrong
from sonify.records.timeline import FloatArray
from sonify.units import NO_UNIT

LONGEST_NAME = 50
MOST_OF_THEM = 0.6

MEAN = re.compile(r"\b(?:mean|average|avg)\b\.?", re.IGNORECASE)
TOTAL = re.compile(r"\b(?:total|sum|altogether)\b", re.IGNORECASE)
#: A row that sums up the others by its name.
SUMMED = re.compile(r"(?:grand\s+)?totals?|sum|mean|average|avg\.?|altogether|overall|median|range", re.IGNORECASE)
NOTES = re.compile(
    r"\b(?:notes?|comments?|remarks?|observations?|what (?:we|i) (?:saw|noticed|think|thought)|prediction|drawing)\b",
    re.IGNORECASE,
)
#: "Time to melt", "time taken": a time that is found out, not one that goes by.
_FOUND_OUT = re.compile(
    r"\b(?:time|how long|seconds|minutes)\b.*\b(?:to|for|taken|until|till|of)\b(?! day)", re.IGNORECASE
)
#: A stopwatch's 0:05.1, minutes and seconds with tenths: no time of day.
_TENTHS = re.compile(r"(\d{1,2}):([0-5]\d\.\d{1,3})")
#: "Minutes after exercise": a time that goes by, in the unit that comes first.
_SINCE = re.compile(r"([a-z]+)\s+(?:after|since|from|into|later|passed|gone)\b.*", re.IGNORECASE)
_YEAR = re.compile(r"(?:1[5-9]|20)\d{2}")
_MINUTES_FIRST = re.compile(r"m+(?:in)?s?\s*:\s*s+", re.IGNORECASE)
#: "Swings in 30", before seconds.
COUNTED_IN = re.compile(r"\b(?:in|per|every|after|at|within|for)\s+\d+$", re.IGNORECASE)
_STOPWATCH = re.compile(r"\s*[(\[]\s*[hms]+(?:in)?s?\s*:.*[)\]]$", re.IGNORECASE)
#: At the left of a table that lies on its side stands what its rows are, or what its columns are.
_SPEAKS_OF_TIME = re.compile(r"\b(?:time|date|day|week|month|year|hour|minute|when|clock)", re.IGNORECASE)
#: Days since 30 December 1899, as spreadsheets count them: 1950 to 2100, about.
_SERIAL_ZERO, _SERIALS = 693_594, (18_000, 74_000)
_SLASHED = re.compile(r"(?:\d+\s+)?\d{1,2}/\d{1,2}|\d+")
_DAY_HEADINGS = ("date", "when", "day")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SheetColumn:
    """One column. kind: "number", "time" (texts that are times), "tally", "answer" (yes or no), "words", "empty".

    label: what it is called in options and scene files. name, unit: as its quantity's. values: of "number", "tally" and
    "answer". marks: rows (places in the body) whose cells were read with a pinch of salt, by how.
    """

    at: int
    label: str
    heading: str
    over: str
    name: str
    unit: str
    kind: str
    cells: tuple[str, ...]
    values: FloatArray
    marks: tuple[tuple[str, int], ...] = ()
    durations: bool = False

    @property
    def plain(self) -> str:
        """The name without marks, in small letters."""
        return self.name.casefold().strip(" .:_")

    @property
    def numeric(self) -> bool:
        return self.kind in ("number", "tally")

    @property
    def whole(self) -> bool:
        """Every value is a whole number of things."""
        read = self.values[np.isfinite(self.values)]
        return read.size > 0 and bool(np.all(read == np.round(read))) and bool(np.all(read >= 0.0))

    def words(self) -> tuple[str, ...]:
        """The different words in it, in the order of the file, one spelling each."""
        return tuple(dict.fromkeys(spelled(self.cells, cell) for cell in self.cells if cell))


def spelled(cells: Sequence[str], cell: str) -> str:
    """The first spelling in the column of what a cell says: "Wool " is wool."""
    key = cell.casefold()
    return next(each for each in cells if each.casefold() == key)


def columns_of(block: Block, separator: str, *, file: str) -> tuple[tuple[SheetColumn, ...], Numerals]:
    """The columns of a table, and how its numbers are written. Raises BadFile where one column is in two units."""
    cells = [tuple(row[at] for row in block.body) for at in range(len(block.headings))]
    numerals = (
        Numerals() if not separator else numerals_of((cell for each in cells for cell in each if cell), separator)
    )
    labels = _labels(block)
    found = [
        _column(block, at, label, held, numerals, file)
        for at, (label, held) in enumerate(zip(labels, cells, strict=True))
    ]
    return tuple(found), numerals


def _labels(block: Block) -> list[str]:
    """What each column is called: its heading, with the one above it where the headings alone are alike."""
    bare = [heading.casefold() for heading in block.headings]
    labels: list[str] = []
    for at, heading in enumerate(block.headings):
        label = heading or f"column {at + 1}"
        if heading and bare.count(heading.casefold()) > 1 and block.over[at]:
            label = f"{block.over[at]}: {heading}"
        number, made = 1, label
        while made.casefold() in {each.casefold() for each in labels}:
            number += 1
            made = f"{label} ({number})"
        labels.append(made)
    return labels


def _column(block: Block, at: int, label: str, cells: tuple[str, ...], numerals: Numerals, file: str) -> SheetColumn:
    heading = block.headings[at]
    name, unit = name_and_unit(heading, " ".join(block.headings))
    unit = block.units[at] or unit
    if unit == NO_UNIT and block.over[at]:
        unit = name_and_unit(block.over[at])[1]
    if not block.units[at] and (COUNTED_IN.search(name) or is_value(heading) or ORDINAL.fullmatch(heading)):
        name, unit = heading, NO_UNIT  # "Swings in 30 seconds" is no number of seconds, "30 °C" is a group's name
    name = in_a_sentence(_STOPWATCH.sub("", name)[:LONGEST_NAME].strip(" ?:.")) or f"column {at + 1}"
    name = as_noun(name, unit)
    column = SheetColumn(
        at=at,
        label=label,
        heading=heading,
        over=block.over[at],
        name=name,
        unit=unit,
        kind="words",
        cells=cells,
        values=np.full(len(cells), np.nan),
    )
    return _typed(column, numerals, block, file)


def is_value(heading: str) -> bool:
    """A heading that is itself a value with its unit.

    >>> is_value("30 °C"), is_value("1st go (cm)"), is_value("Height (cm)")
    (True, False, False)
    """
    found = number_and_unit(heading)
    return found is not None and unit_named(found[1]) is not None


def _typed(column: SheetColumn, numerals: Numerals, block: Block, file: str) -> SheetColumn:
    held = [cell for cell in column.cells if cell]
    if not held:
        return replace(column, kind="empty")
    if _mostly(held, lambda cell: yes_or_no(cell) is not None):
        return replace(column, kind="answer", values=_valued(column.cells, yes_or_no))
    strokes = any(tally(cell) is not None and ("|" in cell or len(cell) > 1) for cell in held)
    if strokes and _mostly(held, lambda cell: tally(cell) is not None):
        return replace(column, kind="tally", values=_valued(column.cells, tally))
    if all(map(_TENTHS.fullmatch, held)):
        seconds = [
            60.0 * float(m[1]) + float(m[2]) if (m := _TENTHS.fullmatch(cell)) else None for cell in column.cells
        ]
        return replace(column, kind="number", unit="s", values=_array(seconds), durations=True)
    told = times(column.cells, again=True)
    if (
        told is not None
        and (told.kind != "elapsed" or not all(map(duration_s, held)))
        and not _are_fractions(column, held)
    ):
        named = column.heading and not (block.across and not _SPEAKS_OF_TIME.search(column.heading))
        name = column.name if named else {"clock": "time"}.get(told.kind, "date" if told.dated else "day")
        return replace(column, kind="time", name=name)
    figures = [figure(cell, numerals) for cell in column.cells]
    odd = sum(1 for each, cell in zip(figures, column.cells, strict=True) if cell and each.how == "odd")
    lasting = [duration_s(cell) for cell in column.cells]
    units = {each.unit for each in figures if each.unit}
    if sum(each is not None for each in lasting) >= MOST_OF_THEM * len(held) and (odd or len(units) > 1):
        return replace(column, kind="number", unit="s", values=_array(lasting), durations=True)
    if odd <= (1.0 - MOST_OF_THEM) * len(held):
        return _numbers(column, figures, units, block, file)
    return column


def _are_fractions(column: SheetColumn, held: Sequence[str]) -> bool:
    """1/2 and 3/4 under a heading that speaks of no day."""
    return not column.heading.casefold().startswith(_DAY_HEADINGS) and all(_SLASHED.fullmatch(cell) for cell in held)


def _numbers(column: SheetColumn, read: Sequence[Figure], units: set[str], block: Block, file: str) -> SheetColumn:
    known = column.unit if column.unit != NO_UNIT else ""
    if not known and len(units) > 1 and not any(map(unit_named, units)):
        read = [replace(each, unit="") for each in read]  # "1 person", "2 people" are numbers of things
    for row, each in enumerate(read):
        known = known or each.unit
        if each.unit and each.unit != known:
            other = one_line(each.unit, 20)
            told = wrong("error_readings-mixed-units", column=column.label, name=column.name, known=known, other=other)
            raise BadFile(file, told, line=block.rows[row])
    marks = tuple((each.how, row) for row, each in enumerate(read) if each.how)
    return replace(
        column, kind="number", unit=known or NO_UNIT, values=_array([each.value for each in read]), marks=marks
    )


def _array(values: Sequence[float | None]) -> FloatArray:
    return np.array([np.nan if value is None else float(value) for value in values], dtype=np.float64)


def _valued(cells: Sequence[str], reading: Callable[[str], float | None]) -> FloatArray:
    return _array([reading(cell) if cell else None for cell in cells])


def _mostly(cells: Sequence[str], holds: Callable[[str], bool]) -> bool:
    return bool(cells) and sum(map(holds, cells)) >= MOST_OF_THEM * len(cells)


def counts_rows(column: SheetColumn) -> bool:
    """A column that only numbers the rows: 1, 2, 3 under "No."."""
    if column.heading.casefold().strip(" .:_") not in COUNTERS or not column.numeric:
        return False
    return bool(column.heading) and [b - a for a, b in pairwise(column.values)] == [1.0] * (len(column.values) - 1)


def goes_by(column: SheetColumn) -> bool:
    """A column of plain numbers whose heading says that they are a time that goes by."""
    if column.kind != "number" or _FOUND_OUT.search(column.heading):
        return False
    if column.unit not in TIME_UNITS | {NO_UNIT}:
        return False
    if column.unit != NO_UNIT and (unit_named(column.plain) or "") in TIME_UNITS:
        return True
    word = _time_word(column)
    counted = re.sub(r"\s*(?:number|no\.?|#)$", "", word)
    timely = word in TIME_NAMES or counted in TIME_NAMES | {"week", "weeks", "month", "months", "year", "years", "zeit"}
    return timely or word.startswith(("time", "elapsed")) or word.endswith(" time")


def _time_word(column: SheetColumn) -> str:
    """What a heading calls its times: "minutes" of "minutes after exercise", "age" of "age in days"."""
    since = _SINCE.fullmatch(column.plain)
    return since[1] if since is not None and is_time_unit(since[1]) else column.plain.split(" in ")[0]


def time_of(column: SheetColumn, *, again: bool, unit: str = "") -> tuple[Times, str] | None:
    """The times of a column, and a doubt's name ("" for none): "unit", "pointed", "serial".

    again: the same time may come again for another thing. unit: a unit of time that somebody named for it.
    """
    heading = column.heading.casefold()
    if column.kind in ("words", "time", "number") and column.kind != "number":
        minutes_first = bool(_MINUTES_FIRST.search(column.heading)) or column.unit == "min" or unit == "min"
        found = times(column.cells, again=again, minutes_first=minutes_first)
        if found is None:
            return None
        stopwatch = found.kind == "elapsed" and not minutes_first and any(":" in cell for cell in column.cells)
        return found, "stopwatch" if stopwatch else ""
    if column.kind != "number":
        return None
    read = column.values[np.isfinite(column.values)]
    if not read.size:
        return None
    if heading.startswith("year") and all(_YEAR.fullmatch(cell) for cell in column.cells if cell):
        return times([f"1 Jan {cell}" if cell else "" for cell in column.cells], again=again), ""  # type: ignore[return-value]
    if heading.startswith(_DAY_HEADINGS) and _SERIALS[0] <= read.min() and read.max() <= _SERIALS[1]:
        seconds = [None if not np.isfinite(value) else (value + _SERIAL_ZERO) * DAY_S for value in column.values]
        return Times(seconds=tuple(seconds), kind="date", dated=True), "serial"
    if column.unit == NO_UNIT and not unit and heading.startswith(("time", "clock")):
        pointed = pointed_clocks(column.cells, again=again)
        if pointed is not None:
            return pointed, "pointed"
    return _elapsed(column, unit)


def _elapsed(column: SheetColumn, said: str) -> tuple[Times, str]:
    word = re.sub(r"\s*(?:number|no\.?|#)$", "", _time_word(column))
    unit = said or (column.unit if column.unit in TIME_UNITS else "") or unit_named(word) or ""
    unit = unit if unit in TIME_UNITS else {"hour": "h", "month": "month"}.get(word.rstrip("s"), "")
    second = {**SECONDS, "month": 365.25 / 12 * DAY_S}.get(unit or "s", 1.0)
    if column.durations:
        second = 1.0
    seconds = tuple(None if not np.isfinite(value) else float(value) * second for value in column.values)
    return Times(seconds=seconds, kind="elapsed"), "" if unit else "unit"
