"""What is told of a class's table: what was understood, column by column, what was guessed, and what was noticed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from sonify.kinds.experiments import NUMBER
from sonify.records.experiment import Doubt, Experiment
from sonify.records.fact import Amount, Arg, Duration, Fact, Words, fact
from sonify.records.findings import Finding
from sonify.units import NO_UNIT

MOST_NAMED = 8
#: Why a figure of these sentences has no reading behind it: there is no Timeline yet.
AS_READ = "as read from the file"


def flag(option: str, value: str) -> str:
    """An option as it is typed.

    >>> flag("changed", "Day"), flag("measured", "Height (cm)")
    ('--changed Day', '--measured "Height (cm)"')
    """
    value = value.replace('"', "'")
    return f"--{option} {value}" if value.isalnum() else f'--{option} "{value}"'


def doubt(about: str, flag: str = "", **args: Arg) -> Doubt:
    """A guess, the sentence that tells it, and the option that settles it."""
    return Doubt(about=about, says=fact(f"table-doubt-{about}", **args), flag=flag)


def noticed(message: str, where: str = "", fix: Words = (), **args: Arg) -> Finding:
    """Something to know about a table, with what to do."""
    return Finding(kind="data", message=fact(f"table-{message}", **args), fix=fix, where=where, serious=False)


def listed(names: Iterable[str], most: int = MOST_NAMED) -> Arg:
    """Names for a sentence; beyond `most` they are counted."""
    every = list(dict.fromkeys(names))
    shown = tuple(every[:most])
    return fact("table-some", names=shown, more=len(every) - most) if len(every) > most else shown


def places(numbers: Sequence[int], *, across: bool) -> Fact:
    """Rows of the file as people read them; columns where the table lies on its side."""
    shown = tuple(str(number) for number in numbers[:MOST_NAMED])
    way = "column" if across else "row"
    return fact(
        "table-places", way=way, n=len(numbers), which=listed(map(str, numbers)), only=shown[0] if shown else ""
    )


def understood(experiment: Experiment) -> list[Words]:
    """What was understood of a table, a sentence a column, in the words of fair testing."""
    table, roles = experiment.table, experiment.roles
    told: list[Words] = [
        fact("table-understood-file", file=table.file, rows=int(table.rows.size), shape=experiment.shape)
    ]
    told.append(_changed(experiment))
    told += [_measured(experiment, quantity) for quantity in experiment.quantities]
    if experiment.groups:
        told.append(fact("table-understood-groups", groups=listed(experiment.groups), n=len(experiment.groups)))
    if roles is not None and roles.repeats:
        told.append(fact("table-understood-repeats", repeats=listed(roles.repeats)))
    elif experiment.repeated:
        told.append(fact("table-understood-again"))
    if experiment.kept:
        told.append(fact("table-understood-kept", kept=listed(experiment.kept)))
    if experiment.unused:
        told.append(fact("table-understood-unused", unused=listed(experiment.unused)))
    return told


def _changed(experiment: Experiment) -> Words:
    labels, ends = experiment.labels, (experiment.labels[0], experiment.labels[-1])
    first, last = (_amount(float(experiment.steps[at]), experiment.changed_unit) for at in (0, -1))
    number = experiment.shape == NUMBER
    return fact(
        "table-understood-changed",
        changed=experiment.changed,
        first=first if number else ends[0],
        last=last if number else ends[1],
        n=len(labels),
        all=listed(labels, 12),
        shape=experiment.shape,
        lasts=Duration(seconds=float(experiment.steps[-1]), given=AS_READ) if experiment.timed else "",
    )


def _measured(experiment: Experiment, quantity: str) -> Words:
    series = experiment.of(quantity)
    read = np.concatenate([each.values for each in series])
    least, most = (_amount(float(end), series[0].unit) for end in (np.nanmin(read), np.nanmax(read)))
    return fact("table-understood-measured", quantity=quantity, least=least, most=most)


def _amount(value: float, unit: str) -> Amount:
    return Amount(value=value, unit="1" if unit == NO_UNIT else unit, digits=4, given=AS_READ)


def doubts_as_findings(experiment: Experiment) -> tuple[Finding, ...]:
    """What was guessed, each with the option that settles it, as it is shown with what was noticed."""
    return tuple(
        Finding(
            kind="data",
            message=each.says,
            fix=fact("table-settled", flag=each.flag) if each.flag else (),
            serious=False,
        )
        for each in experiment.doubts
    )
