"""What is told of a class's own readings: facts for each stretch, its title, and the least and the greatest reading."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from sonify.constants import DAY_S
from sonify.frozen import dataclass
from sonify.processes.measured_stretches import Stretch as Found
from sonify.processes.readings import YEAR_S
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Arg, Claim, ClockTime, Date, Duration, Fact, Reading, Words, fact
from sonify.records.table import Table
from sonify.records.timeline import Event

#: Up to so many days the hour is told beside the day; up to so many years the month.
DAYS_WITH_HOURS, YEARS_WITH_MONTHS = 60, 30
#: "Near": nine tenths of the readings less the lowest tenth span so many times the share that counts (our own choice).
NEAR = 2.0
#: A reading stands out where it is so far from the line, as a share of how far the line climbs (our own choice).
STANDS_OUT = 0.35
#: What the readings do all along, where no stretches are told apart: the claim and the end of the message's identifier.
ALL_ALONG = {"rising": "rises", "falling": "falls", "still": "steady"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Telling:
    """What is told of one column. level: the share of the range up to which a stretch counts as level."""

    whole: Stretch
    table: Table
    name: str
    level: float

    def title(self, found: Found, number: int) -> Fact:
        """A stretch's heading: where it leads to, or where it stays."""
        here = self.whole.between(found.start_s, found.end_s)
        if found.way == "part":
            return fact("measured-title-quarter", number=number + 1)
        match self._way(here, found):
            case "goes":
                start, end = self._first_last(here)
                return fact("measured-title-goes", **{"from": start, "to": end})
            case "level":
                return fact("measured-title-level", near=here.figure(self.name, "median"))
            case "about":
                return fact("measured-title-about", near=here.figure(self.name, "median"))
            case way:
                return fact("measured-title-way", way=way, pace=found.pace or "any", to=self._ends(here)[1])

    def science(self, stage: str, found: Found) -> Words:
        """What the readings do in a stretch."""
        here = self.whole.between(found.start_s, found.end_s)
        when = self.span(stage, here)
        if found.way == "part":
            return self._part(here, found, when)
        told: dict[str, Arg] = {"when": when, "quantity": self.name}
        weaker = fact("measured-middle", **told, middle=here.figure(self.name, "median"))
        match self._way(here, found):
            case "about":
                return weaker
            case "goes":
                first, last = self._first_last(here)
                return fact("measured-goes", **told, **{"from": first, "to": last})
            case "level":
                level = fact("measured-level", *self._hardly(here), **told, near=here.figure(self.name, "median"))
                return level.or_else(weaker)
            case way:
                start, end = self._ends(here)
                goes = self._goes(start, end, way)
                line = "yes" if start.source and start.source.how == "line start" else "no"
                told |= {"way": way, "lasts": here.lasts(stage), "line": line, "from": start, "to": end}
                return fact("measured-way", goes, **told).or_else(weaker)

    def _ends(self, here: Stretch) -> tuple[Amount, Amount]:
        """The readings at both ends; where one of them stands out, the ends of the straight line through all."""
        read = self._first_last(here)
        line = here.figure(self.name, "line start"), here.figure(self.name, "line end")
        near = STANDS_OUT * abs(line[1].value - line[0].value)
        alike = all(abs(one.value - other.value) <= near for one, other in zip(read, line, strict=True))
        return read if alike else line

    def _goes(self, start: Amount, end: Amount, way: str) -> Claim:
        left, right = (end.source, start.source) if way == "rising" else (start.source, end.source)
        assert left is not None and right is not None
        return Claim(kind="more", left=left, right=right, slack=1e-9)

    def _way(self, here: Stretch, found: Found) -> str:
        """Which way the straight line goes, as it is printed: rising, falling, level; else "goes" or "about"."""
        first, last = self._ends(here)
        forward = last.value > first.value if found.way == "rising" else last.value < first.value
        if found.way != "level" and forward and printed(first) != printed(last):
            return found.way
        start, end = self._first_last(here)
        if found.way != "level" and printed(start) != printed(end):
            return "goes"
        swing = self.whole.at(self.name, "most") - self.whole.at(self.name, "least")
        climb = here.at(self.name, "line end") - here.at(self.name, "line start")
        near = here.at(self.name, "spread") <= NEAR * self.level * swing
        return "level" if abs(climb) <= self.level * swing and near else "about"

    def _first_last(self, here: Stretch) -> tuple[Amount, Amount]:
        return here.figure(self.name, "first"), here.figure(self.name, "last")

    def _hardly(self, here: Stretch) -> tuple[Claim, ...]:
        """That the line climbs and falls by less than the share that counts, and most readings lie near it."""
        swing = replace(
            self.whole.reading(self.name, "most"), less=self.whole.reading(self.name, "least"), times=self.level
        )
        change = replace(here.reading(self.name, "line end"), less=here.reading(self.name, "line start"))
        up, down = (Claim(kind="at most", left=replace(change, times=sign), right=swing) for sign in (1.0, -1.0))
        near = Claim(
            kind="at most", left=here.reading(self.name, "spread"), right=replace(swing, times=NEAR * self.level)
        )
        return up, down, near

    def _part(self, here: Stretch, found: Found, when: Fact) -> tuple[Fact, Fact]:
        first, last = self._first_last(here)
        if printed(first) == printed(last):
            goes = fact("measured-is", when=when, quantity=self.name, value=first)
        else:
            goes = fact("measured-goes", when=when, quantity=self.name, **{"from": first, "to": last})
        unsure = fact("measured-no-stretches")
        way = ALL_ALONG.get(found.why)
        if way is None or (way != "steady" and not self._all_along(way)):
            return goes, unsure
        all_along = Claim(kind=way, left=self.whole.reading(self.name, "change"))
        return goes, fact(f"measured-all-along-{way}", all_along).or_else(unsure)

    def _all_along(self, way: str) -> bool:
        """Whether single readings bear it out: no great step back on the way."""
        values = self.whole.values(self.name) * (1.0 if way == "rises" else -1.0)
        climb = values[-1] - values[0]
        back = float(np.max(np.maximum.accumulate(values) - values))
        return bool(climb > 0.01 * np.ptp(values) and back <= 0.2 * climb)

    # --- times ---

    def span(self, stage: str, here: Stretch) -> Fact:
        """From when to when, or about when, where both would be written alike."""
        start, end = (
            self.moment(time_s, Reading(how=how, of=stage))
            for time_s, how in ((here.start, "begins"), (here.end, "ends"))
        )
        if _written(start) == _written(end):
            return fact("measured-around", at=start)
        return fact("measured-from-to", start=start, end=end)

    def moment(self, time_s: float, source: Reading) -> Arg:
        """A time of the readings as people say it: the clock, the day, the month or the year, as the span asks for."""
        span_s, table = self.whole.end - self.whole.start, self.table
        zero = table.clock_start
        clock = None
        if zero is not None:
            clock = ClockTime(hours=zero + time_s / 3600.0, source=source, hour_zero=zero)
        if table.start_day is None:
            if clock and span_s < DAY_S:
                return clock
            return Duration(seconds=time_s, source=source) if time_s > 0.0 else fact("measured-start")
        if clock and span_s < 2 * DAY_S:
            return clock
        if clock and span_s < DAYS_WITH_HOURS * DAY_S:
            return fact("measured-day-and-hour", day=self._date(time_s, source, "dm"), hour=clock)
        long = "my" if span_s < YEARS_WITH_MONTHS * YEAR_S else "y"
        return self._date(time_s, source, "dmy" if span_s < YEAR_S / 2 else long)

    def _date(self, time_s: float, source: Reading, parts: str) -> Date:
        zero_s = (self.table.start_day or 1) * DAY_S + (self.table.clock_start or 0.0) * 3600.0
        dated = replace(source, less=fixed(-zero_s))
        return Date(day=int((zero_s + time_s) // DAY_S), parts=parts, source=dated)

    # --- moments ---

    def events(self) -> tuple[Event, ...]:
        """The least and the greatest reading, in the order they came; none where all are alike."""
        values = self.whole.values(self.name)
        least, greatest = (self.whole.figure(self.name, how) for how in ("least", "most"))
        if printed(least) == printed(greatest):
            return ()
        rows = sorted([(int(np.argmin(values)), "least"), (int(np.argmax(values)), "greatest")])
        return tuple(self._event(float(self.whole.time_s[at]), which) for at, which in rows)

    def _event(self, time_s: float, which: str) -> Event:
        here = self.whole.between(time_s, time_s)
        extreme = self.whole.reading(self.name, "least" if which == "least" else "most")
        is_so = Claim(kind="same", left=here.reading(self.name, "first"), right=extreme, slack=1e-9)
        name = f"{which} {self.name}"
        at = self.moment(time_s, Reading(how="happens", of=name))
        text = fact(f"measured-{which}", is_so, quantity=self.name, value=here.figure(self.name, "first"), at=at)
        return Event(name=name, time_s=time_s, text=text)


def printed(figure: Amount) -> str:
    """As much of a figure as is printed."""
    return f"{figure.value:.{figure.digits - 1}e}"


def _written(at: Arg) -> object:
    """What is written of a moment: two that are the same here read alike."""
    match at:
        case Date():
            day, month, year = _calendar(at.day)
            return tuple({"d": day, "m": month, "y": year}[part] for part in at.parts)
        case ClockTime():
            return round(at.hours * 60.0)
        case Duration():
            return f"{at.seconds:.1e}"
        case Fact():
            return tuple(_written(arg) for _, arg in at.args)
    return at


def _calendar(day: int) -> tuple[int, int, int]:
    from datetime import date

    found = date.fromordinal(day)
    return found.day, found.month, found.year


def told_apart(titles: Sequence[Fact]) -> list[Fact]:
    """Titles made different: a second "Rising to 19 °C" comes again."""
    keys = [_key(title) for title in titles]
    return [
        title
        if key not in keys[:number]
        else fact("measured-title-again", title=title, time=keys[: number + 1].count(key))
        for number, (title, key) in enumerate(zip(titles, keys, strict=True))
    ]


def _key(title: Fact) -> object:
    """What is written of a title: two that are the same here read alike."""
    return title.message, tuple(printed(arg) if isinstance(arg, Amount) else arg for _, arg in title.args)
