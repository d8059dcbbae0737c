"""Snow-melt: several spring days in a mountain valley, from the frozen night to the stream that ground water feeds."""

from __future__ import annotations

from collections.abc import Mapping
from math import radians

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.snow_melt_model import DAY_S, STEP_S, STORES, Valley, checked
from sonify.processes.snow_melt_words import (
    STAGES,
    Spring,
    events,
    found,
    missing,
    observe,
    science_sentences,
)
from sonify.processes.specs import condition_spec, quantity_spec
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.heating import MELTING_J_PER_KG

_BARE, _KELVIN, _DEPTH, _SHARE = ("1", "1"), ("degC", "K"), ("mm", "m"), ("%", "1")


def _celsius(usual: float, low: float, high: float) -> tuple[float, tuple[float, float]]:
    return ZERO_CELSIUS_K + usual, (ZERO_CELSIUS_K + low, ZERO_CELSIUS_K + high)


CONDITIONS = (
    condition_spec(
        "latitude",
        "how far north of the equator the valley lies (south is negative)",
        ("deg", "rad"),
        radians(46.5),
        (radians(-65.0), radians(65.0)),
    ),
    condition_spec(
        "day",
        "day of the year on which it begins, at midnight; 110 is 20 April",
        _BARE,
        110.0,
        (1.0, 365.0),
        whole=True,
    ),
    condition_spec("days", "how many days we watch", _BARE, 14.0, (2.0, 21.0), whole=True),
    condition_spec("valley_depth", "height of the ridge above the valley's floor", ("m", "m"), 900.0, (100.0, 2000.0)),
    condition_spec("snow_low", "water in the snow on the valley's floor", _DEPTH, 0.050, (0.0, 2.0)),
    condition_spec("snow_high", "water in the snow on the ridge", _DEPTH, 0.180, (0.0, 3.0)),
    condition_spec("snow_temperature", "temperature of the snow when it begins", _KELVIN, *_celsius(-4.0, -25.0, 0.0)),
    condition_spec(
        "snow_whiteness",
        "share of the sunlight that the snow throws back: new snow 85 %, old 65 %, dirty 40 % (albedo)",
        _SHARE,
        0.65,
        (0.3, 0.95),
    ),
    condition_spec(
        "night_temperature", "coldest air of the first night, on the valley's floor", _KELVIN, *_celsius(-4, -30, 20)
    ),
    condition_spec(
        "afternoon_temperature", "warmest air of the first day, on the valley's floor", _KELVIN, *_celsius(6, -20, 30)
    ),
    condition_spec(
        "warming",
        "how much warmer each day is than the one before",
        ("K/day", "K/s"),
        0.8 / DAY_S,
        (-3.0 / DAY_S, 5.0 / DAY_S),
    ),
    condition_spec(
        "humidity", "vapour in the air, as a share of what it can hold on average", _SHARE, 0.65, (0.1, 1.0)
    ),
    condition_spec("wind", "wind over the snow, 2 m up", ("m/s", "m/s"), 2.0, (0.0, 15.0)),
    condition_spec("cloud", "share of the sky that is covered", _SHARE, 0.2, (0.0, 1.0)),
    condition_spec("ground_water", "water in the ground that springs can still give", _DEPTH, 0.010, (0.0, 0.5)),
    condition_spec("ground_intake", "how fast the ground lets water in", ("mm/h", "m/s"), 1.0e-3 / 3600.0, (0.0, 1e-4)),
    condition_spec(
        "ground_time", "how long water stays in the ground", ("day", "s"), 4 * DAY_S, (0.2 * DAY_S, 60 * DAY_S)
    ),
    condition_spec("area", "area of the valley", ("km**2", "m**2"), 4.0e6, (1.0e4, 1.0e8)),
)


_RATE, _HEAT = ("mm/h", "m/s"), ("W/m**2", "W/m**2")

QUANTITIES = (
    quantity_spec(
        "sun height", "h", ("deg", "rad"), "height of the Sun above the horizon, negative at night", true_zero=False
    ),
    quantity_spec("sunlight", "G", _HEAT, "sunlight that reaches level ground through any cloud"),
    quantity_spec("air temperature", "T", _KELVIN, "how warm the air is", whose="the air over the valley's floor"),
    quantity_spec(
        "heat into the snow", "Q", _HEAT, "heat that the snow takes up, negative where it loses heat", true_zero=False
    ),
    quantity_spec("melt rate", "M", _RATE, "snow that turns into water"),
    quantity_spec("freezing rate", "F", _RATE, "melt water that freezes again in the snow"),
    quantity_spec("melt water running out", "O", _RATE, "water that leaves the snow from below"),
    quantity_spec("stream flow", "Q_s", ("l/s", "m**3/s"), "water that leaves the valley in the stream"),
    quantity_spec(
        "flow from the springs", "Q_g", ("l/s", "m**3/s"), "water that comes out of the ground into the stream"
    ),
    quantity_spec("snow line", "z_s", ("m", "m"), "height above the valley's floor down to which snow lies"),
    quantity_spec("snow cover", "A", _SHARE, "share of the valley where snow lies"),
    quantity_spec("snow", "W_s", _DEPTH, "water in the snow as ice, as a layer over the valley"),
    quantity_spec(
        "water in the snow", "W_w", _DEPTH, "melt water in the pores of the snow, as a layer over the valley"
    ),
    quantity_spec(
        "ground water", "W_g", _DEPTH, "water in the ground that springs can give, as a layer over the valley"
    ),
    quantity_spec("water in the stream", "W_q", _DEPTH, "water on its way down the stream, as a layer over the valley"),
    quantity_spec("water that has left", "W_l", _DEPTH, "water that the stream has carried out of the valley so far"),
    quantity_spec(
        "water gone into the air", "W_a", _DEPTH, "snow that has dried off so far, less frost that has formed"
    ),
)

HONESTY = (
    "The heat that melts the snow is added up as published formulae give it: sunlight that the snow does not throw "
    "back, warmth between snow and sky, warmth and vapour that the wind brings or takes.",
    "Snow melts at 0 °C and stays there while it melts: the heat changes its state, not its temperature. It can melt "
    "in sunshine while the air is colder, and freeze at night while the air is warmer.",
    "At each height the snow is one layer, with one temperature and one whiteness. Real snow grows darker as it ages, "
    "and melts the faster for it.",
    "There are no trees, no shade of the mountains, no steep sunny slopes, no new snow and no rain in this spring.",
    "The air is as dense as at sea level and as well stirred as over grass. Over melting snow it is stiller, so the "
    "wind brings a little less warmth than is reckoned here.",
    "A snow surface that is not melting is taken to be as cold as the dew point of the air, a published rule for "
    "averages; in a clear calm night it can be several degrees colder.",
    "How fast the ground drinks and how long it keeps water are conditions of the scene; how long water takes through "
    "snow and stream are round figures of ours. Water that the roots drink is left out.",
    "What snow gives to the air without melting first (it dries away, like ice cubes that shrink in a freezer) is "
    "counted, and frost that forms on it is taken off.",
    "The valley's heights are given above its own floor, in bands of equal area. Times are by the Sun: at noon it "
    "stands highest.",
)

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
    return Timeline(
        process=PROCESS.name,
        time_s=spring.sky.time_s,
        quantities=quantities(QUANTITIES, _values(spring)),
        stages=stages(STAGES, came, spring.sky.time_s, science_sentences(spring, came)),
        events=events(spring),
        missing=missing(spring, came, conditions, CONDITIONS),
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
    title="Snow melts in the mountains",
    summary="Spring days and frosty nights in a mountain valley: snow, melt water, ground water and the stream.",
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
