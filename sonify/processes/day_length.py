"""Day length: the Sun through a year at one latitude, reckoned once a day and each day a little later.

A year has 365 arcs of the Sun, too many to play. Reckoned every 25 hours, the Sun is true at true moments, and from one
to the next it has moved on by one hour: 24 of them make an arc, and a year nearly fifteen slow arcs, as a flashing lamp
shows a wheel turning slowly.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import degrees, pi, radians

import numpy as np

from sonify.constants import DAY_S
from sonify.errors import BadCondition
from sonify.processes.day_length_words import STAGES, events, told
from sonify.processes.declared import quantities, spans, stages
from sonify.processes.specs import always, quantity_spec
from sonify.processes.telling import Stretch
from sonify.records.fact import fact, wrong
from sonify.records.process import ConditionSpec, ProcessSpec
from sonify.records.timeline import FloatArray, Timeline
from sonify.science.sun import day_length_h, days_since_2000, declination, equation_of_time, sun_height

#: Nearer to the pole the Sun stays down, or up, for days: sunrise and sunset are then no question.
FURTHEST_RAD = radians(65.0)
#: Nearer to the equator the days differ by less than a quarter of an hour, and the year has no seasons of light.
NEAREST_RAD = radians(3.0)
YEAR_DAYS = 365.25
FIRST_YEAR, LAST_YEAR = 1951, 2048  # the almanac's formulae hold from 1950 to 2050

CONDITIONS = (
    ConditionSpec(
        name="latitude",
        meaning=fact("day_length-condition-latitude"),
        unit="deg",
        si_unit="rad",
        default=radians(54.0),
        low=radians(-90.0),
        high=radians(90.0),
    ),
    ConditionSpec(
        name="year",
        meaning=fact("day_length-condition-year"),
        unit="1",
        si_unit="1",
        default=2025,
        low=FIRST_YEAR,
        high=LAST_YEAR,
        whole=True,
    ),
    ConditionSpec(
        name="look_every",
        meaning=fact("day_length-condition-look_every"),
        unit="h",
        si_unit="s",
        default=25.0 * 3600.0,
        low=24.25 * 3600.0,
        high=30.0 * 3600.0,
    ),
)


QUANTITIES = (
    quantity_spec("day length", "D", ("h", "s"), fact("day_length-quantity-day-length")),
    quantity_spec("night length", "N", ("h", "s"), fact("day_length-quantity-night-length")),
    quantity_spec("noon height of the Sun", "h_n", ("deg", "rad"), fact("day_length-quantity-noon-height")),
    quantity_spec(
        "height of the Sun",
        "h",
        ("deg", "rad"),
        fact("day_length-quantity-height"),
        true_zero=False,
    ),
    quantity_spec("Sun above the horizon", "h_+", ("deg", "rad"), fact("day_length-quantity-above")),
    quantity_spec("noon shadow", "s", ("m", "m"), fact("day_length-quantity-shadow")),
    quantity_spec("sunrise", "t_r", ("h", "s"), fact("day_length-quantity-sunrise"), true_zero=False),
    quantity_spec("sunset", "t_s", ("h", "s"), fact("day_length-quantity-sunset"), true_zero=False),
    quantity_spec(
        "change of the day",
        "dD/dt",
        ("min/day", "1"),
        fact("day_length-quantity-change"),
        true_zero=False,
    ),
)

HONESTY = (
    fact("day_length-honesty-arcs"),
    fact("day_length-honesty-clock"),
    fact("day_length-honesty-flat"),
    fact("day_length-honesty-axis"),
    fact("day_length-honesty-good-to"),
)

SOURCES = ("ALMANAC-1988", "MEEUS-1998")


def run(conditions: Mapping[str, float]) -> Timeline:
    """The year from shortest day to shortest day (SI units).

    Raises BadCondition near a pole, where the Sun does not rise on every day, and near the equator, where all days are
    alike.
    """
    latitude = conditions["latitude"]
    refuse_latitude(latitude, round(conditions["year"]))
    begins = shortest_day(latitude, round(conditions["year"]))
    looks = np.arange(0.0, YEAR_DAYS * DAY_S, conditions["look_every"])
    time_s = np.append(looks, YEAR_DAYS * DAY_S)
    values = _values(latitude, begins, time_s)
    found, made = _found(values["day length"]), quantities(QUANTITIES, values)
    whole = Stretch.whole(time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(whole, begins, found)),
        events=events(whole, begins),
    )


def refuse_latitude(latitude_rad: float, year: int) -> None:
    """Raise BadCondition where there is no sunrise on some days, or no difference between the days."""
    allowed = wrong("error_processes-latitudes")
    if abs(latitude_rad) > FURTHEST_RAD:
        dark, light = _days_without(latitude_rad, year)
        half = "north" if latitude_rad > 0.0 else "south"
        place = wrong(f"error_processes-{half}", degrees=f"{abs(degrees(latitude_rad)):.3g}")
        told = wrong("error_processes-sun-stays", dark=dark, light=light)
        if not dark and not light:
            told = wrong("error_processes-sun-only-just")
        raise BadCondition(
            "latitude", wrong("error_processes-sunrise-sunset-every", place=place, told=told, allowed=allowed)
        )
    if abs(latitude_rad) < NEAREST_RAD:
        raise BadCondition("latitude", wrong("error_processes-near-equator-days", allowed=allowed))


def _days_without(latitude_rad: float, year: int) -> tuple[int, int]:
    lengths = day_length_h(latitude_rad, declination(days_since_2000(year, np.arange(1.0, 366.0))))
    return int(np.count_nonzero(lengths <= 0.0)), int(np.count_nonzero(lengths >= 24.0))


def shortest_day(latitude_rad: float, year: int) -> float:
    """The shortest day from June of a year on, in days from noon of 1 January 2000; noon of that day."""
    from_june = days_since_2000(year, 152.0) + np.arange(0.0, 366.0)
    lengths = day_length_h(latitude_rad, declination(from_june))
    return float(from_june[int(np.argmin(lengths))])


def _values(latitude: float, begins: float, time_s: FloatArray) -> dict[str, FloatArray]:
    days = begins + time_s / DAY_S
    sun = declination(days)
    lit_s = 3600.0 * day_length_h(latitude, sun)
    # The year begins at noon by the Sun; from then on looks keep to the clock, and the sundial runs ahead or behind.
    ahead = equation_of_time(days)
    height = sun_height(latitude, sun, 2.0 * pi * (time_s / DAY_S % 1.0) + ahead - ahead[0])
    noon = sun_height(latitude, sun, 0.0)
    next_s = 3600.0 * day_length_h(latitude, declination(days + 1.0))
    return {
        "day length": lit_s,
        "night length": DAY_S - lit_s,
        "noon height of the Sun": noon,
        "height of the Sun": height,
        "Sun above the horizon": np.maximum(height, 0.0),
        "noon shadow": 1.0 / np.tan(noon),
        "sunrise": DAY_S / 2.0 - lit_s / 2.0,
        "sunset": DAY_S / 2.0 + lit_s / 2.0,
        "change of the day": (next_s - lit_s) / DAY_S,
    }


def _found(lit_s: FloatArray) -> dict[str, tuple[int, int]]:
    """First and last sample of the four stages: by the longest day, and by the middle between long and short."""
    longest = int(np.argmax(lit_s))
    middle = (float(lit_s.min()) + float(lit_s.max())) / 2.0
    above = lit_s >= middle
    starts = {
        "light returns": 0,
        "long days grow": int(np.argmax(above)),
        "days shrink": longest,
        "darkness grows": longest + int(np.argmax(~above[longest:])),
    }
    return spans(starts, lit_s.size - 1)


PROCESS = ProcessSpec(
    name="day-length",
    title=fact("day_length-title"),
    summary=fact("day_length-summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    cycle=True,
    cautions=always("sun"),
)
