"""One day of water over a harbour town, stepped through in time: sea, shallows, vapour, cloud, rain, ground, river.

One column of air stands over sea, shallows and land. All water is in mm over the whole column (1 mm is 1 kg on a
square metre). Each flux is computed once and taken from one store as it is given to another, and every store adds up
its own fluxes: none is "the rest", so a leak would show.

The constants below are choices of ours where no source is named; the teacher's notes say so.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from sonify.constants import STANDARD_ATMOSPHERE_PA, STANDARD_GRAVITY_M_PER_S2
from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.atmosphere import standard_pressure
from sonify.science.evaporation import SEA_WATER_FACTOR, heat_to_air, transfer_coefficient, wind_evaporation
from sonify.science.humidity import AIR_HEAT_CAPACITY_J_PER_KG_K, mixing_ratio, vapour_pressure
from sonify.science.lifting import (
    DRY_LAPSE_K_PER_M,
    climb_height,
    condensation_height,
    lifted_temperature,
    mixed_depth,
    saturation_aloft,
)
from sonify.science.radiation import (
    clear_sky_sunlight,
    cloud_blackness,
    cloud_optical_depth,
    cloud_transmittance,
    net_thermal_radiation,
    sky_emissivity,
)
from sonify.science.rain import (
    MM_PER_HOUR,
    drizzle_fall_speed,
    drop_fall_speed,
    median_drop_diameter,
    rain_forming_rate,
)
from sonify.science.runoff import direct_runoff, released_share
from sonify.science.saturation import dew_point, latent_heat_of_vaporisation, saturation_vapour_pressure
from sonify.science.sun import day_length_h, days_since_2000, declination, sun_height

STEP_S, STEPS = 120.0, 720  # two minutes, from one dawn to the next
CALENDAR_YEAR = 2025  # midway between leap years; the Sun of a day of the year moves by up to 0.3° from year to year

SEA_SHARE, SHALLOWS_SHARE, LAND_SHARE = 0.4, 0.25, 0.35  # of the ground under the column
SEA_DEPTH_M, SHALLOWS_DEPTH_M = 10.0, 0.05  # how deep each is stirred and warmed
TIDE_S = 4.0 * 3600.0  # how long the tide takes to change the water of the shallows
WATER_HEAT_J_PER_M3_K = 4.1e6  # sea water: 1026 kg/m³ and 3990 J/(kg K), TEOS-10
WATER_ALBEDO, WATER_EMISSIVITY = 0.06, 0.97  # common textbook values
LAND_ALBEDO, LAND_EMISSIVITY = 0.23, 0.97  # FAO-56: green grass
LAND_HEATS_AIR = 0.33  # of the net radiation; the rest warms the soil and dries soil and leaves (not followed)
AIR_COOLING_K_PER_S = 1.5 / 86_400.0  # by radiation to space: common textbook value, from memory

MOIST_DEPTH_M = 1000.0  # the vapour is spread through this depth of air
AIR_KG_PER_M2 = (STANDARD_ATMOSPHERE_PA - float(standard_pressure(MOIST_DEPTH_M))) / STANDARD_GRAVITY_M_PER_S2
# The air at dawn after a clear, calm night: potential temperature against height, in the inversion and above it.
INVERSION_M, INVERSION_K_PER_M, ABOVE_K_PER_M = 450.0, 0.020, 0.004
CLOUD_RISES_M = 300.0  # a cloud's own warmth lifts it as far above the hill as it formed below the top, at most this
CALM_AGAIN_S = 3600.0  # how fast the stirring dies once the ground no longer warms the air
FETCH_M = 15_000.0  # the wind carries the column's air up the hill in FETCH_M / wind
FOG_S, CLOUD_GONE_S = 600.0, 1800.0  # how fast fog forms, and how fast a cloud dries up once nothing feeds it
THINNEST_CLOUD_M = 100.0
GUST_M_S = 1.0  # warm air rising stirs even still air: added to the wind as a root of squares
WIND_AT_SEA = float(transfer_coefficient(10.0, 0.0003))  # CHOW-1988: roughness of open water 0.03 cm

TOWN_SHARE = 0.3  # of the land: roofs and streets
TOWN_CURVE, PASTURE_CURVE = 98.0, 61.0  # TR-55, table 2-2
HILLSIDE_S, RIVER_S = 4.0 * 3600.0, 1.0 * 3600.0  # residence times of ground and river
TIDE_STEP, FOG_STEP, CLOUD_GONE_STEP, HILLSIDE_STEP, RIVER_STEP = (
    float(released_share(STEP_S, residence_s)) for residence_s in (TIDE_S, FOG_S, CLOUD_GONE_S, HILLSIDE_S, RIVER_S)
)
SMALLEST_DROP_M = 0.2e-3  # drizzle, common practice
DRIZZLE_BELOW_M = 0.6e-3  # where the formula for raindrops begins


@dataclass(frozen=True, slots=True)
class Morning:
    """What the day starts from, in SI units."""

    latitude: float
    day: float
    sea_temperature: float
    humidity: float
    wind: float
    hill_height: float
    air_temperature: float

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Morning:
        return cls(**{name: float(conditions[name]) for name in cls.__slots__})

    @property
    def stirring_wind(self) -> float:
        """The wind as the water feels it, gusts included, m/s."""
        return math.hypot(self.wind, GUST_M_S)

    @property
    def sunrise_h(self) -> float:
        """Hour of sunrise by the Sun (its noon is 12)."""
        return 12.0 - 0.5 * float(day_length_h(self.latitude, self.declination_rad))

    @property
    def declination_rad(self) -> float:
        return float(declination(days_since_2000(CALENDAR_YEAR, self.day)))


@dataclass(slots=True)
class State:
    """Where the water is, in mm over the column, and how warm things are, in K. Changed in place, step by step."""

    sea: float
    shallows: float
    vapour: float
    sea_k: float
    shallows_k: float
    air_k: float
    cloud: float = 0.0
    falling: float = 0.0
    hillside: float = 0.0
    river: float = 0.0
    stirring_j_m2: float = 0.0  # heat the land has given to the air since dawn
    rain_so_far: float = 0.0  # mm on the land
    rain_rate_m_s: float = 0.0  # on the land, where the cloud stands
    base_m: float = 0.0  # of the cloud that is there, or was last
    top_m: float = 0.0
    top_k: float = 273.15

    @property
    def mixing_ratio(self) -> float:
        return self.vapour / AIR_KG_PER_M2


@dataclass(frozen=True, slots=True)
class Fluxes:
    """What passes between the stores in one step, mm over the column. The tide and evaporation may run backwards."""

    sea_evaporation: float
    shallows_evaporation: float
    tide: float
    condensation: float
    drying_up: float
    rain_forming: float
    rain: float
    runoff: float
    soaking: float
    seeping: float
    returning: float


#: What is kept of every step; the stores first.
STORES = ("sea", "shallows", "vapour", "cloud", "falling", "hillside", "river")
KEPT = (*STORES, "sea_k", "shallows_k", "air_k", "sunlight", "reach_m", "base_m", "top_m", "top_k", "rain_rate_m_s")
#: What is kept of the fluxes (mm in the step that follows).
KEPT_FLUXES = ("evaporation", "condensation", "returning")


def simulate(morning: Morning) -> dict[str, FloatArray]:
    """The day in steps: arrays of STEPS + 1 values by name (KEPT, KEPT_FLUXES, "time_s", "sun_rad", "moved").

    "moved": all water that changed stores up to then, tide apart: what the drift of the total is measured against.
    """
    time_s = np.arange(STEPS + 1) * STEP_S
    hour_angle = np.radians(15.0 * (morning.sunrise_h + time_s / 3600.0 - 12.0))
    sun_rad = sun_height(morning.latitude, morning.declination_rad, hour_angle)
    clear = clear_sky_sunlight(sun_rad)

    state, rows, moved = dawn(morning), [], 0.0
    for step in range(STEPS + 1):
        sunlight = float(clear[step] * cloud_transmittance(cloud_optical_depth(state.cloud)))
        row = [getattr(state, name) for name in STORES]
        row += [state.sea_k, state.shallows_k, state.air_k, sunlight]
        fluxes, reach_m = advance(state, morning, sunlight)
        row += [reach_m, state.base_m, state.top_m, state.top_k, state.rain_rate_m_s]
        row += [fluxes.sea_evaporation + fluxes.shallows_evaporation, fluxes.condensation, fluxes.returning, moved]
        moved += total_moved(fluxes)
        rows.append(row)
    names = (*KEPT, *KEPT_FLUXES, "moved")
    columns = np.array(rows).T
    return {"time_s": time_s, "sun_rad": sun_rad, **dict(zip(names, columns, strict=True))}


def dawn(morning: Morning) -> State:
    """The state at sunrise: no cloud, nothing in the ground's fast water or the river."""
    e_air = morning.humidity * float(saturation_vapour_pressure(morning.air_temperature))
    return State(
        sea=1000.0 * SEA_DEPTH_M * SEA_SHARE,
        shallows=1000.0 * SHALLOWS_DEPTH_M * SHALLOWS_SHARE,
        vapour=float(mixing_ratio(e_air, STANDARD_ATMOSPHERE_PA)) * AIR_KG_PER_M2,
        sea_k=morning.sea_temperature,
        shallows_k=morning.sea_temperature,
        air_k=morning.air_temperature,
    )


