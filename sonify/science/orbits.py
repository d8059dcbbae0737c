"""A planet on its way round the Sun: how long a turn takes, and where on its oval it is."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

_AXIS = Range("axis_au", "au", 0.0, np.inf, "Kepler's third law", above=True)
_OVAL = Range("eccentricity", "", 0.0, 0.3, "the equation of the centre to its third power")
_ROUND = Range("mean_anomaly_rad", "rad", -np.inf, np.inf, "a planet on its way round")
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
