"""The water cycle: one day of water over a harbour town, from dawn to dawn."""

from __future__ import annotations

from collections.abc import Mapping
from math import radians

import numpy as np

from sonify.constants import MOLAR_MASS_WATER_KG_PER_MOL, STANDARD_ATMOSPHERE_PA, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import quantities, stages
from sonify.processes.specs import Declared, quantity_spec
from sonify.processes.telling import Stretch
from sonify.processes.water_cycle_journey import journey
from sonify.processes.water_cycle_missing import missing, nothing
from sonify.processes.water_cycle_model import (
    AIR_KG_PER_M2,
    LAND_SHARE,
    STEP_S,
    STORES,
    Morning,
    drop_diameter,
    fall_speed,
)
from sonify.processes.water_cycle_stages import RAIN_M_S, STAGES, Day, found, observe
from sonify.processes.water_cycle_words import events, told
from sonify.records.fact import Amount, fact, wrong
from sonify.records.process import ConditionSpec, ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.humidity import relative_humidity, vapour_pressure
from sonify.science.kinetic import mean_speed

TRAVELLER = "the water on its journey"

_DECLARED = Declared("water_cycle")

CONDITIONS = (
    ConditionSpec(
        name="latitude",
        meaning=_DECLARED.words("condition", "latitude"),
        unit="deg",
        si_unit="rad",
        default=radians(54.0),
        low=radians(-65.0),
        high=radians(65.0),
    ),
    ConditionSpec(
        name="day",
        meaning=_DECLARED.words("condition", "day"),
        unit="1",
        si_unit="1",
        default=172.0,
        low=1.0,
        high=365.0,
        whole=True,
    ),
    ConditionSpec(
        name="sea_temperature",
        meaning=_DECLARED.words("condition", "sea_temperature"),
        unit="degC",
        si_unit="K",
        default=ZERO_CELSIUS_K + 14.0,
        low=ZERO_CELSIUS_K,
        high=ZERO_CELSIUS_K + 30.0,
    ),
    ConditionSpec(
        name="humidity",
        meaning=_DECLARED.words("condition", "humidity"),
        unit="%",
        si_unit="1",
        default=0.72,
        low=0.05,
        high=1.0,
    ),
    ConditionSpec(
        name="wind",
        meaning=_DECLARED.words("condition", "wind"),
        unit="m/s",
        si_unit="m/s",
        default=4.0,
        low=1.0,
        high=20.0,
    ),
    ConditionSpec(
        name="hill_height",
        meaning=_DECLARED.words("condition", "hill_height"),
        unit="m",
        si_unit="m",
        default=900.0,
        low=0.0,
        high=3000.0,
    ),
    ConditionSpec(
        name="air_temperature",
        meaning=_DECLARED.words("condition", "air_temperature"),
        unit="degC",
        si_unit="K",
        default=ZERO_CELSIUS_K + 11.0,
        low=ZERO_CELSIUS_K,
        high=ZERO_CELSIUS_K + 32.0,
    ),
)


_TEMPERATURE, _RATE, _DEPTH, _HEIGHT = ("degC", "K"), ("mm/h", "m/s"), ("mm", "m"), ("m", "m")

QUANTITIES = (
    _DECLARED.quantity("sun height", "h", ("deg", "rad"), true_zero=False),
    _DECLARED.quantity("sunlight", "G", ("W/m**2", "W/m**2")),
    quantity_spec(
        "sea temperature", "T_s", _TEMPERATURE, _DECLARED.words("quantity", "sea temperature"), whose="the deep sea"
    ),
    quantity_spec(
        "shallows temperature",
        "T_f",
        _TEMPERATURE,
        _DECLARED.words("quantity", "shallows temperature"),
        whose="the shallows",
    ),
    quantity_spec(
        "air temperature", "T_a", _TEMPERATURE, _DECLARED.words("quantity", "air temperature"), whose="the air"
    ),
    _DECLARED.quantity("relative humidity", "U", ("%", "1")),
    _DECLARED.quantity("evaporation rate", "E", _RATE),
    _DECLARED.quantity("water vapour", "W_v", _DEPTH),
    _DECLARED.quantity("cloud base", "z_b", _HEIGHT),
    _DECLARED.quantity("height the air climbs", "z_c", _HEIGHT),
    _DECLARED.quantity("condensation rate", "C", _RATE),
    _DECLARED.quantity("cloud water", "W_c", _DEPTH),
    _DECLARED.quantity("rain rate", "R", _RATE),
    _DECLARED.quantity("drop size", "D", ("mm", "m")),
    _DECLARED.quantity("drop fall speed", "v_d", ("m/s", "m/s")),
    _DECLARED.quantity("river flow", "Q", _RATE),
    _DECLARED.quantity("water in the sea", "W_s", _DEPTH),
    _DECLARED.quantity("water in the shallows", "W_f", _DEPTH),
    _DECLARED.quantity("falling rain", "W_r", _DEPTH),
    _DECLARED.quantity("water in the hillside", "W_h", _DEPTH),
    _DECLARED.quantity("water in the river", "W_q", _DEPTH),
    quantity_spec(
        "height of the water",
        "z",
        _HEIGHT,
        _DECLARED.words("quantity", "height of the water"),
        whose=TRAVELLER,
    ),
    quantity_spec(
        "journey temperature", "T", _TEMPERATURE, _DECLARED.words("quantity", "journey temperature"), whose=TRAVELLER
    ),
    quantity_spec(
        "mean molecule speed",
        "v",
        ("m/s", "m/s"),
        _DECLARED.words("quantity", "mean molecule speed"),
        whose=TRAVELLER,
        companion="journey temperature",
    ),
)

