"""A process as computed: quantities over model time, the stages found in them, events, and what stayed constant."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.kinds.timelines import TIME, TIMELINES
from sonify.records.fact import Words
from sonify.units import convert

FloatArray = NDArray[np.float64]


def frozen(values: FloatArray) -> FloatArray:
    """A read-only float copy: a frozen record does not freeze the array in it."""
    held = np.array(values, dtype=np.float64)
    held.setflags(write=False)
    return held


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Quantity:
    """One quantity over the Timeline's `time_s`, in `si_unit`; `unit` is how people read it.

    companion, drawn: as in QuantitySpec; the companion is "" for none.
    """

    name: str
    symbol: str
    unit: str
    si_unit: str
    values: FloatArray
    true_zero: bool = False
    whose: Words = ""
    meaning: Words = ""
    companion: str = ""
    drawn: bool = False

    def __post_init__(self) -> None:
        object.__setattr__(self, "values", frozen(self.values))

    def in_unit(self) -> FloatArray:
        """The values in `unit`."""
        return convert(self.values, self.si_unit, self.unit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A stretch of model time that the process recognised. Stages follow each other and never overlap.

    gathers: it holds once more what the other stages hold one by one: a table's rows, all in order.
    """

    name: str
    title: Words
    start_s: float
    end_s: float
    science: Words = ()  # what happens, with this run's own figures
    gathers: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """A moment worth naming: the first drop of rain, the last of the ice."""

    name: str
    time_s: float
    text: Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """A stage that never came, why, and which condition to change."""

    stage: str
    reason: Words
    condition: str
    fix: Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Conserved:
    """What must stay constant, and the largest drift found, relative to what moved.

    allowed: the bound every run meets. Only where the published method of reckoning drifts itself, as particles moved
    in small steps do, is it more than rounding; the process then says so in its `honesty`.
    """

    name: str
    relative_drift: float
    allowed: float = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Timeline:
    """The computed process: `time_s` rises from 0, every quantity has its length.

    axis: of the kind "axis" alone, the quantity that was changed; what was measured is drawn over it, not over time.
    """

    process: str
    time_s: FloatArray
    quantities: tuple[Quantity, ...]
    stages: tuple[Stage, ...]
    events: tuple[Event, ...] = ()
    missing: tuple[Missing, ...] = ()
    conserved: tuple[Conserved, ...] = ()
    clock_start: float | None = None  # hour of the day at time_s = 0, where the process has one
    conditions: tuple[tuple[str, float], ...] = ()  # what it was computed under, in SI, by name
    kind: str = TIME  # a row of `kinds.timelines`: what may be told of its time axis
    axis: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "time_s", frozen(self.time_s))
        if self.kind not in TIMELINES:
            raise ValueError(f"no timeline is of the kind {self.kind}")
        if np.any(np.diff(self.time_s) <= 0):
            raise ValueError("model time must rise")
        for quantity in self.quantities:
            if quantity.values.shape != self.time_s.shape:
                raise ValueError(f"{quantity.name} has {quantity.values.shape}, time has {self.time_s.shape}")
            if not np.all(np.isfinite(quantity.values)):
                raise ValueError(f"{quantity.name} is not finite everywhere")
        for before, after in zip(self.stages, self.stages[1:], strict=False):
            if after.start_s < before.end_s:
                raise ValueError(f"stage {after.name} starts before {before.name} ends")
            if not TIMELINES[self.kind].joined and after.start_s == before.end_s:
                # whoever reads from start to end, both included, would take the next one's value for this one's
                raise ValueError(f"stage {before.name} ends at the value with which {after.name} starts")

    def quantity(self, name: str) -> Quantity:
        """The quantity of this name. Raises UnknownName with the nearest spelling."""
        for quantity in self.quantities:
            if quantity.name == name:
                return quantity
        raise UnknownName("quantity", name, [q.name for q in self.quantities])

    def at(self, name: str, time_s: FloatArray) -> FloatArray:
        """A quantity at given model times (linear between samples), SI, the shape of `time_s`."""
        return np.interp(time_s, self.time_s, self.quantity(name).values)
