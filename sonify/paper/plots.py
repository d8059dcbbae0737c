"""Each quantity over model time as points and ticks, ready to be drawn by the template in the sheet's own font."""

from __future__ import annotations

from math import ceil, floor
from typing import Any

import numpy as np

from sonify.facts.graphs import BARS, LINE, Axis, Graph, Trace, categories, changed_axis, graphs, unread
from sonify.facts.sheet import curve_fact, held, rows_fact
from sonify.kinds.timelines import TIMELINES
from sonify.paper.facts import badge
from sonify.paper.settings import PaperSettings
from sonify.records.fact import Fact, fact
from sonify.records.lesson import Lesson
from sonify.records.timeline import FloatArray, Quantity, Stage, Timeline
from sonify.say import say
from sonify.say.parts import number
from sonify.units import convert, printed

#: So many quantities beside those that are heard.
MOST_OTHERS = 2
#: Points a curve is drawn with: finer than a printer at this size can show.
POINTS = 160
#: Stages' letters stand at least this share of the plot's width apart.
LETTER_GAP = 0.08
#: So many bars or points have a plot of the sheet's whole width.
WIDE_FROM = 5
#: Steps that a time axis may have: seconds, name of the unit, seconds in that unit.
_TIME_STEPS = (
    *((step, "seconds", 1.0) for step in (0.1, 0.2, 0.5, 1, 2, 5, 10, 20)),
    *((60 * step, "minutes", 60.0) for step in (0.5, 1, 2, 5, 10, 20)),
    *((3_600 * step, "hours", 3_600.0) for step in (0.5, 1, 2, 3, 6, 12)),
    *((86_400 * step, "days", 86_400.0) for step in (1, 2, 5, 10, 20, 50, 100, 200)),
    *((31_557_600 * step, "years", 31_557_600.0) for step in (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)),
)
_MOST_TIME_TICKS = 5


def plots(lesson: Lesson, settings: PaperSettings | None = None) -> dict[str, Any]:
    """One plot a quantity over one time axis, and the stages to shade behind them.

    settings: how the tile of a group is drawn that stands at the curve it plays.
    """
    time, stages = time_axis(lesson.timeline), _stages(lesson)
    lettered = [say(fact("plot-stage", letter=row["letter"], title=row["title"])) for row in stages if row["letter"]]
    drawn = plotted(lesson)
    found = graphs(lesson, drawn)
    shown = {*(quantity.name for quantity in drawn), lesson.timeline.axis}
    rest = [quantity.name for quantity in lesson.timeline.quantities if quantity.name not in shown]
    return {
        "time": time,
        "stages": stages,
        "shaded": not lesson.timeline.axis,
        "legend": say(_legend(found[0] if found else None, lesson, time["name"], ", ".join(lettered))),
        "plots": [_plot(graph, lesson, settings) for graph in found],
        "rest": rest,
        "left": say(fact("plot-rest", n=len(rest))) if rest else "",
    }


def _legend(graph: Graph | None, lesson: Lesson, time: str, stages: str) -> Fact:
    kind = TIMELINES[lesson.timeline.kind]
    spots = [spot for trace in graph.traces for spot in trace.spots] if graph else []
    repeated = "yes" if any(spot.least < spot.most for spot in spots) else "no"
    if not kind.joined:
        return fact("plot-bars-of", stages=stages, repeated=repeated)
    if lesson.timeline.axis:
        return fact("plot-points-of", changed=lesson.timeline.axis, stages=stages, repeated=repeated)
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


def _stages(lesson: Lesson) -> list[dict[str, Any]]:
    """Where each stage lies across (0 to 1), and where its letter can stand without touching the next."""
    letters = {section.name: section.letter for section in lesson.score.sections}
    stages, spans = _spans(lesson)
    order = sorted(range(len(spans)), key=lambda k: sum(spans[k]))
    places = dict(zip(order, spread([sum(spans[k]) / 2 for k in order], LETTER_GAP), strict=True))
    return [
        {"letter": letters.get(s.name, ""), "title": say(s.title), "from": first, "to": last, "at": places[k]}
        for k, (s, (first, last)) in enumerate(zip(stages, spans, strict=True))
    ]


def _spans(lesson: Lesson) -> tuple[tuple[Stage, ...], list[tuple[float, float]]]:
    """Each stage's stretch across the plots: of time, of what was changed, or its place among the categories."""
    timeline = lesson.timeline
    if not TIMELINES[timeline.kind].joined:
        stages = categories(lesson)
        return stages, [(k / len(stages), (k + 1) / len(stages)) for k in range(len(stages))]
    along = timeline.time_s
    if timeline.axis:
        changed = changed_axis(lesson)
        along = np.array([changed.share(x) for x in timeline.quantity(timeline.axis).in_unit()])
        edges = [np.interp([s.start_s, s.end_s], timeline.time_s, along) for s in timeline.stages]
    else:
        whole = float(np.ptp(along))
        edges = [(np.array([s.start_s, s.end_s]) - along[0]) / whole for s in timeline.stages]
    return timeline.stages, [(float(first), float(last)) for first, last in edges]


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
    moments = [tick * step for tick in range(first, last + 1)]
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