def advance(state: State, morning: Morning, sunlight: float) -> tuple[Fluxes, float]:
    """One step on, in place. Returns what passed between the stores, and how high the air could have climbed."""
    reach_m = reach(state, morning)
    condensation = condensed(state, morning, min(reach_m, morning.hill_height))
    evaporation = warm(state, morning, sunlight)
    fluxes = water_fluxes(state, evaporation, condensation)
    apply(state, fluxes)
    return fluxes, reach_m


def reach(state: State, morning: Morning) -> float:
    """How high air can climb, were the hill high enough: what the wind alone can do, and what warmed ground adds, m."""
    by_wind = float(climb_height(morning.wind, INVERSION_K_PER_M, state.air_k))
    return by_wind + float(mixed_depth(state.stirring_j_m2, INVERSION_M, INVERSION_K_PER_M, ABOVE_K_PER_M, state.air_k))


def condensed(state: State, morning: Morning, climb_m: float) -> float:
    """Vapour that becomes cloud drops in this step, mm: in the air that climbs, and as fog at the ground."""
    w = state.mixing_ratio
    if w <= float(saturation_aloft(state.air_k - DRY_LAPSE_K_PER_M * climb_m, climb_m)):
        return 0.0
    fog = max(w - float(saturation_aloft(state.air_k, 0.0)), 0.0)
    e_air = float(vapour_pressure(w, STANDARD_ATMOSPHERE_PA))
    base_m = float(condensation_height(state.air_k, min(float(dew_point(e_air)), state.air_k)))
    state.base_m, depth = base_m, max(climb_m - base_m, 0.0)
    state.top_m = base_m + depth + min(depth, CLOUD_RISES_M)
    state.top_k = float(lifted_temperature(state.air_k, w, state.top_m))
    lifted = max(w - float(saturation_aloft(state.top_k, state.top_m)), 0.0)
    carried = float(released_share(STEP_S, FETCH_M / morning.wind))
    return AIR_KG_PER_M2 * max(lifted * carried, fog * FOG_STEP)


