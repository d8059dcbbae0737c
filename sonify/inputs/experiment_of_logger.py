"""A logger's long table as an experiment: readings over time, each column a quantity of its own."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sonify.errors import BadFile, UnknownName
from sonify.inputs.logger import read_table
from sonify.inputs.sheet import MOST_ROWS
from sonify.inputs.workbook import is_workbook
from sonify.kinds.experiments import OVER_TIME
from sonify.records.experiment import Experiment, Roles, Series
from sonify.records.fact import wrong
from sonify.records.table import Column, Table

#: A table over time of more rows than this was written by a logger, not by hand.
BY_HAND = 40


def log_of(data: bytes, experiment: Experiment, *, file: str) -> Table | None:
    """A logger's readings: many, over time, with nothing compared and nothing repeated. None for any other file.

    Where the logger's reader finds other times than a class means (Week 1, Week 2; 1:00 after 12:00), it is no log.
    """
    many = experiment.timed and experiment.steps.size > BY_HAND
    if not many or experiment.groups or experiment.repeated or is_workbook(data, file):
        return None
    if experiment.table.rows.size > MOST_ROWS:
        return experiment.table
    try:
        table = read_table(data, file=file)
    except BadFile:
        return None
    same = table.time_s is not None and np.array_equal(np.unique(table.time_s), experiment.steps)
    return table if same and len(table.columns) >= len(experiment.quantities) else None


def logged(table: Table, said: Roles) -> Experiment:
    """The experiment of a table that is too long to have been written by hand.

    Raises BadFile where it has no times, UnknownName where a column was named that is not there.
    """
    if table.time_s is None:
        raise BadFile(table.file, wrong("error_readings-many-rows"))
    chosen = [_named(table, name) for name in said.measured] or list(table.columns)
    steps, place = np.unique(table.time_s, return_inverse=True)
    series = tuple(_series(column, place, steps.size) for column in chosen)
    unused = tuple(column.heading or column.name for column in table.columns if column not in chosen)
    measured = tuple(column.heading or column.name for column in chosen)
    return Experiment(
        shape=OVER_TIME,
        changed=table.time_heading,
        changed_unit="s",
        steps=steps,
        labels=(table.start, *("" for _ in range(steps.size - 2)), table.end),
        series=series,
        groups=(),
        table=table,
        unused=unused,
        roles=Roles(measured=measured, groups="", unused=unused),
    )


def _named(table: Table, name: str) -> Column:
    wanted = name.casefold()
    found = [each for each in table.columns if wanted in (each.heading.casefold(), each.name.casefold())]
    if not found:
        raise UnknownName("column", name, [each.heading or each.name for each in table.columns])
    return found[0]


def _series(column: Column, place: NDArray[np.intp], count: int) -> Series:
    there = np.isfinite(column.values)
    tries = np.bincount(place[there], minlength=count)
    total = np.bincount(place[there], weights=column.values[there], minlength=count)
    least, most = np.full(count, np.inf), np.full(count, -np.inf)
    np.minimum.at(least, place[there], column.values[there])
    np.maximum.at(most, place[there], column.values[there])
    none = tries == 0
    return Series(
        quantity=column.name,
        group="",
        unit=column.unit,
        values=np.where(none, np.nan, total / np.maximum(tries, 1)),
        least=np.where(none, np.nan, least),
        most=np.where(none, np.nan, most),
        tries=tries,
    )
