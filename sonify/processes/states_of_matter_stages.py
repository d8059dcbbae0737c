"""The states of matter, found in a run of the particle box by how orderly its particles are and how many are alone."""

from __future__ import annotations

import numpy as np

from sonify.frozen import dataclass
from sonify.processes.declared import first
from sonify.processes.specs import Declared
from sonify.processes.states_of_matter_order import spacing_inside
from sonify.processes.states_of_matter_run import BoxRun
from sonify.records.timeline import FloatArray

MELTS = 0.8  # of the order at the start: below it the crystal is giving way
MOLTEN = 0.3  # of the order at the start: below it hardly any of the crystal is left
BREAKING_FREE = 0.25  # share of particles on their own: more than the rim of a drop makes
FREE = 0.5  # share of particles on their own: most of them
SMOOTHING = 0.04  # of the run: over so long readings are averaged
EVERY = 4  # frames
SHORTEST = 0.02  # of the run: what lasts less is a passing chance, not a stage

_DECLARED = Declared("states_of_matter")

STAGES = (
    _DECLARED.stage("solid"),
    _DECLARED.stage("melting"),
    _DECLARED.stage("liquid"),
    _DECLARED.stage("evaporating"),
    _DECLARED.stage("gas"),
)
ORDER = tuple(stage.name for stage in STAGES)


@dataclass(frozen=True, slots=True, eq=False)
class Readings:
    """A run's readings, each averaged over SMOOTHING of the run around its moment, and what is worked out from them."""

    run: BoxRun
    temperature_k: FloatArray
    speed_m_s: FloatArray
    knocks_per_s: FloatArray
    order: FloatArray
    isolated: FloatArray
    neighbours: FloatArray
    spacing_m: FloatArray
    inside_m: FloatArray

    @property
    def last(self) -> int:
        return len(self.order) - 1


def readings(run: BoxRun) -> Readings:
    """The averaged readings of a run."""
    half = max(1, round(0.5 * SMOOTHING * (len(run.time_s) - 1)))
    knocks = np.array(run.knocks_per_s)
    knocks[0] = knocks[1]  # none are counted before the first step: the first stretch stands for the start
    return Readings(
        run=run,
        temperature_k=averaged(run.temperature_k, half),
        speed_m_s=averaged(run.speed_m_s, half),
        knocks_per_s=averaged(knocks, half),
        order=averaged(run.order, half),
        isolated=averaged(run.isolated, half),
        neighbours=averaged(run.neighbours, half),
        spacing_m=averaged(run.spacing_m, half),
        inside_m=averaged(inside(run), half),
    )


def inside(run: BoxRun) -> FloatArray:
    """The spacing away from every edge at each frame, m, looked at in one frame of EVERY: it is averaged anyway."""
    looked = np.unique(np.append(np.arange(0, len(run.time_s), EVERY), len(run.time_s) - 1))
    found = [spacing_inside(run.width_m * run.places[frame].astype(np.float64)) for frame in looked]
    return np.interp(np.arange(len(run.time_s)), looked, found)


def averaged(values: FloatArray, half: int) -> FloatArray:
    """Each value as the mean of those up to `half` places before and after it; at the ends of as many as there are.

    >>> averaged(np.array([0.0, 3.0, 6.0, 0.0]), 1)
    array([1.5, 3. , 3. , 3. ])
    """
    total = np.concatenate([[0.0], np.cumsum(values)])
    place = np.arange(len(values))
    first, end = np.maximum(place - half, 0), np.minimum(place + half + 1, len(values))
    means: FloatArray = (total[end] - total[first]) / (end - first)
    return means


def found(order: FloatArray, isolated: FloatArray) -> dict[str, tuple[int, int]]:
    """The stages that came: first and last frame of each, in order, following each other without a gap.

    order, isolated: averaged readings, one a frame. A stage that the next one overtakes does not come.
    """
    last = len(order) - 1
    starts = {
        "solid": 0,
        "melting": first(order < MELTS * order[0]),
        "liquid": first(order < MOLTEN * order[0]),
        "evaporating": first(isolated > BREAKING_FREE),
        "gas": first(isolated > FREE),
    }
    spans: dict[str, tuple[int, int]] = {}
    end = last
    for name in reversed(ORDER):
        start = starts[name]
        if start is not None and end - start >= max(1, SHORTEST * last):
            spans[name] = (start, end)
            end = start
    # What is left over at the beginning belongs to the first stage that came.
    names = list(reversed(spans))
    spans[names[0]] = (0, spans[names[0]][1])
    return {name: spans[name] for name in names}


def wandered(run: BoxRun, over_s: float) -> FloatArray:
    """How far particles get in a stretch of time around each frame, m: root of the mean square, straight across."""
    last = len(run.time_s) - 1
    stretch = min(last, max(1, round(over_s / (run.time_s[1] - run.time_s[0]))))
    start = np.clip(np.arange(last + 1) - stretch // 2, 0, last - stretch)
    way = run.width_m * (run.places[start + stretch].astype(np.float64) - run.places[start])
    distance: FloatArray = np.sqrt(np.mean(np.sum(way**2, axis=2), axis=1))
    return distance
