"""What stands in one cell: a number as people write it, a gap, a time, or words."""

from __future__ import annotations

import re
from collections.abc import Iterable

from sonify.frozen import dataclass

#: What loggers and people write where there is no reading.
GAPS = frozenset(
    ("", "-", "--", "---", "–", "—", "?", "*", "na", "n/a", "#n/a", "nan", "null", "none", "nil", "no data", "missing")
)
#: Beyond this no instrument of a school reads, and no rule of a scene reaches; below the other, likewise.
LARGEST, SMALLEST = 1e11, 1e-12

_NUMBER = re.compile(r"[-+−]?(?:\d+(?:[.,\s\u00a0\u202f']\d+)*|[.,]\d+)(?:[eE][-+]?\d{1,3})?")
#: A number with a unit behind it. A unit is short and holds no further number.
_WITH_UNIT = re.compile(rf"({_NUMBER.pattern})\s*([^\d\s.,;:/\\-][^\d;:]{{0,15}}[²³]?|%)")
_TIME = re.compile(
    r"\d{1,4}[-/.:]\d{1,2}(?:[-/.:]\d{1,4})?(?:[T\s]+\d{1,2}:\d{2}.{0,20})?|\d{1,2}[\s-][A-Za-z]{3,9}.{2,25}"
)
_GROUPED_COMMA = re.compile(r"[-+−]?\d{1,3}(?:,\d{3})+(?:\.\d*)?")
_GROUPED_POINT = re.compile(r"[-+−]?\d{1,3}(?:\.\d{3})+(?:,\d*)?")
_SPACES = re.compile(r"[\s\u00a0\u202f']")


def is_gap(cell: str) -> bool:
    """A cell that says there is no reading.

    >>> is_gap(" N/A "), is_gap(""), is_gap("0"), is_gap("error 7")
    (True, True, False, False)
    """
    return cell.strip().casefold() in GAPS


def looks_like_value(cell: str) -> bool:
    """A number, with or without a unit, or a time.

    >>> [looks_like_value(cell) for cell in ("14,5", "-3.2e-4", "72 %", "12:05", "3/4/2026", "wool", "Sensor 1", "")]
    [True, True, True, True, True, False, False, False]
    """
    cell = cell.strip()
    if len(cell) > 40 or not any("0" <= letter <= "9" for letter in cell[:14]):
        return False
    return any(pattern.fullmatch(cell) for pattern in (_NUMBER, _WITH_UNIT, _TIME))


def number_and_unit(cell: str) -> tuple[str, str] | None:
    """The digits of a cell and the unit behind them, "" for none; None where the cell is no number.

    >>> number_and_unit("12.5 cm"), number_and_unit("−3"), number_and_unit("12 apples, 3 pears")
    (('12.5', 'cm'), ('−3', ''), None)
    """
    cell = cell.strip()
    if len(cell) > 40:
        return None
    if _NUMBER.fullmatch(cell):
        return cell, ""
    found = _WITH_UNIT.fullmatch(cell)
    return (found[1], found[2].strip()) if found else None


@dataclass(frozen=True, slots=True)
class Numerals:
    """How numbers are written: the decimal sign, and the sign between thousands ("" for none). guessed: it could be the
    other way round, and the file does not tell."""

    sign: str = "."
    group: str = ""
    guessed: bool = False

    @property
    def plain(self) -> bool:
        """Python itself reads such numbers."""
        return self.sign == "." and not self.group

    def straightened(self, text: str) -> str:
        """A number as Python reads it."""
        if self.group:
            text = text.replace(self.group, "")
        return text.replace(",", ".") if self.sign == "," else text

    def number(self, text: str) -> float | None:
        """The number that a cell's digits mean; None where they mean none in this writing.

        >>> Numerals(",").number("14,5"), Numerals(".", ",").number("1,234.5"), Numerals().number("1,234")
        (14.5, 1234.5, None)
        """
        text = self.straightened(_SPACES.sub("", text).replace("−", "-"))
        try:
            value = float(text)
        except ValueError:
            return None
        return value if abs(value) <= LARGEST and (value == 0.0 or abs(value) >= SMALLEST) else None


def numerals_of(cells: Iterable[str], separator: str) -> Numerals:
    """How the numbers of a file are written, from a sample of its cells.

    >>> numerals_of(["14,5", "3"], ";").sign, numerals_of(["1,234", "2,345.5"], ",").group, numerals_of(["7"], ";").sign
    (',', ',', '.')
    """
    found = [number_and_unit(cell) for cell in cells]
    digits = [each[0] for each in found if each is not None]
    commas = [text for text in digits if "," in text]
    points = [text for text in digits if "." in text]
    if not commas:
        return Numerals()
    grouped = [text for text in commas if _GROUPED_COMMA.fullmatch(text)]
    if points:
        if len(grouped) == len(commas):
            return Numerals(".", ",")
        if all(_GROUPED_POINT.fullmatch(text) for text in points):
            return Numerals(",", ".")
        return Numerals("," if len(commas) > len(points) else ".")
    # "1,234" alone: thousands where commas also part the cells, else a decimal comma.
    if len(grouped) == len(commas):
        return Numerals(".", ",", guessed=True) if separator == "," else Numerals(",", guessed=True)
    return Numerals(",")
