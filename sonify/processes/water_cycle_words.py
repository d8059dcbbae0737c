"""What is told of the water's day: facts for each stage, and the moments worth naming, with the day's own figures."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from sonify.processes.declared import events_at
from sonify.processes.telling import Stretch, added, fixed
from sonify.processes.water_cycle_model import (
    LAND_SHARE,
    SEA_SHARE,
    SHALLOWS_DEPTH_M,
    SHALLOWS_SHARE,
    WATER_ALBEDO,
    WATER_HEAT_J_PER_M3_K,
)
from sonify.processes.water_cycle_stages import Day
from sonify.records.fact import Amount, Arg, Claim, Fact, Reading, Words, fact
from sonify.records.timeline import Event
from sonify.science.sun import HORIZON_RAD

FOG_BASE_M = 50.0  # a cloud that begins lower is called fog here
WATER_SHARE = SEA_SHARE + SHALLOWS_SHARE


def told(whole: Stretch, spans: dict[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage, with this day's own figures."""
    writers = {
        "warming": _warming,
        "evaporation": _evaporation,
        "condensation": _condensation,
        "precipitation": _precipitation,
        "collection": _collection,
    }
    return {name: writers[name](whole, whole.steps(*span)) for name, span in spans.items()}


def _warmth(stretch: Stretch, of: str, how: str) -> Amount:
    return stretch.figure(f"{of} temperature", how, places=1)


def _depth(stretch: Stretch, rate: str, share: float = 1.0) -> Amount:
    """What a rate comes to as a layer of water, in mm; share: of the column under which it is spread."""
    if share == 1.0:
        return stretch.total(rate, "mm")
    return stretch.scaled(rate, "total", 1000.0 * share, "mm", digits=2)


def _hourly(stretch: Stretch, rate: str, how: str) -> Amount:
    return stretch.figure(rate, how, digits=2, unit="millimetre/hour")


def _spread(stretch: Stretch, of: str) -> Reading:
    """From the least to the most of a quantity."""
    return replace(stretch.reading(of, "most"), less=stretch.reading(of, "least"))


def _warming(whole: Stretch, stretch: Stretch) -> Words:
    clocks: dict[str, Arg] = {"after": stretch.begins("warming"), "until": stretch.ends("warming")}
    ends = {"from": _warmth(stretch, "shallows", "first"), "to": _warmth(stretch, "shallows", "last")}
    deep = _warmth(stretch, "sea", "last")
    less = Claim(kind="less", left=_spread(stretch, "sea temperature"), right=_spread(stretch, "shallows temperature"))
    rises = stretch.rises("shallows temperature")
    sea = fact("water_cycle-deep-sea", less, deep=deep)
    height = stretch.figure("sun height", "most", places=0)
    reach = fact("water_cycle-shallows", most=_warmth(stretch, "shallows", "most"), **clocks)
    warms = fact("water_cycle-warms", rises, **clocks, **ends).or_else(reach)
    if height.value < 1.0 or not _sun_suffices(stretch):
        return (warms, sea)
    return (fact("water_cycle-sun-warms", rises, _sun(stretch), height=height, **clocks, **ends).or_else(warms), sea)


#: Sunlight that the shallows take in, and the heat that it takes to warm them by a degree, J/m².
_TAKEN, _HEAT = 1.0 - WATER_ALBEDO, WATER_HEAT_J_PER_M3_K * SHALLOWS_DEPTH_M


def _sun_suffices(stretch: Stretch) -> bool:
    warmed = stretch.at("shallows temperature", "change")
    return _TAKEN * stretch.at("sunlight", "total") >= _HEAT * warmed


def _sun(stretch: Stretch) -> Claim:
    """That the sunlight which the shallows take in is enough to have warmed them."""
    taken = replace(stretch.reading("sunlight", "total"), times=_TAKEN)
    needed = replace(stretch.reading("shallows temperature", "change"), times=_HEAT)
    return Claim(kind="at least", left=taken, right=needed)


def _evaporation(whole: Stretch, stretch: Stretch) -> Words:
    clocks: dict[str, Arg] = {"after": stretch.begins("evaporation"), "until": stretch.ends("evaporation")}
    rate, warmest = _hourly(stretch, "evaporation rate", "most"), _warmth(stretch, "shallows", "most")
    depth = _depth(stretch, "evaporation rate")
    leaves = fact("water_cycle-leaves", depth=depth, rate=rate, warmest=warmest, **clocks)
    if depth.value <= 0.0:
        leaves = fact("water_cycle-leaves-and-returns", rate=rate, warmest=warmest, **clocks)
    day, spread = _depth(whole, "evaporation rate"), _depth(whole, "evaporation rate", WATER_SHARE)
    if day.value <= 0.0:
        return leaves
    return (leaves, fact("water_cycle-whole-day", day=day, spread=spread))


