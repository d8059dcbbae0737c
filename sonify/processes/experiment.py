"""Experiment: one number against another, before and after, or groups beside each other in one thing after another.

The piece walks along what the class changed.

Up to twelve steps each step is a stage in which everything measured is held, so what is heard is a value of the table
and nothing between two. More steps are walked without a stop, and stretches are found as in readings over time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

import numpy as np

from sonify.errors import BadFile
from sonify.kinds.experiments import BEFORE_AFTER, CATEGORIES, MOST_STEPS, NUMBER, REPEATS
from sonify.kinds.timelines import AXIS, TABLE
from sonify.processes.cut_at_readings import Cut, cut_at_readings
from sonify.processes.declared import quantities
from sonify.processes.experiment_series import Measured, measured, one_by_one
from sonify.processes.experiment_words import Steps, Walk, stage_name
from sonify.processes.measured import MOST_STRETCHES, without_table
from sonify.processes.readings import gaps_told
from sonify.processes.telling import Stretch
from sonify.records.experiment import Experiment
from sonify.records.fact import Words, fact, wrong
from sonify.records.process import ConditionSpec, ProcessSpec, QuantitySpec, StageSpec
from sonify.records.table import Table
from sonify.records.timeline import FloatArray, Stage, Timeline
from sonify.units import convert, si

#: Two stages are parted by so little of a step's length, so that the last moment of one is its own value.
APART = 1e-6
#: Two turns of one step: by less than rounding, so that the mean over the step is that of its repeats.
TURNS_APART = 1e-13

CONDITIONS = (
    ConditionSpec(
        name="level",
        meaning=fact("experiment-condition-level"),
        unit="%",
        si_unit="1",
        default=0.10,
        low=0.01,
        high=0.50,
    ),
    ConditionSpec(
        name="stretches",
        meaning=fact("experiment-condition-stretches"),
        unit="1",
        si_unit="1",
        default=6,
        low=2,
        high=MOST_STRETCHES,
        whole=True,
    ),
)

#: How repeats of one step are heard: all in their mean, or each with a turn of its own.
MEAN, ONE_BY_ONE = "mean", "one by one"
HOW_REPEATS = ConditionSpec(
    name=REPEATS,
    meaning=fact("experiment-condition-repeats"),
    unit="",
    si_unit="1",
    default=0.0,
    low=0.0,
    high=1.0,
    choices=(MEAN, ONE_BY_ONE),
)


def for_experiment(experiment: Experiment) -> ProcessSpec:
    """The process with one experiment's quantities and steps. Raises BadFile where it is of another shape."""
    if experiment.timed or (experiment.shape == CATEGORIES and not experiment.groups):
        wanted = "measured" if experiment.timed else "results-table"
        told = wrong("error_readings-changed-no-number", changed=experiment.changed, process=wanted)
        raise BadFile(experiment.table.file, told)
    found = measured(experiment)
    if experiment.named and found.steps.size > MOST_STEPS:
        raise too_many(experiment)
    if found.steps.size < 2:
        raise BadFile(experiment.table.file, wrong("error_readings-one-value", changed=experiment.changed))
    stepped = found.steps.size <= MOST_STEPS
    if stepped:
        stages = tuple(
            StageSpec(
                name=name,
                title=name[:1].upper() + name[1:],
                seen_as=fact("experiment-seen-step", changed=experiment.changed),
            )
            for name in _names(found)
        )
    else:
        seen = fact("experiment-seen-stretch", quantity=found.first.name)
        stages = tuple(
            StageSpec(name=f"stretch {number}", title=fact("measured-stage", number=str(number)), seen_as=seen)
            for number in range(1, MOST_STRETCHES + 1)
        )
    return replace(
        PROCESS,
        stages=stages,
        quantities=(*found.specs, *_axis_spec(experiment)),
        run=partial(_stepped if stepped else _walked, found),
        conditions=CONDITIONS if not stepped else (HOW_REPEATS,) if experiment.one_by_one else (),
        honesty=_honesty(found, stepped=stepped),
        for_table=None,
        for_experiment=None,
    )


def _names(found: Measured) -> list[str]:
    experiment = found.experiment
    if experiment.named:
        return [experiment.words[at] for at in np.flatnonzero(np.isin(experiment.steps, found.steps))]
    return [stage_name(experiment, at) for at in found.steps.tolist()]


def _axis_spec(experiment: Experiment) -> tuple[QuantitySpec, ...]:
    """What was changed, as a quantity: there to be told and drawn, not to be heard."""
    if experiment.named:
        return ()
    unit = experiment.changed_unit
    meaning = fact("experiment-quantity-changed", changed=experiment.changed)
    spec = QuantitySpec(
        name=experiment.changed, symbol="a", unit=unit, si_unit=si(unit), true_zero=False, meaning=meaning
    )
    return (spec,)


def _all(found: Measured) -> tuple[tuple[QuantitySpec, ...], dict[str, FloatArray]]:
    """Every quantity, what was changed the last, with its values at the steps (SI)."""
    axis = _axis_spec(found.experiment)
    values = dict(found.values)
    for spec in axis:
        values[spec.name] = convert(found.steps, spec.unit, spec.si_unit)
    return (*found.specs, *axis), values


