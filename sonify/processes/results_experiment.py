"""A table of results of which it is known what was changed: the categories, each with its sound."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from sonify.errors import BadFile
from sonify.kinds.experiments import CATEGORIES
from sonify.records.experiment import Experiment
from sonify.records.fact import wrong
from sonify.records.process import ProcessSpec
from sonify.records.table import Column, Table, tries

#: So many sounds a class can tell apart and share out.
MOST = 12


def for_experiment(fitted: Callable[[Table], ProcessSpec], experiment: Experiment) -> ProcessSpec:
    """The process of a table, with the measured quantities alone. fitted: makes it of a table.

    Raises BadFile where what was changed is no words, or there are more of them than can be played.
    """
    read = experiment.table
    if experiment.shape != CATEGORIES or experiment.groups:
        wanted = "measured" if experiment.timed else "experiment"
        groups = "yes" if experiment.groups else "no"
        told = wrong("error_readings-changed-no-words", changed=experiment.changed, groups=groups, process=wanted)
        raise BadFile(read.file, told)
    if len(experiment.labels) > MOST:
        count = len(experiment.labels)
        raise BadFile(read.file, wrong("error_readings-many-kinds", count=count, changed=experiment.changed, most=MOST))
    return fitted(played(experiment))


def played(experiment: Experiment) -> Table:
    """The table of what was measured alone, its columns called as the quantities are."""
    return _tried(experiment) or _means(experiment)


def _tried(experiment: Experiment) -> Table | None:
    """The table as it was read, with the measured columns alone, so that each try has its turn.

    None where its columns are not called as the quantities are.
    """
    read = experiment.table
    wanted = [
        column for name, columns in tries(read.columns) if name.name in experiment.quantities for column in columns
    ]
    called = {name.name for name, _ in tries(tuple(wanted))}
    if called != set(experiment.quantities) or not read.labels or read.time_s is not None:
        return None
    return replace(read, columns=tuple(wanted)) if read.label_heading.lower() == experiment.changed.lower() else None


def _means(experiment: Experiment) -> Table:
    """One row a category, one column a series."""
    read = experiment.table
    return Table(
        file=read.file,
        columns=tuple(Column(name=one.name, unit=one.unit, values=one.values) for one in experiment.series),
        rows=np.arange(1, len(experiment.labels) + 1),
        writing=read.writing,
        labels=experiment.labels,
        label_heading=experiment.changed,
        findings=read.findings,
        sha256=read.sha256,
    )
