"""Results table: what a class found out about each of its materials, one turn a reading, and at the end all in order.

A table of results has no time. Every reading gets a turn of one length; the turns of one material are its stage, and in
the last stage the materials come once more, from the least to the most.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from sonify.errors import BadFile
from sonify.processes.declared import quantities
from sonify.processes.measured import without_table
from sonify.processes.readings import figure, specs_of
from sonify.records.process import ConditionSpec, ProcessSpec, QuantitySpec, StageSpec
from sonify.records.table import Column, Table, complete_readings, tries
from sonify.records.timeline import Event, FloatArray, Stage, Timeline
from sonify.science.repeats import mean_reading
from sonify.units import convert, si

FEWEST, MOST = 2, 12
IN_ORDER = "in order"
#: A turn's value is held to so near its end; then comes the next turn's.
HELD = 1.0 - 1e-6

CONDITIONS = (
    ConditionSpec(
        name="turn",
        meaning="how long one reading's turn lasts on the time axis of the plots; the music does not change with it",
        unit="min",
        si_unit="s",
        default=60.0,
        low=1.0,
        high=3600.0,
    ),
)

HONESTY = (
    "A table of results has no time. On the plots every reading has a turn of one length, in the order of the table; "
    "at the end come all materials once more, from the least to the most.",
    "The results are the class's own. They tell of the samples that were tested, in the way they were tested: another "
    "piece of the same material can give another reading. Repeated readings show how far to trust the mean.",
    "The test is fair because everything but the material was the same. In the music the rule is the same for all "
    "materials as well, and so is the beat.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One reading: whose it is, and its value of every quantity (SI)."""

    material: str
    values: tuple[float, ...]


def for_table(table: Table) -> ProcessSpec:
    """The process with one table's materials and quantities. Raises BadFile where the table cannot serve."""
    if table.time_s is not None or not table.labels:
        told = "a table of results needs a column of words that says what each row is about, such as Material"
        raise BadFile(table.file, f"{told}, and no column of times")
    columns = tuple(column for column, _ in tries(table.columns))
    turns, lost = _turns(table, columns)
    materials = tuple(dict.fromkeys(turn.material for turn in turns))
    if IN_ORDER in materials:
        raise BadFile(table.file, f'"{IN_ORDER}" is the name of the last stage; give that material another')
    if not FEWEST <= len(materials) <= MOST:
        told = f"the column {table.label_heading} names {len(materials)} with complete readings"
        raise BadFile(table.file, f"{told}; {FEWEST} to {MOST} can be played, one stage each")
    specs = specs_of(columns)
    return replace(
        PROCESS,
        stages=tuple(_stage_spec(material) for material in (*materials, IN_ORDER)),
        quantities=specs,
        run=partial(run, turns, specs),
        honesty=(*HONESTY, *lost),
        for_table=None,
    )


def _stage_spec(name: str) -> StageSpec:
    seen = "once all readings have had their turn" if name == IN_ORDER else "while its readings have their turns"
    return StageSpec(name=name, title=_title(name), seen_as=seen)


def _title(name: str) -> str:
    return "From least to most" if name == IN_ORDER else name[:1].upper() + name[1:]


def _turns(table: Table, columns: tuple[Column, ...]) -> tuple[tuple[Turn, ...], list[str]]:
    """The readings in the order of the materials, and what is told of rows that are left out."""
    by_material: dict[str, list[Turn]] = {label: [] for label in table.labels}
    readings = complete_readings(table)
    for row, values in readings:
        in_si = (convert(value, column.unit, si(column.unit)) for value, column in zip(values, columns, strict=True))
        by_material[table.labels[row]].append(Turn(material=table.labels[row], values=tuple(in_si)))
    without = sorted(set(range(table.rows.size)) - {row for row, _ in readings})
    told = [f"No complete reading stands in row {table.rows[row]} of the file, so it has no turn." for row in without]
    return tuple(turn for turns in by_material.values() for turn in turns), told


