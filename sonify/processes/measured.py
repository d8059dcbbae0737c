"""Measured: the class's own readings over time. Nothing is computed but means and stretches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

import numpy as np

from sonify.errors import BadCondition, SonifyError
from sonify.processes.declared import quantities
from sonify.processes.measured_stretches import WITHIN, Stretch, stretches
from sonify.processes.measured_words import Telling, told_apart
from sonify.processes.readings import gaps_told, in_order, specs_of
from sonify.processes.telling import Stretch as Told
from sonify.records.experiment import Experiment
from sonify.records.fact import Amount, Words, fact, wrong
from sonify.records.process import ConditionSpec, ProcessSpec, QuantitySpec, StageSpec
from sonify.records.table import Table
from sonify.records.timeline import FloatArray, Stage, Timeline
from sonify.science.series import equal_means

#: More readings than this are made means over equal stretches of time: no ear and no sheet shows more.
MOST_SAMPLES = 4000
MOST_STRETCHES = 8
#: Up to two days the hour of the day is worth printing.
CLOCK_SPAN_S = 2 * 86_400.0

CONDITIONS = (
    ConditionSpec(
        name="level",
        meaning=fact("measured-condition-level"),
        unit="%",
        si_unit="1",
        default=0.10,
        low=0.01,
        high=0.50,
    ),
    ConditionSpec(
        name="stretches",
        meaning=fact("measured-condition-stretches"),
        unit="1",
        si_unit="1",
        default=6,
        low=2,
        high=MOST_STRETCHES,
        whole=True,
    ),
    ConditionSpec(
        name="follow",
        meaning=fact("measured-condition-follow"),
        unit="1",
        si_unit="1",
        default=1,
        low=1,
        high=50,
        whole=True,
    ),
    ConditionSpec(
        name="interval",
        meaning=fact("measured-condition-interval"),
        unit="s",
        si_unit="s",
        default=60.0,
        low=1e-3,
        high=4e7,
    ),
)

_WITHIN = Amount(value=100.0 * WITHIN, unit="%", given="a choice of our own, in measured_stretches")
STAGES = tuple(
    StageSpec(
        name=f"stretch {number}",
        title=fact("measured-stage", number=str(number)),
        seen_as=fact("measured-seen", within=_WITHIN),
    )
    for number in range(1, MOST_STRETCHES + 1)
)

HONESTY = (
    fact("measured-honesty-readings"),
    fact("measured-honesty-rule", within=_WITHIN),
    fact("measured-honesty-instrument"),
)


def for_table(table: Table) -> ProcessSpec:
    """The process with one table's quantities. Raises BadFile where the table has too few times."""
    specs = specs_of(table.columns)
    return replace(
        PROCESS,
        quantities=specs,
        run=partial(run, table, specs),
        honesty=(*HONESTY, *_about(table)),
        for_table=None,
    )


def for_experiment(experiment: Experiment) -> ProcessSpec:
    """The process with one experiment's series. Raises BadFile where they are not over time, or too few."""
    from sonify.processes.measured_experiment import for_experiment as fitted  # it tells what this module declares

    return fitted(PROCESS, for_table, experiment)


def _about(table: Table) -> list[Words]:
    """What was done to this very table."""
    found: list[Words] = []
    found += gaps_told({column.name: ~np.isnan(column.values) for column in table.columns})
    if table.rows.size > MOST_SAMPLES:
        found.append(fact("measured-honesty-means", rows=str(table.rows.size), means=str(MOST_SAMPLES)))
    if table.time_s is None:
        found.append(fact("measured-honesty-no-times", condition="interval"))
    return found


def run(table: Table, specs: tuple[QuantitySpec, ...], conditions: Mapping[str, float]) -> Timeline:
    """The readings in order, with the stretches found in one column.

    Raises BadCondition where there is no such column, BadFile where the table has too few times.
    """
    followed = round(conditions["follow"])
    if followed > len(specs):
        raise BadCondition("follow", wrong("error_readings-follow", given=followed, count=len(specs)))
    spec = specs[followed - 1]
    raw_s, raw = in_order(table, conditions["interval"])
    found = stretches(raw_s, raw[spec.name], conditions["level"], round(conditions["stretches"]))
    time_s, values = _heard(raw_s, raw)
    begins, made = float(raw_s[0]), quantities(specs, values)
    told = Telling(whole=Told.whole(time_s - begins, made), table=table, name=spec.name, level=conditions["level"])
    return Timeline(
        process=PROCESS.name,
        time_s=time_s - begins,
        quantities=made,
        stages=_stages(told, found, begins),
        events=told.events(),
        clock_start=table.clock_start if raw_s[-1] - begins < CLOCK_SPAN_S else None,
    )


def _heard(time_s: FloatArray, values: Mapping[str, FloatArray]) -> tuple[FloatArray, Mapping[str, FloatArray]]:
    """The readings, or means over equal stretches where there are very many; first and last time are kept."""
    if time_s.size <= MOST_SAMPLES:
        return time_s, values
    edges = np.linspace(time_s[0], time_s[-1], MOST_SAMPLES + 1)
    middles = 0.5 * (edges[1:] + edges[:-1])
    at = np.concatenate([edges[:1], middles[1:-1], edges[-1:]])
    return at, {name: equal_means(time_s, each, edges) for name, each in values.items()}


def _stages(told: Telling, found: tuple[Stretch, ...], begins: float) -> tuple[Stage, ...]:
    named = [
        (STAGES[number].name, replace(each, start_s=each.start_s - begins, end_s=each.end_s - begins))
        for number, each in enumerate(found)
    ]
    titles = told_apart([told.title(stretch, number) for number, (_, stretch) in enumerate(named)])
    return tuple(
        Stage(
            name=name,
            title=title,
            start_s=stretch.start_s,
            end_s=stretch.end_s,
            science=told.science(name, stretch),
        )
        for (name, stretch), title in zip(named, titles, strict=True)
    )


def without_table(conditions: Mapping[str, float]) -> Timeline:
    """Refuse: there is nothing to play."""
    raise SonifyError(wrong("error_readings-name-the-file"))


PROCESS = ProcessSpec(
    name="measured",
    title=fact("measured-title"),
    summary=fact("measured-summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=(),
    run=without_table,
    honesty=HONESTY,
    sources=("BELLMAN-1961", "DOWNING-SOCIE-1982", "OPENSTAX-CALC2", "TUKEY-1977"),
    for_table=for_table,
    for_experiment=for_experiment,
)