def warm(state: State, morning: Morning, sunlight: float) -> FloatArray:
    """Sea, shallows and air a step warmer or colder, in place. Returns the evaporation of sea and shallows, mm/s."""
    water_k = np.array([state.sea_k, state.shallows_k])
    e_air = float(vapour_pressure(state.mixing_ratio, STANDARD_ATMOSPHERE_PA))
    deficit = SEA_WATER_FACTOR * saturation_vapour_pressure(water_k) - e_air
    evaporation = wind_evaporation(morning.stirring_wind, deficit, state.air_k, WIND_AT_SEA)
    to_air = heat_to_air(morning.stirring_wind, water_k - state.air_k, state.air_k, WIND_AT_SEA)
    sky = sky_emissivity(state.air_k, e_air, cloud_blackness(state.cloud))
    to_sky = net_thermal_radiation(water_k, state.air_k, sky, WATER_EMISSIVITY)
    latent = latent_heat_of_vaporisation(water_k) * evaporation
    gain = (1.0 - WATER_ALBEDO) * sunlight - to_sky - to_air - latent
    tide = WATER_HEAT_J_PER_M3_K * SHALLOWS_DEPTH_M / TIDE_S * (state.sea_k - state.shallows_k)

    land_to_sky = float(net_thermal_radiation(state.air_k, state.air_k, sky, LAND_EMISSIVITY))
    land = LAND_HEATS_AIR * ((1.0 - LAND_ALBEDO) * sunlight - land_to_sky)
    air_gain = SEA_SHARE * float(to_air[0]) + SHALLOWS_SHARE * float(to_air[1]) + LAND_SHARE * land
    if land > 0.0:
        state.stirring_j_m2 += land * STEP_S
    else:
        state.stirring_j_m2 *= 1.0 - STEP_S / CALM_AGAIN_S

    sea_gain = float(gain[0]) - tide * SHALLOWS_SHARE / SEA_SHARE
    state.sea_k += STEP_S * sea_gain / (WATER_HEAT_J_PER_M3_K * SEA_DEPTH_M)
    state.shallows_k += STEP_S * (float(gain[1]) + tide) / (WATER_HEAT_J_PER_M3_K * SHALLOWS_DEPTH_M)
    state.air_k += STEP_S * (air_gain / (AIR_KG_PER_M2 * AIR_HEAT_CAPACITY_J_PER_KG_K) - AIR_COOLING_K_PER_S)
    return evaporation


