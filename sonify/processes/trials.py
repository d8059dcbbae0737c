"""A fair test as a process: trials one after another, each with one thing changed, each held until the next.

Two trials are parted by a hair of time, so that the last moment of one is its own value and not the next one's.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np

from sonify.processes.declared import quantities, stages
from sonify.processes.telling import Stretch, told_apart
from sonify.records.fact import Amount, Claim, Reading, Words
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline

#: What parts two trials, as a share of one.
APART = 1e-6
#: What differs by less is no trial of its own: a class could not measure it (our own choice).
TELLING = 0.01


def held(trials: Sequence[Mapping[str, float]], lasts_s: float) -> tuple[FloatArray, dict[str, FloatArray]]:
    """Times and quantities (SI, by name) of trials that take equally long, each quantity held through a trial."""
    begins = (1.0 + APART) * lasts_s * np.arange(len(trials), dtype=np.float64)
    time_s = np.column_stack([begins, begins + lasts_s]).ravel()
    return time_s, {name: np.repeat([each[name] for each in trials], 2) for name in trials[0]}


def timeline_of(
    process: ProcessSpec,
    trials: Mapping[str, Mapping[str, float]],
    lasts_s: float,
    tell: Callable[[Stretch, Mapping[str, tuple[int, int]]], Mapping[str, Words]],
    *,
    missing: tuple[Missing, ...],
    conserved: tuple[Conserved, ...],
) -> Timeline:
    """The trials, by the names of their stages, one after another. tell: what is said of each, of the whole and where
    each trial lies."""
    time_s, values = held(list(trials.values()), lasts_s)
    made, found = quantities(process.quantities, values), spans_of(tuple(trials))
    return Timeline(
        process=process.name,
        time_s=time_s,
        quantities=made,
        stages=stages(process.stages, found, time_s, tell(Stretch.whole(time_s, made), found)),
        missing=missing,
        conserved=conserved,
    )


def spans_of(names: Sequence[str]) -> dict[str, tuple[int, int]]:
    """First and last sample of each trial."""
    return {name: (2 * number, 2 * number + 1) for number, name in enumerate(names)}


def differs(one: float, other: float) -> bool:
    """Whether two values differ by enough to try both."""
    return abs(one - other) > TELLING * max(abs(one), abs(other))


def ratio(here: Stretch, first: Stretch, name: str, *, digits: int = 3) -> Amount:
    """How many times what it was in the first trial a quantity is now."""
    source = Reading(how="first", of=name, start=here.start, end=here.end, per=first.reading(name, "first"))
    return Amount(value=here.at(name, "first") / first.at(name, "first"), digits=digits, source=source)


def pair(now: Amount, before: Amount) -> tuple[Amount, Amount]:
    """Two figures with as many digits as tell them apart."""
    return told_apart(now, before) or (now, before)


def apart(here: Stretch, first: Stretch, name: str, slack: float = 0.0) -> Claim:
    """That a quantity is clearly more in the one of two trials in which it is more."""
    less, more = sorted((here, first), key=lambda stretch: stretch.at(name, "first"))
    return Claim(kind="more", left=more.reading(name, "first"), right=less.reading(name, "first"), slack=slack)


def alike(here: Stretch, first: Stretch, name: str, slack: float = 1e-9) -> Claim:
    """That a quantity is the same now as in the first trial, rounding (or so much of it) apart."""
    return Claim(kind="same", left=here.reading(name, "first"), right=first.reading(name, "first"), slack=slack)
