"""Muddy water through a sieve, left to stand, and poured through filter paper: where every grain ends up.

Gravel, sand, silt and clay are each cut into narrow classes of size with as much mass in every doubling. Each class
goes its own way by formula. Grains and water move by fluxes from one store to the next, sample by sample, and every
store adds up its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

import numpy as np

from sonify.constants import STANDARD_GRAVITY_M_PER_S2, ZERO_CELSIUS_K
from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.filtration import cake_resistance, filtered_water, filtering_time, medium_resistance
from sonify.science.liquid_water import water_density, water_viscosity
from sonify.science.settling import (
    CLAY_BELOW_M,
    SAND_BELOW_M,
    SILT_BELOW_M,
    settling_speed,
    share_held,
    share_still_sinking,
)

#: Each kind's smallest and largest grains, m: the borders of ISO 14688-1; the outer ends are ours.
KINDS = {
    "clay": (0.2e-6, CLAY_BELOW_M),
    "silt": (CLAY_BELOW_M, SILT_BELOW_M),
    "sand": (SILT_BELOW_M, SAND_BELOW_M),
    "gravel": (SAND_BELOW_M, 20.0e-3),
}
CLASSES = 24  # of size, in each kind
QUARTZ_KG_M3 = 2650.0  # common table value; clay is a little lighter when wet
CAKE_POROSITY = 0.40  # grains at random; ours
DRIP_M3 = 0.05e-6  # twenty drips to a millilitre: common practice
LOOK_S = 60.0  # the filtered water is held to the light for so long
POUR_SAMPLES, STAND_SAMPLES, FILTER_SAMPLES, LOOK_SAMPLES = 60, 400, 300, 20


@dataclass(frozen=True, slots=True)
class Setup:
    """What the class has set up, in SI units."""

    water: float
    gravel: float
    sand: float
    silt: float
    clay: float
    temperature: float
    sieve_opening: float
    pouring_time: float
    jar_depth: float
    standing_time: float
    paper_pore: float
    paper_area: float
    paper_flow: float
    funnel_depth: float
    patience: float

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Setup:
        return cls(**{name: float(conditions[name]) for name in cls.__slots__})


@dataclass(frozen=True, kw_only=True, eq=False)
class Grains:
    """The classes of size, fine to coarse: edges (one more than classes), mean size, kind, mass in the bucket."""

    edges_m: FloatArray
    kinds: tuple[str, ...]
    mass_kg: FloatArray

    @classmethod
    def of(cls, setup: Setup) -> Grains:
        edges: list[float] = []
        for smallest, largest in KINDS.values():
            edges += list(np.geomspace(smallest, largest, CLASSES + 1)[:-1])
        kinds = tuple(kind for kind in KINDS for _ in range(CLASSES))
        mass = np.array([getattr(setup, kind) / CLASSES for kind in kinds])
        return cls(edges_m=np.array([*edges, KINDS["gravel"][1]]), kinds=kinds, mass_kg=mass)

    @cached_property
    def size_m(self) -> FloatArray:
        return np.sqrt(self.edges_m[:-1] * self.edges_m[1:])

    def held_by(self, opening_m: float) -> FloatArray:
        """The share of each class that a sieve or paper with such openings holds."""
        return share_held(self.edges_m[:-1], self.edges_m[1:], opening_m)

    def of_kind(self, kind: str, values: FloatArray) -> FloatArray:
        """The sum over one kind's classes (along the last axis)."""
        chosen = np.array([k == kind for k in self.kinds])
        return np.asarray(values[..., chosen].sum(axis=-1))


@dataclass(frozen=True, kw_only=True, eq=False)
class Course:
    """What happened. water_g: grains still in the water, by sample and class, kg; stores: sums over all classes, kg.

    marks: the samples at which pouring, standing and filtering end.
    """

    setup: Setup
    grains: Grains
    time_s: FloatArray
    in_water_kg: FloatArray
    sieve_kg: FloatArray
    bottom_kg: FloatArray
    paper_kg: FloatArray
    unfiltered_m3: FloatArray
    filtered_m3: FloatArray
    flow_m3_s: FloatArray
    largest_m: FloatArray
    marks: tuple[int, int, int]

    def kind_kg(self, kind: str) -> FloatArray:
        """Grains of one kind still in the water."""
        return self.grains.of_kind(kind, self.in_water_kg)

    @property
    def finished(self) -> bool:
        """All water is through the paper."""
        return bool(self.unfiltered_m3[-1] <= 1e-9 * self.setup.water)


