"""Where the Sun stands: declination, equation of time, height through the day, length of the day."""

from __future__ import annotations

import numpy as np

from sonify.errors import OutOfRange
from sonify.science.ranges import FloatArray, Range, Values

#: The Sun's centre at sunrise by convention: refraction of 34' and a radius of 16' below the horizon.
HORIZON_RAD = np.radians(-0.8333)

_DAYS = Range("days_since_2000", "d", -18_262.5, 18_627.5, "the almanac's low-precision Sun, 1950 to 2050,")
_YEAR = Range("year", "", 1950, 2050, "the almanac's low-precision Sun")
_DAY = Range("day_of_year", "", 1.0, 366.0, "a year")
_HOUR = Range("hour_utc", "h", 0.0, 24.0, "a day")
_LATITUDE = Range("latitude_rad", "rad", -np.pi / 2, np.pi / 2, "the globe")
_DECLINATION = Range("declination_rad", "rad", -0.42, 0.42, "the Sun (23.5° either side of the equator)")
_SHADOW = Range("shadow_m", "m", 0.0, np.inf, "an upright stick in the Sun", above=True)
#: Fewer shadows leave the three numbers of a day open.
FEWEST_SHADOWS = 4
_ANGLE = Range("hour_angle_rad", "rad", -np.inf, np.inf, "a turning Earth")


def days_since_2000(year: int, day_of_year: Values, hour_utc: Values = 12.0) -> FloatArray:
    """Days from noon of 1 January 2000 (UTC) to a moment, the almanac's time scale.

        n = 365 (Y - 2000) + leap days since 2000 + (J - 1) + (hour - 12)/24

    Args:
        year: calendar year Y.
        day_of_year: day J, 1 is 1 January.
        hour_utc: hour of the day.

    Raises:
        OutOfRange: a year outside 1950 to 2050, a day outside 1 to 366, an hour outside 0 to 24.

    Valid: 1950 to 2050 (every fourth year in between is a leap year).
    Source: ALMANAC-1988.
    Check: noon on 1 January 2025, 9132 days:
        >>> print(days_since_2000(2025, 1))
        9132.0
    """
    _YEAR.checked(float(year))
    leap_days = (year - 1997) // 4  # 2000 itself was one: it counts from 2001 on
    return 365.0 * (year - 2000) + leap_days + (_DAY.checked(day_of_year) - 1.0) + (_HOUR.checked(hour_utc) - 12.0) / 24


def declination(days_since_2000: Values) -> FloatArray:
    """How far north of the equator the Sun stands overhead, rad: 0.409 (23.4°) at the June solstice.

        sin(delta) = sin(epsilon) sin(lambda); lambda the Sun's ecliptic longitude, epsilon the obliquity

    Args:
        days_since_2000: days from noon of 1 January 2000, as `days_since_2000` gives them.

    Raises:
        OutOfRange: before 1950, after 2050, or not a number.

    Valid: 1950 to 2050, to 0.01°.
    Source: ALMANAC-1988, low-precision formulae for the Sun.
    Check: noon UTC on 21 June 2025, 23.44° within 0.01°:
        >>> print(f"{np.degrees(declination(9303.0)):.2f}")
        23.43
    """
    longitude, obliquity = _ecliptic(_DAYS.checked(days_since_2000))
    north: FloatArray = np.arcsin(np.sin(obliquity) * np.sin(longitude))
    return north


def equation_of_time(days_since_2000: Values) -> FloatArray:
    """How far sundials run ahead of clocks, rad of hour angle (0.0044 rad is a minute): -14 to +16 minutes.

        E = L - alpha; L the Sun's mean longitude, alpha its right ascension

    Args:
        days_since_2000: days from noon of 1 January 2000, as `days_since_2000` gives them.

    Raises:
        OutOfRange: before 1950, after 2050, or not a number.

    Valid: 1950 to 2050, to 0.1 minute.
    Source: ALMANAC-1988, low-precision formulae for the Sun.
    Check: noon UTC on 3 November 2025, 16.4 minutes:
        >>> print(f"{np.degrees(equation_of_time(9438.0)) * 4:.1f}")
        16.4
    """
    n = _DAYS.checked(days_since_2000)
    longitude, obliquity = _ecliptic(n)
    ascension = np.arctan2(np.cos(obliquity) * np.sin(longitude), np.cos(longitude))
    ahead = np.radians(280.460 + 0.9856474 * n) - ascension
    within_half_a_turn: FloatArray = (ahead + np.pi) % (2.0 * np.pi) - np.pi
    return within_half_a_turn


