"""A class's own columns as quantities: what unit they are in, what is known of them, readings put in order."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.errors import BadFile
from sonify.records.process import QuantitySpec
from sonify.records.table import NO_UNIT, Column, Table
from sonify.records.timeline import FloatArray
from sonify.records.words import date_text, duration_text, measure_text
from sonify.units import convert, si

DAY_S = 86_400.0
YEAR_S = 365.25 * DAY_S


def specs_of(columns: tuple[Column, ...]) -> tuple[QuantitySpec, ...]:
    """Each column as a quantity. A true zero is believed of kelvin, and of anything else that never goes below it."""
    return tuple(
        QuantitySpec(
            name=column.name,
            symbol=f"x{number}",
            unit=column.unit,
            si_unit=si(column.unit),
            true_zero=_true_zero(column),
            meaning=f'the column "{column.heading}" of the file' if column.heading else "a column without a heading",
        )
        for number, column in enumerate(columns, 1)
    )


def _true_zero(column: Column) -> bool:
    unit = si(column.unit)
    if unit == "K":
        return not column.unit.startswith("delta_")
    return column.unit != NO_UNIT and unit != "dB" and float(column.read.min()) >= 0.0


def in_order(table: Table, interval_s: float) -> tuple[FloatArray, dict[str, FloatArray]]:
    """Rising times (s) and every column in SI: readings of one time made their mean, gaps bridged by straight lines.

    interval_s: time from row to row where the table has no times. Raises BadFile where fewer than three times are left.
    """
    given = table.time_s if table.time_s is not None else interval_s * np.arange(table.rows.size, dtype=np.float64)
    time_s, places = np.unique(given, return_inverse=True)
    if time_s.size < 3:
        raise BadFile(table.file, f"readings at {time_s.size} different times; a piece needs three at least")
    values = {}
    for column in table.columns:
        there = np.isfinite(column.values)
        counts = np.bincount(places[there], minlength=time_s.size)
        sums = np.bincount(places[there], weights=column.values[there], minlength=time_s.size)
        read = counts > 0
        means = np.interp(time_s, time_s[read], sums[read] / counts[read])
        values[column.name] = convert(means, column.unit, si(column.unit))
    return time_s, values


def bridged(table: Table) -> Mapping[str, int]:
    """How many readings each column lacks."""
    return {column.name: gaps for column in table.columns if (gaps := int(np.count_nonzero(np.isnan(column.values))))}


def figure(value_si: float, spec: QuantitySpec) -> str:
    """A value with its unit, as pupils read it."""
    return measure_text(float(convert(value_si, spec.si_unit, spec.unit)), spec.unit)


def moment(table: Table, time_s: float, span_s: float) -> str:
    """A time of the readings as people say it: the clock, the day, the month or the year, as the span asks for."""
    clock_s = None if table.clock_start is None else table.clock_start * 3600.0 + time_s
    clock = None if clock_s is None else f"{int(clock_s // 3600) % 24:02d}:{int(clock_s // 60) % 60:02d}"
    if table.start_day is not None:
        day = table.start_day + int(((table.clock_start or 0.0) * 3600.0 + time_s) // DAY_S)
        if clock and span_s < 2 * DAY_S:
            return clock
        if clock and span_s < 60 * DAY_S:
            return f"{date_text(day, 'dm')}, {clock}"
        return date_text(day, "dmy" if span_s < YEAR_S / 2 else "my" if span_s < 30 * YEAR_S else "y")
    if clock and span_s < DAY_S:
        return clock
    return duration_text(time_s) if time_s > 0.0 else "the start"
