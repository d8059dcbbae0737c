"""A plant grows: slowly at first, quickest in the middle, less and less, and then no more."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import e

import numpy as np

from sonify.processes.declared import Adviser, drift, first, quantities, spans, stages
from sonify.processes.plant_growth_words import GROWTH, HEIGHT, LEFT, events, reasons, told
from sonify.processes.specs import Declared, share_of_ours
from sonify.processes.telling import Stretch
from sonify.records.fact import fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline
from sonify.science.growth import CURVES, gompertz_growth, gompertz_height, logistic_growth, logistic_height

DAY_S = 86_400.0
LOOKS = 400
#: Shares of the fastest growth at which the stages part (our own choice).
QUICK, HARDLY = 0.5, 0.1

_DECLARED = Declared("plant_growth")
_CM, _DAYS = ("cm", "m"), ("day", "s")

CONDITIONS = (
    replace(_DECLARED.condition("curve", ("1", "1"), 0.0, (0.0, len(CURVES) - 1.0), whole=True), choices=CURVES),
    _DECLARED.condition("final_height", _CM, 2.61, (0.01, 5.0)),
    _DECLARED.condition("rate", ("%/day", "1/s"), 0.0877 / DAY_S, (0.005 / DAY_S, 1.0 / DAY_S)),
    _DECLARED.condition("fastest_day", _DAYS, 34.3 * DAY_S, (1.0 * DAY_S, 200.0 * DAY_S)),
    _DECLARED.condition("days", _DAYS, 84.0 * DAY_S, (5.0 * DAY_S, 400.0 * DAY_S)),
)


STAGES = (
    _DECLARED.stage("slow start", seen_as=fact("plant_growth-seen-slow", share=share_of_ours(QUICK))),
    _DECLARED.stage("quick middle", seen_as=fact("plant_growth-seen-quick", share=share_of_ours(QUICK))),
    _DECLARED.stage("slowing down", seen_as=fact("plant_growth-seen-slowing", share=share_of_ours(HARDLY))),
    _DECLARED.stage("nearly grown"),
)
ORDER = tuple(stage.name for stage in STAGES)

QUANTITIES = (
    _DECLARED.quantity(HEIGHT, "h", _CM),
    _DECLARED.quantity(GROWTH, "g", ("cm/day", "m/s")),
    _DECLARED.quantity(LEFT, "r", _CM),
    _DECLARED.quantity("share of full height", "f", ("%", "1")),
    _DECLARED.quantity("day", "d", _DAYS),
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The season that follows from the conditions (SI units)."""
    time_s, values = _values(conditions)
    found, made = _found(values[GROWTH], time_s, conditions), quantities(QUANTITIES, values)
    whole = Stretch.whole(time_s, made)
    stores = [values[HEIGHT], values[LEFT]]
    kept = Conserved(name="height and what is still to grow", relative_drift=drift(stores, conditions["final_height"]))
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(whole, found)),
        events=events(whole, conditions["fastest_day"]),
        missing=_missing(found, conditions),
        conserved=(kept,),
    )


def _values(conditions: Mapping[str, float]) -> tuple[FloatArray, dict[str, FloatArray]]:
    """Every quantity over time, SI. The moment of fastest growth is among the times, if it is reached."""
    fastest, ends = conditions["fastest_day"], conditions["days"]
    looks = np.linspace(0.0, ends, LOOKS)
    time_s = np.unique(np.append(looks, fastest)) if fastest < ends else looks
    logistic = CURVES[round(conditions["curve"])] == CURVES[0]
    height, growth = (logistic_height, logistic_growth) if logistic else (gompertz_height, gompertz_growth)
    final, rate = conditions["final_height"], conditions["rate"]
    tall = height(time_s - fastest, final, rate)
    return time_s, {
        HEIGHT: tall,
        GROWTH: growth(time_s - fastest, final, rate),
        LEFT: final - tall,
        "share of full height": tall / final,
        "day": time_s,
    }


def _fastest(conditions: Mapping[str, float]) -> float:
    """The greatest growth of the whole curve, m/s."""
    steepest = 4.0 if CURVES[round(conditions["curve"])] == CURVES[0] else e
    return conditions["rate"] * conditions["final_height"] / steepest


def _found(growth: FloatArray, time_s: FloatArray, conditions: Mapping[str, float]) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    share = growth / _fastest(conditions)
    after = int(np.searchsorted(time_s, conditions["fastest_day"]))
    starts = {
        "slow start": 0 if share[0] < QUICK and after > 0 else None,
        "quick middle": first(share >= QUICK),
        "slowing down": first(share < QUICK, after),
        "nearly grown": first(share <= HARDLY, after),
    }
    return spans(starts, time_s.size - 1)


def _missing(found: Mapping[str, tuple[int, int]], conditions: Mapping[str, float]) -> tuple[Missing, ...]:
    def tried(changed: Mapping[str, float]) -> dict[str, tuple[int, int]]:
        time_s, values = _values(changed)
        return _found(values[GROWTH], time_s, changed)

    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=tried)
    rate, fastest, days = conditions["rate"], conditions["fastest_day"], conditions["days"]
    changes = {
        "slow start": [("fastest_day", 3.0 / rate), ("rate", 3.0 / fastest)],
        "quick middle": [("days", fastest + 1.0 / rate), ("fastest_day", 0.5 * days), ("rate", 2.0 / days)],
        "slowing down": [("days", fastest + 3.0 / rate), ("fastest_day", 0.4 * days), ("rate", 6.0 / days)],
        "nearly grown": [("days", fastest + 6.0 / rate), ("fastest_day", 0.4 * days), ("rate", 10.0 / days)],
    }
    return tuple(adviser.missing(name, reasons(name, conditions), changes[name]) for name in ORDER if name not in found)


PROCESS = ProcessSpec(
    name="plant-growth",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(4),
    sources=("REED-HOLLAND-1919", "GOMPERTZ-1825"),
)
