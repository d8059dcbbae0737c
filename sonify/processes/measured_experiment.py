"""Readings over time of which it is known what they are: groups beside each other, repeats, times as they were written.

Few readings, or several groups, are cut at readings, so that every figure told stands in the table. A logger's many
readings of one place are told as those of a table without roles are: by lines that wild readings do not bend.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

import numpy as np

from sonify.constants import DAY_S
from sonify.errors import BadCondition, BadFile
from sonify.frozen import dataclass
from sonify.kinds.experiments import OVER_TIME
from sonify.processes.cut_at_readings import Cut, cut_at_readings
from sonify.processes.declared import quantities
from sonify.processes.experiment import of_readings
from sonify.processes.experiment_series import Measured, measured
from sonify.processes.experiment_words import (
    ends_of_groups,
    figure,
    goes,
    goes_of_group,
    same_text,
    way_of,
)
from sonify.processes.measured_words import Telling, told_apart
from sonify.processes.telling import Stretch
from sonify.records.experiment import Experiment, Series
from sonify.records.fact import Arg, Claim, Fact, Reading, Words, fact, wrong
from sonify.records.process import ProcessSpec
from sonify.records.table import Column, Table
from sonify.records.timeline import Event, Stage, Timeline

#: Up to so many readings, every figure that is told is one of them.
FEW = 60
FEWEST = 3
#: Up to two days the hour of the day is worth printing.
CLOCK_SPAN_S = 2 * DAY_S
_WORDY = re.compile(r"[^\W\d_]{2,}")
_NUMBER = re.compile(r"\d+")
_YEAR = re.compile(r"\d{4}")
#: What numbers in a column of this name count: "day 3" is how a class says it.
COUNTED_TIMES = ("day", "week", "month", "year", "lesson", "hour", "minute")


def for_experiment(base: ProcessSpec, many: Callable[[Table], ProcessSpec], experiment: Experiment) -> ProcessSpec:
    """The process `base` with an experiment's series. many: how a table of a great many readings is played.

    Raises BadFile where it is of another shape or has too few times.
    """
    file = experiment.table.file
    if experiment.shape != OVER_TIME:
        wanted = "results-table" if experiment.shape == "categories" else "experiment"
        raise BadFile(file, wrong("error_readings-no-time", changed=experiment.changed, process=wanted))
    found = measured(experiment)
    if found.steps.size < FEWEST:
        raise BadFile(file, wrong("error_readings-few-times", times=found.steps.size))
    if found.steps.size > FEW and not experiment.groups:
        return many(_as_table(found))
    alone = len(found.series) == 1  # then there is nothing to choose from
    conditions = tuple(
        replace(spec, default=float(1 + _most_moved(found)), high=float(len(found.series)))
        if spec.name == "follow"
        else spec
        for spec in base.conditions
        if spec.name != "interval" and not (alone and spec.name == "follow")
    )
    return replace(
        base,
        conditions=conditions,
        quantities=found.specs,
        run=partial(_run, found, base.name),
        honesty=(
            fact("measured-honesty-readings"),
            fact("experiment-honesty-cut"),
            fact("measured-honesty-instrument"),
            *((fact("experiment-honesty-groups", groups=experiment.groups),) if experiment.groups else ()),
            *of_readings(found),
        ),
        for_table=None,
        for_experiment=None,
    )


def _most_moved(found: Measured) -> int:
    """The series of the first quantity whose readings move most."""
    own = [number for number, each in enumerate(found.series) if each.quantity == found.first.quantity]
    return max(own, key=lambda number: float(np.ptp(found.values[found.series[number].name])))


def _as_table(found: Measured) -> Table:
    """The series as the columns of a table."""
    read = found.experiment.table
    where = np.flatnonzero(np.isin(found.experiment.steps, found.steps))
    return Table(
        file=read.file,
        columns=tuple(Column(name=each.name, unit=each.unit, values=each.values[where]) for each in found.series),
        rows=np.arange(1, where.size + 1),
        writing=read.writing,
        time_s=found.steps - found.steps[0],
        time_heading=read.time_heading,
        time_kind=read.time_kind,
        start=read.start,
        end=read.end,
        start_day=read.start_day,
        clock_start=read.clock_start,
        findings=read.findings,
        sha256=read.sha256,
    )


def _run(found: Measured, process: str, conditions: Mapping[str, float]) -> Timeline:
    followed = round(conditions.get("follow", 1.0))
    if followed > len(found.series):
        count = len(found.series)
        raise BadCondition("follow", wrong("error_readings-follow", given=followed, count=count))
    series = found.series[followed - 1]
    time_s = found.steps - found.steps[0]
    made = quantities(found.specs, found.values)
    whole = Stretch.whole(time_s, made)
    cuts = cut_at_readings(time_s, found.values[series.name], conditions["level"], round(conditions["stretches"]))
    told = OverTime(found=found, whole=whole, series=series, level=conditions["level"])
    named = [(f"stretch {number}", cut) for number, cut in enumerate(cuts, 1)]
    titles = told_apart([told.title(name, cut) for name, cut in named])
    return Timeline(
        process=process,
        time_s=time_s,
        quantities=made,
        stages=tuple(
            Stage(
                name=name,
                title=title,
                start_s=float(time_s[cut.first]),
                end_s=float(time_s[cut.last]),
                science=told.science(name, cut),
            )
            for (name, cut), title in zip(named, titles, strict=True)
        ),
        events=told.events(),
        clock_start=found.experiment.table.clock_start if time_s[-1] < CLOCK_SPAN_S else None,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class OverTime:
    """What is told of readings over time. series: the one whose stretches are taken."""

    found: Measured
    whole: Stretch
    series: Series
    level: float

    @property
    def moments(self) -> Telling:
        return Telling(whole=self.whole, table=_as_table(self.found), name=self.series.name, level=self.level)

    def title(self, stage: str, cut: Cut) -> Fact:
        """Where a stretch leads to; with groups, which go to different places, from when to when it lasts."""
        here = self.whole.steps(cut.first, cut.last)
        if self.series.group:
            end = self._moment(cut.last, Reading(how="ends", of=stage))
            if cut.first == 0 and not self._written():
                return fact("experiment-title-until", end=end)
            start = self._moment(cut.first, Reading(how="begins", of=stage))
            return fact(f"experiment-title-times{self._as_written}", start=_capital(start), end=end)
        first, last = (figure(self.found, here, self.series.name, how) for how in ("first", "last"))
        way = way_of(here, self.series)
        if cut.way != "level" and way != "goes" and not same_text(first, last):
            return fact("measured-title-way", way=cut.way, pace=cut.pace or "any", to=last)
        if cut.way != "level" and not same_text(first, last):
            return fact("measured-title-goes", **{"from": first, "to": last})
        least, most = (figure(self.found, here, self.series.name, how) for how in ("least", "most"))
        if same_text(least, most):
            return fact("experiment-title-at", value=first)
        return fact("experiment-title-between", least=least, most=most)

    def science(self, stage: str, cut: Cut) -> Words:
        """What each quantity does in a stretch."""
        here = self.whole.steps(cut.first, cut.last)
        when = fact(
            f"experiment-from-to{self._as_written}",
            start=self._moment(cut.first, Reading(how="begins", of=stage)),
            end=self._moment(cut.last, Reading(how="ends", of=stage)),
        )
        told: list[Words] = []
        for quantity in self.found.experiment.quantities:
            series = self.found.experiment.of(quantity)
            if series[0].group:
                each = tuple(goes_of_group(self.found, here, cut, one) for one in series)
                told.append(fact("experiment-time-groups", when=when, quantity=quantity, each=each))
                told.append(ends_of_groups(self.found, here, cut, quantity))
            else:
                named: dict[str, Arg] = {"when": when}
                told.append(goes(self.found, here, cut, series[0], "experiment-time", named))
        return tuple(words for words in told if words != ())

    def events(self) -> tuple[Event, ...]:
        """The least and the greatest reading, in the order they came; none of groups, nor where all are alike."""
        name = self.series.name
        least, most = (figure(self.found, self.whole, name, how) for how in ("least", "most"))
        if self.series.group or same_text(least, most):
            return ()
        values = self.found.values[name]
        rows = sorted([(int(values.argmin()), "least"), (int(values.argmax()), "greatest")])
        return tuple(self._event(at, which) for at, which in rows)

    def _event(self, at: int, which: str) -> Event:
        name, here = self.series.name, self.whole.steps(at, at)
        extreme = self.whole.reading(name, "least" if which == "least" else "most")
        is_so = Claim(kind="same", left=here.reading(name, "first"), right=extreme, slack=1e-9)
        event = f"{which} {name}"
        moment = self._moment(at, Reading(how="happens", of=event))
        told = figure(self.found, here, name, "first")
        return Event(
            name=event, time_s=here.start, text=fact(f"measured-{which}", is_so, quantity=name, value=told, at=moment)
        )

    @property
    def _as_written(self) -> str:
        """The end of a message's identifier: times that the table has in words are no figures."""
        return "-written" if self._written() else ""

    def _written(self) -> bool:
        """Whether the times are told as the table has them: "Week 3", or numbers in a column named Day."""
        if self.found.experiment.table.time_kind in ("clock", "date"):
            return self._named_days()
        return self._counted() or all(_WORDY.search(label) for label in self.found.labels)

    def _named_days(self) -> bool:
        """Whether days stand in the table by name, without their year ("Monday", "28 May"), or as bare years."""
        labels = [label.strip() for label in self.found.labels]
        table = self.found.experiment.table
        years = self.found.experiment.changed.lower().startswith("year") and all(map(_YEAR.fullmatch, labels))
        return years or (
            table.time_kind == "date"
            and table.start_day is None
            and table.clock_start is None
            and len(set(labels)) == len(labels)
            and all(_WORDY.search(label) for label in labels)
        )

    def _counted(self) -> bool:
        named = self.found.experiment.changed.lower() in COUNTED_TIMES
        return named and all(_NUMBER.fullmatch(label.strip()) for label in self.found.labels)

    def _moment(self, reading: int, source: Reading) -> Arg:
        label = self.found.labels[reading].strip()
        if not self._written():
            return self.moments.moment(float(self.whole.time_s[reading]), source)
        if self._named_days():
            return label
        return f"{self.found.experiment.changed.lower()} {label}" if self._counted() else label[:1].lower() + label[1:]


def _capital(moment: Arg) -> Arg:
    return moment[:1].upper() + moment[1:] if isinstance(moment, str) else moment
