"""Small experiments made by hand, so that playing one is tested without reading a file. All readings are invented."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from sonify.records.experiment import Experiment, Series
from sonify.records.table import Table, Writing

DAY_S = 86_400.0
Tries = Sequence[Sequence[float]]


def series(quantity: str, tries: Tries, unit: str = "no unit", group: str = "", *, counted: bool = False) -> Series:
    """tries: one row a try, a value a step; nan where nothing was read."""
    every = np.array(tries, dtype=np.float64)
    read = np.isfinite(every).sum(axis=0)
    mean = np.where(read > 0, np.nansum(every, axis=0) / np.maximum(read, 1), np.nan)
    least, most = np.fmin.reduce(every), np.fmax.reduce(every)
    single = tuple(tuple(each[np.isfinite(each)].tolist()) for each in every.T)
    return Series(
        quantity=quantity,
        group=group,
        unit=unit,
        values=mean,
        least=least,
        most=most,
        tries=read,
        every=single if every.shape[0] > 1 else (),
        counted=counted,
    )


def experiment(
    shape: str,
    changed: str,
    unit: str,
    steps: Sequence[float],
    *found: Series,
    labels: Sequence[str] = (),
    kept: tuple[str, ...] = (),
) -> Experiment:
    table = Table(
        file="made.csv",
        columns=(),
        rows=np.arange(2, 2 + len(steps)),
        writing=Writing(encoding="UTF-8", separator="commas", decimal="point"),
    )
    groups = tuple(dict.fromkeys(each.group for each in found if each.group))
    return Experiment(
        shape=shape,
        changed=changed,
        changed_unit=unit,
        steps=np.array(steps, dtype=np.float64),
        labels=tuple(labels) or tuple(f"{step:g}" for step in steps),
        series=found,
        groups=groups,
        table=table,
        kept=kept,
    )


MAGNET = experiment(
    "number",
    "layers of paper",
    "no unit",
    [0, 1, 2, 4, 6, 8],
    series("paper clips", [[11, 9, 8, 5, 4, 3], [12, 9, 7, 6, 4, 3], [11, 10, 8, 5, 3, 3]], counted=True),
)
LOUDNESS = experiment("number", "distance", "m", [1, 2, 4, 8], series("loudness", [[80, 74.5, 68, 62]], "dB"))
BALLS = experiment(
    "number",
    "drop height",
    "cm",
    [20, 40, 60, 80],
    series("bounce height", [[11, 21, 30, 40]], "cm", "tennis ball"),
    series("bounce height", [[15, 30, 46, 61]], "cm", "rubber ball"),
)
PULSES = experiment(
    "before-after",
    "running",
    "",
    [0, 1],
    series("pulse", [[72, 110]], "1/min", "Ada"),
    series("pulse", [[80, 140]], "1/min", "Ben"),
    labels=["before", "after"],
)

SOILS = experiment(
    "categories",
    "soil",
    "",
    [0, 1, 2, 3],
    series("water", [[30, 4, 18, 55]], "ml", "after 1 minute"),
    series("water", [[62, np.nan, 40, 80]], "ml", "after 5 minutes"),
    labels=["sand", "clay", "loam", "gravel"],
)


def plants(places: Mapping[str, Sequence[float]]) -> Experiment:
    """Heights every third day, in each place."""
    days = [3 * number for number in range(len(next(iter(places.values()))))]
    found = (series("height", [heights], "cm", place) for place, heights in places.items())
    return experiment("time", "day", "s", [DAY_S * day for day in days], *found, labels=[str(day) for day in days])


PLANTS = plants(
    {
        "sill": [0, 2, 5, 11, 20, 32, 38, 44],
        "cupboard": [0, 1, 4, 9, 13, 15, 16, 16],
        "fridge": [0, 0, 0, 0, 0.5, 1, 1, 1.5],
    }
)
