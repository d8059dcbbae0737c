"""What is told of the drying puddle: facts for each stage, and the moments a class would chalk."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from sonify.processes.drying_model import STEP_S, Weather
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.timeline import Event, FloatArray

Spans = dict[str, tuple[int, int]]
Day = dict[str, FloatArray]

NEARLY = 0.9  # of the fastest evaporation: from then on it is as good as steady
LEFT_IN_PATCHES = 0.25  # of the water
HOLDS, AS_FAST = 0.1, 0.05  # of the swing: so little change is none, of temperature and of evaporation
SOME_LITRES_KG = 1.05  # less is told in millilitres
NOTICED_K = 0.1  # closer to the air than that, the puddle is as warm as the air


def told(weather: Weather, whole: Stretch, spans: Spans) -> dict[str, Words]:
    """The facts of each stage, with this run's own figures."""
    writers = {"warming": _warming, "drying": _drying, "patches": _patches, "dry": _dry}
    return {name: writers[name](weather, whole.steps(*span)) for name, span in spans.items()}


def litres(stretch: Stretch, name: str, how: str) -> Amount:
    """A kilogram of water as a litre, less than one in millilitres."""
    if abs(stretch.at(name, how)) >= SOME_LITRES_KG:
        return stretch.scaled(name, how, 1.0, "litres", digits=2)
    return stretch.scaled(name, how, 1e3, "ml", digits=2)


def _rate(stretch: Stretch, how: str) -> Amount:
    return stretch.scaled("evaporation rate", how, 3.6e6, "mm", digits=2)


def _leaving(stretch: Stretch, how: str) -> Amount:
    return stretch.scaled("water leaving", how, 60e3, "g", digits=2)


def _temperature(stretch: Stretch, how: str) -> Amount:
    return stretch.figure("puddle temperature", how, places=1)


def _warming(weather: Weather, stretch: Stretch) -> Words:
    lasts, fast = stretch.lasts("warming"), _rate(stretch, "last")
    warms = {"from": _temperature(stretch, "first"), "to": _temperature(stretch, "last")}
    if stretch.at("evaporation rate", "first") < 0.0:
        dew = Claim(kind="less", left=stretch.reading("evaporation rate", "first"), right=fixed(0.0))
        dewed = _dewed(stretch)
        return (
            fact("drying-dew", dew, dew=dewed),
            fact("drying-dew-warming", stretch.rises("puddle temperature"), lasts=lasts, fast=fast, **warms),
        )
    rates = {"slow": _rate(stretch, "first"), "fast": fast}
    rises = (stretch.rises("puddle temperature"), stretch.rises("evaporation rate"))
    by = "sun" if weather.sunlight > 0.0 else "air"
    plain = fact("drying-warming-plain", lasts=lasts, **rates)
    return fact("drying-warming", *rises, lasts=lasts, by=by, **warms, **rates).or_else(plain)


def _dewed(stretch: Stretch) -> Amount:
    """The dew that has come in before the puddle begins to evaporate."""
    start = stretch.reading("water left", "first")
    kilograms = stretch.at("water left", "most") - stretch.at("water left", "first")
    factor, unit = (1.0, "litres") if kilograms >= SOME_LITRES_KG else (1e3, "ml")
    source = Reading(
        how="most",
        of="water left",
        start=stretch.start,
        end=stretch.end,
        less=start,
        per=fixed(1.0),
        times=factor,
    )
    return Amount(value=factor * kilograms, unit=unit, digits=2, source=source)


def _drying(weather: Weather, stretch: Stretch) -> Words:
    start, end = stretch.figure("puddle area", "first", digits=2), stretch.figure("puddle area", "last", digits=2)
    more = Claim(kind="more", left=stretch.reading("water in the air", "change"), right=fixed(0.0))
    return (
        fact("drying-leaves", more, lasts=stretch.lasts("drying"), gone=litres(stretch, "water in the air", "change")),
        _beside_the_air(weather, stretch),
        fact("drying-edge", stretch.falls("puddle area"), **{"from": start, "to": end}),
    )


def _beside_the_air(weather: Weather, stretch: Stretch) -> Fact:
    """How warm the water is, how much warmer or colder than the air, and whether it stays so."""
    at = _temperature(stretch, "last")
    last = stretch.reading("puddle temperature", "last")
    air = Reading(how="condition", of="air_temperature")
    warmer = stretch.at("puddle temperature", "last") - weather.air_temperature
    if abs(warmer) < NOTICED_K:
        return fact("drying-ends", at=at)
    # against the difference itself: a share of the kelvins would be far more than any difference there is
    way, sign = ("warmer", 1.0) if warmer > 0.0 else ("colder", -1.0)
    beside = Claim(kind="more" if warmer > 0.0 else "less", left=replace(last, less=air), right=fixed(0.0))
    apart = Amount(value=abs(warmer), unit="delta_degC", digits=2, source=replace(last, less=air, times=sign))
    steady = stretch.steady("puddle temperature", slack=HOLDS)
    weaker = fact(f"drying-ends-{way}", beside, at=at, apart=apart)
    if not _holds(stretch, "puddle temperature", HOLDS):
        return weaker
    return fact(f"drying-{way}", steady, beside, at=at, apart=apart).or_else(weaker)


