"""A planet on its way round the Sun: how long a turn takes, and where on its oval it is."""

from __future__ import annotations

import numpy as np

from sonify.constants import DAY_S
from sonify.frozen import dataclass
from sonify.science.ranges import FloatArray, Range, Values

AU_M = 149_597_870_700.0  # the Earth's mean distance from the Sun (IAU, 2012)
YEAR_S = 365.256363 * DAY_S  # a turn of the Earth to the same stars (MEEUS-1998, from memory)
NEWTON_STEPS = 12  # from the mean anomaly on, rounding is reached in six at an oval of 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Orbit:
    """A planet's oval: half of its long axis in the Earth's mean distance from the Sun, and how oval it is."""

    axis_au: float
    eccentricity: float


#: At the beginning of the year 2000 (JPL-ELEMENTS, from memory).
ORBITS = {
    "Mercury": Orbit(axis_au=0.38709927, eccentricity=0.20563593),
    "Venus": Orbit(axis_au=0.72333566, eccentricity=0.00677672),
    "the Earth": Orbit(axis_au=1.00000261, eccentricity=0.01671123),
    "Mars": Orbit(axis_au=1.52371034, eccentricity=0.09339410),
    "Jupiter": Orbit(axis_au=5.20288700, eccentricity=0.04838624),
    "Saturn": Orbit(axis_au=9.53667594, eccentricity=0.05386179),
}

_AXIS = Range("axis_au", "au", 0.0, np.inf, "Kepler's third law", above=True)
_DISTANCE = Range("distance_au", "au", 0.0, np.inf, "a planet on its way round", above=True)
_REACH = Range("distance_au", "of the axis", 0.0, 2.0, "a planet on its way round")
_OVAL = Range("eccentricity", "", 0.0, 0.3, "the equation of the centre to its third power")
_ROUND = Range("mean_anomaly_rad", "rad", -np.inf, np.inf, "a planet on its way round")
_TRUE_E = Range("eccentric_anomaly_rad", "rad", -np.inf, np.inf, "a planet on its way round")
_TRUE = Range("true_anomaly_rad", "rad", -np.inf, np.inf, "a planet on its way round")


def orbit_years(axis_au: Values) -> FloatArray:
    """Return how long a turn round the Sun takes, in turns of the Earth.

        T = a^1.5

    Args:
        axis_au: half of the oval's long axis, a, in the Earth's mean distance from the Sun.

    Raises:
        OutOfRange: a distance of nothing, or not a number.

    Valid: for a planet much lighter than the Sun, pulled by nothing else: Mars within 0.01 %, Jupiter within 0.1 % (it
    has a thousandth of the Sun's mass), Saturn within 1 % (Jupiter pulls it to and fro).
    Source: MEEUS-1998, chapter 33.
    Check: Mars, at 1.5237 times the Earth's distance, 1.881 years:
        >>> print(f"{orbit_years(1.5237):.3f}")
        1.881
    """
    years: FloatArray = _AXIS.checked(axis_au) ** 1.5
    return years


def true_anomaly(mean_anomaly_rad: Values, eccentricity: Values) -> FloatArray:
    """Return how far a planet has really gone round since it was nearest to the Sun, rad.

        v = M + (2 e - e^3 / 4) sin M + 5/4 e^2 sin 2M + 13/12 e^3 sin 3M

    Args:
        mean_anomaly_rad: how far it would have gone at one speed, M.
        eccentricity: how oval the way is, e: 0 for a circle.

    Raises:
        OutOfRange: a way more oval than 0.3, or not a number.

    Valid: to 0.012 rad at e = 0.3, to 0.0027 rad for Mercury and 0.00012 rad for Mars (against the equation solved).
    Source: MEEUS-1998, chapter 33 (the equation of the centre).
    Check: a quarter of the time from its nearest on, Mars has gone 100.6° and not 90°:
        >>> print(f"{np.degrees(true_anomaly(np.pi / 2, 0.0934)):.1f}")
        100.6
    """
    m, e = _ROUND.checked(mean_anomaly_rad), _OVAL.checked(eccentricity)
    centre = (2.0 * e - e**3 / 4.0) * np.sin(m) + 1.25 * e**2 * np.sin(2.0 * m) + 13.0 / 12.0 * e**3 * np.sin(3.0 * m)
    gone: FloatArray = m + centre
    return gone


