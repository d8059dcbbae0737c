"""Heating ice, water and steam: the heat that warms, and the heat that changes the state and warms nothing.

The specific heats are the rounded ones of a school table, each an average over its range; of steam other printings of
the same publisher have 1520 or 1860, and the international formulation 2080 at 100 °C falling to 1986 at 150 °C.
"""

from __future__ import annotations

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import OutOfRange
from sonify.science.ranges import FloatArray, Range, Values

# OPENSTAX-UP2, tables of specific heats and of heats of fusion and vaporisation, at 1 atmosphere.
ICE_J_PER_KG_K = 2090.0
WATER_J_PER_KG_K = 4186.0
STEAM_J_PER_KG_K = 2020.0
ALUMINIUM_J_PER_KG_K = 900.0
MELTING_J_PER_KG = 334.0e3
BOILING_J_PER_KG = 2256.0e3
MELTS_K = ZERO_CELSIUS_K
BOILS_K = ZERO_CELSIUS_K + 100.0  # at 1 atmosphere, as schools round it; 99.974 °C by IAPWS-95

_MASS = Range("mass_kg", "kg", 0.0, np.inf, "the heat of a mass")
_SPECIFIC = Range("specific_j_per_kg_k", "J/(kg K)", 0.0, np.inf, "the heat of a mass")
_CHANGE = Range("change_k", "K", -np.inf, np.inf, "the heat of a mass")
_LATENT = Range("latent_j_per_kg", "J/kg", 0.0, np.inf, "the heat of a change of state")
_TIME = Range("time_s", "s", 0.0, np.inf, "a heater against losses")
_GAIN = Range("gain_k_per_s", "K/s", -np.inf, np.inf, "a heater against losses")
_RATE = Range("rate_per_s", "1/s", 0.0, np.inf, "a heater against losses")
_RISE = Range("rise_k", "K", 0.0, np.inf, "a heater against losses")
_ICE = Range("ice_k", "K", 0.0, MELTS_K, "ice in water")
_WATER = Range("water_k", "K", MELTS_K, BOILS_K, "ice in water")


def warming_heat(mass_kg: Values, specific_j_per_kg_k: Values, change_k: Values) -> FloatArray:
    """The heat that warms a mass without changing its state, J; negative for cooling.

        Q = m c dT

    Args:
        mass_kg: mass m.
        specific_j_per_kg_k: specific heat c.
        change_k: rise of temperature dT, negative for a fall.

    Raises:
        OutOfRange: a negative mass or specific heat, or not a number.

    Valid: no change of state on the way; c an average over it.
    Source: OPENSTAX-UP2, "Heat Transfer, Specific Heat, and Calorimetry".
    Check: 0.250 kg of water from 20 °C to 80 °C, printed 62.8 kJ:
        >>> print(f"{warming_heat(0.250, WATER_J_PER_KG_K, 60.0) / 1000:.1f}")
        62.8
    """
    return _MASS.checked(mass_kg) * _SPECIFIC.checked(specific_j_per_kg_k) * _CHANGE.checked(change_k)


def state_heat(mass_kg: Values, latent_j_per_kg: Values) -> FloatArray:
    """The heat that melts or boils a mass at one temperature, J.

        Q = m L

    Args:
        mass_kg: mass m that changes its state.
        latent_j_per_kg: latent heat L of the change.

    Raises:
        OutOfRange: a negative mass or latent heat, or not a number.

    Valid: at the melting or boiling point, pressure kept.
    Source: OPENSTAX-UP2, "Phase Changes".
    Check: melting 1 kg of ice, 334 kJ:
        >>> print(f"{state_heat(1.0, MELTING_J_PER_KG) / 1000:.0f}")
        334
    """
    return _MASS.checked(mass_kg) * _LATENT.checked(latent_j_per_kg)


