"""The Moon's month: how far it stands from the Sun in the sky, and how much of its disc is lit."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

#: From one new moon to the next, on average over many years, days (MEEUS-1998, chapter 49).
SYNODIC_MONTH_D = 29.530588861

_DAYS = Range("days_since_2000", "d", -18_262.5, 18_627.5, "the Moon's phases, 1950 to 2050,")
_TURNS = Range("turns", "", -617.0, 630.0, "the Moon's phases, 1950 to 2050,")
_ANGLE = Range("elongation_rad", "rad", -np.inf, np.inf, "the Moon on its way round")


def elongation(days_since_2000: Values) -> FloatArray:
    """Return how far the Moon has gone round from the Sun, rad: 0 at new moon, pi at full moon. It rises without end.

        E = 180° - i;  i by equation 48.4 from the arguments D, M and M' of equations 47.2 to 47.4

    Args:
        days_since_2000: days from noon of 1 January 2000, as `sun.days_since_2000` gives them.

    Raises:
        OutOfRange: before 1950, after 2050, or not a number.

    Valid: 1950 to 2050, seen from the Earth's middle. New, half and full moons come within an hour, the lit share
    within 0.004. The Moon's way up to 5° north or south of the Sun's is left out: at new moon E is 0 and not up to 5°.
    Source: MEEUS-1998, equations 47.2 to 47.4 and 48.4.
    Check: full moon on 13 January 2025 at 22:27 UTC (9144.435 days), 180°:
        >>> print(f"{np.degrees(elongation(9144.435)) % 360.0:.0f}")
        180
    """
    centuries = _DAYS.checked(days_since_2000) / 36_525.0
    apart = np.radians(297.8501921 + 445_267.1114034 * centuries - 0.0018819 * centuries**2)
    sun = np.radians(357.5291092 + 35_999.0502909 * centuries - 0.0001536 * centuries**2)
    moon = np.radians(134.9633964 + 477_198.8675055 * centuries + 0.0087414 * centuries**2)
    further = 6.289 * np.sin(moon) - 2.100 * np.sin(sun) + 1.274 * np.sin(2.0 * apart - moon)
    further = further + 0.658 * np.sin(2.0 * apart) + 0.214 * np.sin(2.0 * moon) + 0.110 * np.sin(apart)
    angle: FloatArray = apart + np.radians(further)
    return angle


def lit_share(elongation_rad: Values) -> FloatArray:
    """Return how much of the Moon's disc is lit, 0 to 1.

        k = (1 + cos i) / 2, i = pi - E

    Args:
        elongation_rad: how far it has gone round from the Sun, E, as `elongation` gives it.

    Raises:
        OutOfRange: not a number.

    Valid: for a Sun so far away that its light is parallel.
    Source: MEEUS-1998, equation 48.1.
    Check: its example 48.a, i = 69.0756°, 0.6786 lit:
        >>> print(f"{lit_share(np.pi - np.radians(69.0756)):.4f}")
        0.6786
    """
    share: FloatArray = (1.0 - np.cos(_ANGLE.checked(elongation_rad))) / 2.0
    return share


def when_round(turns: Values) -> FloatArray:
    """Return when the Moon has gone round from the Sun so often since 2000, days from noon of 1 January 2000.

        E(t) = 2 pi turns, solved by Newton's steps at the mean pace

    Args:
        turns: whole turns are new moons, halves full moons, quarters half moons.

    Raises:
        OutOfRange: before 1950, after 2050, or not a number.

    Valid: as `elongation`, so to an hour.
    Source: MEEUS-1998, equation 48.4 turned round.
    Check: the first full moon of 2025 (13 January, 22:27 UTC, 9144.435 days):
        >>> print(f"{when_round(310.5):.1f}")
        9144.4
    """
    wanted = 2.0 * np.pi * np.asarray(_TURNS.checked(turns))
    days = np.asarray(wanted - elongation(0.0)) * SYNODIC_MONTH_D / (2.0 * np.pi)
    for _ in range(40):  # the pace strays from its mean by a fifth at most, so each step leaves a fifth of the error
        days = days + (wanted - elongation(days)) * SYNODIC_MONTH_D / (2.0 * np.pi)
    moment: FloatArray = days[()]
    return moment
