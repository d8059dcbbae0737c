"""Salt in water: how much the water holds, the room and the vapour pressure of the brine, how fast salt wanders in it.

Salt is sodium chloride throughout. Amounts are kilograms of salt to a kilogram of water, not of brine.
"""

from __future__ import annotations

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.science.liquid_water import water_density, water_viscosity
from sonify.science.ranges import FloatArray, Range, Values

SALT_KG_M3 = 2165.0  # a crystal of sodium chloride: common table value
MOLAR_MASS_SALT_KG_PER_MOL = 0.058443
#: The room a kilogram of dissolved salt takes up in the water, m³: 3.3e-4 in weak brine, 3.6e-4 in strong.
_ROOM_M3_PER_KG = 3.5e-4
#: °C and mass per cent of the saturated brine, as the industry's table prints them.
_SATURATED = (
    (0.0, 26.29),
    (4.44, 26.33),
    (10.0, 26.36),
    (15.56, 26.395),
    (21.11, 26.45),
    (26.67, 26.52),
    (37.78, 26.68),
    (51.67, 26.92),
    (65.56, 27.21),
    (79.44, 27.62),
    (93.33, 27.91),
    (100.0, 28.12),
)
#: Moles of salt to a kilogram of water, and vapour pressure of the brine over that of water, 25 °C.
_ACTIVITY = (
    (0.0, 1.0),
    (0.5, 0.98355),
    (1.0, 0.96686),
    (2.0, 0.9316),
    (3.0, 0.8932),
    (4.0, 0.8515),
    (5.0, 0.8068),
    (6.0, 0.7598),
    (6.144, 0.7528),
)
_ION_M2_S = (1.334e-9, 2.032e-9)  # sodium and chloride in much water of 25 °C
_WARM_K = ZERO_CELSIUS_K + 25.0

_LIQUID = Range("temperature_k", "K", ZERO_CELSIUS_K, ZERO_CELSIUS_K + 100.0, "the solubility of salt")
_WATER = Range("water_kg", "kg", 0.0, np.inf, "brine", above=True)
_SALT = Range("salt_kg", "kg", 0.0, np.inf, "brine")
_STRENGTH = Range("salt_per_water", "kg/kg", 0.0, 0.3912, "brine (beyond it salt stays undissolved)")


def salt_solubility(temperature_k: Values) -> FloatArray:
    """The most salt that a kilogram of water can hold dissolved, kg.

    Read from a table in mass per cent of brine, straight between its rows: s = w / (1 - w).

    Args:
        temperature_k: temperature of the water.

    Raises:
        OutOfRange: below 0 °C, above 100 °C, or not a number.

    Valid: sodium chloride in clean water; within 0.4 % of the CRC Handbook's figures.
    Source: SALT-TABLE; compared with CRC-SOLUBILITY.
    Check: 100 °C, 28.12 % of the brine, so 39.1 g to 100 g of water:
        >>> print(f"{100 * salt_solubility(373.15):.1f}")
        39.1
    """
    t = _LIQUID.checked(temperature_k) - ZERO_CELSIUS_K
    rows = np.array(_SATURATED)
    share = 0.01 * np.interp(t, rows[:, 0], rows[:, 1])
    return np.asarray(share / (1.0 - share))


def brine_volume(water_kg: Values, salt_kg: Values, temperature_k: Values) -> FloatArray:
    """The room that water and the salt dissolved in it take up together, m³: less than the two apart.

        V = m_water / rho_water + 0.00035 m_salt

    Args:
        water_kg: mass of the water.
        salt_kg: mass of the dissolved salt.
        temperature_k: temperature, for the water's density.

    Raises:
        OutOfRange: no water, negative salt, a temperature outside 0 to 100 °C, or not a number.

    Valid: up to saturation; within 0.7 % of measured densities at 20 °C.
    Source: BRINE-DENSITY-1974, a round figure from its rows.
    Check: 10 % of salt at 20 °C, measured 1070.7 kg/m³:
        >>> print(f"{1.0 / brine_volume(0.9, 0.1, 293.15):.0f}")
        1068
    """
    return _WATER.checked(water_kg) / water_density(temperature_k) + _ROOM_M3_PER_KG * _SALT.checked(salt_kg)


def brine_vapour_share(salt_per_water: Values) -> FloatArray:
    """The vapour pressure over brine as a share of that over fresh water at the same temperature (water activity).

    Read from a table over moles of salt to a kilogram of water, straight between its rows.

    Args:
        salt_per_water: kilograms of salt to a kilogram of water.

    Raises:
        OutOfRange: negative, above 0.3912 (no water holds more), or not a number.

    Valid: sodium chloride, 25 °C; within 0.8 % of sea water up to 120 g/kg from 5 to 70 °C. Beyond the table's last
        row (saturated at 25 °C) its last value stands.
    Source: ROBINSON-STOKES-1959; compared with TEOS-10.
    Check: a saturated brine keeps the air over it at 75.3 %:
        >>> print(f"{100 * brine_vapour_share(0.3591):.1f}")
        75.3
    """
    moles = _STRENGTH.checked(salt_per_water) / MOLAR_MASS_SALT_KG_PER_MOL
    rows = np.array(_ACTIVITY)
    return np.asarray(np.interp(moles, rows[:, 0], rows[:, 1]))


def salt_diffusion(temperature_k: Values) -> FloatArray:
    """How fast dissolved salt wanders through still water by itself (diffusion coefficient), m²/s.

        D = 2 D+ D- / (D+ + D-) at 25 °C, 1.334e-9 for sodium and 2.032e-9 for chloride; elsewhere as T / mu

    Args:
        temperature_k: temperature T of the water, for its viscosity mu.

    Raises:
        OutOfRange: below 0 °C, above 100 °C, or not a number.

    Valid: weak brine; up to saturation within some 10 %.
    Source: NERNST-1888 (both ions must keep together); CRC-IONS for the ions; Stokes-Einstein for the temperature.
    Check: 25 °C, 1.61e-9 m²/s:
        >>> print(f"{salt_diffusion(298.15):.2e}")
        1.61e-09
    """
    t = _LIQUID.checked(temperature_k)
    sodium, chloride = _ION_M2_S
    warm = 2.0 * sodium * chloride / (sodium + chloride)
    return warm * (t / _WARM_K) * water_viscosity(_WARM_K) / water_viscosity(t)
