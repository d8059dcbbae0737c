"""Evaporation from open water: by what the wind carries off, by what the heat can pay for, and by both at once.

Rates are kg of water from a square metre in a second, which is the same as mm of water in a second.
"""

from __future__ import annotations

import numpy as np

from sonify.constants import STANDARD_ATMOSPHERE_PA
from sonify.science.atmosphere import air_density
from sonify.science.humidity import AIR_HEAT_CAPACITY_J_PER_KG_K
from sonify.science.ranges import FloatArray, Range, Values
from sonify.science.saturation import latent_heat_of_vaporisation

VON_KARMAN = 0.4
#: Salt lowers the vapour pressure over the sea by 2 % (used by every common air-sea flux formula).
SEA_WATER_FACTOR = 0.98
MM_PER_DAY = 1.0 / 86_400.0  # in kg/(m² s)

_HEIGHT = Range("height_m", "m", 0.0, 200.0, "the wind profile over a surface", above=True)
_ROUGHNESS = Range("roughness_m", "m", 0.0, 10.0, "the wind profile over a surface", above=True)
_RATIO = Range("height_m / roughness_m", "", 2.0, np.inf, "the wind profile over a surface")
_WIND = Range("wind_m_s", "m/s", 0.0, np.inf, "the transfer by wind")
_DEFICIT = Range("deficit_pa", "Pa", -np.inf, np.inf, "the transfer by wind")
_WARMER = Range("warmer_k", "K", -np.inf, np.inf, "the transfer by wind")
_TRANSFER = Range("transfer", "1", 0.0, 1.0, "the transfer by wind")
_PRESSURE = Range("pressure_pa", "Pa", 0.0, np.inf, "the transfer by wind", above=True)
_HEAT = Range("net_radiation_w_m2", "W/m²", -np.inf, np.inf, "the energy balance")
_RATE = Range("evaporation", "kg/(m² s)", -np.inf, np.inf, "the combination of energy and wind")
_SLOPE_RATIO = Range("slope_ratio", "1", 0.0, np.inf, "the combination of energy and wind")
_FACTOR = Range("factor", "1", 0.0, np.inf, "the combination of energy and wind")


def transfer_coefficient(height_m: Values, roughness_m: Values) -> FloatArray:
    """How readily wind of a height carries vapour and heat off a surface (bulk coefficient, no unit).

        C = 0.4^2 / ln(z/z0)^2

    Args:
        height_m: height z at which wind, humidity and temperature are taken.
        roughness_m: roughness length z0 of the surface (open water: 0.0003 m).

    Raises:
        OutOfRange: a height or roughness of 0 or less, a height under twice the roughness, or not a number.

    Valid: neutral air; heat and vapour carried like momentum.
    Source: CHOW-1988, equation 3.5.19.
    Check: 2 m over water of roughness 0.03 cm, 0.00206:
        >>> print(f"{transfer_coefficient(2.0, 0.0003):.5f}")
        0.00206
    """
    ratio = _RATIO.checked(_HEIGHT.checked(height_m) / _ROUGHNESS.checked(roughness_m))
    return VON_KARMAN**2 / np.log(ratio) ** 2


def wind_evaporation(
    wind_m_s: Values, deficit_pa: Values, air_k: Values, transfer: Values, pressure_pa: Values = STANDARD_ATMOSPHERE_PA
) -> FloatArray:
    """Evaporation as the wind carries it off (bulk formula), kg/(m² s); negative where dew falls on cold water.

        E = 0.622 rho C u (e_s - e) / p

    Args:
        wind_m_s: wind u.
        deficit_pa: vapour pressure e_s at the water's surface less that of the air, e.
        air_k: temperature of the air, for its density rho.
        transfer: coefficient C for the height of the wind, as `transfer_coefficient` gives it.
        pressure_pa: pressure p of the air.

    Raises:
        OutOfRange: a negative wind, a coefficient outside 0 to 1, a pressure of 0 or less, or not a number.

    Valid: neutral air over open water.
    Source: CHOW-1988, equations 3.5.17 and 3.5.18 (after Thornthwaite and Holzman 1939); DALTON-1802.
    Check: 25 °C, 40 %, 3 m/s at 2 m (example 3.5.2), 7.45 mm/day:
        >>> rate = wind_evaporation(3.0, 0.6 * 3167.0, 298.15, transfer_coefficient(2.0, 0.0003))
        >>> print(f"{rate / MM_PER_DAY:.1f}")
        7.4
    """
    wind, deficit, c = _WIND.checked(wind_m_s), _DEFICIT.checked(deficit_pa), _TRANSFER.checked(transfer)
    return 0.622 * air_density(air_k, pressure_pa) * c * wind * deficit / _PRESSURE.checked(pressure_pa)


