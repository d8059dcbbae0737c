"""Salt in a jar of water: grains that shrink, water that fills up, with and without stirring.

The water is in two parts: that between and just over the grains, and all the rest. Grains give salt to the first
through the layer that clings to them (Nernst and Brunner); the first gives it to the rest, by diffusion alone while
nobody stirs, once a turn of the spoon while somebody does. Three stores of salt, each with its own fluxes.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.brine import SALT_KG_M3, brine_volume, salt_diffusion, salt_solubility
from sonify.science.dissolving import clinging_layer, schmidt_number
from sonify.science.liquid_water import water_density, water_viscosity
from sonify.science.settling import reynolds_number

SAMPLES, SUBSTEPS = 600, 4  # of the time watched; steps of the model to a sample
BOTTOM_SHARE = 0.15  # of the water is between and just over the grains; ours
JAR_M = 0.07  # diameter of a jam jar; ours
SLIP = 0.1  # the water moves past the grains at this share of the spoon's speed: they are carried along; ours


@dataclass(frozen=True, slots=True)
class Setup:
    """What is in the jar and what is done with it, in SI units."""

    water: float
    salt: float
    grain: float
    temperature: float
    stirring: float
    stir_after: float
    watching: float

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Setup:
        return cls(**{name: float(conditions[name]) for name in cls.__slots__})

    @property
    def water_kg(self) -> float:
        return self.water * float(water_density(self.temperature))

    @property
    def most_kg(self) -> float:
        """The most salt that all the water can hold."""
        return float(salt_solubility(self.temperature)) * self.water_kg

    def turning(self, time_s: float) -> float:
        """How fast the spoon goes round, rad/s."""
        return self.stirring if time_s >= self.stir_after else 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Jar:
    """What happened: salt in grains, low in the jar, in the rest of the water, kg; rate in kg/s; all over time_s."""

    setup: Setup
    time_s: FloatArray
    grains_kg: FloatArray
    low_kg: FloatArray
    rest_kg: FloatArray
    rate_kg_s: FloatArray
    layer_m: FloatArray
    turning_rad_s: FloatArray

    @property
    def dissolved_kg(self) -> FloatArray:
        return self.low_kg + self.rest_kg

    @property
    def fullness(self) -> FloatArray:
        """Dissolved salt as a share of what the water can hold."""
        return self.dissolved_kg / self.setup.most_kg

    @property
    def grain_m(self) -> FloatArray:
        """How large the grains still are; 0 where none is left."""
        return self.setup.grain * np.cbrt(self.grains_kg / self.setup.salt)

    @property
    def salty_layer(self) -> FloatArray:
        """How much more salt a kilogram of water holds low in the jar than higher up."""
        low, rest = BOTTOM_SHARE * self.setup.water_kg, (1.0 - BOTTOM_SHARE) * self.setup.water_kg
        return self.low_kg / low - self.rest_kg / rest


class _Water:
    """What does not change while the salt dissolves."""

    def __init__(self, setup: Setup) -> None:
        self.setup = setup
        self.density = float(water_density(setup.temperature))
        self.viscosity = float(water_viscosity(setup.temperature))
        self.diffusion = float(salt_diffusion(setup.temperature))
        self.schmidt = float(schmidt_number(self.viscosity, self.density, self.diffusion))
        self.low_kg = BOTTOM_SHARE * setup.water_kg
        self.rest_kg = setup.water_kg - self.low_kg
        self.low_most_kg = float(salt_solubility(setup.temperature)) * self.low_kg
        self.low_room_m3 = self.low_kg / self.density
        self.low_full_m3 = float(brine_volume(self.low_kg, self.low_most_kg, setup.temperature))
        depth = setup.water / (0.25 * math.pi * JAR_M**2)
        self.creep_kg_s = self.density * self.diffusion * 0.25 * math.pi * JAR_M**2 / (0.5 * depth)

    def layer_m(self, grain_m: float, turning: float) -> float:
        """The clinging layer of grains of this size, with the spoon going round so fast."""
        past = SLIP * 0.5 * JAR_M * turning
        reynolds = float(reynolds_number(past, grain_m, self.density, self.viscosity))
        return float(clinging_layer(grain_m, reynolds, self.schmidt))

    def dissolves(self, grains_kg: float, low_kg: float, layer_m: float, step_s: float) -> float:
        """Salt that leaves the grains in a step, kg; exact for grains and room that stay as they are for so long.

        With C = m/V and V growing by what dissolves, C_s - C is (m_full - m) times water's own room over V and V_full.
        """
        if grains_kg <= 0.0 or layer_m <= 0.0:
            return 0.0
        grain_m = self.setup.grain * (grains_kg / self.setup.salt) ** (1.0 / 3.0)
        area = 6.0 * grains_kg / (SALT_KG_M3 * grain_m)
        room = self.low_room_m3 + (self.low_full_m3 - self.low_room_m3) * low_kg / self.low_most_kg
        speed = self.diffusion / layer_m * area * self.low_room_m3 / (room * self.low_full_m3)
        wanted = (self.low_most_kg - low_kg) * -math.expm1(-speed * step_s)
        return min(max(wanted, 0.0), grains_kg)

    def rises(self, low_kg: float, rest_kg: float, turning: float, step_s: float) -> float:
        """Salt that gets from low in the jar to the rest in a step, kg; exact for two well-mixed parts."""
        swept = self.creep_kg_s + turning / (2.0 * math.pi) * self.low_kg
        shared = self.low_kg * self.rest_kg / (self.low_kg + self.rest_kg)
        return (low_kg / self.low_kg - rest_kg / self.rest_kg) * shared * -math.expm1(-swept / shared * step_s)


def dissolve(setup: Setup) -> Jar:
    """Watch the jar."""
    water = _Water(setup)
    time_s = np.linspace(0.0, setup.watching, SAMPLES + 1)
    step_s = setup.watching / (SAMPLES * SUBSTEPS)
    grains, low, rest = setup.salt, 0.0, 0.0
    rows: list[tuple[float, ...]] = []
    for sample in range(SAMPLES + 1):
        before, turning = grains, setup.turning(float(time_s[sample]))
        size = setup.grain * (max(grains, 0.0) / setup.salt) ** (1.0 / 3.0)
        layer = water.layer_m(size, turning) if size > 0.0 else 0.0
        row = (grains, low, rest, layer, turning)
        for sub in range(SUBSTEPS):
            turning = setup.turning(float(time_s[sample]) + sub * step_s)
            size = setup.grain * (max(grains, 0.0) / setup.salt) ** (1.0 / 3.0)
            gone = water.dissolves(grains, low, water.layer_m(size, turning) if size > 0.0 else 0.0, step_s)
            grains -= gone
            low += gone
            up = water.rises(low, rest, turning, step_s)
            low -= up
            rest += up
        rows.append((*row, (before - grains) / (SUBSTEPS * step_s)))
    table = np.array(rows).T
    return Jar(
        setup=setup,
        time_s=time_s,
        grains_kg=table[0],
        low_kg=table[1],
        rest_kg=table[2],
        layer_m=table[3],
        turning_rad_s=table[4],
        rate_kg_s=table[5],
    )
