"""A puddle in the open, minute by minute: heat from the sun, vapour and heat off with the wind, an edge that shrinks.

The weather stays as it is. Water and the top layer of tarmac under it are equally warm; where the water draws back, the
tarmac is left behind with its heat. Every store of water and of heat adds up its own fluxes: none is "the rest".

Constants without a source are round figures of ours; the teacher's notes say so.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.frozen import dataclass
from sonify.records.fact import wrong
from sonify.records.timeline import FloatArray
from sonify.science.drying import heat_along, hollow_area, hollow_depth, hollow_volume
from sonify.science.evaporation import mass_transfer_evaporation
from sonify.science.heating import MELTS_K, WATER_J_PER_KG_K
from sonify.science.radiation import net_thermal_radiation, sky_emissivity
from sonify.science.saturation import latent_heat_of_vaporisation, saturation_vapour_pressure

WATER_KG_PER_M3 = 1000.0
TARMAC_J_PER_M2_K = 60_000.0  # the top three centimetres: about 2 MJ/(m³ K)
REFLECTED = 0.10  # of the sunlight, by water over dark tarmac; water alone 0.06
EMISSIVITY, CLOUD_SHARE = 0.97, 0.5
HOTTEST_K = ZERO_CELSIUS_K + 57.0
STEP_S = 60.0
LONGEST_STEPS = 1440  # a day of it
DRY_SHARE = 0.12  # of the drying time: so long a dry patch is watched
LEAST_DRY_STEPS = 5


@dataclass(frozen=True, slots=True)
class Weather:
    """What the puddle starts from and what the weather is, in SI units."""

    depth: float
    width: float
    water_temperature: float
    air_temperature: float
    humidity: float
    wind: float
    sunlight: float

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Weather:
        return cls(**{name: float(conditions[name]) for name in cls.__slots__})

    @property
    def full_area_m2(self) -> float:
        return float(np.pi / 4.0 * self.width**2)

    @property
    def full_kg(self) -> float:
        return WATER_KG_PER_M3 * float(hollow_volume(self.depth, self.depth, self.full_area_m2))

    @property
    def vapour_pa(self) -> float:
        """Vapour pressure of the air."""
        return self.humidity * float(saturation_vapour_pressure(self.air_temperature))


#: What is kept of every step: the stores (kg; J counted from water and tarmac at 0 °C), then the rest.
STORES = ("water_kg", "vapour_kg")
HEATS = ("held_j", "sun_j", "sky_j", "air_j", "spent_j", "vapour_j", "left_behind_j")
KEPT = (*STORES, *HEATS, "surface_k", "area_m2", "depth_m", "rate_kg_m2_s", "leaving_kg_s")


@dataclass(slots=True)
class State:
    """The puddle as it is. Heats add up since the start, except held_j: what wet tarmac and water hold over 0 °C."""

    water_kg: float
    held_j: float
    area_m2: float
    surface_k: float
    vapour_kg: float = 0.0
    sun_j: float = 0.0
    sky_j: float = 0.0
    air_j: float = 0.0
    spent_j: float = 0.0
    vapour_j: float = 0.0
    left_behind_j: float = 0.0


def simulate(weather: Weather) -> dict[str, FloatArray]:
    """The puddle until it is dry and a little longer, or for a day: arrays by name (KEPT and "time_s").

    Raises BadCondition where it would freeze, or grow hotter than the formulae cover.
    """
    state = full(weather)
    carried = float(mass_transfer_evaporation(weather.wind, 1.0))
    sky = float(sky_emissivity(weather.air_temperature, weather.vapour_pa, CLOUD_SHARE))
    rows: list[list[float]] = []
    stop = LONGEST_STEPS
    for step in range(LONGEST_STEPS + 1):
        if step > stop:
            break
        _refuse_ice_and_scalding(state, weather)
        wet = state.water_kg > 0.0
        pull_pa = float(saturation_vapour_pressure(state.surface_k)) - weather.vapour_pa
        rate = carried * pull_pa if wet else 0.0
        leaving = min(rate * state.area_m2, state.water_kg / STEP_S)
        depth = float(hollow_depth(state.water_kg / WATER_KG_PER_M3, weather.depth, weather.full_area_m2))
        rows.append([getattr(state, name) for name in (*STORES, *HEATS)])
        rows[-1] += [state.surface_k, state.area_m2, depth, rate, leaving]
        if wet:
            advance(state, weather, (carried, sky), leaving)
            if state.water_kg <= 0.0:
                stop = min(LONGEST_STEPS, step + 1 + max(LEAST_DRY_STEPS, round(DRY_SHARE * step)))
    columns = np.array(rows).T
    return {"time_s": STEP_S * np.arange(len(rows)), **dict(zip(KEPT, columns, strict=True))}


def _refuse_ice_and_scalding(state: State, weather: Weather) -> None:
    if state.surface_k < MELTS_K:
        raise BadCondition(
            "air_temperature",
            wrong("error_processes-air-dry-little", value=f"{weather.air_temperature - ZERO_CELSIUS_K:.1f}"),
        )
    if state.surface_k > HOTTEST_K:
        raise BadCondition(
            "sunlight",
            wrong(
                "error_processes-under-puddle-grows",
                sunlight=f"{weather.sunlight:.0f}",
                value=f"{HOTTEST_K - ZERO_CELSIUS_K:.0f}",
            ),
        )


def full(weather: Weather) -> State:
    """The puddle right after the rain."""
    warm = weather.water_temperature - ZERO_CELSIUS_K
    held = TARMAC_J_PER_M2_K * weather.full_area_m2 + WATER_J_PER_KG_K * weather.full_kg
    return State(
        water_kg=weather.full_kg,
        held_j=held * warm,
        area_m2=weather.full_area_m2,
        surface_k=weather.water_temperature,
    )


def advance(state: State, weather: Weather, stirring: tuple[float, float], leaving_kg_s: float) -> None:
    """One step on, in place, all fluxes from where the puddle stood when it began.

    stirring: vapour carried off for a pascal, kg/(m² s), and how black the sky is.
    """
    carried, sky = stirring
    area, warm = state.area_m2, state.surface_k - ZERO_CELSIUS_K
    air_k, surface_k = weather.air_temperature, state.surface_k
    sun = STEP_S * area * (1.0 - REFLECTED) * weather.sunlight
    to_sky = STEP_S * area * float(net_thermal_radiation(surface_k, air_k, sky, EMISSIVITY))
    to_air = STEP_S * area * float(heat_along(carried, surface_k - air_k, surface_k))
    gone = STEP_S * leaving_kg_s
    spent = float(latent_heat_of_vaporisation(surface_k)) * gone
    taken_along = WATER_J_PER_KG_K * warm * gone

    state.water_kg = state.water_kg - gone if gone < state.water_kg else 0.0
    state.vapour_kg += gone
    depth = float(hollow_depth(state.water_kg / WATER_KG_PER_M3, weather.depth, weather.full_area_m2))
    now = float(hollow_area(depth, weather.depth, weather.full_area_m2))
    left_behind = TARMAC_J_PER_M2_K * warm * (area - now)

    state.held_j += sun - to_sky - to_air - spent - taken_along - left_behind
    state.sun_j += sun
    state.sky_j += to_sky
    state.air_j += to_air
    state.spent_j += spent
    state.vapour_j += taken_along
    state.left_behind_j += left_behind
    state.area_m2 = now
    if state.water_kg > 0.0:
        held = TARMAC_J_PER_M2_K * now + WATER_J_PER_KG_K * state.water_kg
        state.surface_k = ZERO_CELSIUS_K + state.held_j / held
    else:  # what the last minute's sun and wind did to the last wet spot stays with its tarmac
        state.left_behind_j += state.held_j
        state.held_j = 0.0