def iced_temperature(ice_kg: Values, ice_k: Values, water_kg: Values, water_k: Values) -> FloatArray:
    """The temperature of water in which ice has melted, nothing lost to the cup or the room, K.

    What the water gives, cooling, is what the ice takes to warm, melt and warm on as water.

    Args:
        ice_kg: mass of the ice.
        ice_k: its temperature, 0 °C or below.
        water_kg: mass of the water.
        water_k: its temperature, 0 °C or above.

    Raises:
        OutOfRange: a negative mass, temperatures on the wrong side of 0 °C, ice left over, or not a number.

    Valid: all of the ice melts.
    Source: OPENSTAX-UP2, "Phase Changes", exercise.
    Check: 0.0500 kg of ice at -30 °C into 0.400 kg of water at 35.0 °C, printed 20.6 °C:
        >>> print(f"{iced_temperature(0.0500, 243.15, 0.400, 308.15) - 273.15:.1f}")
        20.6
    """
    ice, water = _MASS.checked(ice_kg), _MASS.checked(water_kg)
    needed = warming_heat(ice, ICE_J_PER_KG_K, MELTS_K - _ICE.checked(ice_k)) + state_heat(ice, MELTING_J_PER_KG)
    spare = warming_heat(water, WATER_J_PER_KG_K, _WATER.checked(water_k) - MELTS_K) - needed
    if np.any(spare < 0.0):
        raise OutOfRange("ice_kg", float(np.max(ice)), "kg", "ice that all melts in this water", "ice in water")
    return MELTS_K + spare / ((ice + water) * WATER_J_PER_KG_K)


def heated_rise(time_s: Values, gain_k_per_s: Values, rate_per_s: Values) -> FloatArray:
    """How much warmer a body has become under a steady heater, while it loses heat by Newton's law, K.

        rise = q (1 - exp(-k t)) / k; without losses q t

    Args:
        time_s: time t since the start.
        gain_k_per_s: how fast it warms at the start, q: heater less losses then, over the heat it holds for a kelvin.
        rate_per_s: rate k of Newton's law: heat lost over heat held, each for a kelvin; 0 for no losses.

    Raises:
        OutOfRange: a negative time or rate, or not a number.

    Valid: one well-stirred body, no change of state.
    Source: OPENSTAX-CALC1, "Exponential Growth and Decay": Newton's law towards room + heater/loss.
    Check: 1 kg of water under 2200 W, no losses, gains 80 K in 152.2 s:
        >>> print(f"{heated_rise(152.2, 2200.0 / WATER_J_PER_KG_K, 0.0):.1f}")
        80.0
    """
    t, gain, rate = _TIME.checked(time_s), _GAIN.checked(gain_k_per_s), _RATE.checked(rate_per_s)
    share = rate * t
    steady = share < 1e-12  # the rounding of the exponential is coarser than the losses are
    return gain * t * np.where(steady, 1.0, -np.expm1(-share) / np.where(steady, 1.0, share))


def heated_time(rise_k: Values, gain_k_per_s: Values, rate_per_s: Values) -> FloatArray:
    """How long that takes for a given rise, s; endless where the losses grow as large as the heater before it.

        t = -ln(1 - k rise / q) / k; without losses rise/q

    Args:
        rise_k: how much warmer it shall become, 0 or more.
        gain_k_per_s: how fast it warms at the start, q.
        rate_per_s: rate k of Newton's law; 0 for no losses.

    Raises:
        OutOfRange: a negative rise or rate, or not a number.

    Valid: as `heated_rise`.
    Source: OPENSTAX-CALC1, "Exponential Growth and Decay".
    Check: 1 kg of water from 20 °C to 100 °C at 3000 W, 111.6 s:
        >>> print(f"{heated_time(80.0, 3000.0 / WATER_J_PER_KG_K, 0.0):.1f}")
        111.6
    """
    rise, gain, rate = _RISE.checked(rise_k), _GAIN.checked(gain_k_per_s), _RATE.checked(rate_per_s)
    never = (gain <= 0.0) | (rate * rise >= gain)
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(never, 0.0, rate * rise / np.where(gain > 0.0, gain, 1.0))
        steady = share < 1e-12
        time_s = rise / gain * np.where(steady, 1.0, -np.log1p(-share) / np.where(steady, 1.0, share))
    return np.where(rise == 0.0, 0.0, np.where(never, np.inf, time_s))[()]
