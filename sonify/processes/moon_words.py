"""What is told of the Moon's month: from when to when, how much is lit, how fast that changes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sonify.processes.day_length_words import date_of
from sonify.processes.telling import Stretch
from sonify.records.fact import Amount, Claim, Fact, Reading, Words, fact
from sonify.records.timeline import Event

DAY_S = 86_400.0
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
