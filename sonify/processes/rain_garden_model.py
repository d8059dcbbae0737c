"""A storm over a rain garden, minute by minute: roofs and paths, the hollow, its soil, the ground water, the brook.

A rain garden is a planted hollow that roofs and paths drain into. What its soil cannot drink at once stands in it as a
pond; what the hollow cannot hold spills into the street drain. All water is in m³. Each flux is computed once and taken
from one store as it is given to another: none is "the rest", so a leak would show.

The constants below are choices of ours where no source is named; the teacher's notes say so.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.infiltration import infiltrated_water
from sonify.science.runoff import direct_runoff, released_share, storm_rain

MOST_STEPS, SHORTEST_STEP_S = 2000, 30.0
ROOF_CURVE = 98.0  # TR-55, table 2-2: roofs and paved ground
GUTTERS_S = 300.0  # how long water takes through gutters, pipes and along paths


@dataclass(frozen=True, slots=True)
class Garden:
    """Storm, roofs, hollow and soil, in SI units."""

    rain: float
    storm_length: float
    storm_peak: float
    watched: float
    roof_area: float
    path_area: float
    path_curve: float
    garden_area: float
    garden_depth: float
    soil_conductivity: float
    soil_suction: float
    soil_pores: float
    soil_wetness: float
    soil_depth: float
    soil_time: float
    ground_time: float
    ground_water: float

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Garden:
        return cls(**{name: float(conditions[name]) for name in cls.__slots__})

    @property
    def room(self) -> float:
        """The share of the soil that water can still fill when the storm begins."""
        return self.soil_pores * (1.0 - self.soil_wetness)

    @property
    def soil_room_m3(self) -> float:
        return self.room * self.soil_depth * self.garden_area

    @property
    def hollow_m3(self) -> float:
        """What the hollow holds up to its lip."""
        return self.garden_depth * self.garden_area

    @property
    def ground_m3(self) -> float:
        return self.ground_water * self.garden_area

    @property
    def times_s(self) -> FloatArray:
        steps = min(MOST_STEPS, max(round(self.watched / SHORTEST_STEP_S), 1))
        return np.linspace(0.0, self.watched, steps + 1)


@dataclass(slots=True)
class State:
    """Where the water is, m³. Changed in place. soaked_m: what has soaked in so far, as a layer over the garden."""

    sky: float
    wetting: float = 0.0
    gutters: float = 0.0
    pond: float = 0.0
    soil: float = 0.0
    ground: float = 0.0
    brook: float = 0.0
    drain: float = 0.0
    soaked_m: float = 0.0
    moved: float = 0.0


#: What is kept of every step: stores, m³; then fluxes in the step that follows, m³.
STORES = ("sky", "wetting", "gutters", "pond", "soil", "ground", "brook", "drain")
FLUXES = ("arriving", "on_garden", "soaking", "spill", "down", "springs")


@dataclass(frozen=True, slots=True, eq=False)
class Storm:
    """The storm in the steps of the run: rain so far (m) at each time, and what falls where in each step (m³)."""

    time_s: FloatArray
    fallen_m: FloatArray
    running: FloatArray  # off roofs and paths
    wetting: FloatArray  # held back by them
    on_garden: FloatArray


def storm_of(garden: Garden) -> Storm:
    """What the rain does on roofs and paths, and on the garden itself."""
    time_s = garden.times_s
    fallen = storm_rain(time_s, garden.storm_length, garden.rain, garden.storm_peak)
    off = garden.roof_area * direct_runoff(fallen, ROOF_CURVE)
    off = off + garden.path_area * direct_runoff(fallen, garden.path_curve)
    step = np.append(np.diff(fallen), 0.0)
    running = np.append(np.diff(off), 0.0)
    return Storm(
        time_s=time_s,
        fallen_m=fallen,
        running=running,
        wetting=step * (garden.roof_area + garden.path_area) - running,
        on_garden=step * garden.garden_area,
    )


def simulate(garden: Garden) -> tuple[Storm, dict[str, FloatArray]]:
    """The storm and after, in steps: STORES, FLUXES, "soaked_m" and "moved" over the storm's times."""
    storm = storm_of(garden)
    step_s = float(storm.time_s[1])
    gutter_step, soil_step, ground_step = (
        float(released_share(step_s, residence_s)) for residence_s in (GUTTERS_S, garden.soil_time, garden.ground_time)
    )
    land = garden.roof_area + garden.path_area + garden.garden_area
    state = State(sky=garden.rain * land, ground=garden.ground_m3)
    rows = []
    for step in range(storm.time_s.size):
        row = [getattr(state, store) for store in STORES]
        row += [state.soaked_m, state.moved]
        arriving = state.gutters * gutter_step
        on_garden = float(storm.on_garden[step])
        down = min(state.soil * soil_step, garden.soil_conductivity * step_s * garden.garden_area)
        soaking = soaked(state, garden, arriving + on_garden, down, step_s)
        standing = state.pond + arriving + on_garden - soaking
        spill, springs = max(standing - garden.hollow_m3, 0.0), state.ground * ground_step
        fluxes = (arriving, on_garden, soaking, spill, down, springs)
        apply(state, storm, step, fluxes)
        state.soaked_m += soaking / garden.garden_area
        rows.append([*row, *fluxes])
    return storm, dict(zip((*STORES, "soaked_m", "moved", *FLUXES), np.array(rows).T, strict=True))


def soaked(state: State, garden: Garden, coming: float, down: float, step_s: float) -> float:
    """What the soil drinks in a step: all there is, or what the wet front lets in, or what there is room for."""
    there = state.pond + coming
    if there <= 0.0:
        return 0.0
    pull_m = garden.soil_suction + max(state.pond, 0.0) / garden.garden_area  # an empty pond may be -1e-19
    after_m = float(infiltrated_water(state.soaked_m, step_s, garden.soil_conductivity, pull_m, garden.room))
    by_front = (after_m - state.soaked_m) * garden.garden_area
    return min(there, by_front, max(garden.soil_room_m3 - state.soil + down, 0.0))


def apply(state: State, storm: Storm, step: int, fluxes: tuple[float, ...]) -> None:
    """Every store takes its own fluxes: what one gives, another gets, to the last digit."""
    arriving, on_garden, soaking, spill, down, springs = fluxes
    running, wetting = float(storm.running[step]), float(storm.wetting[step])
    state.sky -= running + wetting + on_garden
    state.wetting += wetting
    state.gutters += running - arriving
    state.pond += arriving + on_garden - soaking - spill
    state.soil += soaking - down
    state.ground += down - springs
    state.brook += springs
    state.drain += spill
    state.moved += running + wetting + on_garden + arriving + soaking + spill + down + springs
