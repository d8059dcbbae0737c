"""Where the table of a file lies, and what each of its columns is: time, numbers, words, units."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.inputs.document import one_line
from sonify.inputs.logger_cells import Numerals, is_gap, looks_like_value, number_and_unit, numerals_of
from sonify.inputs.logger_times import (
    DATE_NAMES,
    TIME_NAMES,
    date_and_clock,
    is_clock,
    is_date,
    is_date_run_together,
)
from sonify.inputs.logger_units import TIME_UNITS, name_and_unit, unit_named
from sonify.records.fact import wrong
from sonify.units import NO_UNIT

MOST_COLUMNS = 50
LONGEST_NAME = 50
#: A column is what this share of its cells in the sample are.
MOST_OF_THEM = 0.6

COUNTERS = frozenset(
    ["", "no", "no.", "number", "nr", "index", "#", "reading", "record", "sample", "point", "row", "id", "n"]
)
GENERIC_LABELS = frozenset(
    ["material", "sample", "fabric", "cloth", "object", "item", "name", "type", "group", "pupil", "what"]
)
_UNIT_HEADINGS = frozenset(["unit", "units", "unit of measurement", "measured in"])

_YEAR = re.compile(r"[12]\d{3}(?:[.,]0+)?")
_DIFFERENCE = re.compile(r"\b(difference|anomaly|deviation|change|warmer|colder|cooler|rise|drop)\b", re.IGNORECASE)
#: Kinds of columns that a time is made of, the best first.
TIME_ROLES = ("moment", "date", "clock", "elapsed", "year")


@dataclass(frozen=True, slots=True)
class Place:
    """A column's place in the file and what it is.

    role: one of TIME_ROLES, "number", "words", "units", "counter", or "nothing". sure: False for a time column that
    names no unit of time.
    """

    at: int
    heading: str
    name: str
    unit: str
    role: str
    sure: bool = True


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the table begins (rows of the file, from 0) and what its columns are."""

    first: int
    headed: bool
    places: tuple[Place, ...]
    numerals: Numerals
    width: int

    def of(self, *roles: str) -> tuple[Place, ...]:
        return tuple(place for place in self.places if place.role in roles)


def layout_of(sample: Sequence[Sequence[str]], separator: str, *, file: str) -> Layout:
    """The layout of a file, from its first rows. Raises BadFile where there are no numbers, or too many columns."""
    values = [sum(map(looks_like_value, row)) for row in sample]
    widths = [len(row) for row, count in zip(sample, values, strict=True) if count]
    if not widths:
        raise BadFile(file, wrong("error_readings-no-numbers"))
    width = max(set(widths), key=lambda each: (widths.count(each), each))
    heading, units, first = _table_in(sample, values, width)
    width = max(width, len(heading))
    if width > MOST_COLUMNS:
        raise BadFile(file, wrong("error_readings-wide-table", columns=width, most=MOST_COLUMNS))
    body = [row for row in sample[first:] if any(cell.strip() for cell in row)]
    columns = [[row[at] for row in body if at < len(row) and not is_gap(row[at])] for at in range(width)]
    numerals = numerals_of((cell for cells in columns for cell in cells), separator)
    places = [
        _place(at, heading[at] if at < len(heading) else "", units.get(at, ""), columns[at], " ".join(heading))
        for at in range(width)
    ]
    return Layout(
        first=first, headed=bool(heading), places=_settled(places, columns, numerals), numerals=numerals, width=width
    )


def _table_in(
    sample: Sequence[Sequence[str]], values: Sequence[int], width: int
) -> tuple[list[str], dict[int, str], int]:
    """The row of headings ([] for none), the units beneath it by column, and the first row of readings.

    Headings are a row of words over more than half of the table; of several, those above the longest run of readings.
    """
    words = [
        number
        for number, row in enumerate(sample)
        if not values[number] and sum(1 for cell in row if not is_gap(cell)) > min(width, len(row)) // 2
        if width == 1 or len(row) > 1
    ]
    starts = [-1, *words, len(sample)]
    runs = {start: sum(1 for count in values[start + 1 : end] if count) for start, end in pairwise(starts)}
    start = max(runs, key=lambda each: (runs[each], each))
    if start < 0:
        return _without_headings(sample, values, width)
    heading = [one_line(cell.strip()) for cell in sample[start]]
    above = words[words.index(start) - 1] if words.index(start) else -2
    units = {at: unit for at, cell in enumerate(heading) if (unit := unit_named(cell.strip("()[]")))}
    if above == start - 1 and units and len(units) == sum(1 for cell in heading if cell and not is_gap(cell)):
        return [one_line(cell.strip()) for cell in sample[above]], units, start + 1
    return heading, {}, start + 1


