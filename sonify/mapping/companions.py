"""Values of a quantity as facts, with the quantity that goes with it: "571 m/s (4 °C)"."""

from __future__ import annotations

from collections.abc import Callable
from math import floor, log10

import numpy as np

from sonify.frozen import dataclass
from sonify.records.fact import Amount, Fact, Reading, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import FloatArray, Quantity, Timeline
from sonify.units import convert, half_up

#: A parabola carries the relation where it misses no sample by more than this share of the companion's swing. Molecule
#: speed and temperature fit it exactly: the temperature goes with the square of the speed.
MISS = 0.002

Relation = Callable[[float], float | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class ValueWords:
    """Tells values (SI) of one quantity. low and high (SI): the range that a reader must tell values apart in.

    by_ratio: ratios count, not differences (a logarithmic rule): values near the low end keep two digits, too.
    """

    quantity: Quantity
    low: float
    high: float
    companion: Quantity | None = None
    relation: Relation | None = None
    by_ratio: bool = False

    def for_a_child(self, value: float) -> Fact:
        """A value in what a child has met: its companion's where there is one, else in its own unit."""
        if self.companion is None or self.relation is None:
            return self.told(value)
        other, *ends = (self.relation(each) for each in (value, self.low, self.high))
        known = [each for each in ends if each is not None]
        if other is None or not known:
            return self.told(value)
        spread = (min(*known, other), max(*known, other))
        return fact("value-alone", value=_amount(self.companion, other, *spread, exact_ends=False))

    def told(self, value: float, source: Reading | None = None) -> Fact:
        """A value in the unit that people read, and its companion's in brackets where there is one.

        source: the reading it is; without one it is an end or a step of the rule.
        """
        own = _amount(self.quantity, value, self.low, self.high, source=source, by_ratio=self.by_ratio)
        if self.companion is None or self.relation is None:
            return fact("value-alone", value=own)
        other, *ends = (self.relation(each) for each in (value, self.low, self.high))
        known = [each for each in ends if each is not None]
        if other is None or not known:
            return fact("value-alone", value=own)
        spread = (min(*known, other), max(*known, other))
        beside = _amount(self.companion, other, *spread, exact_ends=False)
        return fact("value-beside", value=own, beside=beside)

    def apart(self, value: float, end: float) -> Amount:
        """A value (SI) with as many digits as tell it from an end of the range, three at least."""
        number, other = (float(convert(each, self.quantity.si_unit, self.quantity.unit)) for each in (value, end))
        digits = next((d for d in range(3, 12) if f"{number:.{d}g}" != f"{other:.{d}g}"), 12)
        return Amount(value=number, unit=self.quantity.unit, digits=digits, given="at a beat at which the rule sounds")


def value_words(quantity: Quantity, timeline: Timeline, process: ProcessSpec, low: float, high: float) -> ValueWords:
    """The words of a quantity over low..high (SI), with its companion if the process names one that follows it."""
    spec = process.quantity(quantity.name)
    name = (spec.companion if spec else "") or quantity.companion
    if not name:
        return ValueWords(quantity=quantity, low=low, high=high)
    companion = timeline.quantity(name)
    relation = relation_between(quantity.values, companion.values)
    return ValueWords(quantity=quantity, low=low, high=high, companion=companion, relation=relation)


def relation_between(values: FloatArray, others: FloatArray) -> Relation | None:
    """The other quantity as a function of this one, from their samples; None where it is no function of it.

    A smooth relation is carried on by one swing beyond the samples, any other one ends with them.
    """
    order = np.argsort(values, kind="stable")
    xs, ys = values[order], others[order]
    low, swing = float(xs[0]), float(xs[-1] - xs[0])
    if swing <= 0.0 or np.ptp(ys) <= 0.0:
        return None
    curve = np.polyfit((xs - low) / swing, ys, 2)
    if np.max(np.abs(np.polyval(curve, (xs - low) / swing) - ys)) <= MISS * np.ptp(ys):
        return lambda value: (
            float(np.polyval(curve, (value - low) / swing)) if low - swing <= value <= low + 2.0 * swing else None
        )
    rises = np.diff(ys)
    if np.all(rises >= 0.0) or np.all(rises <= 0.0):
        return lambda value: float(np.interp(value, xs, ys)) if low <= value <= low + swing else None
    return None


def _amount(
    quantity: Quantity,
    value: float,
    low: float,
    high: float,
    *,
    source: Reading | None = None,
    exact_ends: bool = True,
    by_ratio: bool = False,
) -> Amount:
    """Rounded to about a twelfth of the range, or to two digits; the ends of the range as they were written.

    What is smaller than that keeps two digits of its own: little is not nothing.
    """
    number, *ends = (float(convert(each, quantity.si_unit, quantity.unit)) for each in (value, low, high))
    given = "" if source else "an end or a step of the rule"
    if exact_ends and value in (low, high):
        return Amount(value=number, unit=quantity.unit, digits=6, source=source, given=given)
    if by_ratio:
        return Amount(value=number, unit=quantity.unit, digits=2, source=source, given=given)
    span = abs(ends[1] - ends[0]) or abs(number) or 1.0
    places = -floor(log10(span / 12.0))
    if 0.0 < abs(number) < 10.0**-places and abs(number) > 1e-6 * span:
        places = 1 - floor(log10(abs(number)))
    grain = 10.0**-places
    return Amount(
        value=float(half_up(number, places)), unit=quantity.unit, digits=12, grain=grain, source=source, given=given
    )
