"""The Moon's month: from one new moon to the next, how much of it is lit and how far it has gone round."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import ceil, pi

import numpy as np

from sonify.constants import DAY_S
from sonify.processes.day_length_words import date_of
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch
from sonify.records.fact import Amount, Claim, Fact, Reading, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, Event, FloatArray, Timeline
from sonify.science.moon import elongation, lit_share, when_round
from sonify.science.sun import days_since_2000

# What is told of the Moon's month: from when to when, how much is lit, how fast that changes --------------------------

LIT, PACE = "lit part", "pace of the light"
GROWS = ("crescent grows", "grows to full")


def told(whole: Stretch, begins: float, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage. begins: days from noon of 1 January 2000 to the new moon."""
    return {name: _stage(name, whole.steps(*span), begins) for name, span in found.items()}


def _stage(name: str, stretch: Stretch, begins: float) -> Fact:
    way = "grows" if name in GROWS else "shrinks"
    trend = stretch.rises(LIT) if way == "grows" else stretch.falls(LIT)
    return fact(
        f"moon-{way}",
        trend,
        since=date_of(stretch.start, Reading(how="begins", of=name), begins),
        until=date_of(stretch.end, Reading(how="ends", of=name), begins),
        first=_a_day(stretch, "first"),
        last=_a_day(stretch, "last"),
        **{"from": _lit(stretch, "first"), "to": _lit(stretch, "last")},
    )


def _lit(stretch: Stretch, how: str) -> Amount:
    return stretch.figure(LIT, how, places=0)


def _a_day(stretch: Stretch, how: str) -> Amount:
    """By how many hundredths of the disc the lit part changes in a day, at the start or the end."""
    source = replace(stretch.reading(PACE, how), times=100.0 * DAY_S)
    return Amount(value=100.0 * DAY_S * stretch.at(PACE, how), places=0, source=source)


def events(whole: Stretch, begins: float, found: Mapping[str, tuple[int, int]]) -> tuple[Event, ...]:
    """New, half and full moon, and a quarter of the way from new to full."""
    cuts = {name: whole.steps(*span) for name, span in found.items()}
    half, full, again = (cuts[name].start for name in list(cuts)[1:])
    quarter = 0.25 * full
    rows = [
        (0.0, "new moon"),
        (quarter, "a quarter of the way"),
        (half, "half lit, growing"),
        (full, "full moon"),
        (again, "half lit, shrinking"),
        (whole.end, "new moon again"),
    ]
    return tuple(_event(name, whole, begins, time_s) for time_s, name in rows)


def _event(name: str, whole: Stretch, begins: float, time_s: float) -> Event:
    here = whole.between(time_s, time_s)
    date = date_of(time_s, Reading(how="happens", of=name), begins)
    message = f"moon-{name.replace(',', '').replace(' ', '-')}"
    if name == "a quarter of the way":
        text = fact(message, date=date, lit=_lit(here, "first"))
    elif name.startswith("half"):
        text = fact(message, date=date, lit=_lit(here, "first"), age=_age(here))
    else:
        how = "most" if name == "full moon" else "least"
        same = Claim(kind="same", left=here.reading(LIT, "first"), right=whole.reading(LIT, how), slack=1e-6)
        age = {} if name == "new moon" else {"age": _age(here)}
        text = fact(message, same, date=date, **age)
    return Event(name=name, time_s=time_s, text=text)


def _age(here: Stretch) -> Amount:
    return here.figure("age of the Moon", "first", places=1)


FIRST_YEAR, LAST_YEAR = 1951, 2048  # the formulae hold from 1950 to 2050
LOOKS = 60  # between one quarter of the month and the next
#: Day of the year on which each month begins, in years without a leap day.
MONTH_BEGINS = (1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335)

_DECLARED = Declared("moon")
_SHARE, _ANGLE = ("%", "1"), ("deg", "rad")

CONDITIONS = (
    _DECLARED.condition("year", ("1", "1"), 2025, (FIRST_YEAR, LAST_YEAR), whole=True),
    _DECLARED.condition("month", ("1", "1"), 1, (1, 12), whole=True),
)

STAGES = (
    _DECLARED.stage("crescent grows"),
    _DECLARED.stage("grows to full"),
    _DECLARED.stage("shrinks from full"),
    _DECLARED.stage("crescent shrinks"),
)

QUANTITIES = (
    _DECLARED.quantity(LIT, "k", _SHARE),
    _DECLARED.quantity("dark part", "d", _SHARE),
    _DECLARED.quantity(PACE, "p", ("%/day", "1/s")),
    _DECLARED.quantity("way round", "E", _ANGLE),
    _DECLARED.quantity("hours behind the Sun", "b", ("h", "s")),
    _DECLARED.quantity("age of the Moon", "a", ("day", "s")),
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The month from the first new moon of a calendar month to the next new moon."""
    turns = _first_new_moon(round(conditions["year"]), round(conditions["month"]))
    quarters = when_round(turns + 0.25 * np.arange(5.0))
    begins, days = float(quarters[0]), _looks(quarters)
    time_s = (days - begins) * DAY_S
    values = _values(days, begins, turns)
    found, made = _found(values[LIT]), quantities(QUANTITIES, values)
    whole = Stretch.whole(time_s, made)
    shares = [values[LIT], values["dark part"]]
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(whole, begins, found)),
        events=events(whole, begins, found),
        conserved=(Conserved(name="lit and dark together", relative_drift=drift(shares, 1.0)),),
    )


def _first_new_moon(year: int, month: int) -> float:
    """Whole turns at the first new moon from the beginning of a calendar month on."""
    begins = days_since_2000(year, MONTH_BEGINS[month - 1], 0.0) + (month > 2 and year % 4 == 0)
    return float(ceil(float(elongation(float(begins))) / (2.0 * pi)))


def _looks(quarters: FloatArray) -> FloatArray:
    """Moments of equal steps from quarter to quarter, the quarters among them."""
    legs = [np.linspace(a, b, LOOKS, endpoint=False) for a, b in zip(quarters[:-1], quarters[1:], strict=True)]
    return np.append(np.concatenate(legs), quarters[-1])


def _values(days: FloatArray, begins: float, turns: float) -> dict[str, FloatArray]:
    round_rad = np.clip(elongation(days) - 2.0 * pi * turns, 0.0, 2.0 * pi)
    lit = lit_share(round_rad)
    pace = np.sin(round_rad) / 2.0 * (elongation(days + 0.01) - elongation(days - 0.01)) / (0.02 * DAY_S)
    return {
        LIT: lit,
        "dark part": 1.0 - lit,
        PACE: np.abs(pace),
        "way round": round_rad,
        "hours behind the Sun": round_rad / (2.0 * pi) * DAY_S,
        "age of the Moon": (days - begins) * DAY_S,
    }


def _found(lit: FloatArray) -> dict[str, tuple[int, int]]:
    """First and last sample of the four stages: cut at half lit, full and half lit again."""
    full = int(np.argmax(lit))
    half = int(np.argmax(lit >= 0.5 - 1e-9))
    again = full + int(np.argmax(lit[full:] <= 0.5 + 1e-9))
    cuts = (0, half, full, again, lit.size - 1)
    return {stage.name: (cuts[n], cuts[n + 1]) for n, stage in enumerate(STAGES)}


PROCESS = ProcessSpec(
    name="moon",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(4),
    sources=("MEEUS-1998",),
    cycle=True,
    cautions=always("sun"),
)
