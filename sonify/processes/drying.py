"""Drying: a puddle on the playground goes into the air, faster in sun, wind and dry air."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import MOLAR_MASS_WATER_KG_PER_MOL, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import Adviser, drift, first, quantities, spans, stages
from sonify.processes.drying_model import HEATS, STORES, Weather, simulate
from sonify.processes.drying_words import LEFT_IN_PATCHES, NEARLY, Day, events, reason, told
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch
from sonify.records.fact import Amount, Duration, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline
from sonify.science.kinetic import mean_speed
from sonify.science.saturation import saturation_vapour_pressure

LEAST_GONE = 0.02  # of the water: less, and nothing can be said to dry
_REFUSED = "of a run that gives no piece"

_DECLARED = Declared("drying")
_KELVIN, _LENGTH = ("degC", "K"), ("mm", "m")

CONDITIONS = (
    _DECLARED.condition("depth", _LENGTH, 4.0e-3, (0.3e-3, 30.0e-3)),
    _DECLARED.condition("width", ("m", "m"), 1.5, (0.1, 10.0)),
    _DECLARED.condition(
        "water_temperature", _KELVIN, ZERO_CELSIUS_K + 12.0, (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 40.0)
    ),
    _DECLARED.condition(
        "air_temperature", _KELVIN, ZERO_CELSIUS_K + 20.0, (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 40.0)
    ),
    _DECLARED.condition("humidity", ("%", "1"), 0.5, (0.05, 1.0)),
    _DECLARED.condition("wind", ("m/s", "m/s"), 4.0, (0.0, 15.0)),
    _DECLARED.condition("sunlight", ("W/m**2", "W/m**2"), 600.0, (0.0, 1000.0)),
)

STAGES = (
    _DECLARED.stage("warming"),
    _DECLARED.stage("drying"),
    _DECLARED.stage("patches"),
    _DECLARED.stage("dry"),
)
ORDER = tuple(stage.name for stage in STAGES)


_MASS, _ENERGY = ("kg", "kg"), ("kJ", "J")

QUANTITIES = (
    _DECLARED.quantity("puddle temperature", "T", _KELVIN),
    _DECLARED.quantity("mean molecule speed", "v", ("m/s", "m/s"), companion="puddle temperature"),
    _DECLARED.quantity("water left", "M", _MASS),
    _DECLARED.quantity("water in the air", "V", _MASS),
    _DECLARED.quantity("puddle area", "A", ("m**2", "m**2")),
    _DECLARED.quantity("puddle depth", "h", _LENGTH),
    _DECLARED.quantity("evaporation rate", "E", ("mm/h", "m/s")),
    _DECLARED.quantity("water leaving", "L", ("g/min", "kg/s")),
    _DECLARED.quantity("pull of the air", "D", ("hPa", "Pa")),
    _DECLARED.quantity("heat from the sun", "Q_s", _ENERGY),
    _DECLARED.quantity("heat spent on evaporation", "Q_e", _ENERGY),
)

HONESTY = _DECLARED.honesty(9)

SOURCES = (
    "BOWEN-1926",
    "BRUTSAERT-1975",
    "FAO-56",
    "HARRISON-1963",
    "HAYASHI-VAN-DER-KAMP-2000",
    "MURPHY-KOOP-2005",
    "OPENSTAX-UP2",
    "PONCE-1989",
    "UNSWORTH-MONTEITH-1975",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The drying that follows from the conditions (SI units).

    Raises BadCondition where the air takes up nothing, the puddle freezes, or the formulae do not reach.
    """
    weather = Weather.of(conditions)
    day = simulate(weather)
    if day["vapour_kg"][-1] < LEAST_GONE * weather.full_kg:
        gone = float(day["vapour_kg"][-1])
        share = Amount(value=100.0 * gone / weather.full_kg, digits=2, given=_REFUSED)
        what = fact("error_processes-only-evaporates", share=share) if gone > 0.0 else fact("error_processes-dew")
        watched = Duration(seconds=float(day["time_s"][-1]), given=_REFUSED)
        value = f"{100.0 * weather.humidity:.0f}"
        raise BadCondition(
            "humidity", fact("error_processes-air-humidity-take", value=value, what=what, watched=watched)
        )
    found = stage_spans(day)
    made = quantities(QUANTITIES, quantity_values(weather, day))
    whole = Stretch.whole(day["time_s"], made)
    return Timeline(
        process=PROCESS.name,
        time_s=day["time_s"],
        quantities=made,
        stages=stages(STAGES, found, day["time_s"], told(weather, whole, found)),
        events=events(day, whole, found),
        missing=missing(day, whole, found, conditions),
        conserved=(
            Conserved(name="water", relative_drift=drift([day[name] for name in STORES], float(day["vapour_kg"][-1]))),
            Conserved(name="energy", relative_drift=energy_drift(day)),
        ),
    )


def stage_spans(day: Day) -> dict[str, tuple[int, int]]:
    """The stages that came: first and last minute of each."""
    rate, water = day["rate_kg_m2_s"], day["water_kg"]
    steady = first(rate >= NEARLY * rate.max())
    return spans(
        {
            "warming": 0,
            "drying": steady,
            "patches": first(water <= LEFT_IN_PATCHES * water[0]),
            "dry": first(water <= 0.0),
        },
        len(water) - 1,
    )


def energy_drift(day: Day) -> float:
    """The largest drift of heat held, left behind and passed on against the sun's, relative to all that moved."""
    held, sun, *rest = (day[name] for name in HEATS)
    moved = float(sum(np.sum(np.abs(np.diff(store))) for store in (sun, *rest)))
    return drift([held, -sun, *rest], moved)


def quantity_values(weather: Weather, day: Day) -> dict[str, FloatArray]:
    """Every quantity in SI units by name."""
    surface_k = day["surface_k"]
    wet = day["water_kg"] > 0.0
    return {
        "puddle temperature": surface_k,
        "mean molecule speed": mean_speed(surface_k, MOLAR_MASS_WATER_KG_PER_MOL),
        "water left": day["water_kg"],
        "water in the air": day["vapour_kg"],
        "puddle area": day["area_m2"],
        "puddle depth": day["depth_m"],
        "evaporation rate": day["rate_kg_m2_s"] / 1000.0,  # a kilogram on a square metre is a millimetre
        "water leaving": day["leaving_kg_s"],
        "pull of the air": np.where(wet, saturation_vapour_pressure(surface_k) - weather.vapour_pa, 0.0),
        "heat from the sun": day["sun_j"],
        "heat spent on evaporation": day["spent_j"],
    }


def missing(
    day: Day, whole: Stretch, found: Mapping[str, tuple[int, int]], conditions: Mapping[str, float]
) -> tuple[Missing, ...]:
    """Why each stage that did not come stayed away, and which condition to change."""
    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=_stages_under)
    depth = conditions["depth"]
    less = [("sunlight", 600.0), ("wind", 8.0), ("depth", 2.0e-3), ("humidity", 0.3)]
    changes = {
        "warming": [("water_temperature", ZERO_CELSIUS_K + 5.0), ("sunlight", 800.0), ("air_temperature", 303.15)],
        "drying": [("depth", 2.0 * depth), ("depth", 5.0 * depth)],
        "patches": less,
        "dry": less,
    }
    return tuple(adviser.missing(name, reason(name, day, whole), changes[name]) for name in ORDER if name not in found)


def _stages_under(conditions: Mapping[str, float]) -> list[str]:
    try:
        return list(stage_spans(simulate(Weather.of(conditions))))
    except BadCondition:
        return []


PROCESS = ProcessSpec(
    name="drying",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    cautions=always("sun"),
)
