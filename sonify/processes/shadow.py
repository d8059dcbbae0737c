"""The shadow of a stick through one day, at one place, by the clock that hangs there.

A process of its own beside `day-length`, which looks at the Sun once a day through a year and asks no clock: here model
time is one day's, the clock and the place within its time zone matter, and stages are the day's.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import degrees, pi, radians

import numpy as np

from sonify.errors import BadCondition
from sonify.frozen import dataclass
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.shadow_words import HEIGHT, ORDER, PACE, SHADOW, STAGES, events, told
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch
from sonify.records.fact import wrong
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.shadow import refraction, shadow_length, sun_east, sun_north
from sonify.science.sun import days_since_2000, declination, equation_of_time, sun_height

HOUR_S = 3600.0
FIRST_YEAR, LAST_YEAR = 1951, 2048  # the almanac's formulae hold from 1950 to 2050
FURTHEST = radians(65.0)  # nearer to a pole than that the Sun can stay up
#: Nowhere do the clocks that people keep have the Sun highest before or after these hours.
EARLIEST_NOON_H, LATEST_NOON_H = 10.0, 15.25
#: The Sun must climb by so much above its lowest, or there is next to no day to look at.
LEAST_CLIMB = radians(3.0)
GRID_S = 10.0
#: The day begins and ends so little above its lowest height that a rule whose range ends there holds all of it.
HAIR = 1e-7
LOOKS = 60  # in each stage
_BEFORE = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334)
_DAYS_OF = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)

_DECLARED = Declared("shadow")
_ANGLE, _CM = ("deg", "rad"), ("cm", "m")

CONDITIONS = (
    _DECLARED.condition("latitude", _ANGLE, radians(52.5), (-FURTHEST, FURTHEST)),
    _DECLARED.condition("longitude", _ANGLE, radians(-1.5), (-pi, pi)),
    _DECLARED.condition("clock", ("h", "s"), HOUR_S, (-12.0 * HOUR_S, 14.0 * HOUR_S)),
    _DECLARED.condition("year", ("1", "1"), 2026, (FIRST_YEAR, LAST_YEAR), whole=True),
    _DECLARED.condition("month", ("1", "1"), 6, (1, 12), whole=True),
    _DECLARED.condition("day", ("1", "1"), 21, (1, 31), whole=True),
    _DECLARED.condition("stick", ("m", "m"), 1.0, (0.1, 5.0)),
    _DECLARED.condition("lowest_sun", _ANGLE, radians(15.0), (radians(5.0), radians(40.0))),
)

QUANTITIES = (
    _DECLARED.quantity(SHADOW, "L", _CM),
    _DECLARED.quantity(HEIGHT, "h", _ANGLE),
    _DECLARED.quantity(PACE, "p", ("cm/min", "m/s")),
    _DECLARED.quantity("tip to the east", "x", _CM, true_zero=False),
    _DECLARED.quantity("tip to the north", "y", _CM, true_zero=False),
)


@dataclass(frozen=True, slots=True)
class _Sky:
    """One day's Sun at one place. Hours are those of the clock there, counted on past midnight."""

    latitude: float
    longitude: float
    ahead_h: float
    noon_utc: float  # days since 2000 at twelve UTC of the day

    def _days(self, clock_h: FloatArray) -> FloatArray:
        return self.noon_utc + (clock_h - self.ahead_h - 12.0) / 24.0

    def _turned(self, clock_h: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Declination and hour angle, rad."""
        days = self._days(clock_h)
        return declination(days), 2.0 * pi * (days - self.noon_utc) + self.longitude + equation_of_time(days)

    def highest_h(self) -> float:
        """When the Sun stands highest, to the second, at an hour from 0 to 24."""
        _, angle = self._turned(np.array([12.0]))
        crosses = (12.0 - degrees(float(angle[0])) / 15.0) % 24.0
        around = crosses + np.arange(-600.0, 601.0) / HOUR_S
        return float(around[int(np.argmax(self.seen(around)))])

    def seen(self, clock_h: FloatArray) -> FloatArray:
        """The height at which the Sun is seen, rad; below the horizon its true one and what lifts it there."""
        sun, angle = self._turned(clock_h)
        height = sun_height(self.latitude, sun, angle)
        return height + refraction(np.maximum(height, 0.0))

    def direction(self, clock_h: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Shares of its direction to the east, to the north and upwards, without the air."""
        sun, angle = self._turned(clock_h)
        return (
            sun_east(sun, angle),
            sun_north(self.latitude, sun, angle),
            np.sin(sun_height(self.latitude, sun, angle)),
        )


def run(conditions: Mapping[str, float]) -> Timeline:
    """The day from the Sun's lowest looked at, over its highest, to its lowest (SI units).

    Raises BadCondition for a date that is none, a clock that is not the place's, and a Sun that stays too low.
    """
    sky = _sky(conditions)
    clock_h, climb = _looks(sky, conditions)
    time_s = (clock_h - clock_h[0]) * HOUR_S
    values, kept = _values(sky, clock_h, conditions["stick"])
    found, made = _found(values[HEIGHT], climb), quantities(QUANTITIES, values)
    whole = Stretch.whole(time_s, made, hour_zero=float(clock_h[0]))
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(whole, found)),
        events=events(whole, found, conditions["stick"]),
        conserved=(kept,),
        clock_start=float(clock_h[0]),
    )