def _holds(stretch: Stretch, name: str, share: float) -> bool:
    """Whether a quantity hardly changes, against its swing over the whole run."""
    values = stretch.quantities[name].values
    return float(np.ptp(stretch.values(name))) <= share * float(np.ptp(values))


def _patches(weather: Weather, stretch: Stretch) -> Words:
    few = Claim(
        kind="at most",
        left=stretch.reading("water left", "first"),
        right=Reading(how="first", of="water left", times=LEFT_IN_PATCHES),
    )
    left = fact("drying-quarter", few, left=litres(stretch, "water left", "first"))
    if stretch.at("water left", "last") <= 0.0:  # the first dry minute has no rate of its own
        stretch = stretch.between(stretch.start, stretch.end - STEP_S)
    if stretch.end <= stretch.start:
        return left
    thins = {"from": _leaving(stretch, "first"), "to": _leaving(stretch, "last")}
    falls = stretch.falls("water leaving")
    weaker = fact("drying-thins", falls, **thins)
    if not _holds(stretch, "evaporation rate", AS_FAST):
        return left, weaker
    steady = stretch.steady("evaporation rate", AS_FAST)
    return left, fact("drying-thinner", steady, falls, rate=_rate(stretch, "first"), **thins).or_else(weaker)


def _dry(weather: Weather, stretch: Stretch) -> Words:
    kept = Claim(
        kind="same",
        left=stretch.reading("water in the air", "last"),
        right=Reading(how="first", of="water left"),
        slack=1e-6,
    )
    return fact(
        "drying-dry",
        _no_more(stretch),
        kept,
        after=Duration(seconds=stretch.start, source=Reading(how="begins", of="dry")),
        gone=litres(stretch, "water in the air", "last"),
    )


def _no_more(stretch: Stretch) -> Claim:
    return Claim(kind="at most", left=stretch.reading("water left", "first"), right=fixed(0.0))


def events(day: Day, whole: Stretch, spans: Spans) -> tuple[Event, ...]:
    """Dew and its end, half of the water, half of the area, and the last drop."""
    moments = []

    def add(name: str, step: int, message: str, claim: Claim) -> None:
        moments.append(Event(name=name, time_s=step * STEP_S, text=fact(message, claim)))

    rate = day["rate_kg_m2_s"]
    evaporates = np.flatnonzero(rate > 0.0)
    if rate[0] < 0.0 and evaporates.size:
        begins = int(evaporates[0])
        reading = whole.reading("evaporation rate", "first")
        add("dew", 0, "drying-dew-falls", Claim(kind="less", left=reading, right=fixed(0.0)))
        here = whole.steps(begins, begins).reading("evaporation rate", "first")
        add("evaporation begins", begins, "drying-begins", Claim(kind="at least", left=here, right=fixed(0.0)))
    for name, quantity, values, message in (
        ("half the water", "water left", day["water_kg"], "drying-half-water"),
        ("half the area", "puddle area", day["area_m2"], "drying-half-area"),
    ):
        below = np.flatnonzero(values <= 0.5 * values[0])
        if below.size:
            step = int(below[0])
            half = Reading(how="first", of=quantity, times=0.5)
            here = whole.steps(step, step).reading(quantity, "first")
            add(name, step, message, Claim(kind="at most", left=here, right=half))
    if "dry" in spans:
        step = spans["dry"][0]
        add("dry", step, "drying-last", _no_more(whole.steps(step, step)))
    return tuple(sorted(moments, key=lambda event: event.time_s))


def reason(name: str, day: Day, whole: Stretch) -> Fact:
    """Why a stage did not come."""
    most = float(day["rate_kg_m2_s"].max()) / 1000.0
    if name == "warming":
        fastest = replace(whole.reading("evaporation rate", "most"), times=NEARLY)
        first = whole.reading("evaporation rate", "first")
        return fact("drying-no-warming", Claim(kind="at least", left=first, right=fastest))
    if name == "drying":
        level = LEFT_IN_PATCHES * float(day["water_kg"][0])
        patches = whole.reading("water left", "when under", level)
        fast = whole.reading("evaporation rate", "when over", NEARLY * most)
        return fact("drying-no-drying", Claim(kind="first", left=patches, right=fast))
    after = Duration(seconds=whole.end, source=Reading(how="ends"))
    return fact("drying-still-wet", after=after, left=litres(whole, "water left", "last"))
