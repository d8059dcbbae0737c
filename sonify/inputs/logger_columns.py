"""The cells of a table, column by column and a chunk at a time, as numbers, words and texts of times."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from sonify.errors import BadFile
from sonify.inputs.document import one_line
from sonify.inputs.logger_cells import LARGEST, SMALLEST, Numerals, is_gap, number_and_unit
from sonify.inputs.logger_layout import Layout, Place
from sonify.inputs.logger_text import MOST_LINES_IN_A_CELL, refuse_open_quotes
from sonify.inputs.logger_times import MomentTexts, Texts
from sonify.inputs.logger_units import unit_named
from sonify.records.fact import wrong
from sonify.records.timeline import FloatArray
from sonify.units import NO_UNIT

#: Small enough to stay in the processor's own memory: 2,048 rows at a time read twice as fast as 65,536.
CHUNK_ROWS = 2048
#: Odd cells are kept for messages up to so many a column; the rest are counted.
MOST_ODD = 1000


@dataclass
class NumberFormat:
    """A column of numbers as it is read. odd: cells that are neither number nor gap, by row of the file."""

    place: Place
    numerals: Numerals
    file: str
    chunks: list[FloatArray] = field(default_factory=list)
    odd: dict[int, str] = field(default_factory=dict)
    odd_count: int = 0
    unit: str = ""

    def add(self, cells: Sequence[str], rows: NDArray[np.int64]) -> None:
        values = self._quickly(cells)
        if values is None:
            values = np.array([self._one(cell, int(row)) for cell, row in zip(cells, rows, strict=True)])
        else:
            size = np.abs(values)
            for at in np.flatnonzero((size > LARGEST) | ((size < SMALLEST) & (size > 0.0))).tolist():
                values[at] = self._one(cells[at], int(rows[at]))
        self.chunks.append(values)

    def _quickly(self, cells: Sequence[str]) -> FloatArray | None:
        """All cells at once, None where one is not a bare number: five times as fast as one by one."""
        joined = self.numerals.straightened("\n".join(cells))
        texts = joined.split("\n")
        if "_" in joined or len(texts) != len(cells):  # Python reads 1_000 as a number, people do not
            return None
        try:
            whole = texts if "" not in texts else [text or "nan" for text in texts]
            return np.fromiter(map(float, whole), dtype=np.float64, count=len(whole))
        except ValueError:
            return None

    def _one(self, cell: str, row: int) -> float:
        if is_gap(cell):
            return np.nan
        found = number_and_unit(cell)
        value = self.numerals.number(found[0]) if found else None
        if found is None or value is None or not (found[1] == "" or readable_unit(found[1])):
            self.odd_count += 1
            if len(self.odd) < MOST_ODD:
                self.odd[row] = cell.strip()
            return np.nan
        if found[1]:
            self._same_unit(found[1], row)
        return value

    def _same_unit(self, written: str, row: int) -> None:
        unit = readable_unit(written)
        known = self.unit or (self.place.unit if self.place.unit != NO_UNIT else "")
        if known and unit != known:
            raise mixed_units(self.file, self.place.heading or self.place.name, known, written, row)
        self.unit = unit

    @property
    def values(self) -> FloatArray:
        return np.concatenate(self.chunks) if self.chunks else np.zeros(0)


def readable_unit(written: str) -> str:
    """A unit that we know, or one plain word that only this file knows ("hops"); "" for anything else."""
    return unit_named(written) or (written if written.isascii() and written.isalpha() else "")


def mixed_units(file: str, heading: str, known: str, written: str, row: int) -> BadFile:
    """The message where one column is in two units."""
    known, written = one_line(known, 20), one_line(written, 20)
    told = wrong("error_readings-mixed-units", column=heading, name=heading, known=known, other=written)
    return BadFile(file, told, line=row)


@dataclass
class Read:
    """Everything that stands in the table. rows: the row of the file of each. Words and times by column."""

    numbers: dict[int, NumberFormat]
    words: dict[int, list[str]]
    times: dict[int, Texts]
    moments: dict[int, MomentTexts]
    row_chunks: list[NDArray[np.int64]] = field(default_factory=list)
    blank: int = 0
    wide: list[int] = field(default_factory=list)  # rows with more cells than the table has columns
    wide_count: int = 0

    @property
    def rows(self) -> NDArray[np.int64]:
        return np.concatenate(self.row_chunks) if self.row_chunks else np.zeros(0, dtype=np.int64)


def read_columns(data: bytes, codec: str, separator: str, layout: Layout, *, file: str) -> Read:
    """All cells of the table. Raises BadFile where a quotation mark is never closed, or a column has two units."""
    read = Read(
        numbers={
            p.at: NumberFormat(p, layout.numerals, file) for p in layout.of("number", "counter", "elapsed", "year")
        },
        words={place.at: [] for place in layout.of("words", "units")},
        times={place.at: Texts() for place in layout.of("date", "clock")},
        moments={place.at: MomentTexts() for place in layout.of("moment")},
    )
    first = 1
    for rows in _chunks(data, codec, separator, file=file):
        begins = max(layout.first + 1 - first, 0)
        kept = rows[begins:]
        numbers = np.arange(first + begins, first + begins + len(kept), dtype=np.int64)
        first += len(rows)
        if kept:
            _add(read, kept, numbers, layout.width)
    return read


def _add(read: Read, rows: list[list[str]], numbers: NDArray[np.int64], width: int) -> None:
    if set(map(len, rows)) != {width}:
        rows, numbers = _squared(read, rows, numbers, width)
    columns = list(zip(*rows, strict=True))
    if not columns:
        return
    read.row_chunks.append(numbers)
    for at, column in read.numbers.items():
        column.add(columns[at], numbers)
    for at, words in read.words.items():
        words.extend(columns[at])
    for at, texts in read.times.items():
        texts.add(columns[at])
    for at, moments in read.moments.items():
        moments.add(columns[at])


def _squared(
    read: Read, rows: list[list[str]], numbers: NDArray[np.int64], width: int
) -> tuple[list[list[str]], NDArray[np.int64]]:
    """Rows of one width: blank ones left out and counted, short ones filled up with gaps, wide ones noted and cut."""
    kept, places = [], []
    for row, number in zip(rows, numbers.tolist(), strict=True):
        if not any(cell and not cell.isspace() for cell in row):
            read.blank += 1
            continue
        if any(cell.strip() for cell in row[width:]):
            read.wide_count += 1
            if len(read.wide) < MOST_ODD:
                read.wide.append(number)
        kept.append((row + [""] * (width - len(row)))[:width])
        places.append(number)
    return kept, np.array(places, dtype=np.int64)


def _chunks(data: bytes, codec: str, separator: str, *, file: str) -> Iterator[list[list[str]]]:
    """The rows of the file, many at a time; the text is never held whole."""
    lines = io.TextIOWrapper(io.BytesIO(data), encoding=codec, newline="")
    reader = csv.reader(lines, delimiter=separator, skipinitialspace=True)
    seen = 0
    while True:
        before = reader.line_num
        try:
            rows = list(islice(reader, CHUNK_ROWS))
        except csv.Error:  # a cell of more than 131,072 letters
            raise BadFile(file, wrong("error_readings-endless-cell"), line=reader.line_num or None) from None
        if not rows:
            return
        if reader.line_num - before > len(rows) + MOST_LINES_IN_A_CELL:
            refuse_open_quotes(rows, file=file, before=seen)
        seen += len(rows)
        yield rows
