"""Results table: what a class found out about each of its materials, one turn a reading, and at the end all in order.

A table of results has no time. Every reading gets a turn of one length; the turns of one material are its stage, and in
the last stage the materials come once more, from the least to the most.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import groupby
from operator import itemgetter

import numpy as np

from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.kinds.timelines import TABLE
from sonify.processes.declared import quantities
from sonify.processes.measured import without_table
from sonify.processes.readings import specs_of
from sonify.processes.results_experiment import for_experiment as of_experiment
from sonify.processes.telling import Stretch
from sonify.records.experiment import Experiment
from sonify.records.fact import Amount, Arg, Claim, Fact, Words, fact, wrong
from sonify.records.process import ConditionSpec, ProcessSpec, QuantitySpec, StageSpec
from sonify.records.table import Column, Table, complete_readings, tries
from sonify.records.timeline import Event, FloatArray, Stage, Timeline
from sonify.science.repeats import mean_reading
from sonify.units import YES_OR_NO, convert, si

# What is told of a table of results: each material's readings, and all materials in the order of size. No time.


@dataclass(frozen=True, slots=True, kw_only=True)
class Results:
    """The quantities, turn after turn. time_s: when each turn begins and ends. names: the quantities in the order of
    the table, the first one ranks."""

    whole: Stretch
    time_s: FloatArray
    names: tuple[str, ...]

    def begins(self, number: int) -> float:
        return float(self.time_s[2 * number])

    def ends(self, number: int) -> float:
        return float(self.time_s[2 * number + 1])

    def turn(self, number: int) -> Stretch:
        """The moment at which a turn begins."""
        return self.whole.between(self.begins(number), self.begins(number))

    def turns(self, first: int, count: int) -> Stretch:
        """From the beginning of one turn to that of the last of `count`."""
        return self.whole.between(self.begins(first), self.begins(first + count - 1))

    def figure(self, number: int, name: str) -> Amount:
        return self.turn(number).figure(name, "first")


def told_material(results: Results, first: int, count: int, mean_turn: int, title: Arg) -> Fact:
    """The readings of one material, quantity by quantity. mean_turn: the turn in which its means come."""
    turns = range(first, first + count)
    clauses = tuple(_readings(results, name, turns, mean_turn) for name in results.names)
    return fact("results_table-material", material=title, readings=clauses)


def _readings(results: Results, name: str, turns: Sequence[int], mean_turn: int) -> Fact:
    figures = tuple(results.figure(number, name) for number in turns)
    if len({told(figure) for figure in figures}) == 1:
        return fact(f"results_table-reading{_answered(figures[0])}", quantity=name, reading=figures[0])
    return fact("results_table-readings", quantity=name, readings=figures, mean=results.figure(mean_turn, name))


def _answered(figure: Amount) -> str:
    """The end of a message's identifier where a figure is yes or no."""
    return "-answer" if figure.unit == YES_OR_NO else ""


def told_order(results: Results, first: int, ranked: Sequence[str]) -> Fact:
    """All materials from the least to the most of the first quantity, each with its mean."""
    name = results.names[0]
    span = results.turns(first, len(ranked))
    listed = tuple(
        fact("results_table-place", material=material, mean=results.figure(first + place, name))
        for place, material in enumerate(ranked)
    )
    if _alike(results, first, len(ranked)):
        return fact("results_table-alike", quantity=name, mean=results.figure(first, name))
    in_order = Claim(kind="never falls", left=span.reading(name, "change"))
    answered = _answered(results.figure(first, name))
    return fact(f"results_table-order{answered}", in_order, quantity=name, places=listed)


def order_events(results: Results, first: int, ranked: Sequence[str]) -> tuple[Event, ...]:
    """The two ends of the order; none where all materials are alike."""
    count, name = len(ranked), results.names[0]
    if _alike(results, first, count):
        return ()
    span = results.turns(first, count)
    found = []
    for which, place in (("least", 0), ("most", count - 1)):
        here = results.turn(first + place)
        ends = Claim(kind="same", left=here.reading(name, "first"), right=span.reading(name, which), slack=1e-9)
        mean = results.figure(first + place, name)
        # those whose mean is printed alike share the end
        shared = [n for n in range(count) if told(results.figure(first + n, name)) == told(mean)]
        text = fact(
            f"results_table-{which}{_answered(mean)}", ends, materials=tuple(ranked[n] for n in shared), mean=mean
        )
        found.append(Event(name=f"{which} {name}", time_s=here.start, text=text))
    return tuple(found)


def told(figure: Amount) -> str:
    """A figure as it is printed, to three digits."""
    return f"{figure.value:.3g}"


def _alike(results: Results, first: int, count: int) -> bool:
    """Whether all means are printed alike."""
    return len({told(results.figure(first + place, results.names[0])) for place in range(count)}) == 1


FEWEST, MOST = 2, 12
IN_ORDER = "in order"
#: So much of a turn lies between the last moment of one value and the first of the next, between stages too: the last
#: moment of a stage is its own value.
STEP = 1e-6

CONDITIONS = (
    ConditionSpec(
        name="turn",
        meaning=fact("results_table-condition-turn"),
        unit="min",
        si_unit="s",
        default=60.0,
        low=1.0,
        high=3600.0,
    ),
)

#: What a table without a heading is about.
MATERIAL = "material"


