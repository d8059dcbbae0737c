"""The stages of a year of sunlight, and what is told of them, with this year's own figures."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import DAY_S
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Arg, Claim, Date, Duration, Fact, Reading, Words, fact
from sonify.records.timeline import Event

#: Noon of 1 January 2000, in days from the beginning of 1 January of the year 1, which is day 1.
NOON_2000 = 730_120.5
#: Two days of the year are as long as each other within this share: the formulae and a look now and then allow it.
AS_LONG = 2.5e-3
LIT, NOON, CHANGE = "day length", "noon height of the Sun", "change of the day"

_DECLARED = Declared("day_length")

STAGES = (
    _DECLARED.stage("light returns"),
    _DECLARED.stage("long days grow"),
    _DECLARED.stage("days shrink"),
    _DECLARED.stage("darkness grows"),
)


def told(whole: Stretch, begins: float, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage. begins: days from noon of 1 January 2000 to the first sample."""
    return {name: _stage(name, whole.steps(*span), begins) for name, span in found.items()}


def _stage(name: str, stretch: Stretch, begins: float) -> Fact:
    grows = stretch.at(LIT, "change") > 0.0
    figures: dict[str, Arg] = {
        "since": date_of(stretch.start, Reading(how="begins", of=name), begins),
        "until": date_of(stretch.end, Reading(how="ends", of=name), begins),
        "from": _long(stretch, "first"),
        "to": _long(stretch, "last"),
        "fast": _a_day(stretch, "most" if grows else "least"),
        "low": _high(stretch, "first"),
        "high": _high(stretch, "last"),
    }
    if grows:
        return fact("day_length-grows", stretch.rises(LIT), **figures)
    return fact("day_length-shrinks", stretch.falls(LIT), **figures)


def date_of(time_s: float, source: Reading, begins: float) -> Date:
    """The day of a moment of model time. source: its reading, in model seconds."""
    zero = NOON_2000 + begins
    since = fixed(-DAY_S * zero)
    dated = Reading(how=source.how, of=source.of, start=source.start, end=source.end, less=since)
    return Date(day=int(np.floor(zero + time_s / DAY_S)), parts="dm", source=dated)


def _long(stretch: Stretch, how: str) -> Duration:
    return Duration(seconds=stretch.at(LIT, how), source=stretch.reading(LIT, how))


def _high(stretch: Stretch, how: str) -> Arg:
    return stretch.figure(NOON, how)


def _a_day(stretch: Stretch, how: str) -> Duration:
    """By how much a day differs from the next, where it differs most that way."""
    seconds = DAY_S if how == "most" else -DAY_S
    reading = Reading(how=how, of=CHANGE, start=stretch.start, end=stretch.end, times=seconds)
    return Duration(seconds=max(0.0, seconds * stretch.at(CHANGE, how)), source=reading)


def events(whole: Stretch, begins: float) -> tuple[Event, ...]:
    """The shortest and the longest day, and the two days on which the light changes fastest."""
    lit, change = (whole.quantities[name].values for name in (LIT, CHANGE))
    rows = [
        (0, "shortest day"),
        (int(np.argmax(change)), "fastest growth"),
        (int(np.argmax(lit)), "longest day"),
        (int(np.argmin(change)), "fastest loss"),
    ]
    return tuple(_event(name, whole, begins, float(whole.time_s[at])) for at, name in sorted(rows))


def _event(name: str, whole: Stretch, begins: float, time_s: float) -> Event:
    here = whole.between(time_s, time_s)
    date = date_of(time_s, Reading(how="happens", of=name), begins)
    of, how = (LIT, "first") if name.endswith("day") else (CHANGE, "first")
    extreme = "least" if name in ("shortest day", "fastest loss") else "most"
    is_so = Claim(
        kind="same", left=here.reading(of, how), right=whole.reading(of, extreme), slack=AS_LONG if of == LIT else 0.0
    )
    message = f"day_length-{name.replace(' ', '-')}"
    if of == LIT:
        text = fact(message, is_so, date=date, lasts=_long(here, "first"), high=_high(here, "first"))
    else:
        text = fact(message, is_so, date=date, fast=_a_day(here, extreme))
    return Event(name=name, time_s=time_s, text=text)
