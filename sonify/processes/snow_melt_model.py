"""Spring in a mountain valley, twenty minutes by twenty minutes: snow, the water in it, ground water, the stream.

The valley is cut into bands of equal area, from its floor to the ridge; the higher, the colder and the more snow. Each
band's snow takes up what sun, sky and wind give it and loses what the night takes: first its frost is made good, then
it melts; at night its water freezes again. All water is in mm over the whole valley (1 mm is 1 kg on a square metre).
Every store adds up its own fluxes: none is "the rest", so a leak would show, of water as of heat.

The constants below are choices of ours where no source is named; the teacher's notes say so.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import DAY_S, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.frozen import dataclass
from sonify.records.fact import wrong
from sonify.records.timeline import FloatArray
from sonify.science.atmosphere import STANDARD_LAPSE_K_PER_M
from sonify.science.evaporation import heat_to_air, transfer_coefficient, wind_evaporation
from sonify.science.heating import ICE_J_PER_KG_K, MELTING_J_PER_KG
from sonify.science.radiation import clear_sky_sunlight, net_thermal_radiation, sky_emissivity
from sonify.science.runoff import released_share
from sonify.science.saturation import dew_point, latent_heat_of_vaporisation, saturation_vapour_pressure
from sonify.science.snow import snow_surface_temperature, vapour_pressure_over_ice
from sonify.science.still import sunlight_through_cloud
from sonify.science.sun import days_since_2000, declination, sun_height

STEP_S = 1200.0
STEPS_A_DAY = round(DAY_S / STEP_S)
BANDS = 24
_SHARES = np.full(BANDS, 1.0 / BANDS)  # of the valley's area
CALENDAR_YEAR = 2025  # midway between leap years

WARMEST_H, COLDEST_H = 15.0, 3.0  # by the Sun; the day's wave is a cosine: common practice
SNOW_EMISSIVITY = 0.98  # common textbook value
SNOW_ROUGHNESS_M = 0.001  # as two snow models take it
WIND_OVER_SNOW = float(transfer_coefficient(2.0, SNOW_ROUGHNESS_M))
HOLDS = 0.03  # of its weight: melt water that clings in the pores of snow, as two snow models take it
SEEPING_S = 2.0 * 3600.0  # how long melt water takes down through the snow
STREAM_S = 2.0 * 3600.0  # and down the stream, out of the valley
SEEP_STEP, STREAM_STEP = (float(released_share(STEP_S, residence_s)) for residence_s in (SEEPING_S, STREAM_S))
BARE_MM = 0.5  # snow with less water than this counts as gone
WARMEST_K, COLDEST_K = ZERO_CELSIUS_K + 35.0, ZERO_CELSIUS_K - 38.0  # of the air: the formulae of the sky cover it
GONE_MM = 1.0e-6  # snow thinner than this is none: rounding's last crumbs
SUBLIMING_J_PER_KG = float(latent_heat_of_vaporisation(ZERO_CELSIUS_K)) + MELTING_J_PER_KG


@dataclass(frozen=True, slots=True)
class Valley:
    """What the spring starts from, in SI units."""

    latitude: float
    day: float
    days: float
    valley_depth: float
    snow_low: float
    snow_high: float
    snow_temperature: float
    snow_whiteness: float
    night_temperature: float
    afternoon_temperature: float
    warming: float
    humidity: float
    wind: float
    cloud: float
    ground_water: float
    ground_intake: float
    ground_time: float
    area: float

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Valley:
        return cls(**{name: float(conditions[name]) for name in cls.__slots__})

    @property
    def steps(self) -> int:
        return round(self.days) * STEPS_A_DAY

    @property
    def heights_m(self) -> FloatArray:
        """Of the middle of each band above the valley's floor."""
        return (np.arange(BANDS) + 0.5) / BANDS * self.valley_depth

    @property
    def snow_mm(self) -> FloatArray:
        """The snow of each band as water."""
        share = (np.arange(BANDS) + 0.5) / BANDS
        return 1000.0 * (self.snow_low + share * (self.snow_high - self.snow_low))


@dataclass(frozen=True, slots=True, eq=False)
class Weather:
    """Sun and air over the run (times by bands), and what they give a square metre of snow in a step.

    melting, frozen: heat (J) left over for warming and melting where the surface is at 0 °C, or as cold as the dew
    point; drying, frosty: the vapour (kg) that goes off meanwhile, negative where frost forms.
    """

    time_s: FloatArray
    sun_rad: FloatArray
    sunlight: FloatArray
    air_k: FloatArray
    surface_k: FloatArray
    melting: FloatArray
    frozen: FloatArray
    drying: FloatArray
    frosty: FloatArray


