"""A class's own table for the page: what each column was taken for, the guess in words, and what its graph shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from sonify.kinds.experiments import NUMBER, OVER_TIME, ROLES, SHAPES
from sonify.records.experiment import Experiment, SeenTable, Series
from sonify.records.fact import Amount, Words, fact
from sonify.say import say
from sonify.units import NO_UNIT, printed

#: A graph of more points than this is a logger's, and drawn thinner.
MOST_POINTS = 400
#: No line is fitted to fewer points: it would always fit.
LEAST_FITTED = 5


def experiment_facts(
    experiment: Experiment, seen: SeenTable, understood: Sequence[Words], *, shipped: bool
) -> dict[str, Any]:
    """Everything that Plan shows of a table. shipped: it is a ready-made scene's own."""
    return {
        "file": experiment.table.file,
        "columns": [
            {"label": each.label, "kind": each.kind, "role": each.role, "cells": list(each.cells)}
            for each in seen.columns
        ],
        "rows": seen.rows,
        "roles": [[role, say(fact("table-role", role=role))] for role in ROLES],
        "tables": list(seen.tables),
        "chosen": seen.chosen,
        "told": [say(each) for each in understood],
        "doubts": [say(each.says) for each in experiment.doubts],
        "shipped": shipped,
        "graph": graph_facts(experiment),
    }


def graph_facts(experiment: Experiment) -> dict[str, Any]:
    """The graph of what was measured first: its kind, its axes, a series a group with the spread of the repeats."""
    shown = experiment.of(experiment.quantities[0])
    unit = shown[0].unit
    every = max(1, len(experiment.labels) // MOST_POINTS)
    at = slice(None, None, every)
    low, high = axis(shown)
    return {
        "kind": SHAPES[experiment.shape].graph,
        "across": _axis_name(experiment.changed, experiment.changed_unit if experiment.shape == NUMBER else ""),
        "up": _axis_name(shown[0].quantity, unit),
        "steps": [float(step) for step in experiment.steps[at]],
        "labels": list(experiment.labels[at]),
        "low": low,
        "high": high,
        "ticks": [[tick, _figure(tick, unit)] for tick in (low, (low + high) / 2.0, high)],
        "series": [
            {
                "group": each.group,
                "values": _plain(each.values[at]),
                "least": _plain(each.least[at]),
                "most": _plain(each.most[at]),
                "shown": [_figure(float(value), unit) if np.isfinite(value) else "" for value in each.values[at]],
            }
            for each in shown
        ],
        "fitted": fitted(experiment, shown),
        "joined": experiment.shape == OVER_TIME,
    }


def axis(shown: Sequence[Series]) -> tuple[float, float]:
    """The ends of the axis upwards: from nothing where that is not far off, else around the readings."""
    least = min(float(np.nanmin(each.least)) for each in shown)
    most = max(float(np.nanmax(each.most)) for each in shown)
    if 0.0 <= least <= most and least < 0.6 * most:
        least = 0.0
    if least == most:
        return least - 1.0, most + 1.0
    step = 10.0 ** np.floor(np.log10(most - least)) / 2.0
    return float(np.floor(least / step) * step), float(np.ceil(most / step) * step)


def fitted(experiment: Experiment, shown: Sequence[Series]) -> list[list[float]]:
    """The straight line of least squares through number against number, as its two ends; [] where none is fair."""
    if experiment.shape != NUMBER or len(shown) > 1:
        return []
    there = np.isfinite(shown[0].values)
    steps, values = experiment.steps[there], shown[0].values[there]
    if values.size < LEAST_FITTED:
        return []
    slope, start = np.polyfit(steps, values, 1)
    return [[float(x), float(start + slope * x)] for x in (steps[0], steps[-1])]


def _plain(values: np.typing.NDArray[np.float64]) -> list[float | None]:
    return [float(f"{value:.6g}") if np.isfinite(value) else None for value in values]


def _figure(value: float, unit: str) -> str:
    plain = "1" if unit in (NO_UNIT, "") else unit
    return say(fact("value-alone", value=Amount(value=value, unit=plain, digits=4, given="a tick of an axis")))


def _axis_name(name: str, unit: str) -> str:
    plain = "" if unit in (NO_UNIT, "", "1") else printed(unit)
    return f"{name} ({plain})" if plain else name
