"""Heat and light between sky and ground: clear-sky sunlight, what a cloud lets through, warmth from the sky."""

from __future__ import annotations

import numpy as np

from sonify.constants import STEFAN_BOLTZMANN_W_PER_M2_K4
from sonify.science.ranges import FloatArray, Range, Values

SOLAR_CONSTANT_MJ_PER_M2_MIN = 0.0820  # FAO-56, equation 21
CLOUD_DROP_RADIUS_M = 10.0e-6  # a common effective radius of cloud drops: from memory, not verified

_DAY = Range("day_of_year", "", 1.0, 366.0, "a year")
_LATITUDE = Range("latitude_rad", "rad", np.radians(-66.0), np.radians(66.0), "the daily sunlight of FAO-56")
_HEIGHT = Range("sun_height_rad", "rad", -np.pi / 2, np.pi / 2, "the sky")
_SUNSHINE = Range("sunshine_share", "1", 0.0, 1.0, "a share of the day")
_RADIATION = Range("extraterrestrial_j_m2", "J/m²", 0.0, np.inf, "the daily sunlight of FAO-56")
_TEMPERATURE = Range("temperature_k", "K", 233.0, 323.0, "the warmth from a clear sky")
_SURFACE = Range("temperature_k", "K", 0.0, np.inf, "thermal radiation")
_VAPOUR = Range("vapour_pressure_pa", "Pa", 0.0, 7_500.0, "the warmth from a clear sky")
_SHARE = Range("cloud_share", "1", 0.0, 1.0, "a share of the sky")
_PATH = Range("water_path_kg_m2", "kg/m²", 0.0, np.inf, "a cloud")
_RADIUS = Range("drop_radius_m", "m", 0.0, np.inf, "a cloud", above=True)
_DEPTH = Range("optical_depth", "", 0.0, np.inf, "a cloud")
_EMISSIVITY = Range("sky_emissivity", "1", 0.0, 1.0, "thermal radiation")


def sunlight_above_the_air(latitude_rad: Values, day_of_year: Values) -> FloatArray:
    """Sunlight on a level square metre above the atmosphere in a whole day, J/m².

        R_a = (24 60/pi) 0.0820 d_r (w sin(phi) sin(delta) + cos(phi) cos(delta) sin(w)) MJ/m²
        d_r = 1 + 0.033 cos(2 pi J/365), delta = 0.409 sin(2 pi J/365 - 1.39), cos(w) = -tan(phi) tan(delta)

    Args:
        latitude_rad: latitude phi, north positive.
        day_of_year: day J, 1 is 1 January.

    Raises:
        OutOfRange: a latitude beyond 66°, a day outside 1 to 366, or not a number.

    Valid: where the Sun rises and sets every day, 66° S to 66° N.
    Source: FAO-56, equations 21 to 25.
    Check: 20° S, 3 September (example 8), printed 32.2 MJ/m²:
        >>> print(f"{sunlight_above_the_air(np.radians(-20.0), 246) / 1e6:.1f}")
        32.2
    """
    phi, day = _LATITUDE.checked(latitude_rad), _DAY.checked(day_of_year)
    delta = 0.409 * np.sin(2.0 * np.pi * day / 365.0 - 1.39)
    sunset = np.arccos(np.clip(-np.tan(phi) * np.tan(delta), -1.0, 1.0))
    distance = 1.0 + 0.033 * np.cos(2.0 * np.pi * day / 365.0)
    turned = sunset * np.sin(phi) * np.sin(delta) + np.cos(phi) * np.cos(delta) * np.sin(sunset)
    joules: FloatArray = 24.0 * 60.0 / np.pi * SOLAR_CONSTANT_MJ_PER_M2_MIN * 1.0e6 * distance * turned
    return joules


def daily_sunlight(extraterrestrial_j_m2: Values, sunshine_share: Values = 1.0) -> FloatArray:
    """Sunlight that reaches the ground in a day with a share of its possible sunshine, J/m².

        R_s = (0.25 + 0.50 n/N) R_a

    Args:
        extraterrestrial_j_m2: sunlight R_a above the air that day.
        sunshine_share: hours of sunshine n over hours of daylight N; 1 is a clear day.

    Raises:
        OutOfRange: negative sunlight, a share outside 0 to 1, or not a number.

    Valid: daily sums near sea level where nothing local is known.
    Source: FAO-56, equation 35.
    Check: R_a 25.1, n 7.1 of 10.9 h (example 10), printed 14.5 MJ/m²:
        >>> print(f"{daily_sunlight(25.1e6, 7.1 / 10.9) / 1e6:.2f}")
        14.45
    """
    return (0.25 + 0.50 * _SUNSHINE.checked(sunshine_share)) * _RADIATION.checked(extraterrestrial_j_m2)


def clear_sky_sunlight(sun_height_rad: Values) -> FloatArray:
    """Sunlight on a level square metre under a clear sky, W/m²; 0 while the Sun is down.

        G = 1098 sin(h) exp(-0.059 / sin(h))

    Args:
        sun_height_rad: height h of the Sun above the horizon.

    Raises:
        OutOfRange: a height beyond the zenith, or not a number.

    Valid: near sea level in average clear air.
    Source: HAURWITZ-1945.
    Check: Sun at 30°, 487.9 W/m²:
        >>> print(f"{clear_sky_sunlight(np.radians(30.0)):.1f}")
        487.9
    """
    sine = np.maximum(np.sin(_HEIGHT.checked(sun_height_rad)), 0.0)
    return 1098.0 * sine * np.exp(-0.059 / np.maximum(sine, 1.0e-6))


