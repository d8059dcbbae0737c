"""What is told of a string, a tube or a bar: how often it vibrates in each trial, beside the whole one."""

from __future__ import annotations

from collections.abc import Mapping

from sonify.processes.telling import Stretch, given
from sonify.processes.trials import alike, apart, pair, ratio
from sonify.records.fact import Amount, Fact, Words, fact

FREQUENCY, LOUDNESS = "frequency", "loudness"
#: What is changed besides length and strength, by kind: the conditions before and after, and the unit for telling them.
OTHERWISE = {
    "string": ("tension", "other_tension", "N"),
    "tube": ("air_speed", "other_air_speed", "m/s"),
    "bar": ("thickness", "other_thickness", "mm"),
}
_IN_UNIT = {"mm": 1000.0}


def told(
    whole: Stretch, found: Mapping[str, tuple[int, int]], kind: str, conditions: Mapping[str, float]
) -> dict[str, Words]:
    """The facts of each trial."""
    first = whole.steps(*found["whole"])
    said: dict[str, Words] = {}
    for name, span in found.items():
        here = whole.steps(*span)
        if name == "whole":
            said[name] = fact("pitch-whole", kind=kind, length=_of(here, "length"), frequency=_hz(here))
        elif name == "softly":
            said[name] = _softly(here, first)
        elif name == "otherwise":
            said[name] = _otherwise(here, first, kind, conditions)
        else:
            said[name] = _shorter(here, first, kind)
    return said


def reason(trial: str) -> Fact:
    """Why a trial did not come: nothing was changed in it."""
    return fact("pitch-unchanged", changed=fact(f"pitch-changed-{trial}"))


def _of(stretch: Stretch, name: str) -> Amount:
    return stretch.figure(name, "first")


def _hz(stretch: Stretch) -> Amount:
    """Vibrations a second, as a bare number."""
    return Amount(value=stretch.at(FREQUENCY, "first"), digits=3, source=stretch.reading(FREQUENCY, "first"))


def _softly(here: Stretch, first: Stretch) -> Fact:
    softer = here.at(LOUDNESS, "first") < first.at(LOUDNESS, "first")
    now, before = pair(_of(here, LOUDNESS), _of(first, LOUDNESS))
    return fact(
        "pitch-softly",
        apart(here, first, LOUDNESS),
        alike(here, first, FREQUENCY),
        way="softer" if softer else "louder",
        now=now,
        before=before,
        frequency=_hz(here),
    )


def _shorter(here: Stretch, first: Stretch, kind: str) -> Fact:
    now, before = pair(_of(here, "length"), _of(first, "length"))
    frequency, was = pair(_hz(here), _hz(first))
    return fact(
        "pitch-shorter",
        apart(here, first, "length"),
        apart(here, first, FREQUENCY),
        kind=kind,
        now=now,
        before=before,
        frequency=frequency,
        was=was,
        times=ratio(here, first, FREQUENCY),
    )


def _otherwise(here: Stretch, first: Stretch, kind: str, conditions: Mapping[str, float]) -> Fact:
    before, after, unit = OTHERWISE[kind]
    times = _IN_UNIT.get(unit, 1.0)
    more = conditions[after] > conditions[before]
    now, old = pair(*(given(times * conditions[name], unit, name) for name in (after, before)))
    frequency, was = pair(_hz(here), _hz(first))
    return fact(
        f"pitch-{kind}",
        apart(here, first, FREQUENCY, 1e-3),
        way="more" if more else "less",
        now=now,
        before=old,
        frequency=frequency,
        was=was,
        times=ratio(here, first, FREQUENCY),
    )
