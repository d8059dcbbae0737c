"""What a class measured, as quantities: one a series, and beside it how far the repeats lay apart.

Every series of one quantity has one unit, so one rule can serve all groups: the same value is the same sound.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import lcm

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.records.experiment import Experiment, Series
from sonify.records.fact import Fact, fact
from sonify.records.process import QuantitySpec
from sonify.records.timeline import FloatArray
from sonify.units import NO_UNIT, convert, si

#: Decimal places that a reading may be told with; a mean of repeats may have one more.
MOST_PLACES = 4
SPREAD = "spread"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Measured:
    """The series of an experiment without its empty steps, and what is declared of them.

    places: of each quantity by its name, the decimal places that its readings were written with.
    """

    experiment: Experiment
    steps: FloatArray
    labels: tuple[str, ...]
    specs: tuple[QuantitySpec, ...]
    values: Mapping[str, FloatArray]  # in SI, a value a step, gaps bridged
    read: Mapping[str, NDArray[np.bool_]]  # of each series, where a value is a reading and bridges no gap
    places: Mapping[str, int]

    @property
    def series(self) -> tuple[Series, ...]:
        return self.experiment.series

    @property
    def first(self) -> Series:
        return self.series[0]

    @property
    def bridged(self) -> Mapping[str, int]:
        """How many readings each series lacks that lacks any."""
        return {name: gaps for name, read in self.read.items() if (gaps := int(np.count_nonzero(~read)))}


def one_by_one(found: Measured, name: str) -> list[FloatArray]:
    """A quantity's value in each turn of each step, SI: a turn for each repeat, so many as the most in any series.

    A series with fewer repeats stays longer with each, so that the mean over the turns is that of its repeats; what was
    changed, the spread, and what was read once stay as they are.
    """
    where = np.flatnonzero(np.isin(found.experiment.steps, found.steps))
    series = next((each for each in found.series if each.name == name), None)
    every = [_turns(found, int(at)) for at in where]
    if series is None or not series.every:
        return [np.repeat(value, turns) for value, turns in zip(found.values[name], every, strict=True)]
    tries = [np.array(series.every[at]) for at in where]
    return [
        np.repeat(_in_si(own, series.unit), turns // own.size) if own.size else np.repeat(value, turns)
        for own, turns, value in zip(tries, every, found.values[name], strict=True)
    ]


def _turns(found: Measured, at: int) -> int:
    """So many turns that each series' repeats of a step fill them evenly."""
    return lcm(*(max(1, len(each.every[at])) for each in found.series if each.every))


def spread_name(series: Series) -> str:
    """The quantity that says how far the repeats of a series lay apart."""
    return f"{series.name} {SPREAD}"


def measured(experiment: Experiment) -> Measured:
    """What can be played of an experiment: its series at every step at which anything was read, gaps bridged."""
    read = np.any([np.isfinite(each.values) for each in experiment.series], axis=0)
    where = np.flatnonzero(read)
    steps = experiment.steps[where]
    specs: list[QuantitySpec] = []
    values: dict[str, FloatArray] = {}
    places: dict[str, int] = {}
    for number, series in enumerate(experiment.series, 1):
        specs.append(_spec(series, f"x{number}"))
        values[series.name] = _in_si(_bridged(steps, series.values[where], experiment.named), series.unit)
        places[series.name] = places_of(series)
    for number, series in enumerate(experiment.series, 1):
        if bool((series.tries > 1).any()):
            spec = _spread_spec(series, f"s{number}")
            specs.append(spec)
            apart = np.nan_to_num(series.most[where] - series.least[where])
            values[spec.name] = _in_si(apart, spec.unit)
            places[spec.name] = places[series.name]
    return Measured(
        experiment=experiment,
        steps=steps,
        labels=tuple(experiment.labels[at] for at in where),
        specs=tuple(specs),
        values=values,
        read={each.name: np.isfinite(each.values[where]) for each in experiment.series},
        places=places,
    )


def _bridged(steps: FloatArray, values: FloatArray, named: bool) -> FloatArray:
    """Where nothing was read, straight lines between the readings beside it; nothing at all is 0 throughout.

    named: between words lies nothing, so the nearest reading stands there, and nobody is to play it.
    """
    there = np.isfinite(values)
    if not there.any():
        return np.zeros(steps.size)
    if named:
        near = np.abs(steps[:, None] - steps[there]).argmin(axis=1)
        return np.asarray(values[there][near], dtype=np.float64)
    return np.interp(steps, steps[there], values[there])


def _in_si(values: FloatArray, unit: str) -> FloatArray:
    return convert(values, unit, si(unit))


def _spec(series: Series, symbol: str) -> QuantitySpec:
    return QuantitySpec(
        name=series.name,
        symbol=symbol,
        unit=series.unit,
        si_unit=si(series.unit),
        true_zero=_true_zero(series),
        meaning=meaning(series),
    )


def meaning(series: Series) -> Fact:
    if series.group:
        return fact("experiment-quantity-of-group", quantity=series.quantity, group=series.group)
    return fact("experiment-quantity", quantity=series.quantity)


def _spread_spec(series: Series, symbol: str) -> QuantitySpec:
    unit = difference_unit(series.unit)
    return QuantitySpec(
        name=spread_name(series),
        symbol=symbol,
        unit=unit,
        si_unit=si(unit),
        true_zero=False,
        meaning=fact("experiment-quantity-spread", quantity=series.name),
    )


def difference_unit(unit: str) -> str:
    """The unit of a difference: that of two temperatures has no zero of its own."""
    return f"delta_{unit}" if unit in ("degC", "degF") else unit


def _true_zero(series: Series) -> bool:
    """A true zero is believed of kelvin, of counted things, and of anything else in a unit that never goes below it."""
    unit = si(series.unit)
    if series.counted:
        return True
    if unit == "K":
        return not series.unit.startswith("delta_")
    read = series.values[np.isfinite(series.values)]
    return series.unit != NO_UNIT and unit != "dB" and bool(np.all(read >= 0.0))


def places_of(series: Series) -> int:
    """The decimal places with which all single readings of a series are written in full."""
    single = np.concatenate([series.least, series.most])
    single = single[np.isfinite(single)]
    return next((n for n in range(MOST_PLACES) if _written_in(single, n)), MOST_PLACES)


def _written_in(values: FloatArray, places: int) -> bool:
    return bool(np.all(np.abs(values - np.round(values, places)) <= 1e-9 * np.maximum(1.0, np.abs(values))))


def places_for(value: float, usual: int) -> int:
    """How many decimal places tell a figure in full: no more than its readings have, a mean of repeats one more.

    >>> places_for(3.0, 0), places_for(10 / 3, 0), places_for(15.6, 1)
    (0, 1, 1)
    """
    return next((n for n in range(usual + 1) if _written_in(np.array([value]), n)), usual + 1)