def cloud_optical_depth(water_path_kg_m2: Values, drop_radius_m: Values = CLOUD_DROP_RADIUS_M) -> FloatArray:
    """How opaque a cloud of drops is to sunlight: e to the minus this is the share that passes unscattered.

        tau = 3 W / (2 rho r)

    Args:
        water_path_kg_m2: liquid water W above a square metre.
        drop_radius_m: effective radius r of the drops.

    Raises:
        OutOfRange: a negative water path, a radius of 0 or less, or not a number.

    Valid: drops much larger than the wavelength of light (extinction efficiency 2).
    Source: STEPHENS-1978.
    Check: 0.1 mm of water in drops of 10 micrometres, 15:
        >>> print(f"{cloud_optical_depth(0.1):.1f}")
        15.0
    """
    return 1.5 * _PATH.checked(water_path_kg_m2) / (1000.0 * _RADIUS.checked(drop_radius_m))


def cloud_transmittance(optical_depth: Values) -> FloatArray:
    """The share of sunlight that gets through a cloud, scattered or not.

        t = 1 / (1 + (1 - g) tau / 2), g = 0.85

    Args:
        optical_depth: optical depth tau of the cloud.

    Raises:
        OutOfRange: a negative optical depth, or not a number.

    Valid: an even layer of drops that scatter and do not absorb (two streams, diffuse light, dark ground).
    Source: BOHREN-1987.
    Check: optical depth 15 lets 47 % through:
        >>> print(f"{100 * cloud_transmittance(15.0):.0f}")
        47
    """
    return 1.0 / (1.0 + 0.5 * (1.0 - 0.85) * _DEPTH.checked(optical_depth))


def cloud_blackness(water_path_kg_m2: Values) -> FloatArray:
    """How nearly a cloud shines down like a black body (its emissivity): the share of the sky it covers for warmth.

        epsilon = 1 - exp(-158 W), W in kg/m²

    Args:
        water_path_kg_m2: liquid water W above a square metre.

    Raises:
        OutOfRange: a negative water path, or not a number.

    Valid: clouds of liquid drops.
    Source: STEPHENS-1978.
    Check: 0.02 mm of water is 96 % black:
        >>> print(f"{100 * cloud_blackness(0.02):.0f}")
        96
    """
    return -np.expm1(-158.0 * _PATH.checked(water_path_kg_m2))


def sky_emissivity(temperature_k: Values, vapour_pressure_pa: Values, cloud_share: Values = 0.0) -> FloatArray:
    """How nearly the sky shines down like a black body as warm as the air near the ground.

        clear: epsilon = 1.24 (e/T)^(1/7), e in hPa; with cloud: (1 - 0.84 c) epsilon + 0.84 c

    Args:
        temperature_k: temperature T of the air near the ground.
        vapour_pressure_pa: its vapour pressure e.
        cloud_share: share c of the sky covered.

    Raises:
        OutOfRange: a temperature outside 233 to 323 K, a vapour pressure outside 0 to 7500 Pa, a share outside 0 to 1.

    Valid: averages over an hour or more near the ground; never more than 1.
    Source: BRUTSAERT-1975, equation 11; UNSWORTH-MONTEITH-1975 for cloud.
    Check: clear, 20 °C and 11.7 hPa, 0.78:
        >>> print(f"{sky_emissivity(293.15, 1170.0):.2f}")
        0.78
    """
    t, e, c = _TEMPERATURE.checked(temperature_k), _VAPOUR.checked(vapour_pressure_pa), _SHARE.checked(cloud_share)
    clear = np.minimum(1.24 * (0.01 * e / t) ** (1.0 / 7.0), 1.0)
    return (1.0 - 0.84 * c) * clear + 0.84 * c


def net_thermal_radiation(surface_k: Values, air_k: Values, sky_emissivity: Values, emissivity: float) -> FloatArray:
    """The warmth a surface sends to the sky beyond what it gets from it, W/m².

        R = epsilon sigma (T_s^4 - epsilon_sky T_a^4)

    Args:
        surface_k: temperature T_s of the surface.
        air_k: temperature T_a of the air near the ground.
        sky_emissivity: emissivity of the sky, as `sky_emissivity` gives it.
        emissivity: emissivity epsilon of the surface (water: 0.97).

    Raises:
        OutOfRange: a temperature below 0 K, a sky emissivity outside 0 to 1, or not a number.

    Valid: a grey surface under an open sky.
    Source: OPENSTAX-UP2, "Mechanisms of Heat Transfer" (Stefan-Boltzmann law).
    Check: water of 20 °C under a clear sky of 20 °C, 87 W/m²:
        >>> print(f"{net_thermal_radiation(293.15, 293.15, 0.785, 0.97):.0f}")
        87
    """
    surface, air, sky = _SURFACE.checked(surface_k), _SURFACE.checked(air_k), _EMISSIVITY.checked(sky_emissivity)
    return emissivity * STEFAN_BOLTZMANN_W_PER_M2_K4 * (surface**4 - sky * air**4)