def _honesty(what: str) -> tuple[Words, ...]:
    """what: the heading of the column that says what each row is about."""
    return (
        fact("results_table-honesty-no-time"),
        fact("results_table-honesty-own", what=what),
        fact("results_table-honesty-fair", what=what),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One reading: whose it is, and its value of every quantity (SI)."""

    material: str
    values: tuple[float, ...]


def for_table(table: Table) -> ProcessSpec:
    """The process with one table's materials and quantities. Raises BadFile where the table cannot serve."""
    if table.time_s is not None or not table.labels:
        raise BadFile(table.file, wrong("error_readings-no-labels"))
    columns = tuple(column for column, _ in tries(table.columns))
    turns, lost = _turns(table, columns)
    materials = tuple(dict.fromkeys(turn.material for turn in turns))
    if IN_ORDER in materials:
        raise BadFile(table.file, wrong("error_readings-named-in-order", name=IN_ORDER))
    if not FEWEST <= len(materials) <= MOST:
        told = wrong(
            "error_readings-how-many", column=table.label_heading, count=len(materials), fewest=FEWEST, most=MOST
        )
        raise BadFile(table.file, told)
    specs, what = specs_of(columns), table.label_heading or MATERIAL
    return replace(
        PROCESS,
        stages=tuple(_stage_spec(material) for material in (*materials, IN_ORDER)),
        quantities=specs,
        run=partial(run, turns, specs),
        summary=fact("results_table-summary", what=what),
        honesty=(*_honesty(what), *lost),
        for_table=None,
    )


def for_experiment(experiment: Experiment) -> ProcessSpec:
    """The process with what was measured of one experiment's categories. Raises BadFile where it has none."""
    return of_experiment(for_table, experiment)


def _stage_spec(name: str) -> StageSpec:
    seen = "in-order" if name == IN_ORDER else "material"
    return StageSpec(name=name, title=_title(name), seen_as=fact(f"results_table-seen-{seen}"))


def _title(name: str) -> Fact | str:
    return fact("results_table-stage-in-order") if name == IN_ORDER else name[:1].upper() + name[1:]


def _turns(table: Table, columns: tuple[Column, ...]) -> tuple[tuple[Turn, ...], list[Words]]:
    """The readings in the order of the materials, and what is told of rows that are left out."""
    by_material: dict[str, list[Turn]] = {label: [] for label in table.labels}
    readings = complete_readings(table)
    for row, values in readings:
        in_si = (convert(value, column.unit, si(column.unit)) for value, column in zip(values, columns, strict=True))
        by_material[table.labels[row]].append(Turn(material=table.labels[row], values=tuple(in_si)))
    without = sorted(set(range(table.rows.size)) - {row for row, _ in readings})
    told: list[Words] = [fact("results_table-honesty-row-lost", row=str(table.rows[row])) for row in without]
    return tuple(turn for turns in by_material.values() for turn in turns), told


def run(turns: tuple[Turn, ...], specs: tuple[QuantitySpec, ...], conditions: Mapping[str, float]) -> Timeline:
    """Every reading's turn, and the materials in order of their mean of the first quantity."""
    means = _means(turns)
    ranked = sorted(means, key=lambda material: means[material][0])
    played = [*turns, *(Turn(material=IN_ORDER, values=tuple(means[material])) for material in ranked)]
    turn_s = conditions["turn"]
    time_s = _times([turn.material for turn in played], turn_s)
    values = {spec.name: np.repeat([turn.values[number] for turn in played], 2) for number, spec in enumerate(specs)}
    made = quantities(specs, values)
    results = Results(whole=Stretch.whole(time_s, made), time_s=time_s, names=tuple(spec.name for spec in specs))
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=_stages(turns, ranked, results),
        events=order_events(results, len(turns), ranked),
        kind=TABLE,
    )


def _times(materials: list[str], turn_s: float) -> FloatArray:
    """When each turn begins and ends. Those of one material, its stage, are of one length and begin on a whole turn."""
    found: list[tuple[float, float]] = []
    for _, group in groupby(enumerate(materials), key=itemgetter(1)):
        numbers = [number for number, _ in group]
        begins = [numbers[0] + place * (1.0 - STEP) for place in range(len(numbers))]
        ends = [begin - STEP for begin in begins[1:]] + [numbers[0] + len(numbers) * (1.0 - STEP)]
        found += zip(begins, ends, strict=True)
    return turn_s * np.array(found).ravel()


def _means(turns: tuple[Turn, ...]) -> dict[str, FloatArray]:
    """The mean reading of each material, of every quantity."""
    groups: dict[str, list[tuple[float, ...]]] = {}
    for turn in turns:
        groups.setdefault(turn.material, []).append(turn.values)
    return {material: mean_reading(np.array(values)) for material, values in groups.items()}


def _stages(turns: tuple[Turn, ...], ranked: list[str], results: Results) -> tuple[Stage, ...]:
    found, at = [], 0
    for material in dict.fromkeys(turn.material for turn in turns):
        own = sum(turn.material == material for turn in turns)
        mean_turn = len(turns) + ranked.index(material)
        told = told_material(results, at, own, mean_turn, _title(material))
        found.append(_stage(material, at, own, results, told))
        at += own
    return (*found, _stage(IN_ORDER, at, len(ranked), results, told_order(results, at, ranked)))


def _stage(name: str, first: int, count: int, results: Results, science: Words) -> Stage:
    start_s, end_s = results.begins(first), results.ends(first + count - 1)
    title, gathers = _title(name), name == IN_ORDER
    return Stage(name=name, title=title, start_s=start_s, end_s=end_s, science=science, gathers=gathers)


PROCESS = ProcessSpec(
    name="results-table",
    title=fact("results_table-title"),
    summary=fact("results_table-summary", what=MATERIAL),
    conditions=CONDITIONS,
    stages=(_stage_spec(IN_ORDER),),
    quantities=(),
    run=without_table,
    honesty=_honesty(MATERIAL),
    sources=("JCGM-100",),
    for_table=for_table,
    for_experiment=for_experiment,
)
