"""Snow-melt: several spring days in a mountain valley, from the frozen night to the stream that ground water feeds."""

from __future__ import annotations

from collections.abc import Mapping
from math import radians

import numpy as np

from sonify.constants import DAY_S, ZERO_CELSIUS_K
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.snow_melt_model import STEP_S, STORES, Valley, checked
from sonify.processes.snow_melt_words import (
    STAGES,
    Spring,
    events,
    found,
    missing,
    observe,
    told,
)
from sonify.processes.specs import Declared, quantity_spec
from sonify.processes.telling import Stretch
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.heating import MELTING_J_PER_KG

_BARE, _KELVIN, _DEPTH, _SHARE = ("1", "1"), ("degC", "K"), ("mm", "m"), ("%", "1")


def _celsius(usual: float, low: float, high: float) -> tuple[float, tuple[float, float]]:
    return ZERO_CELSIUS_K + usual, (ZERO_CELSIUS_K + low, ZERO_CELSIUS_K + high)


_DECLARED = Declared("snow_melt")

CONDITIONS = (
    _DECLARED.condition(
        "latitude",
        ("deg", "rad"),
        radians(46.5),
        (radians(-65.0), radians(65.0)),
    ),
    _DECLARED.condition(
        "day",
        _BARE,
        110.0,
        (1.0, 365.0),
        whole=True,
    ),
    _DECLARED.condition("days", _BARE, 14.0, (2.0, 21.0), whole=True),
    _DECLARED.condition("valley_depth", ("m", "m"), 900.0, (100.0, 2000.0)),
    _DECLARED.condition("snow_low", _DEPTH, 0.050, (0.0, 2.0)),
    _DECLARED.condition("snow_high", _DEPTH, 0.180, (0.0, 3.0)),
    _DECLARED.condition("snow_temperature", _KELVIN, *_celsius(-4.0, -25.0, 0.0)),
    _DECLARED.condition(
        "snow_whiteness",
        _SHARE,
        0.65,
        (0.3, 0.95),
    ),
    _DECLARED.condition("night_temperature", _KELVIN, *_celsius(-4, -30, 20)),
    _DECLARED.condition("afternoon_temperature", _KELVIN, *_celsius(6, -20, 30)),
    _DECLARED.condition(
        "warming",
        ("K/day", "K/s"),
        0.8 / DAY_S,
        (-3.0 / DAY_S, 5.0 / DAY_S),
    ),
    _DECLARED.condition("humidity", _SHARE, 0.65, (0.1, 1.0)),
    _DECLARED.condition("wind", ("m/s", "m/s"), 2.0, (0.0, 15.0)),
    _DECLARED.condition("cloud", _SHARE, 0.2, (0.0, 1.0)),
    _DECLARED.condition("ground_water", _DEPTH, 0.010, (0.0, 0.5)),
    _DECLARED.condition("ground_intake", ("mm/h", "m/s"), 1.0e-3 / 3600.0, (0.0, 1e-4)),
    _DECLARED.condition("ground_time", ("day", "s"), 4 * DAY_S, (0.2 * DAY_S, 60 * DAY_S)),
    _DECLARED.condition("area", ("km**2", "m**2"), 4.0e6, (1.0e4, 1.0e8)),
)


_RATE, _HEAT = ("mm/h", "m/s"), ("W/m**2", "W/m**2")

