"""Kinetic theory: how fast the molecules of a gas move, and how far they get between two collisions.

At one temperature the molecules of a liquid and of its vapour have the same mean speed (the classical share of
energy in straight motion depends on temperature alone), so these speeds serve water on its whole journey.
"""

from __future__ import annotations

import math

import numpy as np

from sonify.constants import BOLTZMANN_J_PER_K, GAS_CONSTANT_J_PER_MOL_K
from sonify.science.ranges import FloatArray, Range, Values

_BY = "the kinetic theory of an ideal gas"
_TEMPERATURE = Range("temperature_k", "K", 0.0, np.inf, _BY)
_WARM = Range("temperature_k", "K", 0.0, np.inf, _BY, above=True)
_MASS = Range("molar_mass_kg_per_mol", "kg/mol", 0.0, np.inf, _BY, above=True)
_SPEED = Range("speed_m_s", "m/s", 0.0, np.inf, _BY)
_PRESSURE = Range("pressure_pa", "Pa", 0.0, np.inf, _BY, above=True)
_DIAMETER = Range("diameter_m", "m", 0.0, np.inf, _BY, above=True)


def most_probable_speed(temperature_k: Values, molar_mass_kg_per_mol: Values) -> FloatArray:
    """The speed that most molecules come near: the peak of the Maxwell distribution, m/s.

        v_p = sqrt(2 R T / M)

    Args:
        temperature_k: absolute temperature T.
        molar_mass_kg_per_mol: molar mass M.

    Raises:
        OutOfRange: a temperature below 0 K, a mass of 0 or less, or not a number.

    Valid: ideal gas, T >= 0 K; the source sets no upper limit.
    Source: OPENSTAX-UP2, "Distribution of Molecular Speeds".
    Check: nitrogen at 300 K, 422.00 m/s:
        >>> print(f"{most_probable_speed(300.0, 0.0280134):.2f}")
        422.00
    """
    return np.sqrt(_two_rt_over_m(temperature_k, molar_mass_kg_per_mol))


def mean_speed(temperature_k: Values, molar_mass_kg_per_mol: Values) -> FloatArray:
    """The mean speed of the molecules, m/s.

        v_mean = sqrt(8 R T / (pi M))

    Args:
        temperature_k: absolute temperature T.
        molar_mass_kg_per_mol: molar mass M.

    Raises:
        OutOfRange: a temperature below 0 K, a mass of 0 or less, or not a number.

    Valid: ideal gas, T >= 0 K; straight motion in a liquid has the same mean speed (equipartition).
    Source: OPENSTAX-UP2, "Distribution of Molecular Speeds".
    Check: water at 20 °C, 586.96 m/s:
        >>> print(f"{mean_speed(293.15, 0.01801528):.2f}")
        586.96
    """
    return np.sqrt(_two_rt_over_m(temperature_k, molar_mass_kg_per_mol) * (4.0 / np.pi))


def rms_speed(temperature_k: Values, molar_mass_kg_per_mol: Values) -> FloatArray:
    """The root-mean-square speed: that of a molecule with the mean kinetic energy, m/s.

        v_rms = sqrt(3 R T / M)

    Args:
        temperature_k: absolute temperature T.
        molar_mass_kg_per_mol: molar mass M.

    Raises:
        OutOfRange: a temperature below 0 K, a mass of 0 or less, or not a number.

    Valid: ideal gas, T >= 0 K; the source sets no upper limit.
    Source: OPENSTAX-UP2, "Pressure, Temperature, and RMS Speed", worked example.
    Check: nitrogen at 20 °C, printed 511 m/s:
        >>> print(f"{rms_speed(293.15, 0.0280134):.0f}")
        511
    """
    return np.sqrt(_two_rt_over_m(temperature_k, molar_mass_kg_per_mol) * 1.5)


def speed_density(speed_m_s: Values, temperature_k: Values, molar_mass_kg_per_mol: Values) -> FloatArray:
    """How many of the molecules share a speed: the Maxwell distribution, share for each m/s.

        f(v) = 4/sqrt(pi) (v^2 / v_p^3) exp(-v^2 / v_p^2)

    Args:
        speed_m_s: the speed v asked about.
        temperature_k: absolute temperature T.
        molar_mass_kg_per_mol: molar mass M.

    Raises:
        OutOfRange: a speed below 0, a temperature or mass of 0 or less, or not a number.

    Valid: ideal gas, T > 0 K.
    Source: OPENSTAX-UP2, "Distribution of Molecular Speeds", worked example.
    Check: nitrogen at 27 °C, 300 m/s is 5.74 times as frequent as 100 m/s:
        >>> print(f"{speed_density(300.0, 300.0, 0.028) / speed_density(100.0, 300.0, 0.028):.2f}")
        5.74
    """
    speed, peak = _SPEED.checked(speed_m_s), most_probable_speed(_WARM.checked(temperature_k), molar_mass_kg_per_mol)
    density: FloatArray = 4.0 / math.sqrt(math.pi) * speed**2 / peak**3 * np.exp(-((speed / peak) ** 2))
    return density


def mean_free_path(temperature_k: Values, pressure_pa: Values, diameter_m: Values) -> FloatArray:
    """How far a molecule gets, on average, between two collisions, m.

        lambda = k T / (sqrt(2) pi d^2 p)

    Args:
        temperature_k: absolute temperature T.
        pressure_pa: pressure p of the gas.
        diameter_m: collision diameter d; the answer hangs on it (air: 3.65e-10 m in the source).

    Raises:
        OutOfRange: a temperature below 0 K, a pressure or diameter of 0 or less, or not a number.

    Valid: ideal gas of hard balls; with another published diameter the answer moves by up to 15 %.
    Source: USSA-1976, section 1.3.
    Check: air at 15 °C and 101 325 Pa, 6.633e-8 m:
        >>> print(f"{mean_free_path(288.15, 101325.0, 3.65e-10):.3e}")
        6.633e-08
    """
    t, p, d = _TEMPERATURE.checked(temperature_k), _PRESSURE.checked(pressure_pa), _DIAMETER.checked(diameter_m)
    return BOLTZMANN_J_PER_K * t / (math.sqrt(2.0) * math.pi * d**2 * p)


def _two_rt_over_m(temperature_k: Values, molar_mass_kg_per_mol: Values) -> FloatArray:
    return 2.0 * GAS_CONSTANT_J_PER_MOL_K * _TEMPERATURE.checked(temperature_k) / _MASS.checked(molar_mass_kg_per_mol)
