"""A covered basin of salt water, stepped through one day: heat, water and salt, each with its stores and fluxes.

Two bodies have a temperature: the basin with its brine, and the cover with the drops that hang from it. Sun warms the
basin; vapour, moving air and radiation carry its heat up to the cover, which gives it to wind and sky. Vapour becomes
drops there; what the cover cannot hold runs down into a cup. The salt cannot leave.

Each flux is computed once a step and taken from one store as it is given to another; every store adds up its own, so a
leak would show. Heat is counted from 0 °C. Amounts here are for a square metre of basin.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.brine import brine_vapour_share, salt_solubility
from sonify.science.radiation import clear_sky_sunlight, net_thermal_radiation, sky_emissivity
from sonify.science.runoff import released_share
from sonify.science.saturation import saturation_vapour_pressure, saturation_vapour_pressure_steam
from sonify.science.still import (
    cover_cooling,
    enclosed_radiation,
    latent_heat_of_hot_water,
    still_convection,
    still_evaporation,
    sunlight_through_cloud,
)
from sonify.science.sun import day_length_h, days_since_2000, declination, sun_height

STEP_S, STEPS, KEPT_EVERY = 60.0, 1440, 2  # a minute, a day; every second step is kept
CALENDAR_YEAR = 2025  # midway between leap years
WARMEST_H = 15.0  # the hour of the warmest air: common practice

WATER_J_KG_K, SALT_J_KG_K = 4186.0, 864.0  # OpenStax; sodium chloride: common table value
BASIN_J_M2_K, COVER_J_M2_K = 5.0e3, 8.4e3  # a thin black lining; glass of 4 mm (2500 kg/m³, 840 J/(kg K))
#: Of the sunlight on the cover: what gets to the basin and stays there, and what the cover itself takes. Ours, within
#: the figures of the trade (glass lets 0.88 through, drops on it throw some back, water and black lining keep 0.85).
BASIN_TAKES, COVER_TAKES = 0.70, 0.05
WATER_EMISSIVITY, COVER_EMISSIVITY = 0.95, 0.90  # common table values
FILM_HOLDS_KG_M2 = 0.06  # drops that cling to the cover before any runs down; ours
RUNS_DOWN_S = 300.0  # how fast the rest runs down to the cup; ours
LAST_SHARE = 0.01  # of the water never leaves, so that brine stays brine
RUNS_DOWN_STEP = float(released_share(STEP_S, RUNS_DOWN_S))


@dataclass(frozen=True, slots=True)
class Setup:
    """Where the still stands and what is in it, in SI units."""

    latitude: float
    day: float
    cloud: float
    air_by_night: float
    air_by_day: float
    humidity: float
    wind: float
    area: float
    depth: float
    saltiness: float
    insulation: float

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Setup:
        return cls(**{name: float(conditions[name]) for name in cls.__slots__})

    @property
    def mean_air_k(self) -> float:
        return 0.5 * (self.air_by_night + self.air_by_day)

    @property
    def sunrise_h(self) -> float:
        """Hour of sunrise by the Sun (its noon is 12)."""
        return 12.0 - 0.5 * float(day_length_h(self.latitude, self.declination_rad))

    @property
    def declination_rad(self) -> float:
        return float(declination(days_since_2000(CALENDAR_YEAR, self.day)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Weather:
    """What comes from outside at every step: the Sun's height, sunlight, air, and the sky's warmth as an emissivity."""

    sun_rad: FloatArray
    sunlight: FloatArray
    air_k: FloatArray
    sky: FloatArray
    cooling: float

    @classmethod
    def of(cls, setup: Setup) -> Weather:
        hour = setup.sunrise_h + np.arange(STEPS + 1) * STEP_S / 3600.0
        sun = sun_height(setup.latitude, setup.declination_rad, np.radians(15.0 * (hour - 12.0)))
        swing = 0.5 * (setup.air_by_day - setup.air_by_night)
        air = setup.mean_air_k + swing * np.cos(2.0 * np.pi * (hour - WARMEST_H) / 24.0)
        vapour = setup.humidity * saturation_vapour_pressure(setup.mean_air_k)
        return cls(
            sun_rad=sun,
            sunlight=clear_sky_sunlight(sun) * sunlight_through_cloud(setup.cloud),
            air_k=air,
            sky=sky_emissivity(air, np.full_like(air, float(vapour)), setup.cloud),
            cooling=float(cover_cooling(setup.wind)),
        )


@dataclass(slots=True)
class State:
    """The stores of a square metre, changed in place: kg of water and salt, J of heat."""

    brine: float
    dissolved: float
    basin_j: float
    cover_j: float
    film: float = 0.0
    cup: float = 0.0
    crystals: float = 0.0
    taken_j: float = 0.0
    given_j: float = 0.0
    moved: float = 0.0  # kg of water that has changed its store

    @property
    def basin_k(self) -> float:
        salt = (self.dissolved + self.crystals) * SALT_J_KG_K
        return ZERO_CELSIUS_K + self.basin_j / (BASIN_J_M2_K + self.brine * WATER_J_KG_K + salt)

    @property
    def cover_k(self) -> float:
        return ZERO_CELSIUS_K + self.cover_j / (COVER_J_M2_K + self.film * WATER_J_KG_K)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fluxes:
    """What moves in one step, for a square metre: kg of water, J of heat.

    vapour: from basin to cover, below 0 the other way, with `vapour_j` of heat. runs: from the cover to the cup.
    inside: by moving air and radiation from basin to cover. ground, sky: out of the basin, out of the cover.
    """

    vapour: float
    vapour_j: float
    runs: float
    runs_j: float
    sun_basin: float
    sun_cover: float
    inside: float
    ground: float
    sky: float


STORES = ("brine", "dissolved", "crystals", "film", "cup", "taken_j", "given_j", "moved", "basin_j", "cover_j")
READ = ("basin_k", "cover_k")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Day:
    """The day as computed: `model` by name, for a square metre, over time_s.

    Stores, temperatures, and `evaporation` and `dripping` in kg/s during the step that begins at each sample.
    """

    setup: Setup
    weather: Weather
    time_s: FloatArray
    model: dict[str, FloatArray]

    def __getitem__(self, name: str) -> FloatArray:
        return self.model[name]

    @property
    def last(self) -> int:
        return self.time_s.size - 1

    def clock(self, sample: int) -> str:
        """The time of day by the Sun at a sample, "08:12"."""
        minutes = round((self.setup.sunrise_h * 3600.0 + float(self.time_s[sample])) / 60.0)
        return f"{minutes // 60 % 24:02d}:{minutes % 60:02d}"


def simulate(setup: Setup) -> Day:
    """The day from sunrise to sunrise.

    Raises OutOfRange where the cover would freeze or the basin boil.
    """
    weather = Weather.of(setup)
    state = dawn(setup, float(weather.air_k[0]))
    least = LAST_SHARE * state.brine
    rows: list[list[float]] = []
    for step in range(STEPS + 1):
        moves = fluxes(setup, weather, state, step, least)
        if step % KEPT_EVERY == 0:
            kept = [getattr(state, name) for name in (*STORES, *READ)]
            rows.append([*kept, moves.vapour / STEP_S, moves.runs / STEP_S])
        if step < STEPS:
            apply(state, moves)
    names = (*STORES, *READ, "evaporation", "dripping")
    return Day(
        setup=setup,
        weather=weather,
        time_s=np.arange(0.0, STEPS + 1.0, KEPT_EVERY) * np.float64(STEP_S),
        model=dict(zip(names, np.array(rows).T, strict=True)),
    )


def dawn(setup: Setup, air_k: float) -> State:
    """Salt water as cold as the air at dawn: so deep a layer of water with its salt in it."""
    water = 1000.0 * setup.depth
    salt = water * setup.saltiness / (1.0 - setup.saltiness)
    warm = air_k - ZERO_CELSIUS_K
    basin = (BASIN_J_M2_K + water * WATER_J_KG_K + salt * SALT_J_KG_K) * warm
    return State(brine=water, dissolved=salt, basin_j=basin, cover_j=COVER_J_M2_K * warm)


def fluxes(setup: Setup, weather: Weather, state: State, step: int, least: float) -> Fluxes:
    """Everything that moves in a step; least: water that stays in the brine, kg."""
    basin_k, cover_k, air_k = state.basin_k, state.cover_k, float(weather.air_k[step])
    p_basin = float(brine_vapour_share(state.dissolved / state.brine) * saturation_vapour_pressure_steam(basin_k))
    p_cover = float(saturation_vapour_pressure_steam(cover_k))
    stirring = float(still_convection(basin_k, cover_k, p_basin, p_cover))
    carried = float(still_evaporation(stirring, p_basin, p_cover))
    giver_k = basin_k if carried >= 0.0 else cover_k
    latent = float(latent_heat_of_hot_water(giver_k))
    # Vapour can go down only as far as there are drops on the cover, and up as far as there is water.
    vapour = min(max(STEP_S * carried / latent, -state.film), state.brine - least)
    runs = RUNS_DOWN_STEP * max(state.film - FILM_HOLDS_KG_M2, 0.0)
    radiated = float(enclosed_radiation(basin_k, cover_k, WATER_EMISSIVITY, COVER_EMISSIVITY))
    to_sky = float(net_thermal_radiation(cover_k, air_k, float(weather.sky[step]), COVER_EMISSIVITY))
    sun_j = STEP_S * float(weather.sunlight[step])
    return Fluxes(
        vapour=vapour,
        vapour_j=vapour * (latent + WATER_J_KG_K * (giver_k - ZERO_CELSIUS_K)),
        runs=runs,
        runs_j=runs * WATER_J_KG_K * (cover_k - ZERO_CELSIUS_K),
        sun_basin=BASIN_TAKES * sun_j,
        sun_cover=COVER_TAKES * sun_j,
        inside=STEP_S * (radiated + stirring * (basin_k - cover_k)),
        ground=STEP_S * setup.insulation * (basin_k - air_k),
        sky=STEP_S * (to_sky + weather.cooling * (cover_k - air_k)),
    )


def apply(state: State, moves: Fluxes) -> None:
    """Move water and heat from store to store, and let salt crystallise that the water left can no longer hold."""
    state.brine -= moves.vapour
    state.film += moves.vapour - moves.runs
    state.cup += moves.runs
    state.moved += abs(moves.vapour) + moves.runs
    state.basin_j += moves.sun_basin - moves.inside - moves.ground - moves.vapour_j
    state.cover_j += moves.sun_cover + moves.inside + moves.vapour_j - moves.sky - moves.runs_j
    state.taken_j += moves.sun_basin + moves.sun_cover
    state.given_j += moves.ground + moves.sky + moves.runs_j
    spare = float(salt_solubility(state.basin_k)) * state.brine - state.dissolved
    settles = max(-spare, 0.0) - min(max(spare, 0.0), state.crystals)
    state.dissolved -= settles
    state.crystals += settles
