"""Each quantity over model time as points and ticks, ready to be drawn by the template in the sheet's own font."""

from __future__ import annotations

from math import ceil, floor, log10
from typing import Any

import numpy as np

from sonify.facts.sheet import curve_fact, held, rows_fact, turns
from sonify.kinds.timelines import TIMELINES
from sonify.records.fact import Fact, fact
from sonify.records.lesson import Lesson
from sonify.records.timeline import FloatArray, Quantity, Timeline
from sonify.say import say
from sonify.say.parts import number
from sonify.units import printed

#: So many quantities beside those that are heard.
MOST_OTHERS = 2
#: Points a curve is drawn with: finer than a printer at this size can show.
POINTS = 160
#: A quantity that changes by less than this share of itself is still: the rest is rounding.
STILL = 1e-6
#: Stages' letters stand at least this share of the plot's width apart.
LETTER_GAP = 0.08
#: Steps that a time axis may have: seconds, name of the unit, seconds in that unit.
_TIME_STEPS = (
    *((step, "seconds", 1.0) for step in (0.1, 0.2, 0.5, 1, 2, 5, 10, 20)),
    *((60 * step, "minutes", 60.0) for step in (0.5, 1, 2, 5, 10, 20)),
    *((3_600 * step, "hours", 3_600.0) for step in (0.5, 1, 2, 3, 6, 12)),
    *((86_400 * step, "days", 86_400.0) for step in (1, 2, 5, 10, 20, 50, 100, 200)),
    *((31_557_600 * step, "years", 31_557_600.0) for step in (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)),
)
_MOST_TIME_TICKS = 5


def plots(lesson: Lesson) -> dict[str, Any]:
    """One plot a quantity over one time axis, and the stages to shade behind them."""
    time, stages = time_axis(lesson.timeline), _stages(lesson)
    lettered = [say(fact("plot-stage", letter=row["letter"], title=row["title"])) for row in stages if row["letter"]]
    drawn = plotted(lesson)
    rest = [quantity.name for quantity in lesson.timeline.quantities if quantity not in drawn]
    return {
        "time": time,
        "stages": stages,
        "legend": say(_legend(lesson.timeline, time["name"], ", ".join(lettered))),
        "plots": [_plot(quantity, lesson) for quantity in drawn],
        "rest": rest,
        "left": say(fact("plot-rest", n=len(rest))) if rest else "",
    }


def _legend(timeline: Timeline, time: str, stages: str) -> Fact:
    kind = TIMELINES[timeline.kind]
    if not kind.joined:
        return fact("plot-bars-of", stages=stages)
    return fact("plot-across", time=time, stages=stages) if kind.timed else fact("plot-across-stages", stages=stages)


def plotted(lesson: Lesson) -> list[Quantity]:
    """The quantities that are heard with their companions, and at most two more that stages are found by.

    Where nothing is heard, every quantity: there is nothing to choose by.
    """
    timeline = lesson.timeline
    ruled = {key.rule.quantity for key in lesson.controls.keys}
    heard = ruled | {q.companion for q in timeline.quantities if q.name in ruled}
    if not any(q.name in heard for q in timeline.quantities):
        return list(timeline.quantities)
    found_by = " ".join(say(stage.seen_as).lower() for stage in lesson.process.stages)
    others = [q.name for q in timeline.quantities if q.name not in heard and q.name.lower() in found_by]
    others = [name for name in others if name != timeline.axis]
    heard |= set(others[:MOST_OTHERS])
    return [quantity for quantity in timeline.quantities if quantity.name in heard]


def nice_ticks(low: float, high: float, most: int = 4) -> list[float]:
    """Round numbers that reach from at or below `low` to at or above `high`: steps of 1, 2 or 5 times a power of ten.

    >>> nice_ticks(14.0, 22.0), nice_ticks(0.0, 0.0)
    ([14.0, 16.0, 18.0, 20.0, 22.0], [-1.0, -0.5, 0.0, 0.5, 1.0])
    """
    if high - low <= STILL * max(abs(low), abs(high)):
        room = abs(low) or 1.0  # what never changes but for rounding is drawn as a level line
        low, high = low - room, high + room
    power = floor(log10((high - low) / most))
    for scale in range(power, power + 3):
        for factor in (1, 2, 5):
            step = factor * 10.0**scale
            first, last = floor(low / step + 1e-9), ceil(high / step - 1e-9)
            if last - first <= most:
                return [round(number * step, 12 - scale) for number in range(first, last + 1)]
    raise AssertionError("a step of 1, 2 or 5 times a power of ten always fits")


def _stages(lesson: Lesson) -> list[dict[str, Any]]:
    """Where each stage lies on the time axis (0 to 1), and where its letter can stand without touching the next."""
    timeline = lesson.timeline
    letters = {section.name: section.letter for section in lesson.score.sections}
    begin, end = float(timeline.time_s[0]), float(timeline.time_s[-1])
    spans = [((s.start_s - begin) / (end - begin), (s.end_s - begin) / (end - begin)) for s in timeline.stages]
    places = spread([(first + last) / 2 for first, last in spans], LETTER_GAP)
    return [
        {"letter": letters.get(s.name, ""), "title": say(s.title), "from": first, "to": last, "at": place}
        for s, (first, last), place in zip(timeline.stages, spans, places, strict=True)
    ]


