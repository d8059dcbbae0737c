"""Whatever stands in the cells, a table is an experiment or is refused in one line, and its roles give it again."""

from __future__ import annotations

import random
import time

import numpy as np
import pytest

from sonify.errors import SonifyError
from sonify.inputs.experiment import read_experiment
from sonify.inputs.experiment_words import doubts_as_findings, understood
from sonify.records.experiment import Experiment
from sonify.say import say

CELLS = (
    [
        "0",
        "1",
        "2",
        "3",
        "14,5",
        "-3.2",
        "1e9",
        "12:30",
        "2026-03-02",
        "02/03/2026 10:00",
        "°C",
        "wool",
        "",
        "",
        '"',
        "n/a",
    ]
    + [
        "Temp (°C)",
        "Time (s)",
        "12 cm",
        "7 mm",
        "=1+1",
        "year",
        "1871",
        "1.234,5",
        "\x00",
        "é",
        "\u2028",
        "--",
        "9" * 50,
    ]
    + [
        "Test 1",
        "Test 2",
        "Mean",
        "Total",
        "Day 3",
        "Day",
        "Week 1",
        "9.30",
        "9.00am",
        "1:00",
        "12 May",
        "Monday",
        "||||",
    ]
    + [
        "yes",
        "no",
        "about 4",
        "<5",
        "½",
        "before",
        "after",
        "Pulse before",
        "Pulse after",
        "Height (cm)",
        "Plant",
        "sill",
    ]
    + [
        "A",
        "B",
        "cm",
        "s",
        "Trial",
        "2 min 5 s",
        "30 °C",
        "half past 9",
        "noon",
        "46146",
        "Notes",
        "start",
        "1/2",
        "none",
    ]
)


def told(found: Experiment) -> list[str]:
    noticed = [*doubts_as_findings(found), *found.table.findings]
    return [
        say(words) for words in (*understood(found), *(words for each in noticed for words in (each.message, each.fix)))
    ]


def shown(found: Experiment) -> tuple[object, ...]:
    series = [(each.name, each.unit, repr(each.values)) for each in found.series]
    return found.shape, found.changed, found.labels, found.groups, series, found.roles


@pytest.mark.parametrize("seed", range(4))
def test_any_cells(seed: int) -> None:
    rng = random.Random(seed)
    read = 0
    for _ in range(100):
        width = rng.randint(1, 6)
        kinds = [rng.sample(CELLS, rng.randint(1, 6)) for _ in range(width)]
        rows = [[rng.choice(kind) for kind in kinds] for _ in range(rng.randint(1, 12))]
        rows = [
            [rng.choice(CELLS) for _ in range(width)],
            *(row[: rng.choice([width, width, width, 2])] for row in rows),
        ]
        text = rng.choice(["\n", "\r\n"]).join(rng.choice(",;\t|").join(row) for row in rows)
        began = time.process_time()
        try:
            found = read_experiment(text.encode(), file="any.csv")
        except SonifyError as error:
            assert str(error).isprintable() and str(error).startswith("any.csv")
            continue
        read += 1
        assert all(map(str.isprintable, told(found)))
        assert all(np.isfinite(each.values).any() for each in found.series)
        assert shown(read_experiment(text.encode(), file="any.csv", roles=found.roles)) == shown(found)
        assert time.process_time() - began < 2.0
    assert read >= 10
