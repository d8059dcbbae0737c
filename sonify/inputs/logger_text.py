"""From the bytes of a logger's or a spreadsheet's file to its text, and how its cells are told apart."""

from __future__ import annotations

import csv
import io
import re
from codecs import BOM_UTF8, BOM_UTF16_BE, BOM_UTF16_LE
from collections.abc import Sequence
from contextlib import suppress
from typing import Literal

from sonify.errors import BadFile
from sonify.inputs.logger_cells import looks_like_value
from sonify.records.fact import wrong

#: Separators as people name them, the likelier first where two would do.
SEPARATORS = {"\t": "tabs", ";": "semicolons", ",": "commas", "|": "strokes"}
MOST_BYTES = 200_000_000
#: Enough of a file to see how it is written.
SAMPLE_LETTERS, SAMPLE_ROWS = 100_000, 300
#: A cell of more lines than this is a quotation mark that was never closed.
MOST_LINES_IN_A_CELL = 20

_QUOTING: dict[bool, Literal[0, 3]] = {True: csv.QUOTE_MINIMAL, False: csv.QUOTE_NONE}
_SAID = re.compile(r'"?sep=(.)"?\s*[\r\n]')
_WORKBOOKS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")  # how spreadsheet workbooks begin, the newer kind and the older


def decoded(data: bytes, *, file: str) -> tuple[str, str, str]:
    """The text of a file of readings, the codec that read it, and what people call the encoding.

    UTF-8, UTF-16 (with or without a byte order mark) or Windows-1252. Raises BadFile where the bytes are none of these.

    >>> decoded("Temp (°C)".encode("cp1252"), file="a.csv")
    ('Temp (°C)', 'cp1252', 'Windows-1252')
    """
    if len(data) > MOST_BYTES:
        raise BadFile(file, wrong("error_readings-over", most=MOST_BYTES // 1_000_000))
    if data.startswith(_WORKBOOKS):
        raise BadFile(file, wrong("error_readings-workbook"))
    if not data.strip(b" \t\r\n\0" + BOM_UTF8):
        raise BadFile(file, wrong("error_readings-empty-file"))
    for codec, name in (*_utf_codecs(data), ("cp1252", "Windows-1252")):
        try:
            text = data.decode(codec)
        except UnicodeDecodeError:
            continue
        if "\0" in text:
            break
        return text, codec, name
    raise BadFile(file, wrong("error_readings-no-text"))


def _utf_codecs(data: bytes) -> tuple[tuple[str, str], ...]:
    """The codec to try before Windows-1252. A byte order mark decides; without one, zeros in every second byte do."""
    if data.startswith((BOM_UTF16_LE, BOM_UTF16_BE)):
        return (("utf-16", "UTF-16"),)
    zeros = (data[:2000:2].count(0), data[1:2000:2].count(0))
    if max(zeros) > 0.6 * len(data[:2000:2]) and min(zeros) == 0:
        return (("utf-16-be" if zeros[0] else "utf-16-le", "UTF-16"),)
    return (("utf-8-sig", "UTF-8"),)


def sample_rows(text: str, separator: str, *, quoted: bool = True) -> list[list[str]]:
    """The first rows of the text, cell by cell; a cell without an end ends them (reading on will say so).

    quoted: quotation marks hold a cell together; False takes them for letters.
    """
    sample = text[:SAMPLE_LETTERS]
    if len(text) > SAMPLE_LETTERS:  # the last line may be cut
        sample = sample[: max(sample.rfind("\n"), sample.rfind("\r")) + 1] or sample
    rows: list[list[str]] = []
    with suppress(csv.Error):
        lines = io.StringIO(sample, newline="")
        for row in csv.reader(lines, delimiter=separator, skipinitialspace=True, quoting=_QUOTING[quoted]):
            rows.append(row)
            if len(rows) == SAMPLE_ROWS:
                break
    return rows


def refuse_open_quotes(rows: Sequence[Sequence[str]], *, file: str, before: int = 0) -> None:
    """Raise BadFile where a cell swallows many lines. before: how many rows of the file come before these."""
    number = _open_quotes(rows)
    if number is not None:
        raise BadFile(file, wrong("error_readings-open-quote"), line=before + number)


def _open_quotes(rows: Sequence[Sequence[str]]) -> int | None:
    """The first row, from 1, in which a cell swallows many lines."""
    for number, row in enumerate(rows, 1):
        if any(cell.count("\n") + cell.count("\r") > MOST_LINES_IN_A_CELL for cell in row):
            return number
    return None


def separator_of(text: str) -> str:
    """What stands between the cells: the separator under which most cells of the first rows are numbers or times."""
    said = _SAID.match(text)
    if said and said[1] in SEPARATORS:
        return said[1]
    return max(SEPARATORS, key=lambda separator: _score(text, separator))


def _score(text: str, separator: str) -> float:
    """How well a separator explains the first rows: cells that are values, in rows of the commonest width."""
    rows = sample_rows(text, separator)
    if _open_quotes(rows):  # the separator is found all the same; reading on will name the mark
        rows = sample_rows(text, separator, quoted=False)
    values = [sum(map(looks_like_value, row)) for row in rows]
    widths = [len(row) for row, count in zip(rows, values, strict=True) if count]
    if not widths:
        return 0.0
    width = max(set(widths), key=lambda each: (widths.count(each), each))
    score = float(sum(count for row, count in zip(rows, values, strict=True) if len(row) == width))
    first = next(number for number, row in enumerate(rows) if values[number] and len(row) == width)
    heading = next((row for row in rows[:first][::-1] if any(cell.strip() for cell in row)), None)
    # "14,5" under the heading "Temp" is one cell, not two.
    return score / 2.0 - 0.5 if heading is not None and len(heading) == 1 < width else score
