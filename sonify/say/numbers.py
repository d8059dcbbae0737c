"""Numbers as people read them, in one language: figures, measures, stretches of time, times of day, days, notes, lists.

Babel knows how a language writes numbers, months and lists. Where its habits are not a primary sheet's (no grouping of
thousands, a true minus sign), that is said here once. Halves are rounded up, as pupils learn it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from math import floor, isfinite, log10

from sonify.errors import OutOfRange
from sonify.records.fact import Amount
from sonify.records.words import note_name
from sonify.units import YES_OR_NO, childs_unit, half_up, printed

MINUS = "−"
#: Up to so many seconds a stretch of time is told in this unit, with so many of them as the least step, and with the
#: smaller unit beside it where there is one.
DURATIONS = (
    (1e-9, "picosecond", 1e-12, 0.0, ""),  # what particles take to move a diameter
    (1e-6, "nanosecond", 1e-9, 0.0, ""),
    (119.0, "second", 1.0, 0.0, ""),
    (100 * 60.0, "minute", 60.0, 0.0, ""),
    (47.9 * 3600.0, "hour", 3600.0, 300.0, "minute"),
    (59.5 * 86_400.0, "day", 86_400.0, 6 * 3600.0, "hour"),
    (23.5 * 2_629_800.0, "month", 2_629_800.0, 0.0, ""),
    (float("inf"), "year", 31_557_600.0, 2_629_800.0, "month"),
)
SMALLER = {"minute": 60.0, "hour": 3600.0, "month": 2_629_800.0}


class Numbers:
    """How one language writes numbers. message: says the message of an identifier with its places filled."""

    def __init__(self, locale: str, message: Callable[[str, Mapping[str, object]], str]) -> None:
        self.locale, self.message = locale, message

    def number(self, value: float, digits: int = 3, places: int | None = None) -> str:
        """To so many significant digits, or to fixed places; written out as long as that reads well.

        >>> numbers = Numbers("en_GB", lambda identifier, places: identifier)
        >>> numbers.number(571.4), numbers.number(0.001234), numbers.number(-2.5), numbers.number(2.96, places=1)
        ('571', '0.00123', '−2.5', '3.0')
        """
        if not isfinite(value):
            return f"{value:g}"
        if value == 0 and places is None:
            return "0"
        if places is not None:
            return self._decimal(f"{half_up(value, places):f}", zero_ok=False)
        magnitude = floor(log10(abs(value)))
        if -4 <= magnitude < 7:
            text = f"{half_up(value, max(0, digits - 1 - magnitude)):f}"
            return self._decimal(text.rstrip("0").rstrip(".") if "." in text else text)
        mantissa, _, exponent = f"{value:.{digits - 1}e}".partition("e")
        mantissa = mantissa.rstrip("0").rstrip(".") if "." in mantissa else mantissa
        return self._decimal(f"{mantissa} × 10^{int(exponent)}")

    def _decimal(self, text: str, *, zero_ok: bool = True) -> str:
        if not zero_ok and not text.strip("-0."):
            text = text.removeprefix("-")
        point = "." if self.locale.startswith("en") else _decimal_symbol(self.locale)
        return text.replace("-", MINUS).replace(".", point)

    def amount(self, amount: Amount) -> str:
        """A number with its unit: "1" is not written, one that the catalogue has ("litre/minute") in words."""
        if amount.unit == YES_OR_NO:
            return self._answer(amount.value)
        value, unit = childs_unit(amount.value, amount.unit)
        digits, places = amount.digits, amount.places
        if unit != amount.unit and places is not None and value:  # as many figures in the other unit
            digits, places = max(1, floor(log10(abs(amount.value))) + 1 + places), None
        number = self.number(value, digits, places)
        if unit in ("1", ""):
            return number
        try:
            return self._count(unit.replace("/", "-"), number)
        except LookupError:
            name = printed(unit)
            return f"{number}{name}" if name == "°" else f"{number} {name}".strip()

    def _answer(self, share: float) -> str:
        """Yes, no, or how often it was yes."""
        if share in (0.0, 1.0):
            return self.message("value-yes" if share else "value-no", {})
        return self.message("value-yes-share", {"share": self.number(100.0 * share, 2)})

    def duration(self, seconds: float, digits: int = 2) -> str:
        """A stretch of time in its most readable unit."""
        if not 0.0 <= seconds < float("inf"):
            raise OutOfRange("time", seconds, "s", "0 and more", "a duration")
        if seconds == 0.0:
            return self._count("second", "0")
        _, name, each, step, smaller = next(row for row in DURATIONS if seconds < row[0])
        if not smaller:
            return self._count(name, self.number(seconds / each, digits))
        rounded = floor(seconds / step + 0.5) * step
        whole = floor(rounded / each + 1e-9)
        rest = round((rounded - whole * each) / SMALLER[smaller])
        texts = [self._count(unit, str(count)) for unit, count in ((name, whole), (smaller, rest)) if count]
        return self.message("unit-and", {"large": texts[0], "small": texts[1]}) if len(texts) == 2 else texts[0]

    def _count(self, unit: str, number: str) -> str:
        return self.message(f"unit-{unit}", {"number": number, "n": 1 if number == "1" else 2})

    def clock(self, hours: float) -> str:
        """A time of day to the minute: "14:20"."""
        minutes = floor(hours * 60.0 + 0.5) % 1440
        return f"{minutes // 60:02d}:{minutes % 60:02d}"

    def elapsed(self, seconds: float) -> str:
        """Minutes and seconds, to the nearest second: "2:05"."""
        whole = floor(seconds + 0.5)
        return f"{whole // 60}:{whole % 60:02d}"

    def date(self, day: int, parts: str = "dmy") -> str:
        """A day, counted from 1 January of the year 1. parts: which of day, month and year are said."""
        from babel.dates import format_date

        pattern = " ".join({"d": "d", "m": "MMMM", "y": "y"}[part] for part in parts)
        return format_date(date.fromordinal(day), pattern, locale=self.locale)

    def note(self, midi: int) -> str:
        """A MIDI note as letter and octave, scientific pitch: 60 is C4."""
        return note_name(midi)

    def listed(self, items: Sequence[str]) -> str:
        """Items in a row, the last two joined by "and"."""
        if len(items) < 2:
            return "".join(items)
        if self.locale == "en_GB":  # as Babel has it, whose data of a language take longer to read than all its lists
            return f"{', '.join(items[:-1])} and {items[-1]}"
        from babel.lists import format_list

        return format_list(list(items), locale=self.locale)


def _decimal_symbol(locale: str) -> str:
    from babel.numbers import get_decimal_symbol

    return get_decimal_symbol(locale)
