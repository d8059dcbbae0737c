"""Water through something porous: Darcy's law, and a filter that clogs with what it holds back."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

#: Carman's constant for round grains: 5 times the square of the 6 in "surface over volume of a ball is 6/d".
CARMAN = 180.0

_BY = "slow flow through pores"
_CONDUCTIVITY = Range("conductivity_m_s", "m/s", 0.0, np.inf, _BY)
_AREA = Range("area_m2", "m²", 0.0, np.inf, _BY, above=True)
_HEAD = Range("head_m", "m", 0.0, np.inf, _BY)
_THICKNESS = Range("thickness_m", "m", 0.0, np.inf, _BY, above=True)
_PRESSURE = Range("pressure_pa", "Pa", 0.0, np.inf, _BY)
_FLOW = Range("flow_m3_s", "m³/s", 0.0, np.inf, _BY, above=True)
_VISCOSITY = Range("viscosity_pa_s", "Pa s", 0.0, np.inf, _BY, above=True)
_DIAMETER = Range("diameter_m", "m", 0.0, np.inf, "a cake of grains", above=True)
_GRAIN = Range("grain_kg_m3", "kg/m³", 0.0, np.inf, "a cake of grains", above=True)
_POROSITY = Range("porosity", "1", 0.05, 0.8, "Carman and Kozeny's law")
_TIME = Range("time_s", "s", 0.0, np.inf, "a filter")
_PER_WATER = Range("cake_per_water", "1/m²", 0.0, np.inf, "a filter")
_PASSED = Range("water_m3", "m³", 0.0, np.inf, "a filter")
_PUSH = Range("push_per_s", "1/s", 0.0, np.inf, "a filter", above=True)
_MEDIUM = Range("medium_per_m", "1/m", 0.0, np.inf, "a filter", above=True)


def darcy_flow(conductivity_m_s: Values, area_m2: Values, head_m: Values, thickness_m: Values) -> FloatArray:
    """The water that seeps through a layer of sand, soil or paper, m³/s.

        Q = K A h / L

    Args:
        conductivity_m_s: hydraulic conductivity K of the layer (sand: 1e-6 to 1e-2 m/s).
        area_m2: area A that the water passes through.
        head_m: how much higher the water stands before the layer than behind it, h.
        thickness_m: thickness L of the layer.

    Raises:
        OutOfRange: a negative conductivity or head, an area or thickness of 0 or less, or not a number.

    Valid: slow flow (Reynolds number of the grains under about 1) through a layer that is full of water.
    Source: DARCY-1856.
    Check: K 1e-4 m/s, 0.01 m², 0.2 m of water, 0.1 m of sand, 2.0 ml/s:
        >>> print(f"{1e6 * darcy_flow(1e-4, 0.01, 0.2, 0.1):.1f}")
        2.0
    """
    area, head = _AREA.checked(area_m2), _HEAD.checked(head_m)
    return _CONDUCTIVITY.checked(conductivity_m_s) * area * head / _THICKNESS.checked(thickness_m)


def medium_resistance(flow_m3_s: Values, area_m2: Values, pressure_pa: Values, viscosity_pa_s: Values) -> FloatArray:
    """How strongly a clean filter resists, from the clean water that it lets through, 1/m.

        R = A p / (mu Q)

    Args:
        flow_m3_s: flow Q of clean water.
        area_m2: area A of the filter.
        pressure_pa: pressure p that drives the water, rho g h.
        viscosity_pa_s: dynamic viscosity mu of the water.

    Raises:
        OutOfRange: a flow, area or viscosity of 0 or less, a negative pressure, or not a number.

    Valid: as `darcy_flow`, of which it is another way of writing: R = L rho g / (K mu).
    Source: DARCY-1856; RUTH-1935.
    Check: 2 ml/s through 0.01 m² under 0.2 m of water of 20 °C, 9.8e9 per metre:
        >>> print(f"{medium_resistance(2.0e-6, 0.01, 998.2 * 9.80665 * 0.2, 1.0016e-3):.1e}")
        9.8e+09
    """
    area, pressure = _AREA.checked(area_m2), _PRESSURE.checked(pressure_pa)
    return area * pressure / (_VISCOSITY.checked(viscosity_pa_s) * _FLOW.checked(flow_m3_s))


def cake_resistance(diameter_m: Values, grain_kg_m3: Values, porosity: Values) -> FloatArray:
    """How strongly a kilogram of grains on a square metre of filter resists (specific cake resistance), m/kg.

        alpha = 180 (1 - e) / (rho_grain d^2 e^3)

    Args:
        diameter_m: diameter d of the grains; of a mixture the one whose surface to volume is the mixture's own.
        grain_kg_m3: density rho_grain of the grains.
        porosity: share e of the cake that is water.

    Raises:
        OutOfRange: a diameter or density of 0 or less, a porosity outside 0.05 to 0.8, or not a number.

    Valid: round grains packed at random, slow flow, a cake that is not squeezed together.
    Source: CARMAN-1937 (after Kozeny 1927).
    Check: quartz of 10 micrometres with 40 % of gaps, 6.4e9 m/kg:
        >>> print(f"{cake_resistance(10e-6, 2650.0, 0.4):.1e}")
        6.4e+09
    """
    diameter, e = _DIAMETER.checked(diameter_m), _POROSITY.checked(porosity)
    return CARMAN * (1.0 - e) / (_GRAIN.checked(grain_kg_m3) * diameter**2 * e**3)


def filtering_time(
    water_m3: Values, area_m2: Values, push_per_s: Values, medium_per_m: Values, cake_per_water: Values
) -> FloatArray:
    """How long a clogging filter takes to let so much water through, s.

        t = (c V^2 / (2 A^2) + R V / A) / (p / mu)

    Args:
        water_m3: volume V that has passed.
        area_m2: area A of the filter.
        push_per_s: p / mu, the pressure over the water's viscosity, 1/s.
        medium_per_m: resistance R of the clean filter, as `medium_resistance` gives it.
        cake_per_water: alpha times the kilograms held back from a cubic metre of water, 1/m².

    Raises:
        OutOfRange: a negative volume or cake, a resistance, area or push of 0 or less, or not a number.

    Valid: constant pressure, a cake that is not squeezed together, grains that stay where they are caught.
    Source: RUTH-1935 (in the form of GEANKOPLIS-1993, equation 14.2-17).
    Check: a press of 17.46 m² at 338 kPa (example 14.2-2), 3.37 m³ in 269.7 s:
        >>> cake = 1.863e11 * 23.47
        >>> print(f"{filtering_time(3.37, 17.46, 338e3 / 8.937e-4, 10.63e10, cake):.0f}")
        270
    """
    depth = _PASSED.checked(water_m3) / _AREA.checked(area_m2)
    push = _PUSH.checked(push_per_s)
    medium, cake = _MEDIUM.checked(medium_per_m), _PER_WATER.checked(cake_per_water)
    return (0.5 * cake * depth + medium) * depth / push


def filtered_water(
    time_s: Values, area_m2: Values, push_per_s: Values, medium_per_m: Values, cake_per_water: Values
) -> FloatArray:
    """How much water a clogging filter has let through by a time, m³: the inverse of `filtering_time`.

        V = A (sqrt(R^2 + 2 c t p/mu) - R) / c; without a cake A t p / (mu R)

    Args:
        time_s: time t since the pouring began.
        area_m2: area A of the filter.
        push_per_s: p / mu, the pressure over the water's viscosity, 1/s.
        medium_per_m: resistance R of the clean filter.
        cake_per_water: c, alpha times the kilograms held back from a cubic metre of water, 1/m².

    Raises:
        OutOfRange: a negative time or cake, a resistance, area or push of 0 or less, or not a number.

    Valid: as `filtering_time`.
    Source: RUTH-1935.
    Check: the press of example 14.2-2 after 269.7 s, 3.37 m³:
        >>> print(f"{filtered_water(269.7, 17.46, 338e3 / 8.937e-4, 10.63e10, 1.863e11 * 23.47):.2f}")
        3.37
    """
    area, push = _AREA.checked(area_m2), _PUSH.checked(push_per_s)
    medium, cake = _MEDIUM.checked(medium_per_m), _PER_WATER.checked(cake_per_water)
    pushed = _TIME.checked(time_s) * push
    # The root written so that a thin cake loses no digits: 2 x / (R + sqrt(R² + 2 c x))
    return area * 2.0 * pushed / (medium + np.sqrt(medium**2 + 2.0 * cake * pushed))