def sun_height(latitude_rad: Values, declination_rad: Values, hour_angle_rad: Values) -> FloatArray:
    """The height of the Sun above the horizon, rad; negative while it is below.

        sin(h) = sin(phi) sin(delta) + cos(phi) cos(delta) cos(H)

    Args:
        latitude_rad: latitude phi, north positive.
        declination_rad: the Sun's declination delta.
        hour_angle_rad: hour angle H: 0 at noon by the Sun, a quarter turn for six hours after it.

    Raises:
        OutOfRange: a latitude beyond a pole, a declination the Sun never has, or not a number.

    Valid: everywhere; the true height, without the refraction that lifts the rising Sun by half a degree.
    Source: MEEUS-1998, equation 13.6.
    Check: noon at 54° N, declination 23.44°: 59.44°:
        >>> print(f"{np.degrees(sun_height(np.radians(54.0), np.radians(23.44), 0.0)):.2f}")
        59.44
    """
    phi, delta = _LATITUDE.checked(latitude_rad), _DECLINATION.checked(declination_rad)
    turned = np.cos(_ANGLE.checked(hour_angle_rad))
    sine = np.sin(phi) * np.sin(delta) + np.cos(phi) * np.cos(delta) * turned
    height: FloatArray = np.arcsin(np.clip(sine, -1.0, 1.0))  # rounding may pass 1 at the zenith
    return height


def day_length_h(latitude_rad: Values, declination_rad: Values, horizon_rad: float = HORIZON_RAD) -> FloatArray:
    """Hours from sunrise to sunset: 0 where the Sun stays down, 24 where it stays up.

        cos(H) = (sin(h0) - sin(phi) sin(delta)) / (cos(phi) cos(delta)); the day is 2 H

    Args:
        latitude_rad: latitude phi, north positive.
        declination_rad: the Sun's declination delta, taken as fixed for the day.
        horizon_rad: the height h0 of the Sun's centre at sunrise.

    Raises:
        OutOfRange: a latitude beyond a pole, a declination the Sun never has, or not a number.

    Valid: everywhere, to about two minutes (the declination moves during the day).
    Source: MEEUS-1998, equation 15.1.
    Check: Greenwich, 21 June (23.44°), 16 h 38 min:
        >>> print(f"{60 * day_length_h(np.radians(51.4779), np.radians(23.44)):.0f} minutes")
        998 minutes
    """
    phi, delta = _LATITUDE.checked(latitude_rad), _DECLINATION.checked(declination_rad)
    cosine = (np.sin(horizon_rad) - np.sin(phi) * np.sin(delta)) / (np.cos(phi) * np.cos(delta))
    hours: FloatArray = np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0))) * 2.0 / 15.0
    return hours


def fitted_shadow(clock_s: FloatArray, shadow_m: FloatArray, wanted_s: FloatArray, stick_m: float = 1.0) -> FloatArray:
    """Return the shadow, m, that an upright stick has at other times of a day on which some of its shadows were read.

        tan(h) = stick / shadow, sin(h) = a + b cos(2 pi (t - noon) / day); a, b and noon by least squares

    Args:
        clock_s: times of day at which shadows were read, s.
        shadow_m: what was read.
        wanted_s: times of day that are asked for, s.
        stick_m: height of the stick.

    Raises:
        OutOfRange: fewer than four shadows, or one of no length.

    Valid: one day, level ground, while the Sun is 3° high or more: a lower one is taken as 3° high.
    Source: MEEUS-1998, equation 13.6 with latitude, declination and noon left to be found.
    Check: four shadows of one day give a fifth:
        >>> clock = np.array([9.0, 10.5, 12.0, 14.0, 15.5]) * 3600.0
        >>> sine = 0.1 + 0.6 * np.cos(2.0 * np.pi * (clock / 3600.0 - 12.3) / 24.0)
        >>> shadow = 1.0 / np.tan(np.arcsin(sine))
        >>> print(f"{(fitted_shadow(clock[:4], shadow[:4], clock) / shadow)[-1]:.6f}")
        1.000000
    """
    from scipy.optimize import least_squares

    if clock_s.size < FEWEST_SHADOWS:
        raise OutOfRange("clock_s", float(clock_s.size), "shadows", f"{FEWEST_SHADOWS} and more", "a day's shadows")
    height = np.sin(np.arctan2(stick_m, _SHADOW.checked(shadow_m)))

    def sine(numbers: FloatArray, at_s: FloatArray) -> FloatArray:
        found: FloatArray = numbers[0] + numbers[1] * np.cos(2.0 * np.pi * (at_s / 86_400.0 - numbers[2]))
        return found

    start = [0.0, float(height.max()), float(clock_s[int(height.argmax())]) / 86_400.0]
    fitted = least_squares(lambda numbers: sine(numbers, clock_s) - height, start, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    shadow: FloatArray = stick_m / np.tan(np.arcsin(np.clip(sine(fitted.x, wanted_s), np.sin(np.radians(3.0)), 0.9999)))
    return shadow


def _ecliptic(n: FloatArray) -> tuple[FloatArray, FloatArray]:
    """The Sun's ecliptic longitude and the obliquity of the ecliptic, rad (the almanac's page C24)."""
    anomaly = np.radians(357.528 + 0.9856003 * n)
    longitude = 280.460 + 0.9856474 * n + 1.915 * np.sin(anomaly) + 0.020 * np.sin(2.0 * anomaly)
    return np.radians(longitude), np.radians(23.439 - 4.0e-7 * n)