def _plot(graph: Graph, lesson: Lesson, settings: PaperSettings | None) -> dict[str, Any]:
    quantities = [lesson.timeline.quantity(trace.quantity) for trace in graph.traces]
    several = len(quantities) > 1
    told = [say(held(_told(graph, trace, lesson), lesson)) for trace in graph.traces]
    return {
        "name": graph.name,
        "unit": _unit(graph.y),
        "kind": graph.kind,
        "drawn": say(fact("drawn-axis")) if any(quantity.drawn for quantity in quantities) else "",
        "ticks": _ticks(graph.y),
        "x": None if graph.x is None else {"name": graph.x.name, "unit": _unit(graph.x), "ticks": _ticks(graph.x)},
        "several": several,
        "wide": several or (graph.kind != LINE and len(graph.traces[0].spots) >= WIDE_FROM),
        "traces": [
            _trace(graph, trace, quantity, number, lesson) | {"who": _tile(trace, lesson, settings)}
            for number, (trace, quantity) in enumerate(zip(graph.traces, quantities, strict=True))
        ],
        "labels": _ends(graph, lesson) if several else [],
        "places": [say(place) for place in graph.places],
        "alt": " ".join(told),
    }


def _tile(trace: Trace, lesson: Lesson, settings: PaperSettings | None) -> dict[str, Any] | None:
    part = next((part for part in lesson.score.group_parts if part.name == trace.part), None)
    return badge(part.group, settings) if part and settings else None


def _told(graph: Graph, trace: Trace, lesson: Lesson) -> Fact:
    """The graph in words: each bar or step, or the course of a line."""
    quantity = lesson.timeline.quantity(trace.quantity)
    stepped = graph.kind != LINE and len(lesson.score.sections) >= len(graph.traces[0].spots)
    empty = unread(graph, trace, lesson)
    return rows_fact(quantity, lesson, empty) if stepped else curve_fact(quantity, lesson.timeline)


def _trace(graph: Graph, trace: Trace, quantity: Quantity, number: int, lesson: Lesson) -> dict[str, Any]:
    """points: of a line. spots: what was measured, each with how far its tries lie apart. bars: from, to, from, to."""
    y, count = graph.y, len(graph.traces)
    zero = y.share(min(max(0.0, y.ticks[0]), y.ticks[-1]))
    spots, bars = [], []
    for spot in trace.spots:
        low, mean, high = (round(y.share(value), 5) for value in (spot.least, spot.y, spot.most))
        if graph.kind == BARS:
            left = (spot.x + 0.15 + 0.7 * number / count) / len(graph.places)
            right = (spot.x + 0.15 + 0.7 * (number + 1) / count) / len(graph.places)
            bars.append([round(left, 5), round(right, 5), round(zero, 5), mean])
            at = (left + right) / 2
        else:
            at = _across(graph, spot.x, lesson)
        tries = [round(y.share(each), 5) for each in spot.tries] if len(spot.tries) > 1 else []
        spots.append({"x": round(at, 5), "y": mean, "low": low, "high": high, "tries": tries})
    line = _points(lesson.timeline.time_s, _converted(quantity, y.unit), y.ticks[0], y.ticks[-1])
    points = line if graph.kind == LINE else []
    return {"name": trace.name, "points": points, "spots": spots, "bars": bars}


def _converted(quantity: Quantity, unit: str) -> FloatArray:
    return np.asarray(convert(quantity.values, quantity.si_unit, unit))


def _across(graph: Graph, x: float, lesson: Lesson) -> float:
    if graph.x is not None:
        return graph.x.share(x)
    return x / float(lesson.timeline.time_s[-1] - lesson.timeline.time_s[0])


def _ends(graph: Graph, lesson: Lesson) -> list[float]:
    """How high each curve ends, where its name stands."""
    ends = []
    for trace in graph.traces:
        last = float(_converted(lesson.timeline.quantity(trace.quantity), graph.y.unit)[-1])
        ends.append(graph.y.share(trace.spots[-1].y if trace.spots else last))
    return [min(1.0, max(0.0, end)) for end in ends]


def _ticks(axis: Axis) -> list[dict[str, Any]]:
    return [{"at": axis.share(t), "text": number(t / 10.0**axis.power, axis.digits)} for t in axis.ticks]


def _unit(axis: Axis) -> str:
    scale = f"× 10^{axis.power}" if axis.power else ""
    return " ".join(word for word in (scale, "" if axis.unit == "1" else printed(axis.unit)) if word)


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