QUANTITIES = (
    _DECLARED.quantity("sun height", "h", ("deg", "rad"), true_zero=False),
    _DECLARED.quantity("sunlight", "G", _HEAT),
    quantity_spec(
        "air temperature",
        "T",
        _KELVIN,
        _DECLARED.words("quantity", "air temperature"),
        whose="the air over the valley's floor",
    ),
    _DECLARED.quantity("heat into the snow", "Q", _HEAT, true_zero=False),
    _DECLARED.quantity("melt rate", "M", _RATE),
    _DECLARED.quantity("freezing rate", "F", _RATE),
    _DECLARED.quantity("melt water running out", "O", _RATE),
    _DECLARED.quantity("stream flow", "Q_s", ("l/s", "m**3/s")),
    _DECLARED.quantity("flow from the springs", "Q_g", ("l/s", "m**3/s")),
    _DECLARED.quantity("snow line", "z_s", ("m", "m")),
    _DECLARED.quantity("snow cover", "A", _SHARE),
    _DECLARED.quantity("snow", "W_s", _DEPTH),
    _DECLARED.quantity("water in the snow", "W_w", _DEPTH),
    _DECLARED.quantity("ground water", "W_g", _DEPTH),
    _DECLARED.quantity("water in the stream", "W_q", _DEPTH),
    _DECLARED.quantity("water that has left", "W_l", _DEPTH),
    _DECLARED.quantity("water gone into the air", "W_a", _DEPTH),
)

HONESTY = _DECLARED.honesty(9)

SOURCES = (
    "ALMANAC-1988",
    "BRUTSAERT-1975",
    "CHOW-1988",
    "HAURWITZ-1945",
    "KASTEN-CZEPLAK-1980",
    "MEEUS-1998",
    "MURPHY-KOOP-2005",
    "OPENSTAX-UP2",
    "RALEIGH-2013",
    "UNSWORTH-MONTEITH-1975",
    "USACE-1998",
    "USSA-1976",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The spring that follows from the conditions (SI units): quantities, the stages found, and what was conserved.

    Raises BadCondition for a valley without snow, an afternoon colder than the night, or air that warms or cools
    beyond what the formulae cover.
    """
    valley = checked(Valley.of(conditions))
    spring = observe(valley)
    came = found(spring)
    made = quantities(QUANTITIES, _values(spring))
    whole = Stretch.whole(spring.sky.time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=spring.sky.time_s,
        quantities=made,
        stages=stages(STAGES, came, spring.sky.time_s, told(spring, whole, came)),
        events=events(spring, whole),
        missing=missing(spring, whole, came, conditions, CONDITIONS),
        conserved=_conserved(spring),
        clock_start=0.0,
    )


def _values(spring: Spring) -> dict[str, FloatArray]:
    """Every quantity in SI units by name."""
    per_step = 1.0e-3 / STEP_S  # mm in a step to m/s
    heat = spring["heat"]
    taken = (heat[1:] - heat[:-1]) / STEP_S
    area = spring.valley.area
    return {
        "sun height": spring.sky.sun_rad,
        "sunlight": spring.sky.sunlight,
        "air temperature": spring.floor_k,
        "heat into the snow": _with_last(taken),
        "melt rate": spring["melt"] * per_step,
        "freezing rate": spring["freezing"] * per_step,
        "melt water running out": spring["outflow"] * per_step,
        "stream flow": spring.stream_m3_s,
        "flow from the springs": spring["springs"] * per_step * area,
        "snow line": spring.snow_line_m,
        "snow cover": 1.0 - spring.bare_share,
        "snow": spring["snow"] * 1.0e-3,
        "water in the snow": spring["wet"] * 1.0e-3,
        "ground water": spring["ground"] * 1.0e-3,
        "water in the stream": spring["stream"] * 1.0e-3,
        "water that has left": spring["gone"] * 1.0e-3,
        "water gone into the air": spring["air"] * 1.0e-3,
    }


def _with_last(values: FloatArray) -> FloatArray:
    """A rate of the steps as one of the times: the last step's holds to the end."""
    return np.append(values, values[-1])


def _conserved(spring: Spring) -> tuple[Conserved, ...]:
    """Water, and the heat of the snow: what it was given against what ice and frost it is short of."""
    heat = (-MELTING_J_PER_KG * spring["snow"], -spring["cold"], -spring["heat"])
    return (
        Conserved(name="water", relative_drift=drift([spring[store] for store in STORES], float(spring["moved"][-1]))),
        Conserved(name="heat of the snow", relative_drift=drift(heat, float(spring["heat_moved"][-1]))),
    )


PROCESS = ProcessSpec(
    name="snow-melt",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
