"""Experiment: one number against another, or before and after. The piece walks along what the class changed.

Up to twelve steps each step is a stage in which everything measured is held, so what is heard is a value of the table
and nothing between two. More steps are walked without a stop, and stretches are found as in readings over time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

import numpy as np

from sonify.errors import BadFile
from sonify.kinds.experiments import BEFORE_AFTER, NUMBER, OVER_TIME
from sonify.kinds.timelines import AXIS, TABLE
from sonify.processes.cut_at_readings import Cut, cut_at_readings
from sonify.processes.declared import quantities
from sonify.processes.experiment_series import Measured, measured
from sonify.processes.experiment_words import Steps, Walk, stage_name
from sonify.processes.measured import MOST_STRETCHES, without_table
from sonify.processes.telling import Stretch
from sonify.records.experiment import Experiment
from sonify.records.fact import Words, fact
from sonify.records.process import ConditionSpec, ProcessSpec, QuantitySpec, StageSpec
from sonify.records.table import Table
from sonify.records.timeline import FloatArray, Stage, Timeline
from sonify.units import convert, si

#: So many steps are a stage each; more are walked along without a stop.
MOST_STEPS = 12
#: Two stages are parted by so little of a step's length, so that the last moment of one is its own value.
APART = 1e-6

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

_SHOULD_BE = {OVER_TIME: "measured", NUMBER: "experiment", BEFORE_AFTER: "experiment"}


def for_experiment(experiment: Experiment) -> ProcessSpec:
    """The process with one experiment's quantities and steps. Raises BadFile where it is of another shape."""
    if experiment.shape not in (NUMBER, BEFORE_AFTER):
        wanted = _SHOULD_BE.get(experiment.shape, "results-table")
        told = f'what was changed, {experiment.changed}, is not a number; write process = "{wanted}" in the scene'
        raise BadFile(experiment.table.file, told)
    found = measured(experiment)
    if found.steps.size < 2:
        raise BadFile(
            experiment.table.file, f"readings at one value of {experiment.changed}; two at least can be heard"
        )
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
        conditions=() if stepped else CONDITIONS,
        honesty=_honesty(found, stepped=stepped),
        for_table=None,
        for_experiment=None,
    )


def _names(found: Measured) -> list[str]:
    return [stage_name(found.experiment, at, label) for at, label in zip(found.steps, found.labels, strict=True)]


def _axis_spec(experiment: Experiment) -> tuple[QuantitySpec, ...]:
    """What was changed, as a quantity: there to be told and drawn, not to be heard."""
    if experiment.shape == BEFORE_AFTER:
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
    begins = (1.0 + APART) * np.arange(found.steps.size, dtype=np.float64)
    time_s = np.column_stack([begins, begins + 1.0]).ravel()
    made = quantities(specs, {name: np.repeat(each, 2) for name, each in values.items()})
    steps = Steps(found=found, whole=Stretch.whole(time_s, made), begins=begins)
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
    if experiment.shape == NUMBER:
        told.append(fact("experiment-honesty-walk", changed=experiment.changed))
        told.append(fact("experiment-honesty-held" if stepped else "experiment-honesty-between"))
    kept = fact("experiment-kept", kept=experiment.kept) if experiment.kept else ""
    told.append((fact("experiment-honesty-fair", changed=experiment.changed), kept))
    if experiment.groups:
        told.append(fact("experiment-honesty-groups", groups=experiment.groups))
    return (*told, *of_readings(found))


def of_readings(found: Measured) -> tuple[Words, ...]:
    """What was done to repeats and to empty cells."""
    told: list[Words] = []
    if found.experiment.repeated:
        told.append(fact("experiment-honesty-repeats"))
    if found.bridged:
        gaps = tuple(fact("measured-honesty-gap", quantity=name, count=str(n)) for name, n in found.bridged.items())
        told.append(fact("measured-honesty-gaps", gaps=gaps))
    return tuple(told)


def _without_roles(table: Table) -> ProcessSpec:
    """Refuse: which number was changed, nobody can tell."""
    told = "this process walks along what you changed; say which column that is, in a section [table] of the scene"
    raise BadFile(table.file, f'{told}, such as changed = "layers of paper"')


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