def _without_headings(
    sample: Sequence[Sequence[str]], values: Sequence[int], width: int
) -> tuple[list[str], dict[int, str], int]:
    first = next(number for number, row in enumerate(sample) if values[number] and len(row) == width)
    row = [one_line(cell.strip()) for cell in sample[first]]
    # "Material, 1, 2, 3": headings that are numbers, over the first, second and third try.
    if any(cell.casefold() in GENERIC_LABELS for cell in row):
        return row, {}, first + 1
    return [], {}, first


def _place(at: int, heading: str, unit_below: str, cells: Sequence[str], headings: str) -> Place:
    name, unit = name_and_unit(heading, headings)
    unit = unit_below or unit
    if unit in ("degC", "degF") and _DIFFERENCE.search(heading):
        unit = f"delta_{unit}"  # 2 °C warmer than usual is not 275 K
    name = in_a_sentence(name[:LONGEST_NAME].strip()) or f"column {at + 1}"
    plain = name.casefold().strip(" .:_")
    place = Place(at, heading, name, unit, "nothing")
    if plain in _UNIT_HEADINGS and not _mostly(cells, looks_like_value):
        return replace(place, role="units" if cells else "nothing")
    if not cells:
        return place
    if plain in DATE_NAMES and _mostly(cells, is_date_run_together):
        return replace(place, role="date")
    if _mostly(cells, lambda cell: is_date(cell) or is_clock(cell) or all(date_and_clock(cell))):
        return replace(place, role=_time_role(cells))
    if _mostly(cells, lambda cell: number_and_unit(cell) is not None):
        return _numbers(place, plain, cells)
    return replace(place, role="words")


def in_a_sentence(name: str) -> str:
    """A heading as a quantity's name: "Temp" is temp, "JAN" and "pH" stay."""
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


def _time_role(cells: Sequence[str]) -> str:
    if _mostly(cells, is_clock):
        return "clock"
    return "date" if _mostly(cells, is_date) else "moment"


def _numbers(place: Place, plain: str, cells: Sequence[str]) -> Place:
    """A column of numbers is a time if its heading says so."""
    if plain.startswith(("year", "date")) and all(_YEAR.fullmatch(cell.strip()) for cell in cells):
        return replace(place, role="year")
    timely = plain in TIME_NAMES or plain.startswith(("time", "elapsed")) or plain.endswith(" time")
    if timely and place.unit in TIME_UNITS | {NO_UNIT}:
        return replace(place, role="elapsed", sure=place.unit != NO_UNIT)
    return replace(place, role="number")


def _settled(places: Sequence[Place], columns: Sequence[Sequence[str]], numerals: Numerals) -> tuple[Place, ...]:
    """Places as they stand together: counted rows told from readings, and a first column that must be the time."""
    found = list(places)
    timed = any(place.role in TIME_ROLES for place in found)
    for place in found:
        if place.role != "number" or not _counts(columns[place.at], numerals):
            continue
        others = sum(1 for other in found if other.role == "number") - 1
        headless = place.at == 0 and not any(other.heading for other in found)
        if place.unit in TIME_UNITS and place.at == 0 and not timed and others:
            found[place.at] = replace(place, role="elapsed")
        elif headless and not timed and others:
            found[place.at] = replace(place, role="elapsed", sure=False)
        elif place.name.casefold().strip(" .:_") in COUNTERS and others:
            found[place.at] = replace(place, role="counter")
    return tuple(found)


def _counts(cells: Sequence[str], numerals: Numerals) -> bool:
    """The numbers rise by equal steps: 1, 2, 3 or 0, 0.5, 1."""
    read = [number_and_unit(cell) for cell in cells]
    numbers = [numerals.number(each[0]) if each else None for each in read]
    if len(numbers) < 2 or any(number is None for number in numbers):
        return False
    steps = [b - a for a, b in pairwise(number for number in numbers if number is not None)]
    return steps[0] > 0.0 and max(steps) - min(steps) <= 1e-6 * max(abs(steps[0]), 1e-9)


def _mostly(cells: Sequence[str], holds: Callable[[str], bool]) -> bool:
    return bool(cells) and sum(map(holds, cells)) >= MOST_OF_THEM * len(cells)


def unlike(names: Iterable[str]) -> list[str]:
    """Names made different where two are the same.

    >>> unlike(["Temp", "Light", "temp"])
    ['Temp', 'Light', 'temp (2)']
    """
    found: list[str] = []
    for name in names:
        number, made = 1, name
        while made.casefold() in {each.casefold() for each in found}:
            number += 1
            made = f"{name} ({number})"
        found.append(made)
    return found
