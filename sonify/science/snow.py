"""Snow in spring: the vapour over ice, the warmth of a snow surface, and how fast heat or mild air melts snow."""

from __future__ import annotations

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.science.heating import MELTING_J_PER_KG
from sonify.science.ranges import FloatArray, Range, Values

WATER_KG_PER_M3 = 1000.0  # meltwater, as depths are reckoned: 1 mm is 1 kg on a square metre

_ICE = Range("ice_k", "K", 110.0, 273.16, "Murphy and Koop's formula over ice")
_DEW_POINT = Range("dew_point_k", "K", 110.0, 350.0, "the surface of snow")
_HEAT = Range("melting_w_m2", "W/m²", 0.0, np.inf, "melting snow")
_AIR = Range("air_k", "K", 200.0, 330.0, "melt by degrees and days")
_BASE = Range("base_k", "K", 263.0, 283.0, "melt by degrees and days")
_FACTOR = Range("melt_m_per_k_s", "m/(K s)", 0.0, np.inf, "melt by degrees and days")


def vapour_pressure_over_ice(ice_k: Values) -> FloatArray:
    """The vapour pressure of air that is saturated over ice or snow, Pa.

        ln e = 9.550426 - 5723.265/T + 3.53068 ln T - 0.00728332 T

    Args:
        ice_k: temperature T of the ice.

    Raises:
        OutOfRange: below 110 K, above the triple point (273.16 K), or not a number.

    Valid: 110 to 273.16 K.
    Source: MURPHY-KOOP-2005, equation 7.
    Check: -10 °C, 260 Pa (IAPWS 259.87; over water it would be 286):
        >>> print(f"{vapour_pressure_over_ice(263.15):.0f}")
        260
    """
    t = _ICE.checked(ice_k)
    return np.exp(9.550426 - 5723.265 / t + 3.53068 * np.log(t) - 0.00728332 * t)


def snow_surface_temperature(dew_point_k: Values) -> FloatArray:
    """How warm the surface of snow that is not melting is, K: as the dew point of the air, and never above 0 °C.

        T_s = min(T_d, 273.15)

    Args:
        dew_point_k: dew point T_d of the air over the snow.

    Raises:
        OutOfRange: a dew point outside 110 to 350 K, or not a number.

    Valid: averages over an hour or more in the open; single clear, calm nights can be several degrees colder.
    Source: RALEIGH-2013.
    Check: dew point -4 °C, -4 °C; dew point 3 °C, 0 °C:
        >>> print(snow_surface_temperature(269.15) - 273.15, snow_surface_temperature(276.15) - 273.15)
        -4.0 0.0
    """
    return np.minimum(_DEW_POINT.checked(dew_point_k), ZERO_CELSIUS_K)


def snow_melt_rate(melting_w_m2: Values) -> FloatArray:
    """How fast heat melts snow that is at 0 °C already, m/s of water.

        M = Q / (rho L), L = 334 kJ/kg

    Args:
        melting_w_m2: heat Q that a square metre of snow takes up.

    Raises:
        OutOfRange: heat below 0, or not a number.

    Valid: snow at 0 °C throughout; all the heat goes into melting.
    Source: USACE-1998, chapter 5; OPENSTAX-UP2, "Phase Changes" for the heat of fusion.
    Check: 100 W/m² for a day, 26 mm:
        >>> print(f"{1000 * 86400 * snow_melt_rate(100.0):.0f}")
        26
    """
    return _HEAT.checked(melting_w_m2) / (WATER_KG_PER_M3 * MELTING_J_PER_KG)


def degree_day_melt(air_k: Values, melt_m_per_k_s: Values, base_k: Values = ZERO_CELSIUS_K) -> FloatArray:
    """How fast snow melts by the rule of thumb that knows nothing but the air's temperature, m/s of water.

        M = C (T - T_0) above T_0, else 0

    Args:
        air_k: mean temperature T of the air.
        melt_m_per_k_s: degree-day factor C; 1 mm a day for each degree is 1.157e-8 m/(K s).
        base_k: temperature T_0 at which melting begins.

    Raises:
        OutOfRange: a temperature no snow lies in, a negative factor, or not a number.

    Valid: daily means; the factor differs from place to place and grows through the spring, about 1 to 8 mm a day.
    Source: HOCK-2003.
    Check: 2.74 mm a day for each degree, 5 °C, 13.7 mm in a day:
        >>> print(f"{1000 * 86400 * degree_day_melt(278.15, 2.74e-3 / 86400):.1f}")
        13.7
    """
    return _FACTOR.checked(melt_m_per_k_s) * np.maximum(_AIR.checked(air_k) - _BASE.checked(base_k), 0.0)
