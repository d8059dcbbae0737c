"""What is told of a plant that grows: from what to what, and how much a day."""

from __future__ import annotations

from collections.abc import Mapping

from sonify.processes.telling import Stretch, given, told_apart
from sonify.records.fact import Amount, Arg, Claim, Fact, Reading, Words, fact
from sonify.records.timeline import Event
from sonify.units import convert

DAY_S = 86_400.0
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
