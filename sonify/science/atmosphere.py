"""The air as it stands: pressure and temperature with height, density, wind near the ground."""

from __future__ import annotations

import numpy as np

from sonify.constants import (
    GAS_CONSTANT_J_PER_MOL_K,
    MOLAR_MASS_DRY_AIR_KG_PER_MOL,
    STANDARD_ATMOSPHERE_PA,
    STANDARD_GRAVITY_M_PER_S2,
)
from sonify.science.ranges import FloatArray, Range, Values

GAS_CONSTANT_DRY_AIR_J_PER_KG_K = GAS_CONSTANT_J_PER_MOL_K / MOLAR_MASS_DRY_AIR_KG_PER_MOL
STANDARD_SEA_LEVEL_K = 288.15  # US Standard Atmosphere 1976, exact
STANDARD_LAPSE_K_PER_M = 0.0065  # US Standard Atmosphere 1976, exact, up to 11 km

_HEIGHT = Range("height_m", "m", -500.0, 11_000.0, "the lowest layer of the standard atmosphere")
_STATION = Range("height_m", "m", -500.0, 5_000.0, "the pressure of FAO-56")
_TEMPERATURE = Range("temperature_k", "K", 0.0, np.inf, "an ideal gas", above=True)
_PRESSURE = Range("pressure_pa", "Pa", 0.0, np.inf, "an ideal gas")
_WIND = Range("wind_m_s", "m/s", 0.0, np.inf, "the wind profile of FAO-56")
_MAST = Range("height_m", "m", 0.5, 100.0, "the wind profile of FAO-56")


def standard_temperature(height_m: Values) -> FloatArray:
    """The temperature of the standard atmosphere, K: 6.5 K colder for every kilometre.

        T = 288.15 - 0.0065 z

    Args:
        height_m: height z above sea level (geopotential metres).

    Raises:
        OutOfRange: below -500 m, above 11 000 m, or not a number.

    Valid: -500 to 11 000 m.
    Source: USSA-1976, table 4 and equation 23.
    Check: 1000 m, 281.65 K:
        >>> print(f"{standard_temperature(1000.0):.2f}")
        281.65
    """
    return STANDARD_SEA_LEVEL_K - STANDARD_LAPSE_K_PER_M * _HEIGHT.checked(height_m)


def standard_pressure(height_m: Values) -> FloatArray:
    """The pressure of the standard atmosphere, Pa.

        p = 101325 (T / 288.15)^(g M / (R 0.0065))

    Args:
        height_m: height above sea level (geopotential metres).

    Raises:
        OutOfRange: below -500 m, above 11 000 m, or not a number.

    Valid: -500 to 11 000 m.
    Source: USSA-1976, equation 33a.
    Check: 1000 m, printed 89 875 Pa:
        >>> print(f"{standard_pressure(1000.0):.0f}")
        89875
    """
    power = STANDARD_GRAVITY_M_PER_S2 / (GAS_CONSTANT_DRY_AIR_J_PER_KG_K * STANDARD_LAPSE_K_PER_M)
    return STANDARD_ATMOSPHERE_PA * (standard_temperature(height_m) / STANDARD_SEA_LEVEL_K) ** power


def station_pressure(height_m: Values) -> FloatArray:
    """The pressure at a weather station as irrigation engineers compute it, Pa: for FAO-56's other formulae.

        p = 101300 ((293 - 0.0065 z) / 293)^5.26

    Args:
        height_m: height z above sea level.

    Raises:
        OutOfRange: below -500 m, above 5000 m, or not a number.

    Valid: the source states no range; an atmosphere of 20 °C at sea level, kept here to -500 to 5000 m.
    Source: FAO-56, equation 7.
    Check: 1800 m (example 2), printed 81.8 kPa:
        >>> print(f"{station_pressure(1800.0) / 1000:.1f}")
        81.8
    """
    return 101_300.0 * ((293.0 - 0.0065 * _STATION.checked(height_m)) / 293.0) ** 5.26


def air_density(temperature_k: Values, pressure_pa: Values = STANDARD_ATMOSPHERE_PA) -> FloatArray:
    """The density of dry air, kg/m³.

        rho = p M / (R T)

    Args:
        temperature_k: temperature T of the air.
        pressure_pa: pressure p.

    Raises:
        OutOfRange: a temperature of 0 K or less, a negative pressure, or not a number.

    Valid: ideal gas; dry air (vapour makes it up to 1 % lighter).
    Source: USSA-1976, equation 42.
    Check: sea level, 15 °C, 1.2250 kg/m³:
        >>> print(f"{air_density(288.15):.4f}")
        1.2250
    """
    return _PRESSURE.checked(pressure_pa) / (GAS_CONSTANT_DRY_AIR_J_PER_KG_K * _TEMPERATURE.checked(temperature_k))


def wind_at_two_metres(wind_m_s: Values, height_m: Values) -> FloatArray:
    """Wind measured on a mast, brought down to 2 m above short grass, m/s.

        u_2 = u 4.87 / ln(67.8 z - 5.42)

    Args:
        wind_m_s: wind u at the mast's height.
        height_m: the mast's height z above the ground.

    Raises:
        OutOfRange: a negative wind, a height outside 0.5 to 100 m, or not a number.

    Valid: over short grass in near-neutral air; the source states no range, kept here to 0.5 to 100 m.
    Source: FAO-56, equation 47.
    Check: 3.2 m/s at 10 m (example 14), printed 2.4 m/s:
        >>> print(f"{wind_at_two_metres(3.2, 10.0):.1f}")
        2.4
    """
    return _WIND.checked(wind_m_s) * 4.87 / np.log(67.8 * _MAST.checked(height_m) - 5.42)
