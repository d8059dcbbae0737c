"""When each row was read: the columns that tell the time, made into seconds, and how they were understood."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import numpy as np

from sonify.constants import DAY_S
from sonify.frozen import dataclass
from sonify.inputs.logger_checks import left_out, note, rows_told
from sonify.inputs.logger_columns import Read
from sonify.inputs.logger_layout import TIME_ROLES, Layout, Place
from sonify.inputs.logger_times import SECONDS, DayOrder, MomentTexts, Texts, clock_s, date_s, day_order
from sonify.records.fact import fact
from sonify.records.findings import Finding
from sonify.records.timeline import FloatArray
from sonify.records.words import date_text
from sonify.units import NO_UNIT, printed


@dataclass(frozen=True, slots=True, eq=False)
class Moments:
    """Seconds of each row that was read, nan where no time can be read.

    kind: "date" (seconds from the year 1), "clock" (from midnight), "elapsed" (from the start), "" for no time at all.
    """

    seconds: FloatArray
    kind: str
    heading: str
    findings: tuple[Finding, ...] = ()
    with_clock: bool = False
    unit: str = "s"

    def text(self, at: int) -> str:
        """The time of a row as people write it."""
        return _WRITTEN[self.kind](self, float(self.seconds[at])) if self.kind else ""

    def day(self, at: int) -> int | None:
        """The day of a row, counted from 1 January of the year 1, where the file tells it."""
        return int(float(self.seconds[at]) // DAY_S) if self.kind == "date" else None

    def clock_h(self, at: int) -> float | None:
        """The hour of the day of a row, where the file tells it."""
        return float(self.seconds[at]) % DAY_S / 3600.0 if self.with_clock else None


def _date_text(when: Moments, second: float) -> str:
    if when.unit == "year":
        return str(date.fromordinal(int(second // DAY_S)).year)
    written = date_text(int(second // DAY_S))
    return f"{written}, {_clock_text(when, second)}" if when.with_clock else written


def _clock_text(when: Moments, second: float) -> str:
    whole = round(second % DAY_S)
    clock = f"{whole // 3600 % 24:02d}:{whole // 60 % 60:02d}"
    return f"{clock}:{whole % 60:02d}" if whole % 60 else clock


def _elapsed_text(when: Moments, second: float) -> str:
    return f"{second / SECONDS[when.unit]:.10g} {printed(when.unit)}"


_WRITTEN: dict[str, Callable[[Moments, float], str]] = {
    "date": _date_text,
    "clock": _clock_text,
    "elapsed": _elapsed_text,
}


def moments(layout: Layout, read: Read) -> Moments:
    """The time of every row, from the best column or columns that tell it."""
    chosen = _chosen(layout, read)
    if not chosen:
        return Moments(np.full(read.rows.size, np.nan), "", "")
    rest = [place.name for place in layout.of(*TIME_ROLES) if place not in chosen]
    unplayed = left_out(rest, fact("logger-why-time", columns=tuple(place.name for place in chosen)))
    first = chosen[0]
    found = _numbered(first, read) if first.role in ("elapsed", "year") else _written(chosen, read)
    return Moments(
        seconds=found.seconds,
        kind=found.kind,
        heading=" and ".join(place.name for place in chosen),
        findings=(*found.findings, *unplayed),
        with_clock=found.with_clock,
        unit=found.unit,
    )


def _chosen(layout: Layout, read: Read) -> tuple[Place, ...]:
    by_role = {role: layout.of(role) for role in TIME_ROLES}
    if by_role["date"] and by_role["clock"]:
        return (by_role["date"][0], by_role["clock"][0])
    for role in TIME_ROLES:
        for place in by_role[role]:
            # One date on every row orders nothing; an elapsed time beside it does.
            if role != "date" or len(read.times[place.at].numbers) > 1 or not by_role["elapsed"]:
                return (place,)
    return ()


def _numbered(place: Place, read: Read) -> Moments:
    values = read.numbers[place.at].values
    if place.role == "year":
        years = np.where(np.isfinite(values), values, 1.0).astype(int)
        days = np.array([date_s(f"{year:04d}-01-01") or 0.0 for year in years.tolist()], dtype=np.float64)
        return Moments(np.where(np.isfinite(values), days, np.nan), "date", place.name, unit="year")
    unit = place.unit if place.unit != NO_UNIT else read.numbers[place.at].unit or "s"
    findings: tuple[Finding, ...] = ()
    if not place.sure and not read.numbers[place.at].unit:
        findings = (note("no-time-unit", place.name, fix=True, column=place.name),)
    return Moments(
        values * SECONDS.get(unit, 1.0), "elapsed", place.name, findings, unit=unit if unit in SECONDS else "s"
    )


def _written(chosen: tuple[Place, ...], read: Read) -> Moments:
    """Times that are texts: moments, a date and a clock, a date alone or a clock alone."""
    findings: list[Finding] = []
    if len(chosen) == 2:
        dates, order = _dates(read.times[chosen[0].at], findings, chosen[0].name)
        return Moments(dates + _clocks(read.times[chosen[1].at]), "date", "", tuple(findings), with_clock=True)
    place = chosen[0]
    if place.role == "moment":
        return _moment_texts(read.moments[place.at], findings, place.name)
    texts = read.times[place.at]
    if place.role == "date":
        return Moments(_dates(texts, findings, place.name)[0], "date", "", tuple(findings))
    return _clock_alone(place, texts, read, findings)


def _dates(texts: Texts, findings: list[Finding], name: str) -> tuple[FloatArray, DayOrder]:
    order = day_order(texts.numbers)
    _tell(order, findings, name)
    return texts.taken([date_s(text, day_first=order.day_first) for text in texts.numbers]), order


def _clocks(texts: Texts) -> FloatArray:
    return texts.taken([clock_s(text) for text in texts.numbers])


def _moment_texts(texts: MomentTexts, findings: list[Finding], name: str) -> Moments:
    days, order = _dates(texts.days, findings, name)
    clocks = texts.clocks.taken([clock_s(text) if text.strip() else 0.0 for text in texts.clocks.numbers])
    return Moments(days + clocks, "date", name, tuple(findings), with_clock=any(texts.clocks.numbers))


def _tell(order: DayOrder, findings: list[Finding], name: str) -> None:
    if order.mixed or order.guessed:
        way = "day-first" if order.day_first else "month-first"
        findings.append(note("dates-mixed" if order.mixed else "dates-guessed", name, fix=True, way=way))


def _clock_alone(place: Place, texts: Texts, read: Read, findings: list[Finding]) -> Moments:
    """Clock times without a date: the next day begins where they fall by more than half a day."""
    heading = place.heading.casefold().replace(" ", "")
    minutes_first = any(sign in heading for sign in ("mm:ss", "m:s", "min:s"))
    seconds = texts.taken([clock_s(text, minutes_first=minutes_first) for text in texts.numbers])
    there = np.flatnonzero(np.isfinite(seconds))
    read_s = seconds[there]
    elapsed = minutes_first or "elapsed" in heading or (read_s.size > 0 and (read_s[0] == 0.0 or read_s.max() >= DAY_S))
    if elapsed:
        return Moments(seconds, "elapsed", place.name, tuple(findings))
    midnights = np.concatenate([[0.0], np.cumsum(np.diff(read_s) < -DAY_S / 2.0)])
    if midnights.size and midnights[-1] > 0.0:
        rows = read.rows[there][np.flatnonzero(np.diff(midnights)) + 1]
        findings.append(note("midnight", place.name, rows=rows_told(rows.tolist())))
    seconds[there] = read_s + DAY_S * midnights[: there.size]
    return Moments(seconds, "clock", place.name, tuple(findings), with_clock=True)