def _sky(conditions: Mapping[str, float]) -> _Sky:
    year, month, day = (round(conditions[name]) for name in ("year", "month", "day"))
    leap = int(year % 4 == 0)  # so from 1951 to 2048, 2000 among them
    last = _DAYS_OF[month - 1] + leap * (month == 2)
    if day > last:
        raise BadCondition("day", wrong("error_processes-no-such-day", last=str(last)))
    noon = float(days_since_2000(year, float(_BEFORE[month - 1] + leap * (month > 2) + day)))
    return _Sky(conditions["latitude"], conditions["longitude"], conditions["clock"] / HOUR_S, noon)


def _looks(sky: _Sky, conditions: Mapping[str, float]) -> tuple[FloatArray, float]:
    """Hours of the clock at which the stick is looked at, and the height half-way up the Sun's climb, rad."""
    highest, lowest = sky.highest_h(), conditions["lowest_sun"]
    _refuse_clock(highest, sky.ahead_h)
    top = float(sky.seen(np.array([highest]))[0])
    _refuse_low(top, lowest)
    half_way = 0.5 * (lowest + top)
    levels = [half_way, lowest + HAIR, *([radians(45.0)] if lowest < radians(45.0) < top else [])]
    cuts = [highest]
    for side in (-1.0, 1.0):
        away = highest + side * np.arange(0.0, 12.0 * HOUR_S, GRID_S) / HOUR_S
        seen = sky.seen(away)
        cuts += [_passes(away, seen, level) for level in levels]
    cuts += [12.0] if min(cuts) < 12.0 < max(cuts) else []
    marks = np.unique(np.round(cuts, 7))  # to the thousandth of a second: no two looks at one moment
    legs = [np.linspace(a, b, LOOKS, endpoint=False) for a, b in zip(marks[:-1], marks[1:], strict=True)]
    return np.append(np.concatenate(legs), marks[-1]), half_way


def _refuse_clock(highest_h: float, ahead_h: float) -> None:
    """Raise BadCondition where the clock is not one that people keep at this longitude."""
    if EARLIEST_NOON_H <= highest_h <= LATEST_NOON_H:
        return
    fits = (ahead_h - round(highest_h - 12.0) + 12.0) % 24.0 - 12.0
    minutes = round(60.0 * highest_h) % 1440
    shown = f"{minutes // 60:02d}:{minutes % 60:02d}"
    raise BadCondition("clock", wrong("error_processes-clock-elsewhere", highest=shown, fits=f"{fits:.4g}"))


def _refuse_low(top: float, lowest: float) -> None:
    """Raise BadCondition where the Sun hardly climbs above the lowest height that is looked at."""
    if top >= lowest + LEAST_CLIMB:
        return
    most, spec = top - LEAST_CLIMB, next(one for one in CONDITIONS if one.name == "lowest_sun")
    climbs = f"{degrees(top):.1f}"
    if most < spec.low:
        raise BadCondition("month", wrong("error_processes-sun-too-low", climbs=climbs))
    allowed = f"{int(10.0 * degrees(most)) / 10.0:g}"
    raise BadCondition(
        "lowest_sun",
        wrong("error_processes-sun-climbs-little", climbs=climbs, low=f"{degrees(spec.low):g}", high=allowed),
    )


def _passes(away: FloatArray, seen: FloatArray, level: float) -> float:
    """The hour at which the Sun passes a height, first on the way from its highest."""
    after = int(np.argmax(seen < level))
    share = (seen[after - 1] - level) / (seen[after - 1] - seen[after])
    return float(away[after - 1] + share * (away[after] - away[after - 1]))


def _values(sky: _Sky, clock_h: FloatArray, stick: float) -> tuple[dict[str, FloatArray], Conserved]:
    """Every quantity over the day, SI, and that the Sun's direction keeps its length of one."""
    seen = sky.seen(clock_h)
    shadow = shadow_length(seen, stick)
    a_second = 1.0 / HOUR_S
    later, earlier = (shadow_length(sky.seen(clock_h + step), stick) for step in (a_second, -a_second))
    east, north, up = sky.direction(clock_h)
    flat = np.maximum(np.hypot(east, north), 1e-12)
    values = {
        SHADOW: shadow,
        HEIGHT: seen,
        PACE: np.abs(later - earlier) / 2.0,
        "tip to the east": -shadow * east / flat,
        "tip to the north": -shadow * north / flat,
    }
    return values, Conserved(
        name="the Sun's direction, of length one", relative_drift=drift([east**2, north**2, up**2], 1.0)
    )


def _found(seen: FloatArray, half_way: float) -> dict[str, tuple[int, int]]:
    """First and last look of the four stages: cut half-way up, at the highest, and half-way down."""
    highest = int(np.argmax(seen))
    above = seen >= half_way - 1e-7
    again = highest + int(np.argmax(seen[highest:] <= half_way + 1e-7))
    cuts = (0, int(np.argmax(above)), highest, again, seen.size - 1)
    return {name: (cuts[n], cuts[n + 1]) for n, name in enumerate(ORDER)}


PROCESS = ProcessSpec(
    name="shadow",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(6),
    sources=("ALMANAC-1988", "MEEUS-1998"),
    cautions=always("sun"),
)
