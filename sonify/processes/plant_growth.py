"""A plant grows: slowly at first, quickest in the middle, less and less, and then no more."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import e

import numpy as np

from sonify.constants import DAY_S
from sonify.processes.declared import Adviser, drift, first, quantities, spans, stages
from sonify.processes.specs import Declared, share_of_ours
from sonify.processes.telling import Stretch, given, told_apart
from sonify.records.fact import Amount, Arg, Claim, Fact, Reading, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, Event, FloatArray, Missing, Timeline
from sonify.science.growth import CURVES, gompertz_growth, gompertz_height, logistic_growth, logistic_height
from sonify.units import convert

# What is told of a plant that grows: from what to what, and how much a day --------------------------------------------

HEIGHT, GROWTH, LEFT = "height", "growth a day", "still to grow"
_MESSAGES = {"slow start": "slow", "slowing down": "slowing", "nearly grown": "grown"}


def told(whole: Stretch, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage."""
    return {name: _stage(name, whole.steps(*span), len(found)) for name, span in found.items()}


def _stage(name: str, stretch: Stretch, stages: int) -> Fact:
    since, until = (_day(how, name, at) for how, at in (("begins", stretch.start), ("ends", stretch.end)))
    ends = told_apart(stretch.figure(HEIGHT, "first"), stretch.figure(HEIGHT, "last"))
    if ends is None:
        return fact("plant_growth-stays", since=since, until=until, height=stretch.figure(HEIGHT, "last"))
    figures: dict[str, Arg] = {"since": since, "until": until, "from": ends[0], "to": ends[1]}
    plain = fact("plant_growth-goes", **figures)
    if name == "quick middle":
        most = stretch.figure(GROWTH, "most", digits=2)
        quickest = Claim(kind="greatest", left=stretch.reading(GROWTH, "mean"))
        alone = fact("plant_growth-quick-alone", stretch.rises(HEIGHT), most=most, **figures).or_else(plain)
        told = fact("plant_growth-quick", quickest, stretch.rises(HEIGHT), most=most, **figures).or_else(alone)
        return told if stages > 1 else alone
    trend = stretch.rises(GROWTH) if name == "slow start" else stretch.falls(GROWTH)
    pace = stretch.figure(GROWTH, "last", digits=2)
    left: dict[str, Arg] = {"left": stretch.figure(LEFT, "last")} if name == "nearly grown" else {}
    return fact(f"plant_growth-{_MESSAGES[name]}", trend, pace=pace, **left, **figures).or_else(plain)


def _day(how: str, stage: str, time_s: float) -> Amount:
    """The day on which a stage begins or ends, counted from the first reading."""
    return Amount(value=time_s / DAY_S, places=0, source=Reading(how=how, of=stage, times=1.0 / DAY_S))


def events(whole: Stretch, fastest: float) -> tuple[Event, ...]:
    """The day of the fastest growth, if it is seen."""
    if fastest >= whole.end:
        return ()
    here = whole.between(fastest, fastest)
    name = "growing fastest"
    most = Claim(kind="same", left=here.reading(GROWTH, "first"), right=whole.reading(GROWTH, "most"), slack=1e-6)
    text = fact(
        "plant_growth-fastest",
        most,
        day=_day("happens", name, fastest),
        growth=here.figure(GROWTH, "first", digits=2),
        height=here.figure(HEIGHT, "first"),
        share=here.figure("share of full height", "first", digits=2),
    )
    return (Event(name=name, time_s=fastest, text=text),)


def reasons(stage: str, conditions: Mapping[str, float]) -> Fact:
    """Why a stage did not come: it lies before the first day or after the last."""
    message = "plant_growth-too-late" if stage == "slow start" else "plant_growth-too-early"
    return fact(message, days=_given("days", conditions), fastest=_given("fastest_day", conditions))


def _given(name: str, conditions: Mapping[str, float]) -> Amount:
    return given(convert(conditions[name], "s", "day"), "day", name, digits=3)


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
