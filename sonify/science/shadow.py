"""The shadow of an upright stick: how long it is, and where the Sun that throws it is seen."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

_TRUE = Range("true_height_rad", "rad", 0.0, np.pi / 2, "the air's bending of the light")
_SEEN = Range("seen_height_rad", "rad", 0.0, np.pi / 2, "a shadow on level ground", above=True)
_STICK = Range("stick_m", "m", 0.0, np.inf, "an upright stick", above=True)
_LATITUDE = Range("latitude_rad", "rad", -np.pi / 2, np.pi / 2, "the globe")
_DECLINATION = Range("declination_rad", "rad", -0.42, 0.42, "the Sun (23.5° either side of the equator)")
_ANGLE = Range("hour_angle_rad", "rad", -np.inf, np.inf, "a turning Earth")


def refraction(true_height_rad: Values) -> FloatArray:
    """Return by how much the air lifts the Sun to the eye, rad: half a degree at the horizon, a minute of arc at 45°.

        R = 1.02' / tan(h + 10.3° / (h + 5.11)); h in degrees

    Args:
        true_height_rad: the height h that the Sun would have without air.

    Raises:
        OutOfRange: below the horizon, beyond the zenith, or not a number.

    Valid: at sea level (101 kPa, 10 °C), to 0.1' or so; a real day near the horizon differs by more.
    Source: MEEUS-1998, equation 16.4.
    Check: at 10° it is 5.4':
        >>> print(f"{np.degrees(refraction(np.radians(10.0))) * 60:.1f}")
        5.4
    """
    height = np.degrees(_TRUE.checked(true_height_rad))
    lifted: FloatArray = np.radians(1.02 / 60.0 / np.tan(np.radians(height + 10.3 / (height + 5.11))))
    return lifted


def shadow_length(seen_height_rad: Values, stick_m: Values = 1.0) -> FloatArray:
    """Return how long the shadow of an upright stick is on level ground, m.

        L = stick / tan(h)

    Args:
        seen_height_rad: the height h at which the Sun is seen.
        stick_m: how high the stick stands.

    Raises:
        OutOfRange: a Sun at or below the horizon, a stick of no height, or not a number.

    Valid: to the middle of the blurred edge: the Sun is half a degree wide.
    Source: MEEUS-1998, chapter 58 (planar sundials): an upright stick on level ground, a right-angled triangle.
    Check: at 45° the shadow is as long as the stick:
        >>> print(f"{shadow_length(np.radians(45.0), 1.3):.6f}")
        1.300000
    """
    length: FloatArray = _STICK.checked(stick_m) / np.tan(_SEEN.checked(seen_height_rad))
    return length


def sun_east(declination_rad: Values, hour_angle_rad: Values) -> FloatArray:
    """Return how far to the east the Sun stands, as a share of its direction: -1 due west to 1 due east.

        e = -cos(delta) sin(H)

    Args:
        declination_rad: the Sun's declination delta.
        hour_angle_rad: hour angle H: 0 at noon by the Sun, a quarter turn for six hours after it.

    Raises:
        OutOfRange: a declination the Sun never has, or not a number.

    Valid: everywhere; without the air's bending of the light.
    Source: MEEUS-1998, equations 13.5 and 13.6.
    Check: six hours before noon at an equinox it stands due east:
        >>> print(f"{sun_east(0.0, -np.pi / 2):.6f}")
        1.000000
    """
    east: FloatArray = -np.cos(_DECLINATION.checked(declination_rad)) * np.sin(_ANGLE.checked(hour_angle_rad))
    return east


def sun_north(latitude_rad: Values, declination_rad: Values, hour_angle_rad: Values) -> FloatArray:
    """Return how far to the north the Sun stands, as a share of its direction: -1 due south to 1 due north.

        n = sin(delta) cos(phi) - cos(delta) cos(H) sin(phi)

    Args:
        latitude_rad: latitude phi, north positive.
        declination_rad: the Sun's declination delta.
        hour_angle_rad: hour angle H: 0 at noon by the Sun, a quarter turn for six hours after it.

    Raises:
        OutOfRange: a latitude beyond a pole, a declination the Sun never has, or not a number.

    Valid: everywhere; without the air's bending of the light.
    Source: MEEUS-1998, equations 13.5 and 13.6.
    Check: noon at 30° N at an equinox, half of its direction is to the south:
        >>> print(f"{sun_north(np.radians(30.0), 0.0, 0.0):.6f}")
        -0.500000
    """
    phi, delta = _LATITUDE.checked(latitude_rad), _DECLINATION.checked(declination_rad)
    turned = np.cos(_ANGLE.checked(hour_angle_rad))
    north: FloatArray = np.sin(delta) * np.cos(phi) - np.cos(delta) * turned * np.sin(phi)
    return north
