"""The sheets of a spreadsheet (.xlsx, .ods) as cells of text: python-calamine reads what `workbook_checks` lets by."""

from __future__ import annotations

import io
from datetime import date, datetime, time, timedelta
from typing import Any

from sonify.errors import BadFile
from sonify.inputs.document import one_line
from sonify.inputs.sheet import MOST_COLUMNS, MOST_ROWS, Sheet
from sonify.inputs.workbook_checks import checked
from sonify.records.fact import wrong
from sonify.records.words import date_text

ZIP = b"PK\x03\x04"
#: How workbooks of the older kind begin, and newer ones that are locked with a password.
OLD = b"\xd0\xcf\x11\xe0"
MOST_SHEETS = 50


def is_workbook(data: bytes, file: str) -> bool:
    """Whether a file's bytes, or its name, say that it is a spreadsheet."""
    return data.startswith((ZIP, OLD)) or file.casefold().endswith((".xlsx", ".xlsm", ".ods", ".xls", ".xlsb"))


def sheets_of(data: bytes, *, file: str) -> tuple[Sheet, ...]:
    """The sheets of a spreadsheet in which something stands. Raises BadFile where it cannot be opened safely."""
    from python_calamine import CalamineError, CalamineWorkbook, PasswordError, ZipError

    if data.startswith(OLD):
        raise BadFile(file, wrong("error_readings-older-workbook"))
    if not data.strip(b"\0 \t\r\n"):
        raise BadFile(file, wrong("error_readings-empty-file"))
    checked(data, file=file)
    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(data))
        found = [_sheet(book, name, file) for name in book.sheet_names[:MOST_SHEETS]]
    except (CalamineError, PasswordError, ZipError, ValueError, OverflowError) as error:
        if isinstance(error, BadFile):
            raise
        raise BadFile(file, wrong("error_readings-broken-workbook")) from None
    held = tuple(sheet for sheet in found if any(any(row) for row in sheet.cells))
    if not held:
        raise BadFile(file, wrong("error_readings-empty-workbook"))
    return held


def _sheet(book: Any, name: str, file: str) -> Sheet:
    sheet = book.get_sheet_by_name(name)
    if sheet.height > MOST_ROWS or sheet.width > MOST_COLUMNS:
        told = wrong(
            "error_readings-large-sheet",
            sheet=one_line(name, 40),
            rows=sheet.height,
            columns=sheet.width,
            most_rows=MOST_ROWS,
            most_columns=MOST_COLUMNS,
        )
        raise BadFile(file, told)
    top, left = sheet.start or (0, 0)
    cells = [[_text(cell) for cell in row] for row in sheet.to_python()]
    merged = tuple(
        (first[0] - top, first[1] - left, last[0] - top, last[1] - left)
        for first, last in sheet.merged_cell_ranges or ()
    )
    rows = tuple(range(top + 1, top + 1 + len(cells)))
    return Sheet(name=one_line(name, 60), cells=cells, rows=rows, merged=merged, encoding="spreadsheet")


def _text(cell: object) -> str:
    """A cell as a person sees it.

    >>> _text(12.0), _text(0.1 + 0.2), _text(time(9, 30)), _text(date(2026, 5, 4)), _text(True)
    ('12', '0.3', '09:30', '4 May 2026', 'yes')
    """
    match cell:
        case bool():
            return "yes" if cell else "no"
        case int() | float():
            return f"{cell:.12g}"
        case datetime():
            return f"{date_text(cell.toordinal())} {_clock(cell.time())}"
        case date():
            return date_text(cell.toordinal())
        case time():
            return _clock(cell)
        case timedelta():
            seconds = round(cell.total_seconds())
            return f"{seconds // 3600}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"
    return str(cell)


def _clock(moment: time) -> str:
    return f"{moment:%H:%M:%S}" if moment.second else f"{moment:%H:%M}"