def _condensation(whole: Stretch, stretch: Stretch) -> Words:
    after, water = stretch.begins("condensation"), _warmth(stretch, "journey", "last")
    base = stretch.figure("cloud base", "first", places=0)
    climbs = Claim(
        kind="at least",
        left=stretch.reading("height the air climbs", "most"),
        right=stretch.reading("cloud base", "least"),
    )
    if base.value < FOG_BASE_M:
        wet = stretch.figure("relative humidity", "most", digits=2)
        return fact("water_cycle-fog", after=after, wet=wet, base=base, water=water)
    plain = fact("water_cycle-cloud-forms", after=after, base=base, water=water)
    return fact("water_cycle-cloud", climbs, after=after, base=base, water=water).or_else(plain)


def _precipitation(whole: Stretch, stretch: Stretch) -> Words:
    heaviest = whole.moment("rain rate", "when most")
    falls = fact(
        "water_cycle-falls",
        after=stretch.begins("precipitation"),
        drop=whole.figure("drop size", "most", digits=2),
        speed=whole.figure("drop fall speed", "most", digits=2, unit="metre/second"),
        rate=_hourly(whole, "rain rate", "most"),
        at=whole.clock(heaviest, whole.reading("rain rate", "when most")),
    )
    rain, spread = _depth(whole, "rain rate"), _depth(whole, "rain rate", LAND_SHARE)
    return (falls, fact("water_cycle-day-brings", rain=rain, spread=spread))


def _collection(whole: Stretch, stretch: Stretch) -> Words:
    until = whole.between(whole.start, stretch.start)
    fallen = until.at("rain rate", "total") / whole.at("rain rate", "total")
    source = replace(until.reading("rain rate", "total"), per=whole.reading("rain rate", "total"), times=100.0)
    share = Amount(value=100.0 * fallen, unit="%", digits=2, source=source)
    stores = ("water in the hillside", "water in the river")
    held = sum(stretch.at(store, "last") for store in stores)
    ways = added(*(stretch.reading(store, "last") for store in stores))
    per_land = fixed(LAND_SHARE)
    waiting = Amount(
        value=1000.0 * held / LAND_SHARE, unit="mm", digits=2, source=replace(ways, per=per_land, times=1000.0)
    )
    back = _depth(whole.between(whole.start, stretch.end), "river flow")
    return (
        fact("water_cycle-fallen", after=stretch.begins("collection"), share=share),
        fact("water_cycle-comes-home", back=back, until=stretch.ends("collection"), waiting=waiting),
    )


def events(day: Day, whole: Stretch, spans: dict[str, tuple[int, int]]) -> tuple[Event, ...]:
    """Moments of the day in order: the Sun's own, and the firsts of cloud and rain."""
    sun, rain = day["sun_rad"], day["rain_rate_m_s"]
    noon = int(np.argmax(sun))
    height = whole.figure("sun height", "most", places=0)
    highest = fact("water_cycle-noon", height=height)
    if sun[noon] < HORIZON_RAD:
        below = Claim(kind="at most", left=whole.reading("sun height", "most"), right=fixed(HORIZON_RAD))
        highest = fact("water_cycle-no-sunrise", below)
    moments: list[tuple[int, str, Fact]] = [(noon, "noon", highest)]
    sunset = np.flatnonzero(sun[noon:] < HORIZON_RAD)  # sunrise is told by the same horizon
    if sunset.size and sun[noon] >= HORIZON_RAD:
        at = noon + int(sunset[0])
        below = Claim(kind="at most", left=whole.steps(at, at).reading("sun height", "first"), right=fixed(HORIZON_RAD))
        moments.append((at, "sunset", fact("water_cycle-sunset", below)))
    if "condensation" in spans:
        start = spans["condensation"][0]
        base = whole.steps(start, start).figure("cloud base", "first", places=0)
        kind = "fog" if base.value < FOG_BASE_M else "cloud"
        moments.append((start, "first cloud", fact("water_cycle-first-cloud", kind=kind, base=base)))
    if "precipitation" in spans:
        start, heaviest = spans["precipitation"][0], int(np.argmax(rain))
        rate = _hourly(whole.steps(start, start), "rain rate", "first")
        moments.append((start, "first rain", fact("water_cycle-first-rain", rate=rate)))
        heavy = fact("water_cycle-heaviest", rate=_hourly(whole, "rain rate", "most"))
        moments.append((heaviest, "heaviest rain", heavy))
    return events_at(moments, whole.time_s)
