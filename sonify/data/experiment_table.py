"""A class's own table for the page: what each column was taken for, the guess in words, and what its graph shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from sonify.facts.graphs import LINE, Spot, Trace, of_table
from sonify.kinds.experiments import NUMBER, ROLES
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
    """The graph of what was measured first, as the sheets draw it: its kind, its axes, a series a group with the spread
    of the repeats. marks: what stands along the axis of what was changed, and where."""
    graph, shown = of_table(experiment), experiment.of(experiment.quantities[0])
    unit = graph.y.unit
    at = slice(None, None, max(1, len(experiment.labels) // MOST_POINTS))
    steps = [float(step) for step in experiment.steps]
    marks = [[step, label] for step, label in zip(steps[at], experiment.labels[at], strict=True)]
    if graph.x is not None:
        marks = [[tick, _figure(tick, graph.x.unit)] for tick in graph.x.ticks]
    return {
        "kind": graph.kind,
        "across": _axis_name(experiment.changed, graph.x.unit if graph.x is not None else ""),
        "up": _axis_name(graph.name, unit),
        "steps": steps[at],
        "marks": marks,
        "low": graph.y.ticks[0],
        "high": graph.y.ticks[-1],
        "ticks": [[tick, _figure(tick, unit)] for tick in graph.y.ticks],
        "series": [_series(trace, steps, unit, at) for trace in graph.traces],
        "fitted": fitted(experiment, shown),
        "joined": graph.kind == LINE,
    }


def _series(trace: Trace, steps: Sequence[float], unit: str, at: slice) -> dict[str, Any]:
    """A group's values, None where nothing was read, and how far its tries lie apart."""
    spots: dict[float, Spot] = {spot.x: spot for spot in trace.spots}
    there = [spots.get(step) for step in steps][at]
    return {
        "group": trace.name,
        "values": [None if spot is None else spot.y for spot in there],
        "least": [None if spot is None else spot.least for spot in there],
        "most": [None if spot is None else spot.most for spot in there],
        "shown": ["" if spot is None else _figure(spot.y, unit) for spot in there],
    }


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


def _figure(value: float, unit: str) -> str:
    plain = "1" if unit in (NO_UNIT, "") else unit
    return say(fact("value-alone", value=Amount(value=value, unit=plain, digits=4, given="a tick of an axis")))


def _axis_name(name: str, unit: str) -> str:
    plain = "" if unit in (NO_UNIT, "", "1") else printed(unit)
    return f"{name} ({plain})" if plain else name
