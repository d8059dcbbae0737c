"""A flat box of particles that pull and push each other, heated evenly: the simulation behind the states of matter.

`simulate_box` is a pure function of its `BoxParams`, so that what it gives can be kept under `params.key()` and read
back with `BoxRun.from_bytes`. Velocity Verlet in the flat; the pair potential of `science.particles` with its usual
cut-off; walls that bounce a particle back as fast as it came. What decides where a particle goes is reckoned by adding,
multiplying, dividing and square roots alone, in an order of our own, so that it is the same on every machine.

Inside the loop lengths are in diameters, energies in depths of the potential and masses in particles, as is common
practice; one unit of time is then diameter * sqrt(mass / depth), 2.16 ps for argon. What comes out is in SI units.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Callable
from dataclasses import fields

import numpy as np
from numpy.typing import NDArray

from sonify.constants import AVOGADRO_PER_MOL, BOLTZMANN_J_PER_K
from sonify.errors import OutOfRange
from sonify.frozen import dataclass
from sonify.processes.states_of_matter_order import Arrangement, arrangement
from sonify.processes.states_of_matter_run import BoxRun
from sonify.records.timeline import FloatArray
from sonify.science.particles import (
    ARGON_DEPTH_J,
    ARGON_DIAMETER_M,
    ARGON_KG_PER_MOL,
    coupling_factor,
    heating_factor,
)

#: Raise it with every change that changes what a run gives: it is part of the key.
VERSION = 1

CUT_OFF = 2.5  # diameters; beyond it a pair is not counted (common practice)
SKIN = 0.5  # diameters: pairs this much further apart are listed too, so that the list serves many steps
STEP = 0.005  # of the unit of time, at most
LATTICE_DENSITY = 0.9  # particles in a square diameter of the cold solid: neighbours 1.13 diameters apart
SETTLING = 2000  # steps at the starting temperature before the heating begins
COUPLING = 0.01  # share of the way to the starting temperature that is gone in each of them
KNOCK = 1.0  # diameters: where the potential is nought again, so that a knock needs more than the pull gives

UNIT_SPEED_M_S = math.sqrt(ARGON_DEPTH_J * AVOGADRO_PER_MOL / ARGON_KG_PER_MOL)
UNIT_TIME_S = ARGON_DIAMETER_M / UNIT_SPEED_M_S
UNIT_TEMPERATURE_K = ARGON_DEPTH_J / BOLTZMANN_J_PER_K
UNIT_HEAT_J_PER_MOL = ARGON_DEPTH_J * AVOGADRO_PER_MOL
_CUT_ENERGY = 4.0 * (CUT_OFF**-12 - CUT_OFF**-6)
MOST_STEPS, MOST_PARTICLES = 200_000, 2_000
#: Particles in a square diameter of the box: more, and the round crystal at the start would touch the walls.
LEAST_DENSITY, MOST_DENSITY = 0.005, 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxParams:
    """All that a run depends on.

    width_m: of the square box. start_k: temperature of the solid when the heating begins. heat_j_per_mol: given to the
    particles over the run, evenly. frames: how often positions and readings are kept, the start not counted.
    """

    particles: int = 400
    width_m: float = 17.0e-9
    start_k: float = 24.15
    heat_j_per_mol: float = 3000.0
    duration_s: float = 250.0e-12
    frames: int = 1500
    seed: int = 0

    def __post_init__(self) -> None:
        _within("particles", self.particles, 20, MOST_PARTICLES, "")
        _within("frames", self.frames, 1, 20_000, "")
        _within("start_k", self.start_k, 1.0, 60.0, "K")
        _within("heat_j_per_mol", self.heat_j_per_mol, 0.0, 20_000.0, "J/mol")
        _within("duration_s", self.duration_s, UNIT_TIME_S, MOST_STEPS * STEP * UNIT_TIME_S, "s")
        _within("density", self.density, LEAST_DENSITY, MOST_DENSITY, "particles a square diameter")
        _within("seed", self.seed, 0, 2**31, "")

    @property
    def density(self) -> float:
        """Particles in a square diameter of the box."""
        return self.particles * (ARGON_DIAMETER_M / self.width_m) ** 2

    @property
    def steps_a_frame(self) -> int:
        return math.ceil(self.duration_s / UNIT_TIME_S / STEP / self.frames - 1e-9)

    @property
    def step(self) -> float:
        """One step, of the unit of time; STEP or a little less, so that whole steps fill the duration."""
        return self.duration_s / UNIT_TIME_S / (self.frames * self.steps_a_frame)

    @property
    def heat_a_step(self) -> float:
        """Heat given to all particles together in each step, in depths of the potential."""
        return self.heat_j_per_mol / UNIT_HEAT_J_PER_MOL * self.particles / (self.frames * self.steps_a_frame)

    def key(self) -> str:
        """A name for what these parameters give: the same parameters and the same version, the same name."""
        said = ";".join(f"{field.name}={getattr(self, field.name)!r}" for field in fields(self))
        return hashlib.sha256(f"box {VERSION};{said}".encode()).hexdigest()


def _within(name: str, value: float, low: float, high: float, unit: str) -> None:
    if not low <= value <= high:
        raise OutOfRange(name, value, unit, f"{low:g} to {high:g} {unit}".strip(), "the particle box")


@dataclass(slots=True, eq=False)
class Box:
    """The particles as they are, changed in place. `places` and `speeds` are 2 x particles, in the loop's own units.

    pairs: the listed pairs, first and second of each. listed_at: where the particles were when they were listed.
    touching: which of the pairs are closer than a knock. knocked: places in `pairs` of those that were not before.
    """

    width: float
    places: FloatArray
    speeds: FloatArray
    pushes: FloatArray
    listed_at: FloatArray
    pairs: NDArray[np.intp]
    both: NDArray[np.intp]
    touching: NDArray[np.bool_]
    squared: FloatArray  # distance of each listed pair
    knocked: NDArray[np.intp]

    @property
    def kinetic(self) -> float:
        return 0.5 * float(np.sum(self.speeds * self.speeds))

    @property
    def potential(self) -> float:
        """Energy of all pairs within the cut-off, counted from what a pair has there."""
        sixth = self.squared[self.squared < CUT_OFF**2] ** -3.0
        return float(np.sum(4.0 * sixth * (sixth - 1.0) - _CUT_ENERGY))


#: Shown the box after every step: how a film is taken.
Watch = Callable[[Box], None]


def simulate_box(params: BoxParams, watch: Watch | None = None) -> BoxRun:
    """The particles heated from a cold solid: a frame at the start and one at the end of each stretch of steps.

    watch: must not change the box.
    """
    box, count = settled(params), params.frames + 1
    places = np.empty((count, params.particles, 2), dtype=np.float32)
    kinetic, speed, energy, knocks = np.zeros((4, count))
    shapes: list[Arrangement] = []
    for frame in range(count):
        if frame == 0:
            kinetic[0], speed[0] = box.kinetic, mean_speed(box)
        else:
            kinetic[frame], speed[frame], knocks[frame] = heated(
                box, params.steps_a_frame, params.step, params.heat_a_step, watch
            )
        places[frame] = box.places.T / box.width
        energy[frame] = box.kinetic + box.potential
        shapes.append(arrangement(box.places))
    frame_s = params.duration_s / params.frames
    return BoxRun(
        key=params.key(),
        width_m=params.width_m,
        time_s=np.arange(count, dtype=np.float64) * frame_s,
        places=places,
        temperature_k=kinetic / params.particles * UNIT_TEMPERATURE_K,
        speed_m_s=speed * UNIT_SPEED_M_S,
        knocks_per_s=2.0 * knocks / params.particles / frame_s,
        order=np.array([shape.order for shape in shapes]),
        isolated=np.array([shape.isolated for shape in shapes]),
        neighbours=np.array([shape.neighbours for shape in shapes]),
        spacing_m=np.array([shape.spacing for shape in shapes]) * ARGON_DIAMETER_M,
        heat_j_per_mol=np.arange(count) / params.frames * params.heat_j_per_mol,
        energy_j_per_mol=energy / params.particles * UNIT_HEAT_J_PER_MOL,
    )


def settled(params: BoxParams) -> Box:
    """A round crystal in the middle of the box, its speeds drawn with the seed, brought to the starting temperature."""
    rng = np.random.default_rng(params.seed)
    width = params.width_m / ARGON_DIAMETER_M
    start = params.start_k / UNIT_TEMPERATURE_K
    speeds = rng.standard_normal((2, params.particles)) * math.sqrt(start)
    box = box_of(crystal(params.particles) + width / 2.0, speeds, width)
    for _ in range(SETTLING):
        calm(box)
        box.speeds *= float(coupling_factor(box.kinetic / params.particles, start, COUPLING))
        advance(box, STEP)
    calm(box)
    return box


def calm(box: Box) -> None:
    """Takes out what moves or turns the crystal as a whole: that is no warmth, and scaling of speeds feeds it."""
    box.speeds -= box.speeds.mean(axis=1, keepdims=True)
    x, y = box.places - box.places.mean(axis=1, keepdims=True)
    turning = float(np.sum(x * box.speeds[1] - y * box.speeds[0]) / np.sum(x * x + y * y))
    box.speeds[0] += turning * y
    box.speeds[1] -= turning * x


def crystal(particles: int) -> FloatArray:
    """The places of a honeycomb nearest to the origin: 2 x particles."""
    apart = math.sqrt(2.0 / (math.sqrt(3.0) * LATTICE_DENSITY))
    reach = math.ceil(math.sqrt(particles)) + 2
    column, row = np.meshgrid(np.arange(-reach, reach + 1), np.arange(-reach, reach + 1))
    places = apart * np.stack([(column + 0.5 * (row % 2)).ravel(), (row * math.sqrt(0.75)).ravel()])
    # Rounded, so that equal distances are equal on every machine and the order of the honeycomb decides.
    nearest = np.argsort(np.round(np.sum(places**2, axis=0), 9), kind="stable")[:particles]
    return np.ascontiguousarray(places[:, nearest])


def box_of(places: FloatArray, speeds: FloatArray, width: float) -> Box:
    """A box with the particles at these places and speeds (2 x particles, in the loop's own units)."""
    none = np.empty(0, dtype=np.intp)
    box = Box(
        width=width,
        places=np.array(places, dtype=np.float64),
        speeds=np.array(speeds, dtype=np.float64),
        pushes=np.zeros_like(places, dtype=np.float64),
        listed_at=np.array(places, dtype=np.float64),
        pairs=np.empty((2, 0), dtype=np.intp),
        both=none,
        touching=np.empty(0, dtype=np.bool_),
        squared=np.empty(0),
        knocked=none,
    )
    list_pairs(box, box.places)
    push(box)
    return box


def heated(box: Box, steps: int, step: float, heat: float, watch: Watch | None = None) -> tuple[float, float, int]:
    """So many steps, each with so much heat given. Returns the mean energy of motion and speed, and the knocks."""
    kinetic = speed = 0.0
    knocks = 0
    for _ in range(steps):
        knocks += advance(box, step)
        if watch is not None:
            watch(box)
        now = box.kinetic
        kinetic += now
        speed += mean_speed(box)
        if heat:
            box.speeds *= float(heating_factor(now, heat))
    return kinetic / steps, speed / steps, knocks


def advance(box: Box, step: float) -> int:
    """One step of velocity Verlet, in place. Returns how many pairs have knocked together in it."""
    before = box.places.copy()
    box.speeds += (0.5 * step) * box.pushes
    box.places += step * box.speeds
    bounce(box)
    moved = box.places - box.listed_at
    moved *= moved
    if float((moved[0] + moved[1]).max()) > (0.5 * SKIN) ** 2:
        list_pairs(box, before)
    knocks = push(box)
    box.speeds += (0.5 * step) * box.pushes
    return knocks


def mean_speed(box: Box) -> float:
    """The mean of the particles' speeds, in the loop's own units."""
    squared = box.speeds * box.speeds
    return float(np.sqrt(squared[0] + squared[1]).mean())


def bounce(box: Box) -> None:
    """Particles that have passed a wall come back from it as if it had been a mirror."""
    places = box.places
    if places.min() >= 0.0 and places.max() <= box.width:
        return
    low, high = places < 0.0, places > box.width
    places[low] *= -1.0
    places[high] = 2.0 * box.width - places[high]
    box.speeds[low | high] *= -1.0


def list_pairs(box: Box, before: FloatArray) -> None:
    """The pairs within the cut-off and the skin, listed anew.

    before: the places a step ago, so that a knock in the very step of the listing is not missed.
    """
    from scipy.spatial import cKDTree  # only where a box is simulated

    found = cKDTree(box.places.T).query_pairs(CUT_OFF + SKIN, output_type="ndarray")
    # Sorted, so that sums run in one order whatever the tree's own.
    found = found[np.lexsort((found[:, 1], found[:, 0]))]
    box.pairs = np.ascontiguousarray(found.T)
    box.both = box.pairs.ravel()
    box.listed_at = box.places.copy()
    box.touching = np.sum(apart(box.pairs, before) ** 2, axis=0) < KNOCK**2


def apart(pairs: NDArray[np.intp], places: FloatArray) -> FloatArray:
    """From the second to the first of each pair: 2 x pairs."""
    way: FloatArray = places.take(pairs[0], axis=1)
    way -= places.take(pairs[1], axis=1)
    return way


def push(box: Box) -> int:
    """The force on every particle, in place. Returns how many pairs are closer than a knock and were not before."""
    way = apart(box.pairs, box.places)
    squared = way[0] * way[0]
    squared += way[1] * way[1]
    touching = squared < KNOCK**2
    box.knocked = np.flatnonzero(touching > box.touching)
    inverse = 1.0 / squared
    sixth = inverse * inverse * inverse
    sixth *= squared < CUT_OFF**2
    strength = 48.0 * sixth  # `pair_force` over the distance, one diameter and one depth being 1
    strength -= 24.0
    strength *= sixth
    strength *= inverse
    way *= strength
    count = box.places.shape[1]
    for axis in (0, 1):
        pair = way[axis]
        box.pushes[axis] = np.bincount(box.both, np.concatenate([pair, -pair]), count)
    box.touching, box.squared = touching, squared
    return int(box.knocked.size)
