"""One story line through the model: where the water on its journey is, how high, and how warm.

Not one molecule's path (no one could follow it): at each moment the place is one that water of that stage is in, and
height and temperature are the model's own for that place. Between two places it moves smoothly.
"""

from __future__ import annotations

import numpy as np

from sonify.constants import STANDARD_ATMOSPHERE_PA
from sonify.frozen import dataclass
from sonify.processes.water_cycle_stages import Day
from sonify.records.timeline import FloatArray
from sonify.science.humidity import wet_bulb_temperature
from sonify.science.lifting import DRY_LAPSE_K_PER_M
from sonify.science.saturation import saturation_vapour_pressure

SHORTEST_MOVE = 20  # steps: however short a stage, the water takes forty minutes from place to place
CLIMB = 10  # steps: but the wind carries vapour up the hill in twenty, half a metre a second on a usual day


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """A place that water can be in: its temperature and height through the day."""

    temperature_k: FloatArray
    height_m: FloatArray


@dataclass(frozen=True, slots=True)
class Move:
    """From one place on to the next, between two steps."""

    to: str
    start: int
    end: int
    shortest: int = SHORTEST_MOVE


def journey(day: Day, spans: dict[str, tuple[int, int]]) -> Place:
    """Temperature and height of the water on its journey through the day."""
    known = places(day)
    here = known["sea"]
    steps = np.arange(day.last + 1)
    for move in moves(day, spans):
        share = smooth_step((steps - move.start) / max(move.end - move.start, move.shortest))
        there = known[move.to]
        here = Place(
            temperature_k=(1.0 - share) * here.temperature_k + share * there.temperature_k,
            height_m=(1.0 - share) * here.height_m + share * there.height_m,
        )
    return here


def smooth_step(share: FloatArray) -> FloatArray:
    """0 before 0, 1 after 1, and between them a rise that starts and ends level."""
    x = np.clip(share, 0.0, 1.0)
    return x * x * (3.0 - 2.0 * x)


def places(day: Day) -> dict[str, Place]:
    """The places of the journey.

    Vapour rides at the height to which air climbs, below the cloud base; rain is as cold as a wet thermometer near the
    ground; once it has soaked in it is as warm as the air.
    """
    ground = np.zeros(day.last + 1)
    riding = np.minimum(day.climb_m, day.lcl_m)
    e_air = saturation_vapour_pressure(day.dew_point_k)
    return {
        "sea": Place(day["sea_k"], ground),
        "shallows": Place(day["shallows_k"], ground),
        "vapour": Place(day["air_k"] - DRY_LAPSE_K_PER_M * riding, riding),
        "cloud": Place(day["top_k"], day["top_m"]),
        "rain": Place(wet_bulb_temperature(day["air_k"], e_air, STANDARD_ATMOSPHERE_PA), ground),
        "hillside": Place(day["air_k"], ground),
    }


def moves(day: Day, spans: dict[str, tuple[int, int]]) -> list[Move]:
    """What moves the water on, stage by stage."""
    found: list[Move] = []
    for name, (start, end) in spans.items():
        length = end - start
        if name == "warming":
            found.append(Move("shallows", start, end))
        elif name == "evaporation":
            if not found:
                found.append(Move("shallows", start, start + length // 3))
            found.append(Move("vapour", max(start + length * 6 // 10, end - CLIMB), end, CLIMB))
        elif name == "precipitation":  # it falls in a few minutes, and warms on the ground while others fall
            found.append(Move("rain", start, start + length * 2 // 5))
            found.append(Move("hillside", start + length * 2 // 5, end))
        else:
            found.append(Move({"condensation": "cloud", "collection": "sea"}[name], start, end))
    if spans and list(spans)[-1] == "condensation":  # the cloud dries up again
        end = spans["condensation"][1]
        found.append(Move("vapour", end, min(end + 60, day.last)))
    if spans and list(spans)[-1] == "warming":
        end = spans["warming"][1]
        found.append(Move("sea", end, min(end + 60, day.last)))
    return found
