"""What a process tells of a stage: figures read off its quantities, each with the reading it comes from.

A process computes first and tells afterwards: `Stretch` reads the finished quantities between two moments, so what a
sentence says and what science.csv holds cannot differ. Other code takes the same readings again (`facts`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from sonify.frozen import dataclass
from sonify.records.fact import Amount, Claim, ClockTime, Duration, Reading
from sonify.records.timeline import FloatArray, Quantity
from sonify.units import convert, si

ROBUST_POINTS = 121  # equal times at which the middle value and the straight line are taken


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stretch:
    """The quantities from `start` to `end` (model seconds). hour_zero: the hour of the day at model time 0."""

    time_s: FloatArray
    quantities: Mapping[str, Quantity]
    start: float
    end: float
    hour_zero: float = 0.0

    @classmethod
    def whole(cls, time_s: FloatArray, quantities: tuple[Quantity, ...], hour_zero: float = 0.0) -> Stretch:
        """From the first sample to the last."""
        by_name = {quantity.name: quantity for quantity in quantities}
        return cls(
            time_s=time_s, quantities=by_name, start=float(time_s[0]), end=float(time_s[-1]), hour_zero=hour_zero
        )

    def between(self, start: float, end: float) -> Stretch:
        """The same quantities between two other moments."""
        return replace(self, start=start, end=end)

    def steps(self, first: int, last: int) -> Stretch:
        """The same quantities between two samples."""
        return self.between(float(self.time_s[first]), float(self.time_s[last]))

    # --- values in SI, for choosing what to say ----------------------------------------------------------------------

    def values(self, name: str) -> FloatArray:
        """A quantity's samples within the stretch, its interpolated ends included."""
        return np.interp(self._times, self.time_s, self.quantities[name].values)

    @property
    def _times(self) -> FloatArray:
        """Its samples' moments, both ends included."""
        inside = (self.time_s > self.start) & (self.time_s < self.end)
        return np.concatenate(([self.start], self.time_s[inside], [self.end]))

    def at(self, name: str, how: str) -> float:
        """One reading in SI: first, last, most, least, change, mean, total, median, spread, line start, line end."""
        values = self.values(name)
        if how in ("median", "spread", "line start", "line end"):
            return self._robust(name, how)
        match how:
            case "first":
                return float(values[0])
            case "last":
                return float(values[-1])
            case "most":
                return float(values.max())
            case "least":
                return float(values.min())
            case "change":
                return float(values[-1] - values[0])
        total = float(np.trapezoid(values, self._times))
        return total if how == "total" else total / (self.end - self.start)

    def _robust(self, name: str, how: str) -> float:
        """The middle value, or an end of the straight line that a few wild readings do not bend (Theil and Sen's)."""
        times = np.linspace(self.start, self.end, ROBUST_POINTS)
        values = np.interp(times, self.time_s, self.quantities[name].values)
        if how == "median":
            return float(np.median(values))
        if how == "spread":
            return float(np.percentile(values, 90.0) - np.percentile(values, 10.0))
        one, other = np.triu_indices(ROBUST_POINTS, 1)
        slope = float(np.median((values[other] - values[one]) / (other - one)))
        start = float(np.median(values - slope * np.arange(ROBUST_POINTS)))
        end = start if how == "line start" else start + slope * (ROBUST_POINTS - 1)
        return min(max(end, float(values.min())), float(values.max()))

    # --- figures and claims ------------------------------------------------------------------------------------------

    def reading(self, name: str, how: str, level: float = 0.0) -> Reading:
        return Reading(how=how, of=name, start=self.start, end=self.end, level=level)

    def figure(
        self, name: str, how: str, *, digits: int = 3, places: int | None = None, unit: str | None = None
    ) -> Amount:
        """A reading of a quantity in the unit that people read (or in `unit`)."""
        quantity = self.quantities[name]
        unit = unit or quantity.unit
        value = convert(self.at(name, how), quantity.si_unit, unit)
        if how == "change":
            value -= convert(0.0, quantity.si_unit, unit)
        return Amount(value=float(value), unit=unit, digits=digits, places=places, source=self.reading(name, how))

    def scaled(
        self, name: str, how: str, factor: float, unit: str, *, digits: int = 3, places: int | None = None
    ) -> Amount:
        """A reading as another measure than its quantity's own: a kilogram of water as so many millilitres.

        factor: by which the reading in SI is multiplied. unit: how the result is written.
        """
        one = Reading(how="fixed", level=1.0)  # tells whoever checks it that nothing is left to convert
        source = replace(self.reading(name, how), per=one, times=factor)
        return Amount(value=factor * self.at(name, how), unit=unit, digits=digits, places=places, source=source)

    def total(self, name: str, unit: str, *, digits: int = 2) -> Amount:
        """What a rate comes to over the stretch, in `unit`."""
        value = float(convert(self.at(name, "total"), si(unit), unit))
        return Amount(value=value, unit=unit, digits=digits, source=self.reading(name, "total"))

    def moment(self, name: str, how: str) -> float:
        """Model time of the largest or smallest value: how is "when most" or "when least"."""
        values = self.values(name)
        return float(self._times[int(values.argmax() if how == "when most" else values.argmin())])

    def clock(self, time_s: float, source: Reading) -> ClockTime:
        """A moment of model time as a time of day."""
        return ClockTime(hours=self.hour_zero + time_s / 3600.0, source=source, hour_zero=self.hour_zero)

    def begins(self, stage: str) -> ClockTime:
        return self.clock(self.start, Reading(how="begins", of=stage))

    def ends(self, stage: str) -> ClockTime:
        return self.clock(self.end, Reading(how="ends", of=stage))

    def lasts(self, stage: str, digits: int = 2) -> Duration:
        return Duration(seconds=self.end - self.start, digits=digits, source=Reading(how="lasts", of=stage))

    def rises(self, name: str) -> Claim:
        return Claim(kind="rises", left=self.reading(name, "change"))

    def falls(self, name: str) -> Claim:
        return Claim(kind="falls", left=self.reading(name, "change"))

    def steady(self, name: str, slack: float = 0.0) -> Claim:
        return Claim(kind="steady", left=self.reading(name, "change"), slack=slack)


def given(value: float, unit: str, condition: str, *, digits: int = 3, places: int | None = None) -> Amount:
    """A condition of this run as the sentence tells it. value: in `unit`."""
    return Amount(value=value, unit=unit, digits=digits, places=places, source=Reading(how="condition", of=condition))


def told_apart(one: Amount, other: Amount, most: int = 4) -> tuple[Amount, Amount] | None:
    """Two figures with as many digits as it takes to tell them apart; None where `most` are not enough."""
    for digits in range(min(one.digits, other.digits), most + 1):
        if f"{one.value:.{digits}g}" != f"{other.value:.{digits}g}":
            return replace(one, digits=digits), replace(other, digits=digits)
    return None


def added(first: Reading, *others: Reading) -> Reading:
    """The reading that is the sum of several."""
    if not others:
        return first
    return replace(first, less=_negative(others))


def _negative(readings: tuple[Reading, ...]) -> Reading:
    first, *others = readings
    return replace(first, times=-1.0, less=_negative(tuple(others)) if others else None)


def source_of(figure: Amount) -> Reading:
    """The reading that a figure comes from; every figure that is read off a stretch has one."""
    assert figure.source is not None
    return figure.source


def fixed(value: float) -> Reading:
    """A number that stands in the sentence itself, or in its source."""
    return Reading(how="fixed", level=value)
