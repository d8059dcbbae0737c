"""Air that is lifted: where its vapour condenses, how cold it gets, and how high a hill or the sun can lift it."""

from __future__ import annotations

import numpy as np

from sonify.constants import STANDARD_GRAVITY_M_PER_S2, ZERO_CELSIUS_K
from sonify.science.atmosphere import air_density, standard_pressure
from sonify.science.humidity import mixing_ratio
from sonify.science.ranges import FloatArray, Range, Values
from sonify.science.saturation import saturation_vapour_pressure

#: Specific heat of dry air at constant pressure, J/(kg K): 3.5 gas constants.
DRY_AIR_HEAT_CAPACITY_J_PER_KG_K = 1004.6
#: How fast unsaturated air cools as it rises, K/m: 9.76 K for every kilometre.
DRY_LAPSE_K_PER_M = STANDARD_GRAVITY_M_PER_S2 / DRY_AIR_HEAT_CAPACITY_J_PER_KG_K
LATENT_HEAT_AT_ZERO_J_PER_KG = 2.501e6

_BOLTON = Range("temperature_k", "K", ZERO_CELSIUS_K - 40.0, ZERO_CELSIUS_K + 50.0, "Bolton's condensation level")
_DEW = Range("dew_point_k", "K", ZERO_CELSIUS_K - 60.0, ZERO_CELSIUS_K + 50.0, "Bolton's condensation level")
_SPREAD = Range("temperature_k - dew_point_k", "K", -1.0e-6, np.inf, "Bolton's condensation level")
_BASE = Range("temperature_k", "K", 233.0, 323.0, "the lifting of moist air")
_MIXING = Range("mixing_ratio_kg_per_kg", "kg/kg", 0.0, 0.1, "the lifting of moist air")
_HEIGHT = Range("height_m", "m", 0.0, 4_000.0, "the lifting of moist air")
_WIND = Range("wind_m_s", "m/s", 0.0, np.inf, "stably layered air")
_GRADIENT = Range("gradient_k_m", "K/m", 0.0, np.inf, "stably layered air", above=True)
_DEPTH = Range("inversion_m", "m", 0.0, np.inf, "stably layered air", above=True)
_HEAT = Range("heat_j_m2", "J/m²", 0.0, np.inf, "stably layered air")


def condensation_temperature(temperature_k: Values, dew_point_k: Values) -> FloatArray:
    """The temperature at which rising air reaches saturation, K.

        T_L = 1 / (1/(T_d - 56) + ln(T/T_d)/800) + 56

    Args:
        temperature_k: temperature T of the air before it rises.
        dew_point_k: its dew point T_d, no higher than T.

    Raises:
        OutOfRange: a temperature outside -40 to 50 °C, a dew point above it or under -60 °C, or not a number.

    Valid: -40 to 50 °C; within 0.1 K in the source.
    Source: BOLTON-1980, equation 15.
    Check: 25 °C, dew point 15 °C: 12.7 °C:
        >>> print(f"{condensation_temperature(298.15, 288.15) - 273.15:.1f}")
        12.7
    """
    t, dew = _BOLTON.checked(temperature_k), _DEW.checked(dew_point_k)
    _SPREAD.checked(t - dew)
    return 1.0 / (1.0 / (dew - 56.0) + np.log(t / dew) / 800.0) + 56.0


def condensation_height(temperature_k: Values, dew_point_k: Values) -> FloatArray:
    """How far air must rise until its vapour condenses (the lifting condensation level, the cloud base), m.

        z = (T - T_L) c_p / g

    Args:
        temperature_k: temperature T of the air before it rises.
        dew_point_k: its dew point, no higher than T.

    Raises:
        OutOfRange: a temperature outside -40 to 50 °C, a dew point above it or under -60 °C, or not a number.

    Valid: as `condensation_temperature`; unsaturated air cools by 9.76 K for every kilometre.
    Source: BOLTON-1980, equation 15, with the dry adiabat.
    Check: 20 °C, dew point 15 °C: 630 m:
        >>> print(f"{condensation_height(293.15, 288.15):.0f}")
        630
    """
    t = _BOLTON.checked(temperature_k)
    return np.maximum(t - condensation_temperature(t, dew_point_k), 0.0) / DRY_LAPSE_K_PER_M


def saturation_aloft(temperature_k: Values, height_m: Values) -> FloatArray:
    """The mixing ratio of saturated air at a height in the standard atmosphere, kg/kg.

        w_s = 0.622 e_s(T) / (p(z) - e_s(T))

    Args:
        temperature_k: temperature T of the air up there.
        height_m: height z above the sea.

    Raises:
        OutOfRange: a temperature outside 123 to 332 K, a height outside the standard atmosphere, or not a number.

    Valid: over liquid water, pressure of the standard atmosphere.
    Source: ASHRAE-2017, chapter 1, equation 20; USSA-1976 for the pressure.
    Check: 5 °C at 1000 m, 6.1 g/kg:
        >>> print(f"{1000 * saturation_aloft(278.15, 1000.0):.1f}")
        6.1
    """
    return mixing_ratio(saturation_vapour_pressure(temperature_k), standard_pressure(height_m))


