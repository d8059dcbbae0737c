"""A class's own columns as quantities: what unit they are in, what is known of them, readings put in order."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from sonify.constants import DAY_S
from sonify.errors import BadFile
from sonify.records.fact import Fact, Words, fact, wrong
from sonify.records.process import QuantitySpec
from sonify.records.table import NO_UNIT, Column, Table
from sonify.records.timeline import FloatArray
from sonify.units import convert, si

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
            meaning=_meaning(column),
        )
        for number, column in enumerate(columns, 1)
    )


def _meaning(column: Column) -> Words:
    if column.heading:
        return fact("measured-quantity", heading=column.heading)
    return fact("measured-quantity-nameless")


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
        raise BadFile(table.file, wrong("error_processes-readings-different-times", size=time_s.size))
    values = {}
    for column in table.columns:
        there = np.isfinite(column.values)
        counts = np.bincount(places[there], minlength=time_s.size)
        sums = np.bincount(places[there], weights=column.values[there], minlength=time_s.size)
        read = counts > 0
        means = np.interp(time_s, time_s[read], sums[read] / counts[read])
        values[column.name] = convert(means, column.unit, si(column.unit))
    return time_s, values


def gaps_told(read: Mapping[str, NDArray[np.bool_]]) -> list[Fact]:
    """What stands where nothing was read. read: for each quantity, in the order of its steps, whether it was.

    Between two readings a straight line; before the first and after the last of a quantity that reading itself.
    """
    between: list[Fact] = []
    open_ends: list[str] = []
    for name, there in read.items():
        at = np.flatnonzero(there)
        if not at.size:
            continue
        inside = int(np.count_nonzero(~there[at[0] : at[-1]]))
        if inside:
            between.append(fact("measured-honesty-gap", quantity=name, count=str(inside)))
        if at[0] > 0 or at[-1] < there.size - 1:
            open_ends.append(name)
    told = [fact("measured-honesty-gaps", gaps=tuple(between))] if between else []
    if open_ends:
        told.append(fact("measured-honesty-open-ends", quantities=tuple(open_ends), n=len(open_ends)))
    return told
