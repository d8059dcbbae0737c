"""A class's own readings beside what a model says of them: "ours" and "the model", two groups of one table.

From there on both are played as groups are: one rule and one range, so what differs to the ear differs in the numbers.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from sonify.errors import BadFile, OutOfRange, UnknownName
from sonify.frozen import dataclass
from sonify.kinds.experiments import MODELS, NUMBER, OVER_TIME
from sonify.processes.experiment_series import places_of
from sonify.records.experiment import Experiment, Series
from sonify.records.fact import Fact, wrong
from sonify.records.timeline import FloatArray
from sonify.science.falling import fall_time
from sonify.science.growth import CURVES, fitted_growth, gompertz_height, logistic_height
from sonify.science.pendulum import GRAVITY, small_swing_period
from sonify.science.sun import fitted_shadow
from sonify.science.vibration import level_at
from sonify.units import UnitError, convert

OURS, MODEL = "ours", "the model"
#: Nothing that a class lets fall comes near this speed: with it the formula is that of a fall without air.
NO_AIR_M_S = 1e6
#: How a heading says that ten swings were timed together.
_TEN = re.compile(r"\b(ten|10)\b", re.IGNORECASE)
_HOUR_S = 3600.0


@dataclass(frozen=True, slots=True)
class _Kind:
    """shape: what stands along the table. along, measured: the SI units that its numbers must turn into. values: what
    the model says, SI, from where (SI, or seconds of the day), what was read there, and the quantity's name. needs:
    what a table has to hold, in words."""

    shape: str
    along: str
    measured: str
    values: Callable[[FloatArray, FloatArray, NDArray[np.bool_], str], FloatArray]
    needs: Fact


def beside(experiment: Experiment, model: str | None) -> Experiment:
    """The experiment with what the model says beside it; as it is where no model is named.

    Raises UnknownName with the models there are, BadFile where the table is none that this model speaks of.
    """
    if model is None:
        return experiment
    if model not in MODELS:
        raise UnknownName("model", model, MODELS)
    kind, file, ours = _KINDS[model], experiment.table.file, experiment.series[0]
    if experiment.groups:
        raise BadFile(file, wrong("error_readings-model-groups"))
    needs = wrong("error_readings-model-needs", model=model, needs=kind.needs)
    if experiment.shape != kind.shape:
        raise BadFile(file, needs)
    try:
        along = convert(experiment.steps, experiment.changed_unit, kind.along)
        read = convert(ours.values, ours.unit, kind.measured)
        if model == "shadow":
            along = along + _HOUR_S * _clock_start(experiment)
        says = kind.values(along, read, np.isfinite(read), ours.quantity)
    except (UnitError, OutOfRange, ValueError):
        raise BadFile(file, needs) from None
    values = np.round(convert(says, kind.measured, ours.unit), places_of(ours))  # as finely as the class read
    theirs = Series(
        quantity=ours.quantity,
        group=MODEL,
        unit=ours.unit,
        values=values,
        least=values,
        most=values,
        tries=np.ones(values.size, dtype=np.int64),
    )
    roles = None if experiment.roles is None else replace(experiment.roles, model=model)
    both = (replace(ours, group=OURS, counted=False), theirs)
    return replace(experiment, series=both, groups=(OURS, MODEL), model=model, roles=roles)


def _clock_start(experiment: Experiment) -> float:
    """The hour of the day at the first reading. Raises ValueError where the table tells none."""
    if experiment.table.clock_start is None:
        raise ValueError("no time of day")
    return experiment.table.clock_start


def _pendulum(length: FloatArray, read: FloatArray, there: NDArray[np.bool_], name: str) -> FloatArray:
    return np.asarray(small_swing_period(length, GRAVITY)) * (10.0 if _TEN.search(name) else 1.0)


def _fall(height: FloatArray, read: FloatArray, there: NDArray[np.bool_], name: str) -> FloatArray:
    return np.asarray(fall_time(height, NO_AIR_M_S, GRAVITY))


def _sound(distance: FloatArray, read: FloatArray, there: NDArray[np.bool_], name: str) -> FloatArray:
    first = int(np.flatnonzero(there)[0])
    return np.asarray(level_at(float(read[first]), float(distance[first]), distance))


def _plant(time_s: FloatArray, read: FloatArray, there: NDArray[np.bool_], name: str) -> FloatArray:
    """The better of the two curves of growth."""
    tried = []
    for curve, height in zip(CURVES, (logistic_height, gompertz_height), strict=True):
        final, rate, fastest = fitted_growth(time_s[there], read[there], curve)
        tall = np.asarray(height(time_s - fastest, final, rate))
        tried.append((float(np.sum((tall - read)[there] ** 2)), tall))
    return min(tried, key=lambda row: row[0])[1]


def _shadow(clock_s: FloatArray, read: FloatArray, there: NDArray[np.bool_], name: str) -> FloatArray:
    return fitted_shadow(clock_s[there], read[there], clock_s)


_KINDS: Mapping[str, _Kind] = {
    "pendulum": _Kind(NUMBER, "m", "s", _pendulum, wrong("error_readings-model-needs-pendulum")),
    "fall": _Kind(NUMBER, "m", "s", _fall, wrong("error_readings-model-needs-fall")),
    "sound-level": _Kind(NUMBER, "m", "dB", _sound, wrong("error_readings-model-needs-sound-level")),
    "plant-growth": _Kind(OVER_TIME, "s", "m", _plant, wrong("error_readings-model-needs-plant-growth")),
    "shadow": _Kind(OVER_TIME, "s", "m", _shadow, wrong("error_readings-model-needs-shadow")),
}
