"""The particle box filmed for the classroom page: the very run behind the states of matter, with its knocks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from sonify.constants import MOLAR_MASS_WATER_KG_PER_MOL, ZERO_CELSIUS_K
from sonify.processes.states_of_matter import CONDITIONS, box_params
from sonify.processes.states_of_matter import timeline as timeline_of
from sonify.processes.states_of_matter_box import (
    UNIT_SPEED_M_S,
    UNIT_TIME_S,
    Box,
    BoxParams,
    apart,
    simulate_box,
)
from sonify.records.film import Knocks, ParticleFilm, RealSpeed
from sonify.records.timeline import FloatArray
from sonify.science.kinetic import mean_speed
from sonify.science.particles import ARGON_DIAMETER_M

#: Raise it with every change that changes what a film holds: it is part of the key.
VERSION = 1
#: A frame about every third of a trembling: in the cold solid one takes about 1 ps.
FRAME_S = 0.3e-12
#: Over so long at the end of the heating it is seen which particle gets furthest.
FLIGHT_S = 16.0e-12
#: Frames times particles at most: of a large box fewer frames are kept, so that a page can carry them.
MOST_PLACES = 240_000


@dataclass(slots=True)
class Camera:
    """Shown the box after every step: keeps where the particles are at every `every`th, and each knock.

    A knock is kept as its step and the pair; its closing speed in the loop's own units.
    """

    every: int
    steps: int = 0
    places: list[NDArray[np.float32]] = field(default_factory=list)
    knocks: list[tuple[int, int, int, float]] = field(default_factory=list)

    def __call__(self, box: Box) -> None:
        self.steps += 1
        if box.knocked.size:
            pairs = box.pairs[:, box.knocked]
            way, speed = apart(pairs, box.places), apart(pairs, box.speeds)
            closing = np.sum(way * speed, axis=0) / np.sqrt(np.sum(way * way, axis=0))
            for (one, other), toward in zip(pairs.T.tolist(), closing.tolist(), strict=True):
                self.knocks.append((self.steps, one, other, abs(toward)))
        if self.steps % self.every == 0:
            self.places.append((box.places.T / box.width).astype(np.float32))


def steps_a_film_frame(params: BoxParams) -> int:
    """Steps of the simulation between two frames of the film."""
    steps = params.frames * params.steps_a_frame
    fewest = steps * params.particles / MOST_PLACES
    return max(1, round(FRAME_S / (params.step * UNIT_TIME_S)), int(np.ceil(fewest)))


def film_key(params: BoxParams) -> str:
    """A name for the film of these parameters: the same parameters and the same versions, the same name."""
    return f"film {VERSION} {steps_a_film_frame(params)} {params.key()}"


def usual_params() -> BoxParams:
    """The box with every condition as it is by default."""
    return box_params({one.name: one.default for one in CONDITIONS})


def film_params(process: str, conditions: Mapping[str, float]) -> BoxParams:
    """The lesson's own box where its process is that of the box, else the usual one. Conditions in SI units."""
    return box_params(conditions) if process == "states-of-matter" else usual_params()


def filmed(params: BoxParams) -> ParticleFilm:
    """The run of these parameters as a film. Takes as long as the run: seconds."""
    camera = Camera(steps_a_film_frame(params))
    run = simulate_box(params, camera)
    step_s, frame_s = params.step * UNIT_TIME_S, camera.every * params.step * UNIT_TIME_S
    places = np.stack([run.places[0], *camera.places])
    lesson = timeline_of(run, params)
    at_s = np.minimum(np.arange(len(places)) * frame_s, lesson.time_s[-1])

    def reading(name: str) -> FloatArray:
        return lesson.at(name, at_s)

    return ParticleFilm(
        width_m=params.width_m,
        diameter_m=ARGON_DIAMETER_M,
        frame_s=frame_s,
        step_s=step_s,
        places=places,
        ringed=one_that_breaks_free(places, round(FLIGHT_S / frame_s)),
        knocks=_knocks(camera, step_s),
        temperature_k=reading("temperature"),
        speed_m_s=reading("mean speed"),
        real_m_s=reading("speed of real argon atoms"),
        heat_j_per_mol=params.heat_j_per_mol * float(at_s[-1]) / params.duration_s,
        stages=lesson.stages,
        substance="argon",
        real=real_speeds(),
    )


def one_that_breaks_free(places: NDArray[np.float32], flight: int) -> int:
    """Of the quarter nearest to the middle of the crystal the one that gets furthest in so many frames at the end."""
    from_middle = np.sum((places[0] - 0.5) ** 2, axis=1)
    inner = np.argsort(from_middle, kind="stable")[: max(1, len(from_middle) // 4)]
    flown = np.sum((places[-1, inner] - places[-1 - min(flight, len(places) - 1), inner]) ** 2, axis=1)
    return int(inner[np.argmax(flown)])


def _knocks(camera: Camera, step_s: float) -> Knocks:
    rows = np.array(camera.knocks, dtype=np.float64).reshape(-1, 4)
    return Knocks(
        time_s=rows[:, 0] * step_s, pairs=rows[:, 1:3].astype(np.intp), closing_m_s=rows[:, 3] * UNIT_SPEED_M_S
    )


def real_speeds() -> tuple[RealSpeed, ...]:
    """Molecules of water as pupils meet them: a liquid and its vapour of one temperature are equally fast."""
    met = (
        ("water that has just melted", 0.0),
        ("water in a cup at room temperature", 20.0),
        ("water vapour in the air of the same room", 20.0),
        ("water about to boil", 100.0),
        ("steam just above it", 100.0),
    )
    return tuple(
        RealSpeed(
            what=what,
            temperature_k=ZERO_CELSIUS_K + celsius,
            speed_m_s=float(mean_speed(ZERO_CELSIUS_K + celsius, MOLAR_MASS_WATER_KG_PER_MOL)),
        )
        for what, celsius in met
    )
