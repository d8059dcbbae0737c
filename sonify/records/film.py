"""A film of the particle box for the classroom page: where every particle was, and every knock, along one heating."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray, Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class RealSpeed:
    """How fast molecules of a real substance are on average, by kinetic theory: "water in a cup", 293.15 K, 587 m/s."""

    what: str
    temperature_k: float
    speed_m_s: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Knocks:
    """Every knock of two particles, in order of time: when, who, and how fast they closed in on each other."""

    time_s: FloatArray
    pairs: NDArray[np.intp]  # knocks x 2
    closing_m_s: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ParticleFilm:
    """One heating, one frame every `frame_s`, the first at the start.

    places: frames x particles x 2, as a share of the box's width, from its lower left. step_s: that of the simulation,
    to which knocks are timed. ringed: the particle to follow. temperature_k, speed_m_s (mean, in the flat box) and
    real_m_s (mean, of real atoms as warm as the box): averaged readings, one a frame. Heat is given evenly, up to
    heat_j_per_mol. stages: as the simulation finds them, on the film's time.
    """

    width_m: float
    diameter_m: float
    frame_s: float
    step_s: float
    places: NDArray[np.float32]
    ringed: int
    knocks: Knocks
    temperature_k: FloatArray
    speed_m_s: FloatArray
    real_m_s: FloatArray
    heat_j_per_mol: float
    stages: tuple[Stage, ...]
    substance: str
    real: tuple[RealSpeed, ...]

    @property
    def frames(self) -> int:
        return int(self.places.shape[0])