def spread(places: list[float], gap: float) -> list[float]:
    """Rising places moved as little as needed to stand `gap` apart, within 0 to 1.

    >>> spread([0.5, 0.51, 0.9], 0.1)
    [0.5, 0.6, 0.9]
    """
    found: list[float] = []
    for place in places:
        found.append(max(place, found[-1] + gap) if found else place)
    limit = 1.0
    for i in range(len(found) - 1, -1, -1):
        found[i] = min(found[i], limit)
        limit = found[i] - gap
    return found


def time_axis(timeline: Timeline) -> dict[str, Any]:
    """Ticks of model time: times of day where the process has them, else elapsed time in a handy unit; none where no
    time is told."""
    if not TIMELINES[timeline.kind].timed:
        return {"name": "", "ticks": []}
    begin, end = float(timeline.time_s[0]), float(timeline.time_s[-1])
    shift = (timeline.clock_start or 0.0) * 3_600.0
    step, unit, size = next((row for row in _TIME_STEPS if (end - begin) / row[0] <= _MOST_TIME_TICKS), _TIME_STEPS[-1])
    first, last = ceil((begin + shift) / step - 1e-9), floor((end + shift) / step + 1e-9)
    moments = [number * step for number in range(first, last + 1)]
    clock = timeline.clock_start is not None and step < 86_400
    hours = step >= 3_600
    return {
        "name": _axis(unit, clock=clock, hours=hours),
        "ticks": [
            {
                "at": (moment - shift - begin) / (end - begin),
                "text": _clock(moment, hours) if clock else number(moment / size),
            }
            for moment in moments
        ],
    }


def _axis(unit: str, *, clock: bool, hours: bool) -> str:
    """What an axis of time is called."""
    if clock:
        return say(fact("plot-hour" if hours else "plot-time-of-day"))
    return say(fact("plot-time", unit=say(fact(f"plot-unit-{unit}"))))


def _clock(moment_s: float, hours: bool) -> str:
    """A time of day on an axis: the hour alone where every tick is a full hour."""
    hour = int(moment_s // 3_600) % 24
    return str(hour) if hours else f"{hour:02d}:{round(moment_s % 3_600 / 60):02d}"


def _plot(quantity: Quantity, lesson: Lesson) -> dict[str, Any]:
    timeline = lesson.timeline
    values, joined = quantity.in_unit(), TIMELINES[timeline.kind].joined
    ticks = nice_ticks(float(values.min()) if joined else min(0.0, float(values.min())), float(values.max()))
    first, last = float(timeline.time_s[0]), float(timeline.time_s[-1])
    bars = [] if joined else turns(quantity, timeline, first, last)
    power = _power(max(abs(tick) for tick in ticks))
    scale = f"× 10^{power}" if power else ""
    unit = " ".join(word for word in (scale, "" if quantity.unit == "1" else printed(quantity.unit)) if word)
    return {
        "name": quantity.name,
        "drawn": say(fact("drawn-axis")) if quantity.drawn else "",
        "unit": unit,
        "ticks": [
            {"at": (t - ticks[0]) / (ticks[-1] - ticks[0]), "text": number(t / 10.0**power, _digits(ticks))}
            for t in ticks
        ],
        "points": _points(timeline.time_s, values, ticks[0], ticks[-1]),
        "bars": [[start, end, (value - ticks[0]) / (ticks[-1] - ticks[0])] for start, end, value in bars],
        "alt": say(held(curve_fact(quantity, timeline) if joined else rows_fact(quantity, lesson), lesson)),
    }


def _power(largest: float) -> int:
    """The power of ten taken out of an axis whose numbers would not read well in full, else 0."""
    power = floor(log10(largest) + 1e-9)
    return 0 if -3 <= power <= 5 else power


def _digits(ticks: list[float]) -> int:
    """As many significant digits as tell the ticks apart, and at least three."""
    largest = max(abs(tick) for tick in ticks)
    return max(3, floor(log10(largest) + 1e-9) - floor(log10(ticks[1] - ticks[0]) + 1e-9) + 1)


def _points(time_s: FloatArray, values: FloatArray, low: float, high: float) -> list[list[float]]:
    """The curve as shares of the plot's width and height; peaks narrower than a drawn point keep their height."""
    edges = np.linspace(0, time_s.size, min(POINTS // 2, time_s.size) + 1).astype(int)
    kept: set[int] = {0, time_s.size - 1}
    for first, last in zip(edges[:-1], edges[1:], strict=True):
        if last > first:
            kept |= {int(first + values[first:last].argmin()), int(first + values[first:last].argmax())}
    at = sorted(kept)
    across = (time_s[at] - time_s[0]) / (time_s[-1] - time_s[0])
    up = (values[at] - low) / (high - low)
    return [[round(float(x), 5), round(float(y), 5)] for x, y in zip(across, up, strict=True)]
