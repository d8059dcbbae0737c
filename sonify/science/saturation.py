"""Water and its vapour in balance: saturation vapour pressure, its slope, the dew point, latent heat.

"Over water" throughout, below 0 °C too (cloud drops stay liquid well below freezing); over ice is not covered.
Three authors' vapour pressures stand side by side: each serves where the others do not reach or are asked for.
"""

from __future__ import annotations

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.science.ranges import FloatArray, Range, Values

_LIQUID = Range("temperature_k", "K", 123.0, 332.0, "Murphy and Koop's formula")
_FAO = Range("temperature_k", "K", ZERO_CELSIUS_K - 30.0, ZERO_CELSIUS_K + 60.0, "the formula of FAO-56")
_SATURATION_LINE = Range("temperature_k", "K", ZERO_CELSIUS_K, 647.096, "the IAPWS saturation line")
_PRESSURE = Range("vapour_pressure_pa", "Pa", 1.0e-3, 19_000.0, "the dew point of Murphy and Koop's formula")
_LATENT = Range("temperature_k", "K", ZERO_CELSIUS_K - 20.0, ZERO_CELSIUS_K + 60.0, "Harrison's latent heat")

# Wagner & Pruss, coefficients and powers of (1 - T/T_critical)
_WAGNER = (
    (-7.85951783, 1.0),
    (1.84408259, 1.5),
    (-11.7866497, 3.0),
    (22.6807411, 3.5),
    (-15.9618719, 4.0),
    (1.80122502, 7.5),
)
_CRITICAL_K, _CRITICAL_PA = 647.096, 22.064e6


def saturation_vapour_pressure(temperature_k: Values) -> FloatArray:
    """The vapour pressure of air that is saturated over liquid water, Pa.

        ln e = 54.842763 - 6763.22/T - 4.210 ln T + 0.000367 T
               + tanh(0.0415 (T - 218.8)) (53.878 - 1331.22/T - 9.44523 ln T + 0.014025 T)

    Args:
        temperature_k: temperature T of the water surface.

    Raises:
        OutOfRange: below 123 K, above 332 K (59 °C), or not a number.

    Valid: 123 to 332 K over liquid water, supercooled too; the pure vapour, without the 0.5 % that air adds.
    Source: MURPHY-KOOP-2005, equation 10.
    Check: 20 °C, 2339 Pa (IAPWS-95 2339.3):
        >>> print(f"{saturation_vapour_pressure(293.15):.0f}")
        2339
    """
    t = _LIQUID.checked(temperature_k)
    log_t = np.log(t)
    cold = 54.842763 - 6763.22 / t - 4.210 * log_t + 0.000367 * t
    warm = 53.878 - 1331.22 / t - 9.44523 * log_t + 0.014025 * t
    return np.exp(cold + np.tanh(0.0415 * (t - 218.8)) * warm)


def saturation_vapour_pressure_fao(temperature_k: Values) -> FloatArray:
    """Saturation vapour pressure as irrigation engineers compute it, Pa: for work with FAO-56's other formulae.

        e = 610.8 exp(17.27 t / (t + 237.3)), t in °C

    Args:
        temperature_k: temperature of the water surface or the air.

    Raises:
        OutOfRange: below -30 °C, above 60 °C, or not a number.

    Valid: the source states no range; within 0.2 % of IAPWS-95 from 0 to 40 °C, kept here to -30 to 60 °C.
    Source: FAO-56, equation 11 (after Tetens 1930).
    Check: 24.5 °C, printed 3.075 kPa:
        >>> print(f"{saturation_vapour_pressure_fao(297.65) / 1000:.3f}")
        3.075
    """
    t_c = _FAO.checked(temperature_k) - ZERO_CELSIUS_K
    return 610.8 * np.exp(17.27 * t_c / (t_c + 237.3))