@dataclass(slots=True)
class State:
    """Where the water is: of the bands mm on each, of the valley mm over all of it. Changed in place.

    cold: the heat it takes to bring each band's snow to 0 °C, J/m². heat: what the snow has been given since the
    start, J/m² over the valley.
    """

    snow: FloatArray
    wet: FloatArray
    cold: FloatArray
    ground: float
    stream: float = 0.0
    gone: float = 0.0
    air: float = 0.0
    heat: float = 0.0
    moved: float = 0.0
    heat_moved: float = 0.0


def checked(valley: Valley) -> Valley:
    """The valley, where its conditions go together. Raises BadCondition."""
    if float(valley.snow_mm.max()) < BARE_MM:
        raise BadCondition("snow_high", wrong("error_processes-snow-melt-allowed", bare_mm=f"{BARE_MM:g}"))
    if valley.snow_low > valley.snow_high:
        most_mm = f"{1000.0 * valley.snow_high:.4g}"
        raise BadCondition("snow_low", wrong("error_processes-more-snow-valley", most=most_mm))
    if valley.afternoon_temperature < valley.night_temperature:
        night = celsius(valley.night_temperature)
        raise BadCondition("afternoon_temperature", wrong("error_processes-colder-night-allowed", night=night))
    gained = valley.warming * valley.days * DAY_S
    warmest = valley.afternoon_temperature + max(gained, 0.0)
    if warmest > WARMEST_K:
        most = (WARMEST_K - valley.afternoon_temperature) / valley.days
        told = wrong("error_processes-last-day-air", warmest=celsius(warmest), most=f"{most:.2g}")
        raise BadCondition("warming", told)
    coldest = valley.night_temperature + min(gained, 0.0) - STANDARD_LAPSE_K_PER_M * valley.valley_depth
    if coldest < COLDEST_K:
        told = wrong("error_processes-ridge-cold-formulae", coldest=celsius(coldest), least=celsius(COLDEST_K))
        raise BadCondition("night_temperature", told)
    return valley


def celsius(temperature_k: float) -> str:
    return f"{temperature_k - ZERO_CELSIUS_K:.1f} °C".replace("-0.0 °C", "0.0 °C").replace("-", "−")


def weather(valley: Valley) -> Weather:
    """Sun, air and the heat for snow over the whole run."""
    time_s = np.arange(valley.steps + 1, dtype=np.float64) * STEP_S
    hour = time_s / 3600.0 % 24.0
    day = valley.day + time_s / DAY_S
    delta = declination(days_since_2000(CALENDAR_YEAR, 1.0) + day - 1.0)
    sun_rad = sun_height(valley.latitude, delta, np.radians(15.0 * (hour - 12.0)))
    sunlight = clear_sky_sunlight(sun_rad) * sunlight_through_cloud(valley.cloud)
    middle = 0.5 * (valley.night_temperature + valley.afternoon_temperature)
    swing = 0.5 * (valley.afternoon_temperature - valley.night_temperature)
    wave = swing * np.cos(2.0 * np.pi * (hour - WARMEST_H) / 24.0)
    mean_k = (middle + valley.warming * time_s)[:, None] - STANDARD_LAPSE_K_PER_M * valley.heights_m
    air_k = mean_k + wave[:, None]
    vapour_pa = np.minimum(valley.humidity * saturation_vapour_pressure(mean_k), saturation_vapour_pressure(air_k))
    surface_k = snow_surface_temperature(dew_point(vapour_pa))
    sky = sky_emissivity(air_k, vapour_pa, valley.cloud)
    given = (1.0 - valley.snow_whiteness) * sunlight[:, None]

    def heat_and_vapour(snow_k: FloatArray) -> tuple[FloatArray, FloatArray]:
        to_sky = net_thermal_radiation(snow_k, air_k, sky, SNOW_EMISSIVITY)
        to_air = heat_to_air(valley.wind, snow_k - air_k, air_k, WIND_OVER_SNOW)
        deficit = vapour_pressure_over_ice(snow_k) - vapour_pa
        vapour = wind_evaporation(valley.wind, deficit, air_k, WIND_OVER_SNOW)
        return STEP_S * (given - to_sky - to_air - SUBLIMING_J_PER_KG * vapour), STEP_S * vapour

    melting, drying = heat_and_vapour(np.full_like(air_k, ZERO_CELSIUS_K))
    frozen, frosty = heat_and_vapour(surface_k)
    return Weather(time_s, sun_rad, sunlight, air_k, surface_k, melting, frozen, drying, frosty)


#: What is kept of every step. Stores first, mm over the valley; then fluxes in the step that follows, mm.
STORES = ("snow", "wet", "ground", "stream", "gone", "air")
FLUXES = ("melt", "freezing", "outflow", "springs", "leaving")


