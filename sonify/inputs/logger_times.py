"""Dates, clock times and elapsed times as people and loggers write them, turned into seconds.

A file of a million rows has few different dates and at most 86,400 different clock times: each text is read once.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import field
from datetime import date

import numpy as np

from sonify.constants import DAY_S
from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray

SECONDS = {"ms": 1e-3, "s": 1.0, "min": 60.0, "h": 3600.0, "day": DAY_S, "week": 7 * DAY_S, "year": 365.25 * DAY_S}
#: Headings of a column of plain numbers that are a time.
TIME_NAMES = frozenset(
    ("time", "t", "elapsed", "timestamp", "seconds", "secs", "second", "minutes", "mins", "minute", "hours", "hrs")
    + ("hour", "days", "day", "date", "datetime", "zeit", "datum", "temps", "heure", "tiempo", "hora")
)
DATE_NAMES = frozenset(["date", "datum", "day", "timestamp", "datetime", "year", "month"])

_MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]
_CLOCK = re.compile(
    r"(\d{1,4}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?(?:\s*([AaPp])\.?\s?[Mm]\.?)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2})?"
)
_YEAR_FIRST = re.compile(r"(\d{4})[-/.](\d{1,2})(?:[-/.](\d{1,2}))?")
_YEAR_LAST = re.compile(r"(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})")
_DAY_NAMED = re.compile(
    r"(?:[A-Za-z]{3,9}\.?,?\s+)?(\d{1,2})(?:st|nd|rd|th)?[\s-]([A-Za-z]{3,9})\.?,?[\s-](\d{4}|\d{2})"
)
_MONTH_NAMED = re.compile(r"(?:[A-Za-z]{3,9}\.?,?\s+)?([A-Za-z]{3,9})\.?\s(\d{1,2})(?:st|nd|rd|th)?,?\s(\d{4})")
_RUN_TOGETHER = re.compile(r"((?:19|20)\d{2})(0[1-9]|1[0-2])([0-3]\d)")
_PARTS = re.compile(r"(.+?)(?:[T\s,]\s*)((?:\d{1,4}):\d{2}.*)")


def is_clock(text: str) -> bool:
    """A clock or an elapsed time with colons: "09:30", "9:30:15 pm", "0:02:10"."""
    return len(text) < 40 and _CLOCK.fullmatch(text.strip()) is not None


def is_date(text: str) -> bool:
    """A date in one of the common writings, digits or months' names; nothing is said of whether it exists."""
    text = text.strip()
    patterns = (_YEAR_FIRST, _YEAR_LAST, _DAY_NAMED, _MONTH_NAMED)
    return len(text) < 40 and any(pattern.fullmatch(text) for pattern in patterns)


def is_date_run_together(text: str) -> bool:
    """20260302. Only under a heading that speaks of a date is this more than a number."""
    return _RUN_TOGETHER.fullmatch(text.strip()) is not None


def date_and_clock(text: str) -> tuple[str, str]:
    """The two parts of a moment, "" for what is not there.

    >>> date_and_clock("2026-03-02T09:30"), date_and_clock("2 Mar 2026 9:30 am"), date_and_clock("09:30")
    (('2026-03-02', '09:30'), ('2 Mar 2026', '9:30 am'), ('', '09:30'))
    """
    text = text.strip()
    found = _PARTS.fullmatch(text) if len(text) < 60 else None
    if found and is_date(found[1]):
        return found[1], found[2]
    return ("", text) if is_clock(text) else (text, "")


def clock_s(text: str, *, minutes_first: bool = False) -> float | None:
    """Seconds since midnight, or since the start; None where it is no time.

    minutes_first: "2:30" is two minutes and a half.

    >>> clock_s("09:30"), clock_s("12:05 am"), clock_s("2:30", minutes_first=True), clock_s("9:75")
    (34200.0, 300.0, 150.0, None)
    """
    found = _CLOCK.fullmatch(text.strip()) if len(text) < 40 else None
    if found is None:
        return None
    hours, minutes, seconds = int(found[1]), int(found[2]), int(found[3] or 0)
    if minutes > 59 or seconds > 59:
        return None
    if found[5]:
        if not 1 <= hours <= 12:
            return None
        hours = hours % 12 + (12 if found[5] in "Pp" else 0)
    fraction = float(f"0.{found[4]}") if found[4] else 0.0
    if minutes_first and found[3] is None:
        return 60.0 * hours + minutes
    return 3600.0 * hours + 60.0 * minutes + seconds + fraction - _offset_s(found[6] or "")


def _offset_s(text: str) -> float:
    if text[:1] not in ("+", "-"):
        return 0.0
    sign = 1.0 if text[0] == "+" else -1.0
    return sign * (3600.0 * int(text[1:3]) + 60.0 * int(text[-2:]))


