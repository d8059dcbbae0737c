"""Grains dissolving: as fast as what comes off their surface gets away through the layer of water that clings there."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

_BY = "dissolving through a clinging layer"
_DIFFUSION = Range("diffusion_m2_s", "m²/s", 0.0, np.inf, _BY, above=True)
_AREA = Range("area_m2", "m²", 0.0, np.inf, _BY)
_LAYER = Range("layer_m", "m", 0.0, np.inf, _BY, above=True)
_DRIVING = Range("driving_kg_m3", "kg/m³", -np.inf, np.inf, _BY)
_TIME = Range("time_s", "s", 0.0, np.inf, _BY)
_TRANSFER = Range("transfer_m_s", "m/s", 0.0, np.inf, _BY)
_VOLUME = Range("volume_m3", "m³", 0.0, np.inf, _BY, above=True)
_SATURATION = Range("saturation_kg_m3", "kg/m³", 0.0, np.inf, _BY)
_DIAMETER = Range("diameter_m", "m", 0.0, np.inf, "water flowing past a grain", above=True)
_REYNOLDS = Range("reynolds", "1", 0.0, 1000.0, "water flowing past a grain")
_SCHMIDT = Range("schmidt", "1", 0.0, np.inf, "water flowing past a grain", above=True)
_DENSITY = Range("density_kg_m3", "kg/m³", 0.0, np.inf, "water flowing past a grain", above=True)
_VISCOSITY = Range("viscosity_pa_s", "Pa s", 0.0, np.inf, "water flowing past a grain", above=True)


def dissolving_rate(diffusion_m2_s: Values, area_m2: Values, layer_m: Values, driving_kg_m3: Values) -> FloatArray:
    """How much dissolves in a second, kg/s; negative where the water holds too much and salt comes back out.

        dm/dt = D A (C_s - C) / delta

    Args:
        diffusion_m2_s: diffusion coefficient D of what dissolves.
        area_m2: area A of all grains together.
        layer_m: thickness delta of the layer of water that clings to them, as `clinging_layer` gives it.
        driving_kg_m3: how far the water is from saturation, C_s - C.

    Raises:
        OutOfRange: a diffusion coefficient or layer of 0 or less, a negative area, or not a number.

    Valid: solids that dissolve as fast as they are carried off, as salt and sugar do.
    Source: NERNST-BRUNNER-1904, after NOYES-WHITNEY-1897.
    Check: half as thick a layer, twice the rate:
        >>> thick, thin = dissolving_rate(1.6e-9, 0.01, 40e-6, 300.0), dissolving_rate(1.6e-9, 0.01, 20e-6, 300.0)
        >>> print(f"{thin / thick:.1f}")
        2.0
    """
    area, diffusion = _AREA.checked(area_m2), _DIFFUSION.checked(diffusion_m2_s)
    return diffusion * area * _DRIVING.checked(driving_kg_m3) / _LAYER.checked(layer_m)


def dissolved_concentration(
    time_s: Values, saturation_kg_m3: Values, transfer_m_s: Values, area_m2: Values, volume_m3: Values
) -> FloatArray:
    """The concentration of water over a solid whose surface stays the same (the classic experiment), kg/m³.

        C = C_s (1 - exp(-k t)), k = D A / (delta V)

    Args:
        time_s: time t since the solid was covered with fresh water.
        saturation_kg_m3: concentration C_s of the saturated solution.
        transfer_m_s: D / delta, how fast the solid's surface gives off what dissolves.
        area_m2: area A of the solid.
        volume_m3: volume V of the water.

    Raises:
        OutOfRange: a negative time, saturation, transfer or area, a volume of 0 or less, or not a number.

    Valid: a stirred vessel in which the solid's area hardly changes.
    Source: NOYES-WHITNEY-1897.
    Check: after one 1/k, 63.2 % of saturation:
        >>> print(f"{dissolved_concentration(100.0, 100.0, 1e-5, 1e-2, 1e-5):.1f}")
        63.2
    """
    rate = _TRANSFER.checked(transfer_m_s) * _AREA.checked(area_m2) / _VOLUME.checked(volume_m3)
    return _SATURATION.checked(saturation_kg_m3) * -np.expm1(-rate * _TIME.checked(time_s))


def sherwood_number(reynolds: Values, schmidt: Values) -> FloatArray:
    """How much better a grain gives off what dissolves than through a layer as thick as itself (no unit).

        Sh = 2 + 0.6 Re^(1/2) Sc^(1/3)

    Args:
        reynolds: Reynolds number Re of the water flowing past the grain; 0 in still water.
        schmidt: viscosity over density and diffusion, mu / (rho D).

    Raises:
        OutOfRange: a Reynolds number below 0 or above 1000, a Schmidt number of 0 or less, or not a number.

    Valid: single spheres, Reynolds numbers up to 1000; measured on drops in air and carried over to water.
    Source: RANZ-MARSHALL-1952.
    Check: in still water a sphere's own 2, and more in a flow:
        >>> print(sherwood_number(0.0, 600.0), f"{sherwood_number(1.0, 600.0):.1f}")
        2.0 7.1
    """
    return 2.0 + 0.6 * np.sqrt(_REYNOLDS.checked(reynolds)) * np.cbrt(_SCHMIDT.checked(schmidt))


def clinging_layer(diameter_m: Values, reynolds: Values, schmidt: Values) -> FloatArray:
    """The thickness of the layer of water that clings to a grain: thinner the faster the water moves past, m.

        delta = d / Sh

    Args:
        diameter_m: diameter d of the grain.
        reynolds: Reynolds number of the water flowing past it.
        schmidt: Schmidt number of what dissolves.

    Raises:
        OutOfRange: a diameter of 0 or less, a number outside the range of `sherwood_number`.

    Valid: as `sherwood_number`.
    Source: RANZ-MARSHALL-1952; NERNST-BRUNNER-1904.
    Check: a grain of 0.4 mm in still water, half its diameter:
        >>> print(f"{1e6 * clinging_layer(0.4e-3, 0.0, 600.0):.0f} micrometres")
        200 micrometres
    """
    return _DIAMETER.checked(diameter_m) / sherwood_number(reynolds, schmidt)


def schmidt_number(viscosity_pa_s: Values, density_kg_m3: Values, diffusion_m2_s: Values) -> FloatArray:
    """How much faster motion spreads through the water than what is dissolved in it (no unit).

        Sc = mu / (rho D)

    Args:
        viscosity_pa_s: dynamic viscosity mu of the water.
        density_kg_m3: density rho of the water.
        diffusion_m2_s: diffusion coefficient D of what is dissolved.

    Raises:
        OutOfRange: a viscosity, density or diffusion coefficient of 0 or less, or not a number.

    Valid: any liquid.
    Source: RANZ-MARSHALL-1952.
    Check: salt in water of 25 °C, 554:
        >>> print(f"{schmidt_number(0.8900e-3, 997.05, 1.611e-9):.0f}")
        554
    """
    viscosity, density = _VISCOSITY.checked(viscosity_pa_s), _DENSITY.checked(density_kg_m3)
    return viscosity / (density * _DIFFUSION.checked(diffusion_m2_s))


def diffusion_distance(time_s: Values, diffusion_m2_s: Values) -> FloatArray:
    """How far something has typically wandered in still water by itself, along one direction, m.

        x = sqrt(2 D t)

    Args:
        time_s: time t.
        diffusion_m2_s: diffusion coefficient D.

    Raises:
        OutOfRange: a negative time, a diffusion coefficient of 0 or less, or not a number.

    Valid: water without currents.
    Source: OPENSTAX-CP, "Molecular Transport Phenomena: Diffusion, Osmosis, and Related Processes".
    Check: glucose (6.7e-10 m²/s) needs 7.5e4 s for 1.0 cm:
        >>> print(f"{100 * diffusion_distance(7.5e4, 6.7e-10):.1f}")
        1.0
    """
    return np.sqrt(2.0 * _DIFFUSION.checked(diffusion_m2_s) * _TIME.checked(time_s))
