"""Moist air: how much vapour it holds, by each of the names that is measured in, and the wet bulb."""

from __future__ import annotations

import numpy as np

from sonify.constants import (
    GAS_CONSTANT_J_PER_MOL_K,
    MOLAR_MASS_DRY_AIR_KG_PER_MOL,
    MOLAR_MASS_WATER_KG_PER_MOL,
    ZERO_CELSIUS_K,
)
from sonify.science.ranges import FloatArray, Range, Values
from sonify.science.saturation import saturation_slope, saturation_vapour_pressure

#: Mass of a molecule of water over that of "a molecule of dry air": 0.622.
MASS_RATIO = MOLAR_MASS_WATER_KG_PER_MOL / MOLAR_MASS_DRY_AIR_KG_PER_MOL
#: Specific heat of moist air at constant pressure as FAO-56 has it, J/(kg K).
AIR_HEAT_CAPACITY_J_PER_KG_K = 1013.0
#: Psychrometer coefficient of an aspirated wet bulb, 1/K (FAO-56, equation 16).
ASPIRATED_PER_K = 0.000662

_BY = "an ideal mixture of air and vapour"
_TEMPERATURE = Range("temperature_k", "K", 0.0, np.inf, _BY, above=True)
_VAPOUR = Range("vapour_pressure_pa", "Pa", 0.0, np.inf, _BY)
_PRESSURE = Range("pressure_pa", "Pa", 0.0, np.inf, _BY, above=True)
_DRY_PART = Range("pressure_pa - vapour_pressure_pa", "Pa", 0.0, np.inf, _BY, above=True)
_LATENT = Range("latent_heat_j_per_kg", "J/kg", 0.0, np.inf, _BY, above=True)
_MIXING = Range("mixing_ratio", "kg/kg", 0.0, np.inf, _BY)
_DRY_BULB = Range("temperature_k", "K", ZERO_CELSIUS_K - 30.0, ZERO_CELSIUS_K + 55.0, "the wet bulb")


def relative_humidity(vapour_pressure_pa: Values, temperature_k: Values) -> FloatArray:
    """The vapour in the air as a share of what it holds when saturated (1 is saturated; fog may exceed it).

        RH = e / e_s(T)

    Args:
        vapour_pressure_pa: vapour pressure e of the air.
        temperature_k: temperature T of the air.

    Raises:
        OutOfRange: a negative vapour pressure, a temperature outside 123 to 332 K, or not a number.

    Valid: over liquid water, 123 to 332 K.
    Source: OPENSTAX-CP, "Humidity, Evaporation, and Boiling".
    Check: air of 20 °C with its dew point at 12.01 °C, 60 %:
        >>> print(f"{100 * relative_humidity(saturation_vapour_pressure(285.16), 293.15):.1f}")
        60.0
    """
    return _VAPOUR.checked(vapour_pressure_pa) / saturation_vapour_pressure(temperature_k)


def vapour_density(vapour_pressure_pa: Values, temperature_k: Values) -> FloatArray:
    """The mass of vapour in a cubic metre of air (absolute humidity), kg/m³.

        rho = e M / (R T)

    Args:
        vapour_pressure_pa: vapour pressure e.
        temperature_k: temperature T of the air.

    Raises:
        OutOfRange: a negative vapour pressure, a temperature of 0 K or less, or not a number.

    Valid: ideal gas; at saturation within 0.3 % of IAPWS-95 up to 40 °C.
    Source: OPENSTAX-CP, "Humidity, Evaporation, and Boiling", worked example.
    Check: 2.33 kPa at 20 °C, printed 17.2 g/m³:
        >>> print(f"{1000 * vapour_density(2330.0, 293.15):.1f}")
        17.2
    """
    e, t = _VAPOUR.checked(vapour_pressure_pa), _TEMPERATURE.checked(temperature_k)
    return e * MOLAR_MASS_WATER_KG_PER_MOL / (GAS_CONSTANT_J_PER_MOL_K * t)


def mixing_ratio(vapour_pressure_pa: Values, pressure_pa: Values) -> FloatArray:
    """The mass of vapour that goes with a kilogram of dry air, kg/kg.

        w = 0.622 e / (p - e)

    Args:
        vapour_pressure_pa: vapour pressure e.
        pressure_pa: pressure p of the moist air, more than e.

    Raises:
        OutOfRange: a negative vapour pressure, a pressure no greater than the vapour's, or not a number.

    Valid: ideal mixture, e < p.
    Source: ASHRAE-2017, chapter 1, equation 20.
    Check: saturated air of 20 °C at 101 325 Pa, 14.7 g/kg:
        >>> print(f"{1000 * mixing_ratio(saturation_vapour_pressure(293.15), 101325.0):.1f}")
        14.7
    """
    e, p = _VAPOUR.checked(vapour_pressure_pa), _PRESSURE.checked(pressure_pa)
    return MASS_RATIO * e / _DRY_PART.checked(p - e)


