"""A table of readings as a class measured them: a logger's columns over time, or one result a line."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import isfinite

import numpy as np
from numpy.typing import NDArray

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.records.findings import Finding
from sonify.records.timeline import FloatArray, frozen
from sonify.units import NO_UNIT

__all__ = ["NO_UNIT", "Column", "Table", "Writing", "complete_readings", "tries"]

#: A short text takes about so much memory.
LABEL_BYTES = 64

#: "Test 3", "2nd": a column that is one try of a reading.
_TRY = re.compile(r"(.*?)[\s_#.:-]*\d{1,2}(?:st|nd|rd|th)?")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Column:
    """One column of numbers, in `unit` (NO_UNIT where the file names none); nan where a reading is missing.

    name: what the column is called without its unit, the name of its quantity. heading: as the file has it.
    """

    name: str
    unit: str
    values: FloatArray
    heading: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "values", frozen(self.values))

    @property
    def read(self) -> FloatArray:
        """The readings that are there."""
        return self.values[np.isfinite(self.values)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Writing:
    """How the file was written: what the reader found out about it, in words."""

    encoding: str
    separator: str
    decimal: str
    above: int = 0  # lines above the table


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Table:
    """Readings in the order of time, or of the file where it has no time. Every array and `labels` has one entry a row.

    rows: the row of the file (1 is its first line) that each reading stands in.
    time_s: seconds from the first reading, never falling; None where no column is a time.
    time_kind: "elapsed", "clock", "date" or "" for none. start, end: the first and the last time, as people write it.
    start_day: the day of the first reading, counted from 1 January of the year 1, where the file tells it.
    clock_start: hour of the day at the first reading, where the file tells it.
    labels: what each row is about (the material), () where no column of words is there.
    findings: gaps, duplicates, spikes, columns without a unit: everything that was noticed, with row numbers.
    sha256: of the bytes of the file, so that a pack can say what it was made from.
    """

    file: str
    columns: tuple[Column, ...]
    rows: NDArray[np.int64]
    writing: Writing
    time_s: FloatArray | None = None
    time_heading: str = ""
    time_kind: str = ""
    start: str = ""
    end: str = ""
    start_day: int | None = None
    clock_start: float | None = None
    labels: tuple[str, ...] = ()
    label_heading: str = ""
    findings: tuple[Finding, ...] = ()
    sha256: str = ""

    def __post_init__(self) -> None:
        rows = np.array(self.rows, dtype=np.int64)
        rows.setflags(write=False)
        object.__setattr__(self, "rows", rows)
        if self.time_s is not None:
            object.__setattr__(self, "time_s", frozen(self.time_s))
            if self.time_s.shape != rows.shape or not np.all(np.diff(self.time_s) >= 0.0):
                raise ValueError("the times of a table never fall, one a row")
        if any(column.values.shape != rows.shape for column in self.columns) or len(self.labels) not in (0, rows.size):
            raise ValueError("every column of a table has one entry a row")

    @property
    def nbytes(self) -> int:
        """About how much memory the table takes: its arrays and its labels."""
        arrays = [
            self.rows,
            *(column.values for column in self.columns),
            *([] if self.time_s is None else [self.time_s]),
        ]
        return sum(array.nbytes for array in arrays) + LABEL_BYTES * len(self.labels)

    def column(self, name: str) -> Column:
        """The column of this name. Raises UnknownName with the nearest spelling."""
        for column in self.columns:
            if column.name == name:
                return column
        raise UnknownName("column", name, [column.name for column in self.columns])


def tries(columns: Sequence[Column]) -> tuple[tuple[Column, tuple[Column, ...]], ...]:
    """Columns that are tries of one reading joined: "Test 1", "Test 2" and "Test 3" are the quantity "Test".

    Each quantity, with the readings of all its tries one after another, and the columns of its tries in order.
    """
    groups: dict[tuple[str, str], list[Column]] = {}
    for column in columns:
        found = _TRY.fullmatch(column.name)
        groups.setdefault(((found[1].strip() or "reading") if found else column.name, column.unit), []).append(column)
    joined = []
    for (name, unit), members in groups.items():
        every = np.concatenate([member.values for member in members])
        heading = ", ".join(member.heading for member in members)
        own = members[0].name if len(members) == 1 else name
        joined.append((Column(name=own, unit=unit, values=every, heading=heading), tuple(members)))
    return tuple(joined)


def complete_readings(table: Table) -> tuple[tuple[int, tuple[float, ...]], ...]:
    """Every try of a row that has a value of every quantity: (place of the row in the table, the values), in order.

    A quantity with fewer tries than another keeps its last: one mass beside three stretches.
    """
    groups = [members for _, members in tries(table.columns)]
    most = max(map(len, groups), default=0)
    found = []
    for row in range(table.rows.size):
        for number in range(most):
            values = tuple(float(members[min(number, len(members) - 1)].values[row]) for members in groups)
            if all(map(isfinite, values)):
                found.append((row, values))
    return tuple(found)
