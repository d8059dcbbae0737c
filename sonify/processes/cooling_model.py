"""Two cups of the same drink, wrapped differently: in each the drink and the cup are two stores of heat that touch.

Every link obeys Newton's law, so all temperatures are sums of two exponentials with exact answers at any time; nothing
is stepped. Temperatures inside are counted from the room's.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.cooling import newton_temperature, two_store_decay, wall_conductance
from sonify.science.heating import WATER_J_PER_KG_K, heated_rise

CUPS = ("A", "B")
STEPS = 720  # of equal length


@dataclass(frozen=True, slots=True)
class Race:
    """What is raced, in SI units. wraps: thickness and thermal conductivity of each cup's wrapping."""

    drink: float
    start_temperature: float
    room_temperature: float
    cup_heat: float
    contact: float
    wall_area: float
    top_loss: float
    air_film: float
    duration: float
    wraps: tuple[tuple[float, float], tuple[float, float]]

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Race:
        a, b = ((float(conditions[f"wrap_{c}"]), float(conditions[f"wrap_{c}_conductivity"])) for c in ("a", "b"))
        names = (name for name in cls.__slots__ if name != "wraps")
        return cls(**{name: float(conditions[name]) for name in names}, wraps=(a, b))

    @property
    def ahead_k(self) -> float:
        """How much warmer than the room the drink starts; negative for a cold one."""
        return self.start_temperature - self.room_temperature

    @property
    def capacities_j_k(self) -> tuple[float, float]:
        """Heat that the drink and the cup hold for a kelvin."""
        return self.drink * WATER_J_PER_KG_K, self.cup_heat

    def outward_w_k(self, cup: int) -> tuple[float, float]:
        """Heat that the drink (through its top) and the cup (through its wrapping) give to the room for a kelvin."""
        thickness, conductivity = self.wraps[cup]
        return self.top_loss, float(wall_conductance(self.wall_area, thickness, conductivity, self.air_film))


@dataclass(frozen=True, slots=True, eq=False)
class Cup:
    """One cup over the run. drink_k, wall_k: temperatures. room_j: heat the room has taken from it. loss_w: per second.

    pace_k_s: how fast the drink's temperature changes, either way. newton_k: what one exponential would have, at the
    rate at which the cup cools late on, when drink and wall go down together.
    """

    drink_k: FloatArray
    wall_k: FloatArray
    room_j: FloatArray
    loss_w: FloatArray
    pace_k_s: FloatArray
    newton_k: FloatArray
    rate_per_s: float


def times(race: Race) -> FloatArray:
    return np.linspace(0.0, race.duration, STEPS + 1)


def cup(race: Race, which: int, time_s: FloatArray) -> Cup:
    """One of the cups, 0 or 1, at these times. The drink is poured in at the start; the cup is as warm as the room."""
    capacities, outward = race.capacities_j_k, race.outward_w_k(which)
    rates, shapes = two_store_decay(capacities, race.contact, outward)
    weights = np.linalg.solve(shapes, np.array([race.ahead_k, 0.0]))
    parts = shapes * weights  # row: drink, wall; column: its share of each exponential
    decay = np.exp(-np.outer(rates, time_s))
    drink, wall = parts @ decay
    losing = np.array(outward) @ parts  # W, by exponential
    taken = sum(
        heated_rise(time_s, each, rate)  # a loss that dies away, added up
        for each, rate in zip(losing, rates, strict=True)
    )
    return Cup(
        drink_k=race.room_temperature + drink,
        wall_k=race.room_temperature + wall,
        room_j=np.asarray(taken, dtype=np.float64),
        loss_w=losing @ decay,
        pace_k_s=np.abs((parts[0] * rates) @ decay),
        newton_k=newton_temperature(time_s, race.start_temperature, race.room_temperature, float(rates[0])),
        rate_per_s=float(rates[0]),
    )