def heat_to_air(wind_m_s: Values, warmer_k: Values, air_k: Values, transfer: Values) -> FloatArray:
    """Heat that the wind takes from a surface warmer than the air (bulk formula), W/m².

        H = rho c_p C u (T_s - T)

    Args:
        wind_m_s: wind u.
        warmer_k: how much warmer the surface is than the air, T_s - T.
        air_k: temperature T of the air, for its density rho at standard pressure.
        transfer: coefficient C for the height of the wind, as `transfer_coefficient` gives it.

    Raises:
        OutOfRange: a negative wind, a coefficient outside 0 to 1, or not a number.

    Valid: neutral air.
    Source: CHOW-1988, equation 3.5.21.
    Check: water 1 K warmer than air of 15 °C in 5 m/s, coefficient 0.0014: 8.7 W/m²:
        >>> print(f"{heat_to_air(5.0, 1.0, 288.15, 0.0014):.1f}")
        8.7
    """
    wind, warmer, c = _WIND.checked(wind_m_s), _WARMER.checked(warmer_k), _TRANSFER.checked(transfer)
    return air_density(air_k) * AIR_HEAT_CAPACITY_J_PER_KG_K * c * wind * warmer


def mass_transfer_evaporation(wind_m_s: Values, deficit_pa: Values) -> FloatArray:
    """Evaporation by another author's wind formula, which leaves some in still air, kg/(m² s).

        E = (0.013 + 0.00016 u) (e_s - e) cm/day; u in km/day, pressures in mb

    Args:
        wind_m_s: wind u at 2 m.
        deficit_pa: saturation vapour pressure e_s less the vapour pressure e of the air.

    Raises:
        OutOfRange: a negative wind, or not a number.

    Valid: daily means over open water.
    Source: PONCE-1989, section 2.2 (after Dunne).
    Check: 20 °C (23.37 mb), 75 %, 200 km/day, printed 0.263 cm/day:
        >>> print(f"{mass_transfer_evaporation(200.0 / 86.4, 0.25 * 2337.0) / MM_PER_DAY / 10:.3f}")
        0.263
    """
    wind_km_day = _WIND.checked(wind_m_s) * 86.4
    return (0.013 + 0.00016 * wind_km_day) * _DEFICIT.checked(deficit_pa) / 100.0 * 10.0 * MM_PER_DAY


def energy_evaporation(net_radiation_w_m2: Values, temperature_k: Values) -> FloatArray:
    """Evaporation if all the net radiation went into it, kg/(m² s).

        E = R_n / L

    Args:
        net_radiation_w_m2: net radiation R_n that the water takes in.
        temperature_k: temperature of the water, for the latent heat L.

    Raises:
        OutOfRange: a temperature outside -20 to 60 °C, or not a number.

    Valid: no heat stored, none passed to the air.
    Source: CHOW-1988, equation 3.5.10, example 3.5.1.
    Check: 200 W/m² at 25 °C, 7.10 mm/day:
        >>> print(f"{energy_evaporation(200.0, 298.15) / MM_PER_DAY:.1f}")
        7.1
    """
    return _HEAT.checked(net_radiation_w_m2) / latent_heat_of_vaporisation(temperature_k)


def combined_evaporation(energy_rate: Values, wind_rate: Values, slope_ratio: Values) -> FloatArray:
    """Evaporation by energy and wind together (Penman's combination), in the unit of the two rates.

        E = (a E_n + E_a) / (a + 1)

    Args:
        energy_rate: evaporation E_n by net radiation alone.
        wind_rate: evaporation E_a by wind alone, with the deficit taken at the air's temperature.
        slope_ratio: a = slope of saturation vapour pressure / psychrometric constant.

    Raises:
        OutOfRange: a negative ratio, or not a number.

    Valid: means of a day or more over open water.
    Source: PENMAN-1948, as worked in PONCE-1989, section 2.2.
    Check: E_n 1.06, E_a 0.263 cm/day at 20 °C (a = 2.19), printed 0.81 cm/day:
        >>> print(f"{combined_evaporation(1.06, 0.263, 2.19):.2f}")
        0.81
    """
    a = _SLOPE_RATIO.checked(slope_ratio)
    return (a * _RATE.checked(energy_rate) + _RATE.checked(wind_rate)) / (a + 1.0)


def humid_evaporation(energy_rate: Values, slope_ratio: Values, factor: Values = 1.26) -> FloatArray:
    """Evaporation from wide wet country, where the air has grown moist too (Priestley and Taylor).

        E = 1.26 a/(a + 1) E_n

    Args:
        energy_rate: evaporation E_n by net radiation alone.
        slope_ratio: a = slope of saturation vapour pressure / psychrometric constant.
        factor: 1.26 in the source; CHOW-1988 rounds it to 1.3.

    Raises:
        OutOfRange: a negative ratio or factor, or not a number.

    Valid: large wet areas, no dry wind from elsewhere.
    Source: PRIESTLEY-TAYLOR-1972; CHOW-1988, example 3.5.4.
    Check: E_n 7.10 mm/day at 25 °C (a = 2.81), factor 1.3, 6.8 mm/day:
        >>> print(f"{humid_evaporation(7.10, 2.81, 1.3):.1f}")
        6.8
    """
    a = _SLOPE_RATIO.checked(slope_ratio)
    return _FACTOR.checked(factor) * a / (a + 1.0) * _RATE.checked(energy_rate)
