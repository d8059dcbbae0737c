"""Fresh water from salt water by sunlight: one day of a covered basin, its heat, its water and its salt."""

from __future__ import annotations

from collections.abc import Mapping
from math import radians

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import BadCondition, OutOfRange
from sonify.processes import solar_still_words as words
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.solar_still_model import KEPT_EVERY, Day, Setup, simulate
from sonify.processes.specs import Declared, always, quantity_spec
from sonify.processes.telling import Stretch
from sonify.records.fact import wrong
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline

_SHARE, _DEGREES = ("%", "1"), ("deg", "rad")

_DECLARED = Declared("solar_still")

CONDITIONS = (
    _DECLARED.condition(
        "latitude",
        _DEGREES,
        radians(12.0),
        (radians(-60.0), radians(60.0)),
    ),
    _DECLARED.condition("day", ("1", "1"), 80.0, (1.0, 365.0), whole=True),
    _DECLARED.condition("cloud", _SHARE, 0.2, (0.0, 1.0)),
    _DECLARED.condition(
        "air_by_night",
        ("degC", "K"),
        ZERO_CELSIUS_K + 24.0,
        (ZERO_CELSIUS_K + 8.0, ZERO_CELSIUS_K + 32.0),
    ),
    _DECLARED.condition(
        "air_by_day",
        ("degC", "K"),
        ZERO_CELSIUS_K + 30.0,
        (ZERO_CELSIUS_K + 10.0, ZERO_CELSIUS_K + 42.0),
    ),
    _DECLARED.condition("humidity", _SHARE, 0.75, (0.2, 1.0)),
    _DECLARED.condition("wind", ("m/s", "m/s"), 4.0, (0.5, 15.0)),
    _DECLARED.condition("area", ("m**2", "m**2"), 1.0, (0.05, 20.0)),
    _DECLARED.condition("depth", ("cm", "m"), 0.02, (0.01, 0.2)),
    _DECLARED.condition("saltiness", _SHARE, 0.035, (0.001, 0.25)),
    _DECLARED.condition(
        "insulation",
        ("W/m**2/K", "W/m**2/K"),
        3.0,
        (0.3, 10.0),
    ),
)


_TEMPERATURE, _LITRES, _ML, _HOURLY = ("degC", "K"), ("l", "m**3"), ("ml", "m**3"), ("ml/h", "m**3/s")
_GRAMS, _HEAT = ("g", "kg"), ("MJ", "J")

QUANTITIES = (
    _DECLARED.quantity("sun height", "h", ("deg", "rad"), true_zero=False),
    _DECLARED.quantity("sunlight", "G", ("W/m**2", "W/m**2")),
    _DECLARED.quantity("air temperature", "T_a", _TEMPERATURE),
    quantity_spec(
        "brine temperature",
        "T_b",
        _TEMPERATURE,
        _DECLARED.words("quantity", "brine temperature"),
        whose="the salt water",
    ),
    quantity_spec(
        "cover temperature", "T_c", _TEMPERATURE, _DECLARED.words("quantity", "cover temperature"), whose="the cover"
    ),
    _DECLARED.quantity("evaporation rate", "E", _HOURLY),
    _DECLARED.quantity("dripping rate", "D", _HOURLY),
    _DECLARED.quantity("water in the basin", "V_b", _LITRES),
    _DECLARED.quantity("drops on the cover", "V_c", _ML),
    _DECLARED.quantity("fresh water", "V", _LITRES),
    _DECLARED.quantity("salt in the basin", "m_s", _GRAMS),
    _DECLARED.quantity("dissolved salt", "m_d", _GRAMS),
    _DECLARED.quantity("salt crystals", "m_c", _GRAMS),
    _DECLARED.quantity("saltiness", "S", ("g/kg", "1")),
    _DECLARED.quantity("heat taken in", "Q_in", _HEAT),
    _DECLARED.quantity("heat given off", "Q_out", _HEAT),
    _DECLARED.quantity("heat in the still", "Q", _HEAT),
)

HONESTY = _DECLARED.honesty(8)

