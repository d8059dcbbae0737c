"""Melting: at one temperature, or over a range where a substance is a mixture.

Candle wax, butter and chocolate are mixtures of many fats or paraffins, each with a melting point of its own. The share
that is liquid rises over a range of temperatures, so a thermometer in them finds no level stretch. What they take for a
degree is then their specific heat and the melting of that degree together, the apparent heat capacity.

Every table is of one typical sample. Its points were read where the source below prints them; the rest of the shape is
from memory, not verified: common shapes of solid-fat curves, and of a calorimeter's curve of paraffin.
"""

from __future__ import annotations

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import OutOfRange
from sonify.frozen import dataclass
from sonify.science.heating import ICE_J_PER_KG_K, MELTING_J_PER_KG, WATER_J_PER_KG_K
from sonify.science.ranges import FloatArray, Range, Values


@dataclass(frozen=True, slots=True)
class Substance:
    """What melts, by the kilogram. melted: (°C, share of what can melt that is liquid), rising.

    solid_j_per_kg_k, liquid_j_per_kg_k: without any melting. lowest_c: below it something else happens.
    """

    name: str
    solid_j_per_kg_k: float
    liquid_j_per_kg_k: float
    melting_j_per_kg: float
    melted: tuple[tuple[float, float], ...]
    lowest_c: float = -40.0

    @property
    def sharp(self) -> bool:
        """Whether it melts at one temperature."""
        return self.melted[0][0] == self.melted[-1][0]

    @property
    def points(self) -> tuple[tuple[float, float], ...]:
        """The same in kelvin."""
        return tuple((celsius + ZERO_CELSIUS_K, share) for celsius, share in self.melted)

    @property
    def columns(self) -> tuple[FloatArray, FloatArray]:
        """The temperatures (K) and the shares."""
        rows = np.array(self.points)
        return rows[:, 0], rows[:, 1]

    def specific_between(self, low_k: float, high_k: float) -> float:
        """The specific heat of a stretch between neighbouring points, J/(kg K), melting not counted: of its mean share.

        low_k 0: below the first point; high_k infinite: above the last.
        """
        at, shares = self.columns
        if high_k <= at[0] or low_k >= at[-1]:  # a sharp melting point has two shares at one temperature
            share = float(shares[0] if high_k <= at[0] else shares[-1])
        else:
            share = float(np.mean(np.interp([low_k, high_k], at, shares)))
        return self.solid_j_per_kg_k + share * (self.liquid_j_per_kg_k - self.solid_j_per_kg_k)


#: OPENSTAX-UP2.
ICE = Substance("ice", ICE_J_PER_KG_K, WATER_J_PER_KG_K, MELTING_J_PER_KG, ((0.0, 0.0), (0.0, 1.0)))
#: PARAFFIN-WAX: waxes melt between 46 and 68 °C, specific heat 2140 to 2900, heat of fusion 200 to 220 kJ/kg. One of
#: tea lights, its range from memory; the middle of what is printed for the heats, the lower end for the solid.
WAX = Substance(
    "candle wax", 2140.0, 2900.0, 210.0e3, ((48.0, 0.0), (52.0, 0.15), (55.0, 0.5), (58.0, 0.9), (60.0, 1.0))
)
#: Fat is 82 % of butter (common practice), and melts with 80.8 kJ/kg (MILK-FAT-1998); 2300 at 4 °C (GEANKOPLIS-FOODS).
#: Liquid at 10 °C: 35 % in winter, 41 % in summer (BUTTER-HARDNESS); the last melts at 37 °C (GUELPH-MILK-FAT).
BUTTER = Substance(
    "butter",
    2300.0,
    2300.0,
    0.82 * 80.8e3,
    ((0.0, 0.22), (5.0, 0.29), (10.0, 0.38), (15.0, 0.55), (20.0, 0.78), (25.0, 0.89), (30.0, 0.95), (37.0, 1.0)),
    lowest_c=0.0,
)
#: CHOCOLATE-CONSTANTS: 1590 up to 40 °C, 1670 above; 46 kJ/kg. Its cocoa butter melts at 33.8 °C in the form that a
#: tempered bar has (COCOA-BUTTER-FORMS), and is spread over some degrees around it.
CHOCOLATE = Substance(
    "chocolate",
    1590.0,
    1670.0,
    46.0e3,
    ((20.0, 0.0), (26.0, 0.1), (30.0, 0.35), (32.0, 0.65), (34.0, 0.95), (36.0, 1.0)),
)
SUBSTANCES = (ICE, WAX, BUTTER, CHOCOLATE)