def saturation_vapour_pressure_steam(temperature_k: Values) -> FloatArray:
    """The vapour pressure of water from the triple point to the critical point, Pa: for hot and boiling water.

        ln(p/p_c) = (T_c/T) sum of a_i (1 - T/T_c)^n_i, six terms

    Args:
        temperature_k: temperature T of the water.

    Raises:
        OutOfRange: below 0 °C, above 647.096 K, or not a number.

    Valid: the whole saturation line of liquid water, 273.16 to 647.096 K (0 °C, a hundredth below, is let pass).
    Source: WAGNER-PRUSS-1993, equation 1.
    Check: 100 °C, 101.42 kPa:
        >>> print(f"{saturation_vapour_pressure_steam(373.15) / 1000:.2f}")
        101.42
    """
    t = _SATURATION_LINE.checked(temperature_k)
    below = 1.0 - t / _CRITICAL_K
    total = sum((a * below**power for a, power in _WAGNER), start=np.zeros_like(t))
    return _CRITICAL_PA * np.exp(total * _CRITICAL_K / t)


def saturation_slope(temperature_k: Values) -> FloatArray:
    """How steeply the saturation vapour pressure rises with temperature, Pa/K.

        slope = 4098 e / (t + 237.3)^2, e by FAO-56 equation 11, t in °C

    Args:
        temperature_k: temperature of the air.

    Raises:
        OutOfRange: below -30 °C, above 60 °C, or not a number.

    Valid: as the vapour pressure it is the slope of: -30 to 60 °C.
    Source: FAO-56, equation 13.
    Check: 30.2 °C (example 17), printed 0.246 kPa/°C:
        >>> print(f"{saturation_slope(303.35) / 1000:.3f}")
        0.246
    """
    t_c = _FAO.checked(temperature_k) - ZERO_CELSIUS_K
    return 4098.0 * saturation_vapour_pressure_fao(temperature_k) / (t_c + 237.3) ** 2


def dew_point(vapour_pressure_pa: Values) -> FloatArray:
    """The temperature at which air with this vapour pressure would be saturated over water, K.

    The inverse of `saturation_vapour_pressure` by Newton's method on ln e, to a millionth of a kelvin.

    Args:
        vapour_pressure_pa: vapour pressure of the air.

    Raises:
        OutOfRange: below 0.001 Pa, above 19 000 Pa, or not a number.

    Valid: over liquid water; below 0 °C the frost point over ice lies a little higher.
    Source: MURPHY-KOOP-2005, equation 10, inverted.
    Check: air of 25 °C and 50 %, dew point 13.86 °C:
        >>> print(f"{dew_point(0.5 * saturation_vapour_pressure(298.15)) - 273.15:.2f}")
        13.86
    """
    wanted = np.log(_PRESSURE.checked(vapour_pressure_pa))
    log_hpa = wanted - np.log(611.2)
    t: FloatArray = 243.5 * log_hpa / (17.67 - log_hpa) + ZERO_CELSIUS_K  # Bolton 1980 eq. 11: a first guess
    for _ in range(20):
        # Clausius and Clapeyron's slope of ln e is near enough for Newton's method
        step = (np.log(saturation_vapour_pressure(t)) - wanted) * t**2 / 5420.0
        t = t - step
        if np.max(np.abs(step)) < 1e-6:
            break
    return t


def latent_heat_of_vaporisation(temperature_k: Values) -> FloatArray:
    """The heat that turns a kilogram of liquid water into vapour without warming it, J/kg.

        L = 2.501e6 - 2361 t, t in °C

    Args:
        temperature_k: temperature of the water.

    Raises:
        OutOfRange: below -20 °C, above 60 °C, or not a number.

    Valid: the source states no range; within 0.05 % of IAPWS-95 from 0 to 50 °C, kept here to -20 to 60 °C.
    Source: HARRISON-1963, as given in FAO-56, annex 3, equation 3-1.
    Check: 20 °C, 2454 kJ/kg (IAPWS-95 2453.5):
        >>> print(f"{latent_heat_of_vaporisation(293.15) / 1000:.0f}")
        2454
    """
    return 2.501e6 - 2361.0 * (_LATENT.checked(temperature_k) - ZERO_CELSIUS_K)