HONESTY = (
    *_DECLARED.honesty(9),
    fact("water_cycle-honesty-10", land=Amount(value=LAND_SHARE, unit="mm", given="our own choice")),
    _DECLARED.words("honesty", "11"),
    _DECLARED.words("honesty", "12"),
)

SOURCES = (
    "ALMANAC-1988",
    "AMS-GLOSSARY",
    "ATLAS-1973",
    "BOHREN-1987",
    "BOLTON-1980",
    "BRUTSAERT-1975",
    "CHOW-1988",
    "FAO-56",
    "GUNN-KINZER-1949",
    "HARRISON-1963",
    "HAURWITZ-1945",
    "KESSLER-1969",
    "MARSHALL-PALMER-1948",
    "MEEUS-1998",
    "MURPHY-KOOP-2005",
    "OPENSTAX-UP2",
    "ROGERS-YAU-1989",
    "STEPHENS-1978",
    "STULL-1988",
    "TR-55",
    "UNSWORTH-MONTEITH-1975",
    "USSA-1976",
    "VAN-DER-ENT-2017",
    "WALLACE-HOBBS-2006",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The day that follows from the conditions (SI units): quantities, the stages found, and what was conserved.

    Raises BadCondition for a day without a single stage (dew and no cloud in the dark of a polar winter).
    """
    day = observe(Morning.of(conditions))
    spans = found(day)
    if not spans:
        condition, advice = nothing(day)
        raise BadCondition(condition, wrong("error_processes-nothing-water-cycle", advice=advice))
    made = quantities(QUANTITIES, quantity_values(day, spans))
    whole = Stretch.whole(day["time_s"], made, day.morning.sunrise_h)
    return Timeline(
        process=PROCESS.name,
        time_s=day["time_s"],
        quantities=made,
        stages=stages(STAGES, spans, day["time_s"], told(whole, spans)),
        events=events(day, whole, spans),
        missing=missing(day, whole, spans),
        conserved=(Conserved(name="water", relative_drift=drift(day)),),
        clock_start=day.morning.sunrise_h,
    )


def quantity_values(day: Day, spans: dict[str, tuple[int, int]]) -> dict[str, FloatArray]:
    """Every quantity in SI units by name."""
    traveller = journey(day, spans)
    e_air = vapour_pressure(day["vapour"] / AIR_KG_PER_M2, STANDARD_ATMOSPHERE_PA)
    rain = day["rain_rate_m_s"]
    falls = rain >= RAIN_M_S
    per_step = 1.0e-3 / STEP_S  # mm in a step to m/s
    return {
        "sun height": day["sun_rad"],
        "sunlight": day["sunlight"],
        "sea temperature": day["sea_k"],
        "shallows temperature": day["shallows_k"],
        "air temperature": day["air_k"],
        "relative humidity": relative_humidity(e_air, day["air_k"]),
        "evaporation rate": day.evaporation_mm_h * 1.0e-3 / 3600.0,
        "water vapour": day["vapour"] * 1.0e-3,
        "cloud base": day.lcl_m,
        "height the air climbs": day.climb_m,
        "condensation rate": day["condensation"] * per_step,
        "cloud water": day["cloud"] * 1.0e-3,
        "rain rate": rain,
        "drop size": np.array([drop_diameter(r) if some else 0.0 for r, some in zip(rain, falls, strict=True)]),
        "drop fall speed": np.array([fall_speed(r) if some else 0.0 for r, some in zip(rain, falls, strict=True)]),
        "river flow": day["returning"] / LAND_SHARE * per_step,
        "water in the sea": day["sea"] * 1.0e-3,
        "water in the shallows": day["shallows"] * 1.0e-3,
        "falling rain": day["falling"] * 1.0e-3,
        "water in the hillside": day["hillside"] * 1.0e-3,
        "water in the river": day["river"] * 1.0e-3,
        "height of the water": traveller.height_m,
        "journey temperature": traveller.temperature_k,
        "mean molecule speed": mean_speed(traveller.temperature_k, MOLAR_MASS_WATER_KG_PER_MOL),
    }


def drift(day: Day) -> float:
    """The largest change of all stores' water together, relative to the water that moved between them."""
    total = np.sum([day[store] for store in STORES], axis=0)
    return float(np.max(np.abs(total - total[0])) / day["moved"][-1])


PROCESS = ProcessSpec(
    name="water-cycle",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    cycle=True,
)