def follow(setup: Setup) -> Course:
    """Sieve, stand, filter."""
    grains = Grains.of(setup)
    passing = grains.mass_kg * (1.0 - grains.held_by(setup.sieve_opening))
    sizes, speeds = _sinking(setup, grains)
    pour_s = np.linspace(0.0, setup.pouring_time, POUR_SAMPLES + 1)
    # Sand is down in seconds and silt takes hours: samples stand close together at first.
    stand_s = setup.standing_time * np.linspace(0.0, 1.0, STAND_SAMPLES + 1) ** 3
    share = share_still_sinking(stand_s[:, None], speeds, setup.jar_depth)
    sunk = passing * (1.0 - share)
    left = passing * share[-1]
    flow = _filter(setup, grains, left)
    end_s = min(setup.patience, float(flow.time_s(setup.water)))
    filter_s = np.linspace(0.0, end_s, FILTER_SAMPLES + 1)
    through = np.minimum(flow.water_m3(filter_s), setup.water)
    if end_s < setup.patience:
        through[-1] = setup.water  # the last drip, to the last bit
    caught = flow.held_kg * (through / setup.water)[:, None]

    time_s = _joined(pour_s, stand_s, filter_s, np.linspace(0.0, LOOK_S, LOOK_SAMPLES + 1))
    poured = grains.mass_kg - passing
    to_sieve = _fluxes(poured * (pour_s / setup.pouring_time)[:, None], time_s.size, 0)
    to_bottom = _fluxes(sunk, time_s.size, POUR_SAMPLES)
    to_paper = _fluxes(caught, time_s.size, POUR_SAMPLES + STAND_SAMPLES)
    dripped = _fluxes(through[:, None], time_s.size, POUR_SAMPLES + STAND_SAMPLES)[:, 0]
    marks = (POUR_SAMPLES, POUR_SAMPLES + STAND_SAMPLES, POUR_SAMPLES + STAND_SAMPLES + FILTER_SAMPLES)
    rate = dripped / np.diff(time_s)
    return Course(
        setup=setup,
        grains=grains,
        time_s=time_s,
        in_water_kg=np.subtract.accumulate(np.vstack([grains.mass_kg, to_sieve + to_bottom + to_paper])),
        sieve_kg=_added(to_sieve.sum(axis=1)),
        bottom_kg=_added(to_bottom.sum(axis=1)),
        paper_kg=_added(to_paper.sum(axis=1)),
        unfiltered_m3=np.subtract.accumulate(np.concatenate([[setup.water], dripped])),
        filtered_m3=_added(dripped),
        flow_m3_s=np.append(rate, 0.0),
        largest_m=_largest(setup, stand_s, sizes, speeds, time_s.size),
        marks=marks,
    )


def _sinking(setup: Setup, grains: Grains) -> tuple[FloatArray, FloatArray]:
    """Sizes of what gets into the jar, and how fast each class sinks there, m/s: no sieve lets gravel through."""
    sizes = grains.size_m
    in_jar = sizes < SAND_BELOW_M
    speeds = np.zeros_like(sizes)
    water, viscosity = water_density(setup.temperature), water_viscosity(setup.temperature)
    speeds[in_jar] = settling_speed(sizes[in_jar], QUARTZ_KG_M3, water, viscosity)
    return sizes[in_jar], speeds


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Paper:
    """The paper with what it holds back of each class."""

    held_kg: FloatArray
    area_m2: float
    push_per_s: float
    medium_per_m: float
    cake_per_water: float

    def time_s(self, water_m3: float) -> FloatArray:
        return filtering_time(water_m3, self.area_m2, self.push_per_s, self.medium_per_m, self.cake_per_water)

    def water_m3(self, time_s: FloatArray) -> FloatArray:
        return filtered_water(time_s, self.area_m2, self.push_per_s, self.medium_per_m, self.cake_per_water)


def _filter(setup: Setup, grains: Grains, left_kg: FloatArray) -> _Paper:
    """The paper for what is left in the water. Its clean flow is what a class measures with water of 20 °C."""
    room = ZERO_CELSIUS_K + 20.0
    pressure = float(water_density(setup.temperature)) * STANDARD_GRAVITY_M_PER_S2 * setup.funnel_depth
    pressure_then = float(water_density(room)) * STANDARD_GRAVITY_M_PER_S2 * setup.funnel_depth
    held = left_kg * grains.held_by(setup.paper_pore)
    total = float(held.sum())
    alpha = 0.0
    if total > 0.0:
        # A mixture resists like grains of one size with the same surface to volume: the harmonic mean by mass.
        mean = total / float((held / grains.size_m).sum())
        alpha = float(cake_resistance(mean, QUARTZ_KG_M3, CAKE_POROSITY))
    return _Paper(
        held_kg=held,
        area_m2=setup.paper_area,
        push_per_s=pressure / float(water_viscosity(setup.temperature)),
        medium_per_m=float(
            medium_resistance(setup.paper_flow, setup.paper_area, pressure_then, float(water_viscosity(room)))
        ),
        cake_per_water=alpha * total / setup.water,
    )


def _largest(setup: Setup, stand_s: FloatArray, sizes: FloatArray, speeds: FloatArray, samples: int) -> FloatArray:
    """The largest grains still in the water at each sample: in the bucket, then those not sunk, then through the paper.

    A kind that the bucket does not hold is not looked for: sizes go down to the largest that is there.
    """
    there = [largest for kind, (_, largest) in KINDS.items() if getattr(setup, kind) > 0.0]
    coarsest = max(there, default=0.0)
    found = np.full(samples, coarsest)
    stand = slice(POUR_SAMPLES, POUR_SAMPLES + STAND_SAMPLES + 1)
    slow_enough = setup.jar_depth / np.maximum(stand_s, 1e-9)
    found[stand] = np.interp(slow_enough, speeds[: sizes.size], sizes)
    found[POUR_SAMPLES:] = np.minimum(found[POUR_SAMPLES:], min(setup.sieve_opening, coarsest))
    found[stand.stop :] = found[stand.stop - 1]
    found[stand.stop + FILTER_SAMPLES - 1 :] = np.minimum(found[stand.stop - 1], setup.paper_pore)
    return found


def _joined(*phases: FloatArray) -> FloatArray:
    """Phases one after another on one clock; each begins where the one before ends."""
    joined = phases[0]
    for phase in phases[1:]:
        joined = np.concatenate([joined, joined[-1] + phase[1:]])
    return joined


def _fluxes(amounts: FloatArray, samples: int, start: int) -> FloatArray:
    """What moves between samples, where `amounts` have moved in all since a phase began at sample `start`."""
    moved = np.zeros((samples - 1, amounts.shape[1]))
    moved[start : start + amounts.shape[0] - 1] = np.diff(amounts, axis=0)
    return moved


def _added(fluxes: FloatArray) -> FloatArray:
    return np.concatenate([[0.0], np.cumsum(fluxes)])
