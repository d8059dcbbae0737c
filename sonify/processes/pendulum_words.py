"""What is told of a pendulum: how long a swing takes in each trial, beside the first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sonify.processes.telling import Stretch, told_apart
from sonify.processes.trials import alike, apart, pair, ratio
from sonify.records.fact import Amount, Arg, Fact, Words, fact

PERIOD = "time of a swing"


def told(whole: Stretch, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each trial."""
    first = whole.steps(*found["first swing"])
    told: dict[str, Words] = {"first swing": _first(first)}
    writers = {"other mass": _mass, "other release": _release, "other length": _length}
    for name in found:
        if name in writers:
            told[name] = writers[name](whole.steps(*found[name]), first)
    return told


def reason(changed: str) -> Fact:
    """Why a trial did not come: nothing was changed in it."""
    return fact("pendulum-unchanged", changed=fact(f"pendulum-changed-{changed}"))


def _first(first: Stretch) -> Fact:
    return fact(
        "pendulum-first",
        length=_of(first, "length"),
        mass=_of(first, "mass"),
        release=_of(first, "release angle"),
        period=_of(first, PERIOD),
        crossings=_a_minute(first),
    )


def _a_minute(stretch: Stretch) -> Amount:
    """How often it crosses the middle, to the one."""
    source = replace(stretch.reading("crossing rate", "first"), times=60.0)
    return Amount(value=60.0 * stretch.at("crossing rate", "first"), digits=3, source=source)


def _mass(here: Stretch, first: Stretch) -> Fact:
    heavier = here.at("mass", "first") > first.at("mass", "first")
    now, before = _pair(here, first, "mass")
    return fact(
        "pendulum-mass",
        apart(here, first, "mass"),
        alike(here, first, PERIOD),
        way="heavier" if heavier else "lighter",
        now=now,
        before=before,
        period=_of(here, PERIOD),
    )


def _release(here: Stretch, first: Stretch) -> Fact:
    wider = here.at("release angle", "first") > first.at("release angle", "first")
    now, before = _pair(here, first, "release angle")
    told: dict[str, Arg] = {"way": "wider" if wider else "narrower", "now": now, "before": before}
    further = apart(here, first, "release angle")
    both = told_apart(_of(here, PERIOD), _of(first, PERIOD), most=3)
    if both is None:
        hardly = alike(here, first, PERIOD, 0.01)
        return fact("pendulum-release-same", further, hardly, period=_of(here, PERIOD), **told)
    longer = apart(here, first, PERIOD, 1e-6)
    return fact("pendulum-release", further, longer, period=both[0], was=both[1], **told)


def _length(here: Stretch, first: Stretch) -> Fact:
    now, before = _pair(here, first, "length")
    period, was = _pair(here, first, PERIOD)
    return fact(
        "pendulum-length",
        apart(here, first, "length"),
        apart(here, first, PERIOD, 1e-6),
        way="longer" if here.at("length", "first") > first.at("length", "first") else "shorter",
        now=now,
        before=before,
        period=period,
        was=was,
        times=ratio(here, first, "length"),
        slower=ratio(here, first, PERIOD),
    )


def _of(stretch: Stretch, name: str) -> Amount:
    return stretch.figure(name, "first")


def _pair(here: Stretch, first: Stretch, name: str) -> tuple[Amount, Amount]:
    """A quantity now and in the first trial, with as many digits as tell them apart."""
    return pair(_of(here, name), _of(first, name))