def _stepped(found: Measured, conditions: Mapping[str, float]) -> Timeline:
    """Every step a stage of one length, each quantity held in it."""
    specs, values = _all(found)
    turns = {name: [np.array([value]) for value in each] for name, each in values.items()}
    singly = bool(conditions.get(REPEATS, 0.0))
    if singly:
        turns |= {name: one_by_one(found, name) for name in found.values}
    begins = (1.0 + APART) * np.arange(found.steps.size, dtype=np.float64)
    counts = [own.size for own in turns[found.first.name]]
    time_s = np.concatenate([begin + _turn_times(count) for begin, count in zip(begins, counts, strict=True)])
    held = {
        name: np.concatenate([np.resize(own, count).repeat(2) for own, count in zip(each, counts, strict=True)])
        for name, each in turns.items()
    }
    made = quantities(specs, held)
    steps = Steps(found=found, whole=Stretch.whole(time_s, made), begins=begins, singly=singly)
    stages = tuple(
        Stage(name=name, title=steps.title(number), start_s=begin, end_s=begin + 1.0, science=steps.science(number))
        for number, (name, begin) in enumerate(zip(_names(found), begins.tolist(), strict=True))
    )
    numbered = found.experiment.shape == NUMBER
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages,
        events=steps.events(),
        kind=AXIS if numbered else TABLE,
        axis=found.experiment.changed if numbered else "",
    )


def _turn_times(count: int) -> FloatArray:
    """When each of a step's turns begins and ends, from 0 to 1: the next begins a hair after the last ends."""
    edges = np.arange(1, count) / count
    return np.concatenate([[0.0], np.column_stack([edges - TURNS_APART, edges]).ravel(), [1.0]])


def _walked(found: Measured, conditions: Mapping[str, float]) -> Timeline:
    """Straight lines from step to step, and the stretches found in the first series."""
    specs, values = _all(found)
    along = found.steps - found.steps[0]
    made = quantities(specs, values)
    name = found.first.name
    cuts = cut_at_readings(along, values[name], conditions["level"], round(conditions["stretches"]))
    walk = Walk(found=found, whole=Stretch.whole(along, made))
    return Timeline(
        process=PROCESS.name,
        time_s=along,
        quantities=made,
        stages=tuple(_stretch(number, cut, along, walk) for number, cut in enumerate(cuts, 1)),
        events=walk.events(),
        kind=AXIS,
        axis=found.experiment.changed,
    )


def _stretch(number: int, cut: Cut, along: FloatArray, walk: Walk) -> Stage:
    return Stage(
        name=f"stretch {number}",
        title=walk.title(cut),
        start_s=float(along[cut.first]),
        end_s=float(along[cut.last]),
        science=walk.science(cut),
    )


def _honesty(found: Measured, *, stepped: bool) -> tuple[Words, ...]:
    """What is said of this very table, and of tables like it."""
    experiment = found.experiment
    told: list[Words] = [fact("experiment-honesty-own")]
    if experiment.shape == CATEGORIES:
        told += [fact("experiment-honesty-listed", changed=experiment.changed), fact("experiment-honesty-held")]
    if experiment.shape == NUMBER:
        told.append(fact("experiment-honesty-walk", changed=experiment.changed))
        told.append(fact("experiment-honesty-held" if stepped else "experiment-honesty-between"))
    kept = fact("experiment-kept", kept=experiment.kept) if experiment.kept else ""
    fair = fact("experiment-honesty-fair", changed=experiment.changed)
    told.append((fact("experiment-honesty-fair-between") if experiment.shape == BEFORE_AFTER else fair, kept))
    if experiment.groups:
        told.append(fact("experiment-honesty-groups", groups=experiment.groups))
    return (*told, *of_readings(found))


def of_readings(found: Measured) -> tuple[Words, ...]:
    """What was done to repeats and to empty cells."""
    told: list[Words] = []
    if found.experiment.model:
        told.append(fact(f"beside-{found.experiment.model}"))
    if found.experiment.repeated:
        told.append(fact("experiment-honesty-repeats"))
    if found.bridged and found.experiment.named:
        told.append(fact("experiment-honesty-unread", quantities=tuple(found.bridged)))
    else:
        told += gaps_told(found.read)
    return tuple(told)


def too_many(experiment: Experiment) -> BadFile:
    """Refuse more kinds of a thing than a class can share out and tell apart."""
    count = len(experiment.labels)
    told = wrong("error_readings-many-kinds", count=count, changed=experiment.changed, most=MOST_STEPS)
    return BadFile(experiment.table.file, told)


def _without_roles(table: Table) -> ProcessSpec:
    """Refuse: which number was changed, nobody can tell."""
    raise BadFile(table.file, wrong("error_readings-say-what-changed"))


PROCESS = ProcessSpec(
    name="experiment",
    title=fact("experiment-title"),
    summary=fact("experiment-summary"),
    conditions=CONDITIONS,
    stages=(),
    quantities=(),
    run=without_table,
    honesty=(fact("experiment-honesty-own"),),
    sources=("JCGM-100",),
    for_table=_without_roles,
    for_experiment=for_experiment,
)