SOURCES = (
    "ALMANAC-1988",
    "BRUTSAERT-1975",
    "DUNKLE-1961",
    "HAURWITZ-1945",
    "KASTEN-CZEPLAK-1980",
    "MEEUS-1998",
    "MURPHY-KOOP-2005",
    "OPENSTAX-UP2",
    "ROBINSON-STOKES-1959",
    "SALT-TABLE",
    "SHARQAWY-2010",
    "TEOS-10",
    "UNSWORTH-MONTEITH-1975",
    "WAGNER-PRUSS-1993",
    "WATMUFF-1977",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The still's day that follows from the conditions (SI units).

    Raises BadCondition where the day is colder than the night, the cover would freeze or the basin boil.
    """
    setup = Setup.of(conditions)
    if setup.air_by_day < setup.air_by_night:
        coolest = setup.air_by_night - ZERO_CELSIUS_K
        raise BadCondition("air_by_day", wrong("error_processes-colder-night-allowed-2", coolest=f"{coolest:g}"))
    try:
        day = simulate(setup)
    except OutOfRange as beyond:
        raise _frozen_or_boiling(beyond, setup) from beyond
    came = words.found(day)
    made = quantities(QUANTITIES, _values(day))
    whole = Stretch.whole(day.time_s, made, setup.sunrise_h)
    return Timeline(
        process=PROCESS.name,
        time_s=day.time_s,
        quantities=made,
        stages=stages(words.STAGES, came, day.time_s, words.told(day, whole, came)),
        events=words.events(day, whole, came),
        missing=words.missing(day, whole, came, conditions, CONDITIONS),
        conserved=_conserved(day),
        clock_start=day.setup.sunrise_h,
    )


def _frozen_or_boiling(beyond: OutOfRange, setup: Setup) -> BadCondition:
    """What stands in the way of a day for which a formula was asked beyond its range."""
    if beyond.value < ZERO_CELSIUS_K + 50.0:
        night = setup.air_by_night - ZERO_CELSIUS_K
        return BadCondition("air_by_night", wrong("error_processes-under-sky-freezes", night=f"{night:g}"))
    depth = 100.0 * setup.depth
    return BadCondition(
        "depth",
        wrong("error_processes-cm-salt-water", depth=f"{depth:g}"),
    )


def _values(day: Day) -> dict[str, FloatArray]:
    area, weather = day.setup.area, day.weather
    volume = area * 1.0e-3  # m³ for a kilogram on a square metre
    salt = day["dissolved"] + day["crystals"]
    return {
        "sun height": weather.sun_rad[::KEPT_EVERY],
        "sunlight": weather.sunlight[::KEPT_EVERY],
        "air temperature": weather.air_k[::KEPT_EVERY],
        "brine temperature": day["basin_k"],
        "cover temperature": day["cover_k"],
        "evaporation rate": volume * day["evaporation"],
        "dripping rate": volume * day["dripping"],
        "water in the basin": volume * day["brine"],
        "drops on the cover": volume * day["film"],
        "fresh water": volume * day["cup"],
        "salt in the basin": area * salt,
        "dissolved salt": area * day["dissolved"],
        "salt crystals": area * day["crystals"],
        "saltiness": day["dissolved"] / (day["dissolved"] + day["brine"]),
        "heat taken in": area * day["taken_j"],
        "heat given off": area * day["given_j"],
        "heat in the still": area * (day["basin_j"] + day["cover_j"]),
    }


def _conserved(day: Day) -> tuple[Conserved, ...]:
    """Salt does not move from basin to cup, so its drift is measured against all there is."""
    salt = float(day["dissolved"][0])
    heat = [day["basin_j"], day["cover_j"], -day["taken_j"], day["given_j"]]
    moved_j = float(np.max(day["taken_j"]) + np.max(np.abs(day["given_j"])))
    return (
        Conserved(name="water", relative_drift=drift([day["brine"], day["film"], day["cup"]], float(day["moved"][-1]))),
        Conserved(name="salt", relative_drift=drift([day["dissolved"], day["crystals"]], salt)),
        Conserved(name="energy", relative_drift=drift(heat, moved_j)),
    )


PROCESS = ProcessSpec(
    name="solar-still",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=words.STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    cautions=always("taste", "sun"),
)