def date_s(text: str, *, day_first: bool = True) -> float | None:
    """Seconds from 1 January of the year 1 to the midnight that begins a date; None where there is no such date.

    >>> (date_s("2/3/2026") - date_s("2026-03-01")) / 86400, date_s("31/2/2026"), date_s("2 Mar 26") == date_s("2/3/26")
    (1.0, None, True)
    """
    text = text.strip()
    if found := _YEAR_FIRST.fullmatch(text):
        parts = (int(found[1]), int(found[2]), int(found[3] or 1))
    elif found := _YEAR_LAST.fullmatch(text):
        first, second, year = (int(each) for each in found.groups())
        parts = (_year(year, found[3]), second, first) if day_first else (_year(year, found[3]), first, second)
    elif found := _DAY_NAMED.fullmatch(text):
        parts = (_year(int(found[3]), found[3]), _month(found[2]), int(found[1]))
    elif found := _MONTH_NAMED.fullmatch(text):
        parts = (int(found[3]), _month(found[1]), int(found[2]))
    elif found := _RUN_TOGETHER.fullmatch(text):
        parts = (int(found[1]), int(found[2]), int(found[3]))
    else:
        return None
    try:
        return date(*parts).toordinal() * DAY_S
    except ValueError:
        return None


def _year(year: int, written: str) -> int:
    """Two digits as the POSIX rule has them: 69 to 99 are the last century's."""
    return year if len(written) > 2 else year + (1900 if year >= 69 else 2000)


def _month(name: str) -> int:
    return _MONTHS.index(name[:3].casefold()) + 1 if name[:3].casefold() in _MONTHS else 0


@dataclass
class Texts:
    """Texts met again and again: each different one is kept once, with its number."""

    numbers: dict[str, int] = field(default_factory=dict)
    chunks: list[np.ndarray[tuple[int], np.dtype[np.int64]]] = field(default_factory=list)

    def add(self, texts: Sequence[str]) -> None:
        numbers = self.numbers
        for text in dict.fromkeys(texts):
            numbers.setdefault(text, len(numbers))
        self.chunks.append(np.fromiter(map(numbers.__getitem__, texts), dtype=np.int64, count=len(texts)))

    def taken(self, values: Sequence[float | None]) -> FloatArray:
        """The value of each text in the order in which they came, nan for None."""
        table = np.array([np.nan if value is None else value for value in values], dtype=np.float64)
        where = np.concatenate(self.chunks) if self.chunks else np.zeros(0, dtype=np.int64)
        return table[where] if table.size else np.full(where.size, np.nan)


@dataclass
class MomentTexts:
    """Dates with clock times, kept apart: a day's million moments are one date and 86,400 clock times."""

    days: Texts = field(default_factory=Texts)
    clocks: Texts = field(default_factory=Texts)

    def add(self, texts: Sequence[str]) -> None:
        sign = "T" if texts and "T" in texts[0] else " "
        parts = [text.partition(sign) for text in texts]
        if not all(day in self.days.numbers or is_date(day) for day in dict.fromkeys(part[0] for part in parts)):
            apart = [date_and_clock(text) for text in texts]  # "2 Mar 2026 09:30", or a gap among the moments
            parts = [(day, "", clock) for day, clock in apart]
        days, _, clocks = zip(*parts, strict=True)
        self.days.add(days)
        self.clocks.add(clocks)


@dataclass(frozen=True, slots=True)
class DayOrder:
    """Whether 2/3 is 2 March (day_first). guessed: nothing in the file tells. mixed: the file itself goes both ways."""

    day_first: bool = True
    guessed: bool = False
    mixed: bool = False


def day_order(dates: Iterable[str]) -> DayOrder:
    """Which of day and month comes first, from the different dates of a file in the order they came.

    >>> day_order(["2/13/2026"]).day_first, day_order(["13/2/2026"]).day_first, day_order(["2/3/2026"]).guessed
    (False, True, True)
    """
    dates = [text.strip() for text in dates]
    pairs = [(int(found[1]), int(found[2])) for text in dates if (found := _YEAR_LAST.fullmatch(text))]
    if not pairs:
        return DayOrder()
    day_first, month_first = any(a > 12 for a, _ in pairs), any(b > 12 for _, b in pairs)
    if day_first or month_first:
        return DayOrder(day_first=day_first, mixed=day_first and month_first)
    backwards = [_steps_back(dates, order) for order in (True, False)]
    return DayOrder(day_first=backwards[0] <= backwards[1], guessed=True)


def _steps_back(dates: Sequence[str], day_first: bool) -> int:
    found = [value for text in dates if (value := date_s(text, day_first=day_first)) is not None]
    return int(np.count_nonzero(np.diff(found) < 0.0))