def water_fluxes(state: State, evaporation_mm_s: FloatArray, condensation: float) -> Fluxes:
    """What passes between the stores in this step, all from where the water stood when it began."""
    depth = max(state.top_m - state.base_m, THINNEST_CLOUD_M)
    forming = float(rain_forming_rate(state.cloud / depth)) * depth * STEP_S
    fall_s = max(state.base_m, THINNEST_CLOUD_M) / fall_speed(state.rain_rate_m_s)
    rain = state.falling * float(released_share(STEP_S, fall_s))
    runoff = rain * runoff_share(state.rain_so_far, rain / LAND_SHARE)
    return Fluxes(
        sea_evaporation=SEA_SHARE * STEP_S * float(evaporation_mm_s[0]),
        shallows_evaporation=SHALLOWS_SHARE * STEP_S * float(evaporation_mm_s[1]),
        tide=(1000.0 * SHALLOWS_DEPTH_M * SHALLOWS_SHARE - state.shallows) * TIDE_STEP,
        condensation=condensation,
        drying_up=0.0 if condensation > 0.0 else state.cloud * CLOUD_GONE_STEP,
        rain_forming=forming,
        rain=rain,
        runoff=runoff,
        soaking=rain - runoff,
        seeping=state.hillside * HILLSIDE_STEP,
        returning=state.river * RIVER_STEP,
    )


def apply(state: State, fluxes: Fluxes) -> None:
    """Every store takes its own fluxes: what one gives, another gets, to the last digit."""
    state.sea += fluxes.returning - fluxes.sea_evaporation - fluxes.tide
    state.shallows += fluxes.tide - fluxes.shallows_evaporation
    state.vapour += fluxes.sea_evaporation + fluxes.shallows_evaporation + fluxes.drying_up - fluxes.condensation
    state.cloud += fluxes.condensation - fluxes.drying_up - fluxes.rain_forming
    state.falling += fluxes.rain_forming - fluxes.rain
    state.hillside += fluxes.soaking - fluxes.seeping
    state.river += fluxes.runoff + fluxes.seeping - fluxes.returning
    state.rain_so_far += fluxes.rain / LAND_SHARE
    state.rain_rate_m_s = fluxes.rain / LAND_SHARE / 1000.0 / STEP_S


def total_moved(fluxes: Fluxes) -> float:
    """Water that changed stores in a step, tide apart, mm."""
    names = (name for name in Fluxes.__slots__ if name != "tide")
    return float(sum(abs(getattr(fluxes, name)) for name in names))


def drop_diameter(rain_rate_m_s: float) -> float:
    """The median raindrop at this rain rate, never smaller than drizzle, m."""
    if rain_rate_m_s < 1.0e-3 * MM_PER_HOUR:
        return SMALLEST_DROP_M
    return max(float(median_drop_diameter(rain_rate_m_s)), SMALLEST_DROP_M)


def fall_speed(rain_rate_m_s: float) -> float:
    """How fast the median drop of this rain falls, m/s."""
    diameter_m = drop_diameter(rain_rate_m_s)
    return float(drizzle_fall_speed(diameter_m) if diameter_m < DRIZZLE_BELOW_M else drop_fall_speed(diameter_m))


def runoff_share(rain_before_mm: float, rain_mm: float) -> float:
    """The share of a step's rain on land that runs off at once: town and pasture, each by its curve number."""
    if rain_mm <= 0.0:
        return 0.0
    before_m, after_m = rain_before_mm / 1000.0, (rain_before_mm + rain_mm) / 1000.0
    town, pasture = (
        float(direct_runoff(after_m, curve) - direct_runoff(before_m, curve)) for curve in (TOWN_CURVE, PASTURE_CURVE)
    )
    return (TOWN_SHARE * town + (1.0 - TOWN_SHARE) * pasture) * 1000.0 / rain_mm