def run(turns: tuple[Turn, ...], specs: tuple[QuantitySpec, ...], conditions: Mapping[str, float]) -> Timeline:
    """Every reading's turn, and the materials in order of their mean of the first quantity."""
    means = _means(turns)
    ranked = sorted(means, key=lambda material: means[material][0])
    played = [*turns, *(Turn(material=IN_ORDER, values=tuple(means[material])) for material in ranked)]
    turn_s = conditions["turn"]
    begins = turn_s * np.arange(len(played), dtype=np.float64)
    time_s = np.column_stack([begins, begins + HELD * turn_s]).ravel()
    time_s[-1] = turn_s * len(played)
    values = {spec.name: np.repeat([turn.values[number] for turn in played], 2) for number, spec in enumerate(specs)}
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=quantities(specs, values),
        stages=_stages(turns, specs, ranked, means, turn_s),
        events=_events(specs, ranked, means, turn_s * len(turns), turn_s),
    )


def _means(turns: tuple[Turn, ...]) -> dict[str, FloatArray]:
    """The mean reading of each material, of every quantity."""
    groups: dict[str, list[tuple[float, ...]]] = {}
    for turn in turns:
        groups.setdefault(turn.material, []).append(turn.values)
    return {material: mean_reading(np.array(values)) for material, values in groups.items()}


def _stages(
    turns: tuple[Turn, ...],
    specs: tuple[QuantitySpec, ...],
    ranked: list[str],
    means: Mapping[str, FloatArray],
    turn_s: float,
) -> tuple[Stage, ...]:
    found, at = [], 0
    for material in dict.fromkeys(turn.material for turn in turns):
        own = [turn for turn in turns if turn.material == material]
        found.append(
            Stage(
                name=material,
                title=_title(material),
                start_s=at * turn_s,
                end_s=(at + len(own)) * turn_s,
                science=_sentence(material, own, specs, means[material]),
            )
        )
        at += len(own)
    listed = ", ".join(f"{material} {figure(float(means[material][0]), specs[0])}" for material in ranked)
    science = f"In order of the {specs[0].name}, from the least to the most: {listed}."
    last = Stage(
        name=IN_ORDER, title=_title(IN_ORDER), start_s=at * turn_s, end_s=(at + len(ranked)) * turn_s, science=science
    )
    return (*found, last)


def _sentence(material: str, own: list[Turn], specs: tuple[QuantitySpec, ...], mean: FloatArray) -> str:
    told = []
    for number, spec in enumerate(specs):
        readings = [figure(turn.values[number], spec) for turn in own]
        middle = figure(float(mean[number]), spec)
        alike = len(set(readings)) == 1
        told.append(f"{spec.name} {middle}" if alike else f"{spec.name} {', '.join(readings)}, mean {middle}")
    return f"{_title(material)}: {'; '.join(told)}."


def _events(
    specs: tuple[QuantitySpec, ...], ranked: list[str], means: Mapping[str, FloatArray], begins: float, turn_s: float
) -> tuple[Event, ...]:
    """The two ends of the order."""
    spec = specs[0]
    least, most = (figure(float(means[material][0]), spec) for material in (ranked[0], ranked[-1]))
    return (
        Event(name=f"least {spec.name}", time_s=begins, text=f"The least: {ranked[0]}, {least}."),
        Event(
            name=f"most {spec.name}",
            time_s=begins + (len(ranked) - 1) * turn_s,
            text=f"The most: {ranked[-1]}, {most}.",
        ),
    )


PROCESS = ProcessSpec(
    name="results-table",
    title="Our own results",
    summary="What a class found out about each of its materials: one sound a material, the same rule for all.",
    conditions=CONDITIONS,
    stages=(_stage_spec(IN_ORDER),),
    quantities=(),
    run=without_table,
    honesty=HONESTY,
    sources=("JCGM-100",),
    for_table=for_table,
)