def simulate(valley: Valley) -> tuple[Weather, dict[str, FloatArray]]:
    """The spring in steps: STORES and FLUXES over time, "bands" (water of the
    snow, ice and liquid, times by bands), "cold" and "heat" (J/m²)."""
    sky = weather(valley)
    snow = valley.snow_mm
    state = State(
        snow=snow,
        wet=np.zeros(BANDS),
        cold=ICE_J_PER_KG_K * snow * (ZERO_CELSIUS_K - valley.snow_temperature),
        ground=1000.0 * valley.ground_water,
    )
    ground_step = float(released_share(STEP_S, valley.ground_time))
    state.stream = state.ground * ground_step / STREAM_STEP  # what the springs alone keep up
    intake_mm = 1000.0 * valley.ground_intake * STEP_S
    rows, bands = [], []
    for step in range(valley.steps + 1):
        row = [over_valley(state.snow), over_valley(state.wet), state.ground, state.stream, state.gone, state.air]
        row += [over_valley(state.cold), state.heat, state.moved, state.heat_moved]
        bands.append(state.snow + state.wet)
        melt, freezing, outflow = snow_step(state, sky, step)
        row += [melt, freezing, over_valley(outflow), *water_step(state, outflow, intake_mm, ground_step)]
        rows.append(row)
    names = (*STORES, "cold", "heat", "moved", "heat_moved", *FLUXES)
    model = dict(zip(names, np.array(rows).T, strict=True))
    return sky, {**model, "bands": np.array(bands)}


def over_valley(band: FloatArray) -> float:
    """What the bands have, as a layer over the whole valley."""
    return float(_SHARES @ band)


def snow_step(state: State, sky: Weather, step: int) -> tuple[float, float, FloatArray]:
    """The snow of every band a step on, in place. Returns what melted and froze (mm over the valley), and what ran
    out of each band's snow (mm on the band)."""
    heat, vapour = offered(state, sky, step)
    dried = np.minimum(vapour, state.snow)
    # what dries off takes its frost along
    went_cold = state.cold * np.maximum(dried, 0.0) / np.maximum(state.snow, GONE_MM)
    snow, cold = state.snow - dried, state.cold - went_cold

    taken = np.minimum(np.maximum(heat, 0.0), cold + MELTING_J_PER_KG * snow)  # no more than melts it all
    warmed = np.minimum(taken, cold)
    melt = (taken - warmed) / MELTING_J_PER_KG
    lost = np.maximum(-heat, 0.0)
    freezing = np.minimum(lost / MELTING_J_PER_KG, state.wet)
    snow = snow - melt + freezing
    # no colder than its own surface: then as much comes from below as goes off above
    coldest = ICE_J_PER_KG_K * snow * (ZERO_CELSIUS_K - sky.surface_k[step])
    lost = np.minimum(lost, MELTING_J_PER_KG * freezing + np.maximum(coldest - cold, 0.0))
    chilled = np.maximum(lost - MELTING_J_PER_KG * freezing, 0.0)

    wet = state.wet + melt - freezing
    outflow = np.where(snow > GONE_MM, np.maximum(wet - HOLDS * snow, 0.0) * SEEP_STEP, wet)
    state.snow, state.wet, state.cold = snow, wet - outflow, cold - warmed + chilled
    carried_off = MELTING_J_PER_KG * dried + went_cold  # what dries off leaves that much less to warm and to melt
    state.air += over_valley(dried)
    state.heat += over_valley(taken - lost + carried_off)
    state.heat_moved += over_valley(taken + lost + np.abs(carried_off))
    state.moved += over_valley(melt + freezing + outflow + np.abs(dried))
    return over_valley(melt), over_valley(freezing), outflow


def offered(state: State, sky: Weather, step: int) -> tuple[FloatArray, FloatArray]:
    """Heat (J/m²) that sun, sky and wind give each band's snow in a step, negative by night; vapour (mm) that goes."""
    melting, frozen = sky.melting[step], sky.frozen[step]
    thawed = (state.cold <= 0.0) & (melting > 0.0)
    # between freezing and melting the surface settles where it gains nothing and loses nothing
    level = (state.cold <= 0.0) & (melting <= 0.0) & (frozen >= 0.0)
    heat = np.where(thawed, melting, np.where(level, 0.0, frozen))
    vapour = np.where(thawed, sky.drying[step], np.where(level, 0.0, sky.frosty[step]))
    lies = state.snow > 0.0
    return np.where(lies, heat, 0.0), np.where(lies, vapour, 0.0)


def water_step(state: State, outflow: FloatArray, intake_mm: float, ground_step: float) -> tuple[float, float]:
    """Ground and stream a step on, in place. Returns what came out of the ground and what left the valley, mm."""
    sinking = over_valley(np.minimum(outflow, intake_mm))
    running = over_valley(np.maximum(outflow - intake_mm, 0.0))
    springs, leaving = state.ground * ground_step, state.stream * STREAM_STEP
    state.ground += sinking - springs
    state.stream += running + springs - leaving
    state.gone += leaving
    state.moved += sinking + running + springs + leaving
    return springs, leaving
