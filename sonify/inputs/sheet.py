"""A sheet of cells as a person wrote them, before anybody has asked what they mean; and a CSV's text as one."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from itertools import islice

from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.inputs.logger_cells import looks_like_value
from sonify.inputs.logger_text import SAMPLE_LETTERS, SEPARATORS, decoded, refuse_open_quotes, separator_of
from sonify.records.fact import wrong
from sonify.records.table import Writing

#: A sheet of more rows than this is a logger's, and is read column by column (`inputs.logger`).
MOST_ROWS = 5_000
MOST_COLUMNS = 100
#: So many line ends are more rows than that, however many stand within cells.
SURELY_MANY = 4 * MOST_ROWS

Cells = Sequence[Sequence[str]]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sheet:
    """Rows of cells, each the text that a person sees. rows: the row of the file that each stands in.

    merged: cells drawn as one, as first row, first column, last row, last column (from 0). separator: what parts the
    cells of a CSV, "" for a spreadsheet, whose numbers have a decimal point whatever its reader sees.
    """

    name: str
    cells: Cells
    rows: tuple[int, ...]
    separator: str = ""
    merged: tuple[tuple[int, int, int, int], ...] = ()
    encoding: str = "UTF-8"

    def writing(self, decimal: str) -> Writing:
        """How the sheet was written, for a person."""
        separator = SEPARATORS[self.separator] if self.separator else ""
        return Writing(encoding=self.encoding, separator=separator, decimal="comma" if decimal == "," else "point")


def csv_sheet(data: bytes, *, file: str) -> Sheet | None:
    """The cells of a CSV; None where it has more rows than a class writes. Raises BadFile where it is no text."""
    if data.count(b"\n") > SURELY_MANY:  # before a long log is decoded twice
        return None
    text, _, encoding = decoded(data, file=file)
    separator = _separator_of(text)
    rows = _rows(text, separator, file)
    if len(rows) > MOST_ROWS:
        return None
    refuse_open_quotes(rows, file=file)
    if rows and len(rows[0]) <= 2 and rows[0] and rows[0][0].casefold().startswith("sep="):
        rows[0] = []
    width = max(map(len, rows), default=0)
    if width > MOST_COLUMNS:
        raise BadFile(file, wrong("error_readings-wide-sheet", columns=width, most=MOST_COLUMNS))
    return Sheet(name="", cells=rows, rows=tuple(range(1, len(rows) + 1)), separator=separator, encoding=encoding)


def _separator_of(text: str) -> str:
    """What stands between the cells; where no cell is a number, what stands in every line as often."""
    lines = [line for line in text[:SAMPLE_LETTERS].splitlines()[:100] if line.strip()]
    found = separator_of(text)
    if any(map(looks_like_value, (cell for line in lines for cell in line.split(found)))) and any(
        found in line for line in lines
    ):
        return found
    counts = {sign: [line.count(sign) for line in lines] for sign in "\t;,"}
    return max(
        counts, key=lambda sign: (sum(1 for each in counts[sign] if each), -len(set(counts[sign]))), default=found
    )


def _rows(text: str, separator: str, file: str) -> list[list[str]]:
    """The first rows of a text, one more than a sheet may have."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, skipinitialspace=True)
    try:
        return list(islice(reader, MOST_ROWS + 1))
    except csv.Error:  # a cell of more than 131,072 letters
        raise BadFile(file, wrong("error_readings-endless-cell"), line=reader.line_num or None) from None
