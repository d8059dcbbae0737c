"""The bytes of a logger's CSV or of a table of results as a Table: what really stands in such files, and what is odd.

`csv` of Python's own library parts the cells and numpy holds the numbers: no further library is installed for it, rows
keep their numbers, and nothing that bytes can hold brings it down.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.inputs import logger_checks as checks
from sonify.inputs.document import one_line
from sonify.inputs.logger_columns import NumberFormat, Read, mixed_units, read_columns, readable_unit
from sonify.inputs.logger_layout import Layout, Place, layout_of, unlike
from sonify.inputs.logger_moments import Moments, moments
from sonify.inputs.logger_text import SEPARATORS, decoded, refuse_open_quotes, sample_rows, separator_of
from sonify.records.fact import fact, wrong
from sonify.records.findings import Finding
from sonify.records.table import NO_UNIT, Column, Table, Writing

#: Fewer rows than this are no table.
LEAST_ROWS = 2
LONGEST_LABEL = 40


def read_table(data: bytes, *, file: str) -> Table:
    """The readings of a file.

    Args:
        data: the whole file: a header or none, comma, semicolon or tab, decimal point or comma, UTF-8, UTF-16 or
            Windows-1252, times as clock, date or elapsed time, or a column of words for a table of results.
        file: its name, for messages.

    Raises BadFile with one clear message where no table of numbers can be made of it. Whatever else is odd is kept and
    told in the table's `findings`, with the rows of the file.
    """
    file = one_line(file, 100)
    text, codec, encoding = decoded(data, file=file)
    separator = separator_of(text)
    sample = sample_rows(text, separator)
    refuse_open_quotes(sample, file=file)
    layout = layout_of(sample, separator, file=file)
    del text  # the cells are read from the bytes, a chunk at a time
    read = read_columns(data, codec, separator, layout, file=file)
    when = moments(layout, read)
    kept = _kept(layout, read, when, file)
    columns, told = _columns(layout, read, kept, file, named=not when.kind and bool(layout.of("words")))
    time_s = when.seconds[kept.at] if when.kind else None
    labels, label = _labels(layout, read, kept) if time_s is None else ((), "")
    rows = read.rows[kept.at]
    findings = [
        *kept.findings,
        *when.findings,
        *told,
        *_unplayed(layout, read, bool(when.kind)),
        *_writing_notes(layout, read),
    ]
    if time_s is not None:
        time_s = time_s - time_s[0]
        findings += checks.time_findings(time_s, rows, when.heading)
    return Table(
        file=file,
        columns=columns,
        rows=rows,
        writing=Writing(
            encoding=encoding,
            separator=SEPARATORS[separator] if layout.width > 1 else "",
            decimal="comma" if layout.numerals.sign == "," else "point",
            above=layout.first - (1 if layout.headed else 0),
        ),
        time_s=time_s,
        time_heading=when.heading if when.kind else "",
        time_kind=when.kind,
        start=when.text(kept.at[0]),
        end=when.text(kept.at[-1]),
        start_day=when.day(kept.at[0]),
        clock_start=when.clock_h(kept.at[0]),
        labels=labels,
        label_heading=label,
        findings=tuple(findings),
        sha256=hashlib.sha256(data).hexdigest(),
    )


@dataclass(frozen=True, slots=True)
class _Kept:
    """Which rows are kept, in which order (places in what was read), and what is told about the others."""

    at: NDArray[np.intp]
    findings: tuple[Finding, ...]


def _kept(layout: Layout, read: Read, when: Moments, file: str) -> _Kept:
    """Rows that hold a reading (and a time, where there is one), in the order of time."""
    some = _with_readings(layout, read, file)
    timed = np.isfinite(when.seconds) if when.kind else np.ones(some.size, dtype=bool)
    # A row may hold no reading and still have its place: by its time, by its label, or between two that have readings.
    if when.kind:
        hold = some | timed
    elif layout.of("words"):
        hold = some | _worded(layout, read)
    else:
        hold = np.cumsum(some).astype(bool) & np.cumsum(some[::-1])[::-1].astype(bool)
    keep = np.flatnonzero(hold & timed)
    if keep.size < LEAST_ROWS:
        rows, of_time = "one" if keep.size else "none", "yes" if when.kind else "no"
        raise BadFile(file, wrong("error_readings-few-rows", rows=rows, timed=of_time, least=LEAST_ROWS))
    findings: list[Finding] = []
    if (lost := read.rows[hold & ~timed]).size:
        findings.append(checks.note("no-time", when.heading, fix=True, rows=checks.rows_told(lost.tolist())))
    if (empty := read.rows[~hold]).size:
        findings.append(checks.note("no-reading", rows=checks.rows_told(empty.tolist())))
    order = np.argsort(when.seconds[keep], kind="stable") if when.kind else np.arange(keep.size)
    if np.any(np.diff(order) < 0):
        back = read.rows[keep][1:][np.diff(when.seconds[keep]) < 0.0]
        findings.append(checks.note("time-back", when.heading, rows=checks.rows_told(back.tolist())))
    return _Kept(keep[order], tuple(findings))


def _with_readings(layout: Layout, read: Read, file: str) -> NDArray[np.bool_]:
    """Rows that hold a reading in any column. Raises BadFile where none does."""
    places = layout.of("number")
    if not places and not layout.of("nothing"):
        raise BadFile(file, wrong("error_readings-no-numbers-beside"))
    found = np.zeros(read.rows.size, dtype=bool)
    for place in places:
        found |= np.isfinite(read.numbers[place.at].values)
    if not found.any():
        raise BadFile(file, wrong("error_readings-only-gaps"))
    return found


def _worded(layout: Layout, read: Read) -> NDArray[np.bool_]:
    """Rows whose label says what the row is about."""
    return np.array([bool(word.strip()) for word in read.words[layout.of("words")[0].at]], dtype=bool)


def _columns(
    layout: Layout, read: Read, kept: _Kept, file: str, *, named: bool
) -> tuple[tuple[Column, ...], list[Finding]]:
    """The columns to be played, and what is told about each."""
    places = layout.of("number")
    units = _declared_units(layout, read, kept, file)
    columns: list[Column] = []
    findings: list[Finding] = []
    for place, name in zip(places, unlike(place.name for place in places), strict=True):
        numbers = read.numbers[place.at]
        values = numbers.values[kept.at]
        if not np.isfinite(values).any():
            findings += checks.left_out([name], fact("logger-why-missing"))
            continue
        unit = _unit_of(place, numbers, units)
        columns.append(Column(name=name, unit=unit, values=values, heading=place.heading))
        findings += checks.odd_findings(name, numbers.odd, numbers.odd_count)
        findings += checks.column_findings(name, unit, values, read.rows[kept.at], named=named)
        if unit == NO_UNIT:
            findings.append(checks.note("no-unit", name, fix=True))
    if not columns:
        raise BadFile(file, wrong("error_readings-none-timed"))
    return tuple(columns), findings


def _unit_of(place: Place, numbers: NumberFormat, declared: dict[int, str]) -> str:
    unit = numbers.unit if numbers.unit and place.unit == NO_UNIT else place.unit
    return declared.get(place.at, NO_UNIT) if unit == NO_UNIT else unit


def _declared_units(layout: Layout, read: Read, kept: _Kept, file: str) -> dict[int, str]:
    """The unit of the column before a column of units. Raises BadFile where it names more than one."""
    found: dict[int, str] = {}
    for place in layout.of("units"):
        owner = next((p for p in reversed(layout.of("number")) if p.at < place.at), None)
        words = read.words[place.at]
        written = [(int(read.rows[at]), words[at].strip()) for at in kept.at.tolist() if words[at].strip()]
        if owner is None or not written:
            continue
        units = [(row, readable_unit(word) or word) for row, word in written]
        other = next((row for row, unit in units if unit != units[0][1]), None)
        if other is not None:
            named = dict(written)[other]
            raise mixed_units(file, owner.heading or owner.name, units[0][1], named, other)
        found[owner.at] = readable_unit(units[0][1]) or NO_UNIT
    return found


def _labels(layout: Layout, read: Read, kept: _Kept) -> tuple[tuple[str, ...], str]:
    for place in layout.of("words"):
        words = read.words[place.at]
        labels = [one_line(" ".join(words[at].split()), LONGEST_LABEL) for at in kept.at.tolist()]
        return tuple(
            label or f"row {read.rows[at]}" for label, at in zip(labels, kept.at.tolist(), strict=True)
        ), place.name
    return (), ""


def _unplayed(layout: Layout, read: Read, timed: bool) -> list[Finding]:
    """Columns that hold something and are not played."""
    words = layout.of("words") if timed else layout.of("words")[1:]
    found = checks.left_out([place.name for place in words], fact("logger-why-words"))
    found += checks.left_out([place.name for place in layout.of("counter")], fact("logger-why-counts"))
    return found


def _writing_notes(layout: Layout, read: Read) -> list[Finding]:
    """What was guessed of how the file is written, and rows that do not fit the table."""
    found: list[Finding] = []
    if not layout.headed:
        found.append(checks.note("no-headings", fix=True))
    if layout.numerals.guessed:
        sign = "decimal" if layout.numerals.sign == "," else "thousands"
        found.append(checks.note("comma", fix=True, sign=sign))
    if read.wide_count:
        found.append(checks.note("wide", fix=True, rows=checks.rows_told(read.wide, read.wide_count)))
    return found


__all__: Sequence[str] = ["read_table"]