_TEMPERATURE = Range("temperature_k", "K", 0.0, np.inf, "a melting curve")
_MASS = Range("mass_kg", "kg", 0.0, np.inf, "a melting curve")


def share_melted(substance: Substance, temperature_k: Values) -> FloatArray:
    """The share of what can melt that is liquid at a temperature, 0 to 1; at a sharp melting point itself, nothing yet.

    Straight lines between the points of the substance's table.

    Args:
        substance: what melts.
        temperature_k: its temperature, slowly reached from below.

    Raises:
        OutOfRange: colder than the table serves (butter below 0 °C, where its water freezes), or not a number.

    Valid: warmed slowly and alike throughout; setting again goes by other curves.
    Source: CHOCOLATE-CONSTANTS, COCOA-BUTTER-FORMS, BUTTER-HARDNESS, GUELPH-MILK-FAT, PARAFFIN-WAX, OPENSTAX-UP2.
    Check: butter at 10 °C, measured 35 % (winter) and 41 % (summer):
        >>> print(f"{100 * share_melted(BUTTER, 283.15):.0f}")
        38
    """
    t = _TEMPERATURE.checked(temperature_k)
    lowest = substance.lowest_c + ZERO_CELSIUS_K
    if np.any(t < lowest - 1e-9):
        raise OutOfRange("temperature_k", float(np.min(t)), "K", f"{lowest:g} K and above", f"{substance.name} melting")
    at, shares = substance.columns
    if substance.sharp:
        return np.where(t > at[0], 1.0, 0.0)[()]
    return np.interp(t, at, shares)


def warmed_heat(substance: Substance, mass_kg: Values, from_k: Values, to_k: Values) -> FloatArray:
    """The heat that a rise in temperature takes, J, the melting on the way not counted.

        m times the integral of c over T, c from that of the solid to that of the liquid with the share melted

    Args:
        substance: what melts.
        mass_kg: its mass m.
        from_k: its temperature at first.
        to_k: its temperature at last.

    Raises:
        OutOfRange: as `share_melted`, or a negative mass.

    Valid: as `share_melted`.
    Source: CHOCOLATE-CONSTANTS, OPENSTAX-UP2.
    Check: 0.250 kg of water from 20 °C to 80 °C, 62.8 kJ:
        >>> print(f"{warmed_heat(ICE, 0.250, 293.15, 353.15) / 1000:.1f}")
        62.8
    """
    nodes, _ = substance.columns
    first, last = _TEMPERATURE.checked(from_k), _TEMPERATURE.checked(to_k)
    edges = [0.0, *nodes.tolist(), float("inf")]
    heat = 0.0 * (first + last)
    for low, high in zip(edges[:-1], edges[1:], strict=True):
        heat = heat + substance.specific_between(low, high) * (np.clip(last, low, high) - np.clip(first, low, high))
    return _MASS.checked(mass_kg) * heat


def melted_heat(substance: Substance, mass_kg: Values, share: Values) -> FloatArray:
    """The heat that has gone into melting when a share is melted, J.

        m L f

    Args:
        substance: what melts.
        mass_kg: its mass m.
        share: the share f of what can melt that is liquid.

    Raises:
        OutOfRange: a negative mass, a share outside 0 to 1, or not a number.

    Valid: L the same for all that melts.
    Source: CHOCOLATE-CONSTANTS, MILK-FAT-1998, PARAFFIN-WAX, OPENSTAX-UP2.
    Check: 100 g of dark chocolate, printed 46 J/g, 4.6 kJ:
        >>> print(f"{melted_heat(CHOCOLATE, 0.1, 1.0) / 1000:.1f}")
        4.6
    """
    shares = Range("share", "1", -1e-9, 1.0 + 1e-9, "a melting curve").checked(share)
    return _MASS.checked(mass_kg) * substance.melting_j_per_kg * shares