def vapour_pressure(mixing_ratio_kg_per_kg: Values, pressure_pa: Values) -> FloatArray:
    """The vapour pressure of air with this mixing ratio, Pa: the inverse of `mixing_ratio`.

        e = w p / (0.622 + w)

    Args:
        mixing_ratio_kg_per_kg: mass w of vapour to a kilogram of dry air.
        pressure_pa: pressure p of the moist air.

    Raises:
        OutOfRange: a negative mixing ratio, a pressure of 0 or less, or not a number.

    Valid: ideal mixture.
    Source: ASHRAE-2017, chapter 1, equation 36.
    Check: 14.7 g/kg at 101 325 Pa, 2.34 kPa:
        >>> print(f"{vapour_pressure(0.0147, 101325.0) / 1000:.2f}")
        2.34
    """
    w, p = _MIXING.checked(mixing_ratio_kg_per_kg), _PRESSURE.checked(pressure_pa)
    return w * p / (MASS_RATIO + w)


def psychrometric_constant(pressure_pa: Values, latent_heat_j_per_kg: Values = 2.45e6) -> FloatArray:
    """The vapour pressure that air loses when it warms by a kelvin what evaporation cooled, Pa/K.

        gamma = c_p p / (0.622 L)

    Args:
        pressure_pa: pressure p of the air.
        latent_heat_j_per_kg: latent heat of vaporisation L; FAO-56 takes 2.45 MJ/kg (20 °C) throughout.

    Raises:
        OutOfRange: a pressure or a latent heat of 0 or less, or not a number.

    Valid: moist air near the ground, c_p = 1013 J/(kg K).
    Source: FAO-56, equation 8.
    Check: 81.8 kPa (example 2), printed 0.054 kPa/°C:
        >>> print(f"{psychrometric_constant(81_800.0) / 1000:.3f}")
        0.054
    """
    latent, p = _LATENT.checked(latent_heat_j_per_kg), _PRESSURE.checked(pressure_pa)
    return AIR_HEAT_CAPACITY_J_PER_KG_K * p / (0.622 * latent)


def vapour_pressure_from_wet_bulb(
    temperature_k: Values, wet_bulb_k: Values, pressure_pa: Values, coefficient_per_k: float = ASPIRATED_PER_K
) -> FloatArray:
    """The vapour pressure read from a dry and a wet thermometer, Pa.

        e = e_s(T_wet) - a p (T - T_wet)

    Args:
        temperature_k: the dry thermometer T.
        wet_bulb_k: the wet thermometer T_wet.
        pressure_pa: pressure p of the air.
        coefficient_per_k: psychrometer coefficient a; 0.000662 where a fan draws the air past.

    Raises:
        OutOfRange: a temperature outside -30 to 60 °C, a pressure of 0 or less, or not a number.

    Valid: aspirated wet bulb over water, not over ice.
    Source: FAO-56, equations 15 and 16.
    Check: dry 25.6 °C, wet 19.5 °C, 87.9 kPa (example 4), printed 1.91 kPa:
        >>> print(f"{vapour_pressure_from_wet_bulb(298.75, 292.65, 87_900.0) / 1000:.2f}")
        1.91
    """
    t, wet, p = _DRY_BULB.checked(temperature_k), _DRY_BULB.checked(wet_bulb_k), _PRESSURE.checked(pressure_pa)
    return saturation_vapour_pressure(wet) - coefficient_per_k * p * (t - wet)


def wet_bulb_temperature(temperature_k: Values, vapour_pressure_pa: Values, pressure_pa: Values) -> FloatArray:
    """The temperature of a wet thermometer, and very nearly of a falling raindrop, K.

    The inverse of `vapour_pressure_from_wet_bulb` by Newton's method, to a hundred-thousandth of a kelvin.

    Args:
        temperature_k: temperature T of the air.
        vapour_pressure_pa: vapour pressure e of the air.
        pressure_pa: pressure p of the air.

    Raises:
        OutOfRange: a temperature outside -30 to 55 °C, a pressure of 0 or less, or not a number.

    Valid: over liquid water, air of -30 to 55 °C; within 0.2 K of the thermodynamic wet bulb from 0 to 40 °C.
    Source: FAO-56, equations 15 and 16, inverted.
    Check: air of 20 °C and 50 %, wet bulb 13.8 °C:
        >>> e = 0.5 * saturation_vapour_pressure(293.15)
        >>> print(f"{wet_bulb_temperature(293.15, e, 101325.0) - 273.15:.1f}")
        13.8
    """
    t, e, p = _DRY_BULB.checked(temperature_k), _VAPOUR.checked(vapour_pressure_pa), _PRESSURE.checked(pressure_pa)
    wet = t + 0.0 * e * p  # the common shape
    for _ in range(30):
        excess = saturation_vapour_pressure(wet) - ASPIRATED_PER_K * p * (t - wet) - e
        step = excess / (saturation_slope(np.clip(wet, _DRY_BULB.low, _DRY_BULB.high)) + ASPIRATED_PER_K * p)
        wet = wet - step
        if np.all(np.abs(step) < 1e-5):
            break
    return wet
