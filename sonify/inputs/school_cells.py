"""One cell of a class's own table: a number with all that people write around it, a tally, a yes or a no."""

from __future__ import annotations

import re
from math import nan

from sonify.frozen import dataclass
from sonify.inputs.logger_cells import Numerals, is_gap, number_and_unit
from sonify.inputs.logger_times import SECONDS
from sonify.inputs.logger_units import TIME_UNITS, unit_named

#: Longer cells are remarks.
LONGEST_CELL = 60

_HEDGE = re.compile(
    r"(?:about|approximately|approx\.?|around|roughly|nearly|almost|just (?:over|under)|circa|ca?\.|~|≈|\+/-|±)"
    r"\s*(?=[\d½¼¾.,])",
    re.IGNORECASE,
)
_HEDGED_AFTER = re.compile(r"(?<=\d)\s*(?:-?\s?ish|or so|approx\.?|roughly|ish\.?|\?|\*+|!+)$", re.IGNORECASE)
_REMARK = re.compile(r"(?<=\S)\s*\([^()]*[A-Za-z]{3}[^()]*\)$")
_BOUND = re.compile(
    r"(?:[<>≤≥]=?|less than|more than|fewer than|over|under|at least|at most|up to)\s*[\d.,]+.{0,12}", re.I
)
_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125}
_FRACTION = re.compile(rf"(\d{{1,4}})?\s*([{''.join(_FRACTIONS)}])\s*(.{{0,15}})")
_SLASHED = re.compile(r"(?:(\d{1,4})\s+)?([1-9])/([2-9]|1[0-2])\s*([^\d/]{0,15})")
_TALLY = re.compile(r"(?=.*[|IlⅠ𝍷𝍸])[|IlⅠ𝍷𝍸/\\\s,~̶]+")
_DURATION_PART = re.compile(r"(\d+(?:[.,]\d+)?|[½¼¾]|\d+[½¼¾])\s*([A-Za-z]+\.?)\s*(?:and\s+|,\s*)?")
_NONE = frozenset(("none", "nil", "zero", "nothing", "no swings"))
YES = frozenset(("yes", "y", "true", "✓", "✔", "☑", "tick"))
NO = frozenset(("no", "n", "false", "✗", "✘", "✕", "cross"))


@dataclass(frozen=True, slots=True)
class Figure:
    """What a cell says in numbers: value (nan for no reading), its unit, "" for none. how: "" for a plain number or a
    gap, "about" for a number with words around it, "bound" for a limit ("<5"), "odd" for what is no number."""

    value: float
    unit: str = ""
    how: str = ""


GAP = Figure(nan)


def figure(cell: str, numerals: Numerals) -> Figure:
    """What a cell says in numbers.

    >>> figure("about 12", Numerals()), figure("12cm", Numerals())
    (Figure(value=12.0, unit='', how='about'), Figure(value=12.0, unit='cm', how=''))
    >>> figure("2½", Numerals()).value, figure("<5", Numerals()).how, figure("wool", Numerals()).how
    (2.5, 'bound', 'odd')
    """
    text = " ".join(cell.split())
    if is_gap(text) and text.casefold() not in _NONE:
        return GAP
    if len(text) > LONGEST_CELL:
        return Figure(nan, how="odd")
    if text.casefold() in _NONE:
        return Figure(0.0, how="about")
    if _BOUND.fullmatch(text):
        return Figure(nan, how="bound")
    bare = _HEDGED_AFTER.sub("", _REMARK.sub("", _HEDGE.sub("", text, count=1)))
    how = "" if bare == text else "about"
    found = _plain(bare, numerals) or _fraction(bare)
    return Figure(nan, how="odd") if found is None else Figure(found[0], found[1], how)


def _plain(text: str, numerals: Numerals) -> tuple[float, str] | None:
    found = number_and_unit(text)
    value = numerals.number(found[0]) if found else None
    if found is None or value is None:
        return None
    unit = unit_named(found[1]) or (found[1] if found[1].isascii() and found[1].isalpha() else "")
    return (value, unit) if unit or not found[1] else None


def _fraction(text: str) -> tuple[float, str] | None:
    if found := _FRACTION.fullmatch(text):
        value, unit = float(found[1] or 0) + _FRACTIONS[found[2]], found[3].strip()
    elif found := _SLASHED.fullmatch(text):
        value, unit = float(found[1] or 0) + int(found[2]) / int(found[3]), found[4].strip()
    else:
        return None
    named = unit_named(unit) or ""
    return (value, named) if named or not unit else None


def is_number(cell: str) -> bool:
    """A cell that holds a number, or a limit of one, whatever is written around it.

    >>> is_number("14,5"), is_number("~8"), is_number("<5"), is_number("Test 1")
    (True, True, True, False)
    """
    text = " ".join(cell.split())
    if not any(letter.isdigit() or letter in _FRACTIONS for letter in text[:20]):
        return False
    return any(figure(text, numerals).how != "odd" for numerals in (Numerals(), Numerals(",")))


def tally(cell: str) -> int | None:
    """The strokes of a tally, None where it is none.

    Crossed fives are counted as the strokes that are typed: "||||/" is five, and "|||| |" is five.

    >>> tally("|||| ||"), tally("||||/ |"), tally("12"), tally("I")
    (6, 6, None, 1)
    """
    if len(cell) > 200 or not _TALLY.fullmatch(cell.strip()):
        return None
    return sum(1 for letter in cell if letter in "|IlⅠ𝍷/\\") + 5 * cell.count("𝍸")


def yes_or_no(cell: str) -> float | None:
    """1 for yes, 0 for no, None for neither.

    >>> yes_or_no("Yes"), yes_or_no("✗"), yes_or_no("perhaps")
    (1.0, 0.0, None)
    """
    word = cell.strip().strip(".!").casefold()
    return 1.0 if word in YES else 0.0 if word in NO else None


def duration_s(cell: str) -> float | None:
    """Seconds of a time that is written with its units, None for anything else.

    >>> duration_s("2 min 15 s"), duration_s("1½ hours"), duration_s("5 mins"), duration_s("12 cm")
    (135.0, 5400.0, 300.0, None)
    """
    text = " ".join(cell.split())
    if len(text) > LONGEST_CELL:
        return None
    at, total, last = 0, 0.0, float("inf")
    while at < len(text):
        found = _DURATION_PART.match(text, at)
        unit = _time_unit(found[2]) if found else None
        if found is None or unit is None or SECONDS[unit] >= last:
            return None
        number = found[1].replace(",", ".")
        whole, part = number.rstrip("½¼¾"), number[-1]
        total += (float(whole or 0) + _FRACTIONS.get(part, 0.0)) * SECONDS[unit]
        at, last = found.end(), SECONDS[unit]
    return total if at else None


def _time_unit(word: str) -> str | None:
    unit = unit_named(word.rstrip("."))
    return unit if unit in TIME_UNITS else None