def eccentric_anomaly(mean_anomaly_rad: Values, eccentricity: Values) -> FloatArray:
    """Return the angle at the oval's middle that goes with a time since a planet was nearest to the Sun, rad.

        E - e sin E = M, solved by Newton's steps

    Args:
        mean_anomaly_rad: how far it would have gone at one speed, M.
        eccentricity: how oval the way is, e.

    Raises:
        OutOfRange: a way more oval than 0.3, or not a number.

    Valid: to rounding; M - E is the area law: as much is swept in each second as in any other.
    Source: MEEUS-1998, chapter 30 (the equation of Kepler).
    Check: example 30.a, at 5° where e is 0.1, 5.554589°:
        >>> print(f"{np.degrees(eccentric_anomaly(np.radians(5.0), 0.1)):.6f}")
        5.554589
    """
    m, e = _ROUND.checked(mean_anomaly_rad), _OVAL.checked(eccentricity)
    inner: FloatArray = m + e * np.sin(m)
    for _ in range(NEWTON_STEPS):
        inner = inner - (inner - e * np.sin(inner) - m) / (1.0 - e * np.cos(inner))
    return inner


def gone_round(eccentric_anomaly_rad: Values, eccentricity: Values) -> FloatArray:
    """Return how far round the Sun a planet has gone since it was nearest, rad, whole turns counted on.

        v = E + 2 arctan(b sin E / (1 - b cos E)); b = e / (1 + sqrt(1 - e^2))

    Args:
        eccentric_anomaly_rad: the angle at the oval's middle, E.
        eccentricity: how oval the way is, e.

    Raises:
        OutOfRange: a way more oval than 0.3, or not a number.

    Valid: for an oval by Kepler's first law.
    Source: MEEUS-1998, chapter 30; in this form, which knows no jump at half a turn, from memory.
    Check: as tan(v / 2) = sqrt((1 + e) / (1 - e)) tan(E / 2) has it, 6.1398° for the example of chapter 30:
        >>> print(f"{np.degrees(gone_round(np.radians(5.554589), 0.1)):.4f}")
        6.1398
    """
    inner, e = _TRUE_E.checked(eccentric_anomaly_rad), _OVAL.checked(eccentricity)
    b = e / (1.0 + np.sqrt(1.0 - e**2))
    gone: FloatArray = inner + 2.0 * np.arctan2(b * np.sin(inner), 1.0 - b * np.cos(inner))
    return gone


def sun_distance(true_anomaly_rad: Values, axis_au: Values, eccentricity: Values) -> FloatArray:
    """Return how far a planet is from the Sun, in the Earth's mean distance.

        r = a (1 - e^2) / (1 + e cos v)

    Args:
        true_anomaly_rad: how far it has gone round since it was nearest, v.
        axis_au: half of the oval's long axis, a.
        eccentricity: how oval the way is, e.

    Raises:
        OutOfRange: a way more oval than 0.3, a distance of nothing, or not a number.

    Valid: for an oval by Kepler's first law.
    Source: MEEUS-1998, chapter 30.
    Check: Mars at its nearest, 1.381:
        >>> print(f"{sun_distance(0.0, 1.5237, 0.0934):.3f}")
        1.381
    """
    e = _OVAL.checked(eccentricity)
    distance: FloatArray = _AXIS.checked(axis_au) * (1.0 - e**2) / (1.0 + e * np.cos(_TRUE.checked(true_anomaly_rad)))
    return distance


def orbit_speed(distance_au: Values, axis_au: Values) -> FloatArray:
    """Return how fast a planet moves along its way, m/s.

        v = v_E sqrt(2 / r - 1 / a);  v_E = 2 pi au / year

    Args:
        distance_au: how far it is from the Sun just now, r.
        axis_au: half of the oval's long axis, a.

    Raises:
        OutOfRange: a distance of nothing, or one further out than any place on the oval.

    Valid: for a planet much lighter than the Sun.
    Source: MEEUS-1998, chapter 33 (29.78 km/s for the Earth's mean distance).
    Check: at one au on a circle, printed 29.78 km/s:
        >>> print(f"{orbit_speed(1.0, 1.0) / 1000.0:.2f}")
        29.78
    """
    distance, axis = _DISTANCE.checked(distance_au), _AXIS.checked(axis_au)
    _REACH.checked(distance / axis)
    speed: FloatArray = 2.0 * np.pi * AU_M / YEAR_S * np.sqrt(2.0 / distance - 1.0 / axis)
    return speed