def lifted_temperature(temperature_k: Values, mixing_ratio_kg_per_kg: Values, height_m: Values) -> FloatArray:
    """The temperature of air after it has risen, K: warmer than dry air would be once condensation gives out heat.

        c_p T + g z + L w stays the same, w no more than saturation at z allows (moist static energy)

    Args:
        temperature_k: temperature of the air at sea level.
        mixing_ratio_kg_per_kg: vapour it holds there.
        height_m: height z it rises to.

    Raises:
        OutOfRange: a temperature outside 233 to 323 K, a mixing ratio outside 0 to 0.1, a height outside 0 to 4000 m.

    Valid: sea level to 4000 m in the standard atmosphere, liquid drops; within 0.2 K of the moist adiabat up to 2 km.
    Source: WALLACE-HOBBS-2006, section 3.5.
    Check: saturated air of 15 °C is 4.9 K colder 1000 m up:
        >>> w = float(saturation_aloft(288.15, 0.0))
        >>> print(f"{288.15 - lifted_temperature(288.15, w, 1000.0):.1f}")
        4.9
    """
    t, w, z = _BASE.checked(temperature_k), _MIXING.checked(mixing_ratio_kg_per_kg), _HEIGHT.checked(height_m)
    aloft, pressure = t - DRY_LAPSE_K_PER_M * z, standard_pressure(z)
    latent = LATENT_HEAT_AT_ZERO_J_PER_KG / DRY_AIR_HEAT_CAPACITY_J_PER_KG_K
    moist = aloft + 0.0 * w  # the common shape
    for _ in range(30):
        held = mixing_ratio(saturation_vapour_pressure(moist), pressure)
        # Newton's method, with Clausius and Clapeyron's slope of the vapour held
        step = (moist - aloft - latent * np.maximum(w - held, 0.0)) / (1.0 + latent * held * 5420.0 / moist**2)
        moist = moist - step
        if np.max(np.abs(step)) < 1.0e-6:
            break
    return moist


def climb_height(wind_m_s: Values, gradient_k_m: Values, air_k: Values) -> FloatArray:
    """How high wind can climb a hill in calm, layered air; what comes lower down flows round it, m.

        h = u/N, N^2 = (g/T) d(theta)/dz

    Args:
        wind_m_s: wind u towards the hill.
        gradient_k_m: how fast the potential temperature rises with height, d(theta)/dz.
        air_k: temperature T of the air.

    Raises:
        OutOfRange: a negative wind, a gradient of 0 or less, or not a number.

    Valid: stably layered air, a hill no wider than it is long; this is H - H_c of the dividing streamline.
    Source: AMS-GLOSSARY, "dividing streamline" (after Sheppard 1956).
    Check: 4 m/s, 12 K/km at 12 °C, 197 m:
        >>> print(f"{climb_height(4.0, 0.012, 285.15):.0f}")
        197
    """
    n_squared = STANDARD_GRAVITY_M_PER_S2 / _BASE.checked(air_k) * _GRADIENT.checked(gradient_k_m)
    return _WIND.checked(wind_m_s) / np.sqrt(n_squared)


def mixed_depth(
    heat_j_m2: Values, inversion_m: float, inversion_k_m: float, above_k_m: float, air_k: Values
) -> FloatArray:
    """How deep the sun-warmed ground has stirred the air above it since dawn, m.

    The night has left cold air below an inversion: while the stirring eats through it, it grows slowly; then fast.

        Q/(rho c_p) = G1 h^2/2 within the inversion of depth D; beyond it G1 D^2/2 + G2 (h^2 - D^2)/2

    Args:
        heat_j_m2: heat Q that the ground has given to the air since dawn.
        inversion_m: depth D of the night's inversion.
        inversion_k_m: how fast the potential temperature rises with height in it, G1.
        above_k_m: how fast it rises above, G2.
        air_k: temperature of the air, for its density rho at sea level.

    Raises:
        OutOfRange: negative heat, a depth or gradient of 0 or less, or not a number.

    Valid: from dawn to late afternoon, nothing drawn in from above (encroachment).
    Source: STULL-1988, section 11.2 (encroachment).
    Check: 3 MJ/m² into air layered by 10 K/km throughout: 698 m:
        >>> print(f"{mixed_depth(3.0e6, 300.0, 0.010, 0.010, 288.15):.0f}")
        698
    """
    _DEPTH.checked(inversion_m), _GRADIENT.checked(inversion_k_m), _GRADIENT.checked(above_k_m)
    doubled = 2.0 * _HEAT.checked(heat_j_m2) / (air_density(air_k) * DRY_AIR_HEAT_CAPACITY_J_PER_KG_K)
    spare = doubled - inversion_k_m * inversion_m**2
    within = np.sqrt(doubled / inversion_k_m)
    return np.where(spare <= 0.0, within, np.sqrt(inversion_m**2 + np.maximum(spare, 0.0) / above_k_m))
