"""Liquid water at ordinary pressure: how heavy it is, how thickly it flows, how strongly its surface pulls."""

from __future__ import annotations

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.science.ranges import FloatArray, Range, Values

_DENSITY = Range("temperature_k", "K", ZERO_CELSIUS_K, ZERO_CELSIUS_K + 100.0, "Kell's density of water")
_VISCOSITY = Range("temperature_k", "K", 253.15, 383.15, "the IAPWS viscosity of water at 0.1 MPa")
_SURFACE = Range("temperature_k", "K", 273.15, 647.096, "the IAPWS surface tension of water")

_CRITICAL_K = 647.096
#: Factors (µPa s) and powers of T/300 K.
_VISCOSITY_TERMS = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))


def water_density(temperature_k: Values) -> FloatArray:
    """The mass of a cubic metre of liquid water, kg/m³; greatest near 4 °C.

        rho = (999.83952 + 16.945176 t - 7.9870401e-3 t^2 - 46.170461e-6 t^3 + 105.56302e-9 t^4 - 280.54253e-12 t^5)
              / (1 + 16.879850e-3 t), t in °C

    Args:
        temperature_k: temperature of the water.

    Raises:
        OutOfRange: below 0 °C, above 100 °C, or not a number.

    Valid: air-free water at 1 atm, kept here to 0 to 100 °C.
    Source: KELL-1975, equation 16.
    Check: 20 °C, 998.20 kg/m³:
        >>> print(f"{water_density(293.15):.2f}")
        998.20
    """
    t = _DENSITY.checked(temperature_k) - ZERO_CELSIUS_K
    sum_of_powers = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return sum_of_powers / (1.0 + 16.879850e-3 * t)


def water_viscosity(temperature_k: Values) -> FloatArray:
    """How thickly liquid water flows (dynamic viscosity), Pa s: warm water is thinner.

        mu = (280.68 T^-1.9 + 511.45 T^-7.7 + 61.131 T^-19.6 + 0.45903 T^-40) µPa s, T in units of 300 K

    Args:
        temperature_k: temperature of the water.

    Raises:
        OutOfRange: below -20 °C, above 110 °C, or not a number.

    Valid: liquid water at 0.1 MPa, -20 to 110 °C.
    Source: IAPWS-2008-VISCOSITY, section 3.7 (recommended for 0.1 MPa).
    Check: 20 °C, 1.0016 mPa s:
        >>> print(f"{1000 * water_viscosity(293.15):.4f}")
        1.0016
    """
    reduced = _VISCOSITY.checked(temperature_k) / 300.0
    total: FloatArray = 1.0e-6 * sum((a * reduced**power for a, power in _VISCOSITY_TERMS), np.zeros_like(reduced))
    return total


def surface_tension(temperature_k: Values) -> FloatArray:
    """How strongly the surface of water pulls itself together, N/m.

        gamma = 0.2358 x^1.256 (1 - 0.625 x), x = 1 - T/T_critical

    Args:
        temperature_k: temperature T of the water.

    Raises:
        OutOfRange: below 0 °C, above the critical point (647.096 K), or not a number.

    Valid: clean water under its own vapour; soap or grease lowers it a great deal.
    Source: IAPWS-R1-76.
    Check: 20 °C, 72.74 mN/m:
        >>> print(f"{1000 * surface_tension(293.15):.2f}")
        72.74
    """
    below = 1.0 - _SURFACE.checked(temperature_k) / _CRITICAL_K
    return 0.2358 * below**1.256 * (1.0 - 0.625 * below)
