"""Units in files: `pint` reads them, SI inside. The only place where a unit's name is understood.

`bpm` and note names are musical, not physical: `inputs` reads those itself.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache
from typing import TYPE_CHECKING, Any, overload

import numpy as np

from sonify.errors import Said, SonifyError
from sonify.known_units import AFFINE, SI

if TYPE_CHECKING:
    from numpy.typing import NDArray

    FloatArray = NDArray[np.float64]

_MEASURE = re.compile(r"^\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)\s*(\S.*?)?\s*$")

#: The unit of a column that names none. It is kept, so that nobody takes such a number for one with a unit.
NO_UNIT = "no unit"
#: The unit of a column of answers: 1 is yes and 0 is no, and so they are told.
YES_OR_NO = "yes or no"

#: How a unit is printed for people; of anything else only the powers are, the rest stays as it is written.
PRINTED = {
    "degC": "°C",
    "degree_Celsius": "°C",
    "degF": "°F",
    "delta_degC": "°C",
    "delta_degF": "°F",
    "percent": "%",
    "deg": "°",
    "1": "",
    **{
        f"{number}/{per}": time
        for number in ("1", "count")
        for per, time in (
            ("ns", "a nanosecond"),
            ("s", "a second"),
            ("min", "a minute"),
            ("h", "an hour"),
            ("day", "a day"),
            ("year", "a year"),
        )
    },
    "%/day": "% a day",
    "N*m": "N m",
    "um": "µm",
    **{
        f"{degree}/{per}": f"°C {time}"
        for degree in ("K", "degC", "delta_degC")
        for time, spellings in (
            ("a second", ("s", "second")),
            ("a minute", ("min", "minute")),
            ("an hour", ("h", "hour")),
        )
        for per in spellings
    },
    "count": "",
    NO_UNIT: "",
    YES_OR_NO: "",
}
_POWERS = {"**2": "²", "**3": "³", "^2": "²", "^3": "³"}


class UnitError(SonifyError, ValueError):
    """A measure without a unit, with an unknown unit, or with one of the wrong kind."""


@lru_cache(maxsize=1)
def _registry() -> Any:
    import pint  # costs a third of a second: only where a file with units is read

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@lru_cache(maxsize=512)
def _affine(from_unit: str, to_unit: str) -> tuple[float, float]:
    """Scale and offset with value_to = scale * value_from + offset."""
    if from_unit == to_unit:
        return 1.0, 0.0
    return AFFINE.get((from_unit, to_unit)) or asked(from_unit, to_unit)


def asked(from_unit: str, to_unit: str) -> tuple[float, float]:
    """The scale and offset of two units, as `pint` has them."""
    registry = _registry()
    from_unit, to_unit = ("dimensionless" if unit == "1" else unit for unit in (from_unit, to_unit))
    try:
        zero = registry.Quantity(0.0, from_unit).to(to_unit).magnitude
        one = registry.Quantity(1.0, from_unit).to(to_unit).magnitude
    except Exception as error:  # pint raises many kinds, not all of one base class
        from traceback import clear_frames

        # one of its frames holds the error itself, which then holds all our callers and their lessons
        clear_frames(error.__traceback__)
        raise UnitError(Said("error_unit-turned-into", from_unit=from_unit, to_unit=to_unit)) from error
    return float(one - zero), float(zero)


@lru_cache(maxsize=512)
def alike(unit: str, other: str) -> bool:
    """Whether the one can be turned into the other.

    >>> alike("mm/h*s", "mm"), alike("K*s", "kg")
    (True, False)
    """
    try:
        _affine(unit, other)
    except UnitError:
        return False
    return True


@overload
def convert(values: float, from_unit: str, to_unit: str) -> float: ...
@overload
def convert(values: FloatArray, from_unit: str, to_unit: str) -> FloatArray: ...
def convert(values: float | FloatArray, from_unit: str, to_unit: str) -> float | FloatArray:
    """Values in another unit, the same shape.

    Raises UnitError where the units are unknown or of different kinds.

    >>> convert(14.0, "degC", "K")
    287.15
    """
    scale, offset = _affine(from_unit, to_unit)
    return values * scale + offset


@lru_cache(maxsize=512)
def known(unit: str) -> bool:
    """Whether a unit can be understood.

    >>> known("lux"), known("smoots per hop")
    (True, False)
    """
    return unit in SI or _understood(unit)


def _understood(unit: str) -> bool:
    try:
        _registry().Unit(unit)
    except Exception:  # pint raises many kinds, not all of one base class
        return False
    return True


@lru_cache(maxsize=512)
def si(unit: str) -> str:
    """The SI unit of a unit's kind. What has none (a decibel, a unit nobody knows) stays as it is.

    >>> si("degC"), si("km/h"), si("%"), si("dB"), si("no unit")
    ('K', 'm/s', '1', 'dB', 'no unit')
    """
    return SI.get(unit) or asked_si(unit)


def asked_si(unit: str) -> str:
    """`si`, as `pint` has it."""
    if not _understood(unit):
        return unit
    zero, one, two = (_registry().Quantity(number, unit).to_base_units() for number in (0.0, 1.0, 2.0))
    if abs((two - one).magnitude - (one - zero).magnitude) > 1e-9 * abs((two - zero).magnitude):
        return unit  # logarithmic: equal steps of it are no equal steps of anything
    return f"{one.units:~}".replace(" ", "") or "1"


def split(text: str) -> tuple[float, str]:
    """The number and the unit of a written measure: "14 degC" -> (14.0, "degC").

    Raises UnitError where there is no number or no unit: a bare number is ambiguous and refused.
    """
    found = _MEASURE.match(text)
    if not found:
        raise UnitError(Said("error_unit-number-unit-degc", text=text))
    if not found[2]:
        raise UnitError(Said("error_unit-unit-write-degc", text=text, found=found[1], found_2=found[1]))
    return float(found[1]), found[2]


def to_si(text: str, si_unit: str) -> float:
    """A written measure as a number in `si_unit`. Raises UnitError, saying what kind of unit is wanted.

    >>> to_si("72 %", "1")
    0.72
    """
    value, unit = split(text)
    try:
        return convert(value, unit, si_unit)
    except UnitError:
        known = si_unit if si_unit != "1" else "% (a share)"
        raise UnitError(Said("error_unit-unit-used-here", text=text, unit=unit, known=known)) from None


def half_up(value: float, places: int) -> Decimal:
    """A number as it reads, rounded half up and away from nought, as pupils learn it; places may be negative.

    >>> half_up(12.25, 1), half_up(-0.5, 0), half_up(1250.0, -2)
    (Decimal('12.3'), Decimal('-1'), Decimal('1.3E+3'))
    """
    return Decimal(repr(float(value))).quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)


#: A larger or smaller unit that a child would take: from, from so many up or up to so many, to, how many of it are one.
_CHILDS = (
    ("g", 10_000.0, "kg", 1000.0),
    ("m", 10_000.0, "km", 1000.0),
    ("mm", 10_000.0, "m", 1000.0),
    ("cm", 10_000.0, "m", 100.0),
    ("ml", 10_000.0, "l", 1000.0),
    ("m", -0.01, "mm", 0.001),
    ("m", -0.1, "cm", 0.01),
    ("cm", -0.1, "mm", 0.1),
    ("km", -0.1, "m", 0.001),
    ("kg", -0.1, "g", 0.001),
    ("l", -0.1, "ml", 0.001),
)


def childs_unit(value: float, unit: str) -> tuple[float, str]:
    """A measure in the unit that a child would read it in; most stay as they are.

    >>> childs_unit(25_000.0, "g"), childs_unit(0.0029, "m"), childs_unit(240.0, "cm")
    ((25.0, 'kg'), (2.9, 'mm'), (240.0, 'cm'))
    """
    size = abs(value)
    for given, limit, better, each in _CHILDS:
        if unit == given and (size >= limit > 0.0 or 0.0 < size < -limit):
            return float(f"{value / each:.12g}"), better
    return value, unit


def printed(unit: str) -> str:
    """A unit as people read it.

    >>> printed("degC"), printed("W/m**2"), printed("mm/h")
    ('°C', 'W/m²', 'mm/h')
    """
    text = PRINTED.get(unit, unit)
    for written, sign in _POWERS.items():
        text = text.replace(written, sign)
    return text
