"""What is told of the race of two cups: facts for each stage, moments, and why a stage did not come."""

from __future__ import annotations

import numpy as np

from sonify.processes.cooling_model import CUPS, Cup, Race
from sonify.processes.telling import Stretch, fixed, given
from sonify.records.fact import Amount, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.timeline import Event, FloatArray
from sonify.units import convert

Spans = dict[str, tuple[int, int]]


def told(race: Race, whole: Stretch, spans: Spans) -> dict[str, Words]:
    """The facts of each stage, with this run's own figures."""
    writers = {"level": _level, "apart": _apart, "closing": _closing, "home": _home}
    return {name: writers[name](race, whole.steps(*span)) for name, span in spans.items()}


def _way(race: Race) -> str:
    """What both drinks do, as the messages name it."""
    return "cools" if race.ahead_k > 0.0 else "warms"


def _room(race: Race) -> Amount:
    return given(convert(race.room_temperature, "K", "degC"), "degC", "room_temperature", places=1)


def _temperature(stretch: Stretch, cup: str) -> Amount:
    return stretch.figure(f"temperature of cup {cup}", "last", places=1)


def _both(stretch: Stretch) -> dict[str, Amount]:
    return {"a": _temperature(stretch, "A"), "b": _temperature(stretch, "B")}


def _gap(stretch: Stretch, how: str) -> Amount:
    """A difference of temperatures, in degrees Celsius as children read them."""
    return stretch.figure("gap", how, digits=2, unit="delta_degC")


def _pace(stretch: Stretch, cup: str) -> Amount:
    """How many degrees a minute a drink changes by, on average over the stretch."""
    of = f"temperature of cup {cup}"
    change = stretch.at(of, "change")
    reading = Reading(
        how="change",
        of=of,
        start=stretch.start,
        end=stretch.end,
        per=fixed(stretch.end - stretch.start),
        times=60.0 if change >= 0.0 else -60.0,
    )
    return Amount(value=60.0 * abs(change) / (stretch.end - stretch.start), unit="degC", digits=2, source=reading)


def _quickest(stretch: Stretch) -> Claim:
    """That the drinks change fastest in this stage of all."""
    return Claim(kind="greatest", left=stretch.reading("pace of the race", "mean"))


def _level(race: Race, stretch: Stretch) -> Words:
    start = given(convert(race.start_temperature, "K", "degC"), "degC", "start_temperature", places=1)
    paces = {"a": _pace(stretch, "A"), "b": _pace(stretch, "B")}
    plain = fact("cooling-level-plain", way=_way(race), start=start, room=_room(race), **paces)
    level = fact("cooling-level", _quickest(stretch), way=_way(race), start=start, room=_room(race), **paces)
    return level.or_else(plain)


def _apart(race: Race, stretch: Stretch) -> Words:
    gap = {"from": _gap(stretch, "first"), "to": _gap(stretch, "last")}
    return fact("cooling-apart", stretch.rises("gap"), **gap, **_both(stretch))


def _closing(race: Race, stretch: Stretch) -> Words:
    warmth = {cup: abs(stretch.at(f"warmth left in cup {cup}", "last")) for cup in CUPS}
    front, other = sorted(CUPS, key=lambda cup: warmth[cup])
    slower = Claim(
        kind="less",
        left=stretch.reading(f"warmth left in cup {front}", "last"),
        right=stretch.reading(f"warmth left in cup {other}", "last"),
    )
    closing = fact(
        "cooling-closing", slower, stretch.falls("gap"), way=_way(race), front=front, other=other, **_both(stretch)
    )
    return (closing, *(half for cup in (front, other) if (half := _halving(stretch, cup))))


def _halving(stretch: Stretch, cup: str) -> Fact | None:
    """How long a cup takes to lose half of what is left at the start of the stage; None where the run ends before."""
    of = f"warmth left in cup {cup}"
    rest = stretch.between(stretch.start, float(stretch.time_s[-1]))
    values = np.abs(rest.values(of))
    below = np.flatnonzero(values <= 0.5 * values[0])
    if not below.size:
        return None
    times = np.concatenate(([rest.start], rest.time_s[rest.time_s > rest.start]))
    lasts = Duration(seconds=float(times[below[0]] - rest.start), source=rest.reading(of, "halving"))
    return fact("cooling-halving", cup=cup, lasts=lasts)


def _home(race: Race, stretch: Stretch) -> Words:
    after = Duration(seconds=stretch.end, source=Reading(how="ends", of="home"))
    return fact("cooling-home", stretch.falls("gap"), way=_way(race), room=_room(race), after=after, **_both(stretch))


def events(race: Race, cups: tuple[Cup, Cup], whole: Stretch, time_s: FloatArray) -> tuple[Event, ...]:
    """When each cup has lost half of its difference from the room."""
    found: list[Event] = []
    for name, cup in zip(CUPS, cups, strict=True):
        left = (cup.drink_k - race.room_temperature) / race.ahead_k
        halved = np.flatnonzero(left <= 0.5)
        if halved.size:
            at = int(halved[0])
            here = whole.between(float(time_s[at]), float(time_s[at])).figure(
                f"temperature of cup {name}", "first", places=1
            )
            text = fact("cooling-half-way", cup=name, temperature=here)
            found.append(Event(name=f"half way, cup {name}", time_s=float(time_s[at]), text=text))
    return tuple(sorted(found, key=lambda event: event.time_s))


def never_apart(whole: Stretch) -> Fact:
    """Why there is nothing to compare: the thermometers cannot tell the cups apart."""
    return fact("cooling-never-apart", widest=_gap(whole, "most"))
