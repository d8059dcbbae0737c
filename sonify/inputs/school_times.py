"""Times as schools write them: 9.00am, half past 8, Week 3, Day 10, 12 May, a clock that passes noon or midnight.

A column of such times is read as a whole: what 1:00 means, the time above it says.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import date
from itertools import pairwise
from statistics import median

from sonify.constants import DAY_S
from sonify.frozen import dataclass
from sonify.inputs.logger_times import (
    SECONDS,
    clock_s,
    date_and_clock,
    date_s,
    day_order,
    is_clock,
    is_date,
)
from sonify.inputs.logger_units import TIME_UNITS, unit_named
from sonify.inputs.school_cells import duration_s

#: "Year 3" is a class.
SCHOOL_YEARS = 14
HALF_DAY_S = DAY_S / 2.0
#: A year in which dates without one are laid; only the days between them count.
SOME_YEAR = 2001
DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")

_DAY_NAME = re.compile(r"(mon|tue|wed|thu|fri|sat|sun)(?:s|r|rs|nes|ur|urs)?(?:day)?\.?", re.IGNORECASE)
_MONTH_NAME = re.compile(
    r"(jan)(?:uary)?|(feb)(?:ruary)?|(mar)(?:ch)?|(apr)(?:il)?|(may)|(june?)|(july?)|(aug)(?:ust)?|(sept?)(?:ember)?"
    r"|(oct)(?:ober)?|(nov)(?:ember)?|(dec)(?:ember)?",
    re.IGNORECASE,
)
_DAY_MONTH = re.compile(
    r"(?:[A-Za-z]{3,9}\.?,?\s+)?(\d{1,2})(?:st|nd|rd|th)?[\s-](?:of\s+)?([A-Za-z]{3,9})\.?", re.IGNORECASE
)
_MONTH_DAY = re.compile(r"([A-Za-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?", re.IGNORECASE)
_DIGITS_DATE = re.compile(r"(\d{1,2})[/.](\d{1,2})")
_COUNTED = re.compile(r"(?:after\s+)?([A-Za-z]+)\.?\s*(\d{1,4}(?:\.\d+)?)", re.IGNORECASE)
_AFTER = re.compile(r"(?:after|at)\s+(.*)|(.*?)\s+(?:later|in|old)", re.IGNORECASE)
_HOUR = re.compile(r"(\d{1,2})(?:[:.h](\d{2}))?(?:[:.](\d{2}))?\s*(?:([ap])\.?\s?m\.?|o.?\s?clock|hrs?)", re.IGNORECASE)
_POINTED = re.compile(r"(\d{1,2})\.(\d{2})")
_PAST = re.compile(r"(half|quarter)\s+(past|to)\s+(\d{1,2}|\w+)", re.IGNORECASE)
_RANGE = re.compile(r"(.+?\d.*?)\s*(?:-|–|—|to|until)\s*(.*\d.*)")
_WORDS = {"noon": 12, "midday": 12, "12 noon": 12, "midnight": 24}
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """A column of times. seconds: of each cell, None where none can be read. kind: as in Table.time_kind.

    guessed: what was taken for granted: "afternoon", "midnight", "day-month", "year". day: the day of second 0, counted
    from 1 January of the year 1, where the file tells it. hour: the hour of the day at second 0, where it is a clock.
    """

    seconds: tuple[float | None, ...]
    kind: str
    guessed: tuple[str, ...] = ()
    dated: bool = False
    clocked: bool = False


def times(cells: Sequence[str], *, again: bool = False, minutes_first: bool = False) -> Times | None:
    """A column of times from its cells, gaps as "", None where most of them are no times.

    again: the same time may come again for another thing; else a time that comes again is a later one, where it can be.
    minutes_first: "2:30" is two minutes and a half.
    """
    for reading in (_counted, _durations, _day_names, _month_names, _dates, _clocks):
        found = reading(cells, again, minutes_first)
        if found is not None and _most(found.seconds, cells):
            return found
    return None


def _most(seconds: Sequence[float | None], cells: Sequence[str]) -> bool:
    there = [second for second, cell in zip(seconds, cells, strict=True) if cell]
    return bool(there) and sum(second is not None for second in there) >= 0.6 * len(there)


def is_time(cell: str) -> bool:
    """A cell that is a time by itself, without its column: a date, a clock, "Week 3", a day's name.

    >>> [is_time(cell) for cell in ("9.00am", "Week 3", "12 May", "half past 8", "Monday", "14", "Test 1", "wool")]
    [True, True, True, True, True, False, False, False]
    """
    cell = cell.strip()
    return bool(cell) and len(cell) < 40 and times((cell,)) is not None


def _counted(cells: Sequence[str], again: bool, minutes_first: bool) -> Times | None:
    """Week 3, Day 10: a unit of time and a number; "start" is nought."""
    found = [_counted_s(cell) for cell in cells]
    if not any(
        second is not None and cell.casefold() not in _STARTS for second, cell in zip(found, cells, strict=True)
    ):
        return None
    return Times(seconds=tuple(found), kind="elapsed")


_STARTS = frozenset(("start", "at the start", "beginning"))


def _counted_s(cell: str) -> float | None:
    if cell.casefold() in _STARTS:
        return 0.0
    match = _COUNTED.fullmatch(cell) if len(cell) < 40 else None
    word = match[1].casefold() if match else ""
    unit = {"wk": "week", "hour": "h", "minute": "min"}.get(word, unit_named(word) or "")
    if unit == "year" and match and float(match[2]) < SCHOOL_YEARS:
        return None
    return float(match[2]) * SECONDS[unit] if match and len(word) > 1 and unit in TIME_UNITS else None


def _durations(cells: Sequence[str], again: bool, minutes_first: bool) -> Times | None:
    """5 mins, after 2 weeks, 1½ hours."""
    seconds = []
    for cell in cells:
        found = _AFTER.fullmatch(cell) if len(cell) < 40 else None
        bare = (found[1] or found[2] or "") if found else cell
        seconds.append(0.0 if cell.casefold() in _STARTS else duration_s(bare))
    return Times(seconds=tuple(seconds), kind="elapsed") if any(second is not None for second in seconds) else None


def _named(cells: Sequence[str], pattern: re.Pattern[str], names: Sequence[str]) -> list[int | None]:
    found = [pattern.fullmatch(cell.strip()) if len(cell) < 12 else None for cell in cells]
    return [names.index(match[0][:3].casefold()) if match else None for match in found]


def _day_names(cells: Sequence[str], again: bool, minutes_first: bool) -> Times | None:
    places = _named(cells, _DAY_NAME, DAYS)
    return (
        Times(seconds=_going_on(places, 7, again, lambda day: day * DAY_S), kind="date")
        if any(place is not None for place in places)
        else None
    )


def _month_names(cells: Sequence[str], again: bool, minutes_first: bool) -> Times | None:
    def start(month: int) -> float:
        return date(SOME_YEAR + month // 12, month % 12 + 1, 1).toordinal() * DAY_S

    places = _named(cells, _MONTH_NAME, MONTHS)
    if not any(place is not None for place in places):
        return None
    return Times(seconds=_going_on(places, 12, again, start), kind="date")


def _going_on(
    places: Sequence[int | None], of: int, again: bool, start: Callable[[int], float]
) -> tuple[float | None, ...]:
    """Places in a circle (days of a week) that go on and on: after Sunday comes the next week's Monday.

    again: the places are those of one round, whatever comes after what.
    """
    seconds: list[float | None] = []
    first, last = next((place for place in places if place is not None), 0), 0
    for number, place in enumerate(places):
        if place is None:
            seconds.append(None)
            continue
        reached = (place - first) % of + first
        while not again and number and reached < last:
            reached += of
        last = max(last, reached)
        seconds.append(start(reached))
    return tuple(seconds)


def _dates(cells: Sequence[str], again: bool, minutes_first: bool) -> Times | None:
    """Dates with a year, with or without a clock; and dates without one, which go on from year to year."""
    parts = [date_and_clock(cell) if len(cell) < 60 else ("", "") for cell in cells]
    if not any(is_date(day) for day, _ in parts):
        return _yearless(cells, again)
    order = day_order(day for day, _ in parts)
    seconds = []
    for day, clock in parts:
        at = date_s(day, day_first=order.day_first) if is_date(day) else None
        hour = clock_s(clock) if clock else 0.0
        seconds.append(None if at is None or hour is None else at + hour)
    clocked = any(clock for day, clock in parts if is_date(day))
    return Times(
        seconds=tuple(seconds),
        kind="date",
        dated=True,
        clocked=clocked,
        guessed=("day-month",) if order.guessed else (),
    )


def _yearless(cells: Sequence[str], again: bool) -> Times | None:
    days = [_day_and_month(cell) for cell in cells]
    if not any(day is not None for day in days):
        return None
    seconds: list[float | None] = []
    year, last = SOME_YEAR, 0
    for day in days:
        at = None if day is None else _ordinal(year, *day)
        if at is not None and day is not None and not again and at < last - 180:
            year += 1
            at = _ordinal(year, *day)
        last = at if at is not None else last
        seconds.append(None if at is None else at * DAY_S)
    return Times(seconds=tuple(seconds), kind="date")


def _ordinal(year: int, day: int, month: int) -> int | None:
    try:
        return date(year, month, day).toordinal()
    except ValueError:
        return None


def _day_and_month(cell: str) -> tuple[int, int] | None:
    cell = cell.strip()
    if len(cell) >= 40:
        return None
    if found := _DAY_MONTH.fullmatch(cell):
        day, name = found[1], found[2]
    elif found := _MONTH_DAY.fullmatch(cell):
        name, day = found[1], found[2]
    elif found := _DIGITS_DATE.fullmatch(cell):
        return (int(found[1]), int(found[2])) if "/" in cell else None
    else:
        return None
    return (int(day), MONTHS.index(name[:3].casefold()) + 1) if _MONTH_NAME.fullmatch(name) else None


def _clocks(cells: Sequence[str], again: bool, minutes_first: bool) -> Times | None:
    """Times of day; or of a stopwatch, where they begin at nought."""
    read = [_clock(cell, minutes_first) for cell in cells]
    there = [second for second, _ in filter(None, read)]
    if not there:
        return None
    if (
        minutes_first
        or there[0] == 0.0
        and not any(half for _, half in filter(None, read))
        or max(there) >= 1.5 * DAY_S
    ):
        return Times(seconds=tuple(each[0] if each else None for each in read), kind="elapsed")
    seconds, guessed = _onward(read, cells, again)
    return Times(seconds=seconds, kind="clock", guessed=guessed, clocked=True)


def pointed_clocks(cells: Sequence[str], *, again: bool = False) -> Times | None:
    """Times of day with a point, 9.15, 9.30: only under a heading that speaks of a time are they more than numbers."""
    held = [cell for cell in cells if cell]
    if not held or not all(
        (found := _POINTED.fullmatch(cell)) and int(found[1]) < 25 and int(found[2]) < 60 for cell in held
    ):
        return None
    return _clocks([cell.replace(".", ":") for cell in cells], again, False)


def _clock(cell: str, minutes_first: bool) -> tuple[float, bool] | None:
    """Seconds since midnight, and whether the cell says which half of the day."""
    cell = " ".join(cell.split())
    if not cell or len(cell) > 40:
        return None
    if cell.casefold() in _WORDS:
        return 3600.0 * _WORDS[cell.casefold()], True
    if found := _PAST.fullmatch(cell):
        hour = int(found[3]) if found[3].isdigit() else _number(found[3])
        minutes = (30 if found[1].casefold() == "half" else 15) * (1 if found[2].casefold() == "past" else -1)
        return (3600.0 * hour + 60.0 * minutes, False) if hour else None
    if found := _HOUR.fullmatch(cell):
        return _hour(found)
    if is_clock(cell):
        second = clock_s(cell, minutes_first=minutes_first)
        return None if second is None else (second, bool(re.search(r"[AaPp]\.?\s?[Mm]", cell)))
    if found := _RANGE.fullmatch(cell):
        ends = [_clock(_coloned(part), minutes_first) for part in (found[1], found[2])]
        return ends[0] if all(ends) else None
    return None


def _coloned(text: str) -> str:
    found = _POINTED.fullmatch(text.strip())
    return f"{found[1]}:{found[2]}" if found else text


def _hour(found: re.Match[str]) -> tuple[float, bool] | None:
    hour, minute, second = int(found[1]), int(found[2] or 0), int(found[3] or 0)
    half = (found[4] or "").casefold()
    if minute > 59 or second > 59 or hour > 24 or half and not 1 <= hour <= 12:
        return None
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    return 3600.0 * hour + 60.0 * minute + second, bool(half)


def _number(word: str) -> int:
    return _NUMBERS.index(word.casefold()) + 1 if word.casefold() in _NUMBERS else 0


def _onward(
    read: Sequence[tuple[float, bool] | None], cells: Sequence[str], again: bool
) -> tuple[tuple[float | None, ...], tuple[str, ...]]:
    """Times of day that go on: where they fall, noon or midnight has passed, whichever makes the likelier step."""
    known: dict[str, float] = {}
    rising = [b[0] - a[0] for a, b in pairwise(filter(None, read)) if b[0] > a[0]]
    usual = median(rising) if rising else 3600.0
    halves = all(second < 13 * 3600.0 for second, _ in filter(None, read))
    seconds: list[float | None] = []
    guessed: list[str] = []
    shift, last = 0.0, None
    for each, cell in zip(read, cells, strict=True):
        if each is None:
            seconds.append(None)
            continue
        text = " ".join(cell.casefold().split())
        if again and text in known:
            seconds.append(known[text])
            continue
        second, said = each
        if said:
            shift -= shift % DAY_S
        while last is not None and second + shift < last:
            noon = (
                halves
                and not said
                and abs(second + shift + HALF_DAY_S - last - usual) <= abs(second + shift + DAY_S - last - usual)
            )
            shift += HALF_DAY_S if noon and second + shift + HALF_DAY_S >= last else DAY_S
            guessed.append("afternoon" if noon else "midnight")
        last = second + shift
        known[text] = last
        seconds.append(last)
    return tuple(seconds), tuple(dict.fromkeys(guessed))
