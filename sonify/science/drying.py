"""Drying in the open: a puddle's hollow, and the heat that wind takes along with the vapour."""

from __future__ import annotations

import numpy as np

from sonify.constants import STANDARD_ATMOSPHERE_PA
from sonify.science.humidity import psychrometric_constant
from sonify.science.ranges import FloatArray, Range, Values
from sonify.science.saturation import latent_heat_of_vaporisation

_DEPTH = Range("level_m", "m", 0.0, np.inf, "a hollow in the ground")
_FULL = Range("full_depth_m", "m", 0.0, np.inf, "a hollow in the ground", above=True)
_AREA = Range("full_area_m2", "m²", 0.0, np.inf, "a hollow in the ground", above=True)
_VOLUME = Range("pooled_m3", "m³", 0.0, np.inf, "a hollow in the ground")
_CARRIED = Range("carried_kg_m2_s_pa", "kg/(m² s Pa)", 0.0, np.inf, "the ratio of Bowen")
_WARMER = Range("warmer_k", "K", -np.inf, np.inf, "the ratio of Bowen")


def hollow_area(level_m: Values, full_depth_m: Values, full_area_m2: Values) -> FloatArray:
    """The area of the water that stands in a round hollow, m²: it shrinks in step with the depth.

        A = A0 h / h0

    Args:
        level_m: depth h of the water at its deepest.
        full_depth_m: depth h0 when the hollow is full.
        full_area_m2: area A0 when it is full.

    Raises:
        OutOfRange: a negative depth, a full hollow of no depth or area, or not a number.

    Valid: hollows shaped like the bowl of a spoon (a paraboloid, p = 2 in the source).
    Source: HAYASHI-VAN-DER-KAMP-2000.
    Check: at half the depth, half the area:
        >>> print(f"{hollow_area(0.003, 0.006, 1.8):.2f}")
        0.90
    """
    return _AREA.checked(full_area_m2) * _DEPTH.checked(level_m) / _FULL.checked(full_depth_m)


def hollow_volume(level_m: Values, full_depth_m: Values, full_area_m2: Values) -> FloatArray:
    """The water that stands in a round hollow, m³: half of its area times its greatest depth.

        V = A0 h^2 / (2 h0)

    Args:
        level_m: depth h of the water at its deepest.
        full_depth_m: depth h0 when the hollow is full.
        full_area_m2: area A0 when it is full.

    Raises:
        OutOfRange: a negative depth, a full hollow of no depth or area, or not a number.

    Valid: as `hollow_area`.
    Source: HAYASHI-VAN-DER-KAMP-2000.
    Check: at half the depth, a quarter of the water of the full 5.4 litres:
        >>> print(f"{1000 * hollow_volume(0.003, 0.006, 1.8):.2f}")
        1.35
    """
    return 0.5 * hollow_area(level_m, full_depth_m, full_area_m2) * _DEPTH.checked(level_m)


def hollow_depth(pooled_m3: Values, full_depth_m: Values, full_area_m2: Values) -> FloatArray:
    """The greatest depth of so much water in a round hollow, m: `hollow_volume` turned round.

        h = sqrt(2 h0 V / A0)

    Args:
        pooled_m3: water V in the hollow.
        full_depth_m: depth h0 when the hollow is full.
        full_area_m2: area A0 when it is full.

    Raises:
        OutOfRange: less than no water, a full hollow of no depth or area, or not a number.

    Valid: as `hollow_area`.
    Source: HAYASHI-VAN-DER-KAMP-2000.
    Check: a quarter of the water stands at half the depth:
        >>> print(f"{1000 * hollow_depth(0.00135, 0.006, 1.8):.1f}")
        3.0
    """
    spread = _FULL.checked(full_depth_m) / _AREA.checked(full_area_m2)
    return np.sqrt(2.0 * spread * _VOLUME.checked(pooled_m3))


def heat_along(carried_kg_m2_s_pa: Values, warmer_k: Values, surface_k: Values) -> FloatArray:
    """The heat that air takes from a wet surface by the same stirring that carries off its vapour, W/m².

        H = gamma L f (T_s - T_a)

    Args:
        carried_kg_m2_s_pa: vapour f that is carried off for each pascal of vapour pressure difference.
        warmer_k: how much warmer the surface is than the air, T_s - T_a; negative for a colder one.
        surface_k: temperature of the surface, for the latent heat L.

    Raises:
        OutOfRange: a negative transfer, a surface outside -20 to 60 °C, or not a number.

    Valid: near sea level (gamma at the standard atmosphere); heat and vapour stirred alike.
    Source: BOWEN-1926.
    Check: at 20 °C one kelvin takes as much heat as evaporation into air drier by 67 Pa (gamma):
        >>> print(f"{heat_along(1.0e-7, 1.0, 293.15) / latent_heat_of_vaporisation(293.15) / 1.0e-7:.0f}")
        67
    """
    latent = latent_heat_of_vaporisation(surface_k)
    gamma = psychrometric_constant(STANDARD_ATMOSPHERE_PA, latent)
    return gamma * latent * _CARRIED.checked(carried_kg_m2_s_pa) * _WARMER.checked(warmer_k)
