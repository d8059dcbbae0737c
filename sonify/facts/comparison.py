"""Two runs of one process side by side: what a changed condition did to each quantity and each stage."""

from __future__ import annotations

import numpy as np

from sonify.frozen import dataclass
from sonify.records.fact import Words
from sonify.records.scene import Change
from sonify.records.timeline import Quantity, Stage, Timeline
from sonify.units import alike, convert

#: Per-time units that are speeds: what adds up of them is a way, not an amount.
_SPEEDS = {"m/s", "km/h", "cm/s", "mm/s", "um/s"}
_PER_TIME = ("/s", "/min", "/h", "/d", "/day", "/year")
#: A figure that changes by less than this share of the larger one is called the same (our own choice).
SAME = 0.005


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure of a quantity in both runs, in `unit`. what: "total", "mean" or "most"."""

    quantity: str
    what: str
    unit: str
    before: float
    after: float

    @property
    def same(self) -> bool:
        return abs(self.after - self.before) <= SAME * max(abs(self.before), abs(self.after))

    @property
    def percent(self) -> float | None:
        """By how many per cent it changed; None where it started from nothing or below, or on a scale without a true
        zero."""
        if self.before <= 0.0 or self.unit in ("degC", "degF"):
            return None
        return 100.0 * (self.after / self.before - 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class StageShift:
    """A stage in both runs: (start, end) in seconds of model time, None where it never comes."""

    name: str
    title: Words
    before: tuple[float, float] | None
    after: tuple[float, float] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """What a scene's changes for one run did, against the scene as its file has it."""

    changes: tuple[Change, ...]
    figures: tuple[Figure, ...]
    stages: tuple[StageShift, ...]


def comparison(changes: tuple[Change, ...], before: Timeline, after: Timeline) -> Comparison:
    """The changes with everything that followed from them."""
    return Comparison(changes=changes, figures=figures(before, after), stages=stage_shifts(before, after))


def figures(before: Timeline, after: Timeline) -> tuple[Figure, ...]:
    """Every quantity's figures, run against run, totals first: a flow's total, the mean of anything else, the most."""
    found: list[Figure] = []
    for quantity in before.quantities:
        other = next((each for each in after.quantities if each.name == quantity.name), None)
        if other is None:
            continue
        for what, unit in _figures_of(quantity):
            old, new = _figure(what, unit, quantity, before), _figure(what, unit, other, after)
            found.append(Figure(quantity=quantity.name, what=what, unit=unit, before=old, after=new))
    return tuple(sorted(found, key=lambda figure: figure.what != "total"))


def stage_shifts(before: Timeline, after: Timeline) -> tuple[StageShift, ...]:
    """Every stage of either run, in order."""
    old, new = ({stage.name: stage for stage in each.stages} for each in (before, after))
    order = [stage.name for stage in before.stages]
    order += [stage.name for stage in after.stages if stage.name not in old]
    return tuple(
        StageShift(name=name, title=(old.get(name) or new[name]).title, before=_span(old, name), after=_span(new, name))
        for name in order
    )


def _figures_of(quantity: Quantity) -> tuple[tuple[str, str], ...]:
    """What is worth saying of a quantity, and in which unit."""
    amount = amount_unit(quantity)
    if amount:
        return (("total", amount), ("most", quantity.unit))
    return (("mean", quantity.unit), ("most", quantity.unit))


def amount_unit(quantity: Quantity) -> str:
    """The unit of what a flow adds up to ("mm/h" adds up to "mm"); "" where the quantity is no flow."""
    if quantity.unit in _SPEEDS:
        return ""
    amount = next((quantity.unit.removesuffix(end) for end in _PER_TIME if quantity.unit.endswith(end)), "")
    return amount if alike(f"{quantity.si_unit}*s", amount or "kg") else ""


def _figure(what: str, unit: str, quantity: Quantity, timeline: Timeline) -> float:
    values = quantity.values
    if what == "total":
        return convert(float(np.trapezoid(values, timeline.time_s)), f"{quantity.si_unit}*s", unit)
    if what == "mean":
        span = float(timeline.time_s[-1] - timeline.time_s[0])
        value = float(np.trapezoid(values, timeline.time_s)) / span
    else:
        value = float(values.max())
    return convert(value, quantity.si_unit, unit)


def _span(stages: dict[str, Stage], name: str) -> tuple[float, float] | None:
    return (stages[name].start_s, stages[name].end_s) if name in stages else None
