"""A graph as paths over the bars of the piece: bars and dots where nothing lies between two values, lines of what is
compared. In a square of HEIGHT, x from left to right, y downwards, as SVG has it; the page only shows them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sonify.facts.graphs import BARS, LINE, Graph, Trace, unread
from sonify.frozen import dataclass
from sonify.records.controls import StageBars
from sonify.records.lesson import Lesson
from sonify.records.timeline import FloatArray, Stage
from sonify.units import convert

HEIGHT = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnRange:
    """From the foot of the drawing to its head, in the graph's unit."""

    low: float
    high: float

    def up(self, value: float) -> int:
        """How high a value stands; in the middle where nothing changes."""
        spread = self.high - self.low
        return round((value - self.low) / spread * HEIGHT) if spread else HEIGHT // 2


def range_of(graph: Graph, lesson: Lesson) -> DrawnRange:
    """What the drawing reaches over: bars from zero, with room for how far the tries lie apart."""
    values = np.concatenate([_values(graph, trace, lesson) for trace in graph.traces])
    spread = [end for trace in graph.traces for spot in trace.spots for end in (spot.least, spot.most)]
    ends = [float(values.min()), float(values.max()), *spread, *([0.0] if graph.kind == BARS else [])]
    return DrawnRange(low=min(ends), high=max(ends))


def paths(graph: Graph, lesson: Lesson, within: DrawnRange, places: FloatArray) -> list[str]:
    """One path a trace. places: the beats at which a line is drawn."""
    drawn = _line if graph.kind == LINE else _bars if graph.kind == BARS else _dots
    return [drawn(graph, number, lesson, within, places) for number in range(len(graph.traces))]


def _values(graph: Graph, trace: Trace, lesson: Lesson) -> FloatArray:
    quantity = lesson.timeline.quantity(trace.quantity)
    return np.asarray(convert(quantity.values, quantity.si_unit, graph.y.unit))


def _line(graph: Graph, number: int, lesson: Lesson, within: DrawnRange, places: FloatArray) -> str:
    times = lesson.controls.time_map.model_time_s(places)
    values = np.interp(times, lesson.timeline.time_s, _values(graph, graph.traces[number], lesson))
    across = HEIGHT * places / places[-1]
    pairs = zip(across, values, strict=True)
    return "M" + "L".join(f"{x:.1f} {HEIGHT - within.up(float(value))}" for x, value in pairs)


def _stages(lesson: Lesson) -> list[tuple[Stage, StageBars]]:
    bars = {row.stage: row for row in lesson.controls.time_map.stages}
    return [(stage, bars[stage.name]) for stage in lesson.timeline.stages if stage.name in bars]


def _inside(stage: Stage, lesson: Lesson) -> FloatArray:
    time_s = lesson.timeline.time_s
    return np.asarray((time_s >= stage.start_s) & (time_s <= stage.end_s))


def _bars(graph: Graph, number: int, lesson: Lesson, within: DrawnRange, places: FloatArray) -> str:
    """A bar for each value that is held, as wide as it is heard."""
    values, found, count = _values(graph, graph.traces[number], lesson), [], len(graph.traces)
    foot, empty = HEIGHT - within.up(0.0), unread(graph, graph.traces[number], lesson)
    for stage, row in _stages(lesson):
        if stage.name in empty:
            continue
        held = values[_inside(stage, lesson)][::2]  # from one sample to the next
        wide = HEIGHT * row.bars / lesson.score.bars / len(held)
        first = HEIGHT * (row.bar - 1) / lesson.score.bars
        for place, value in enumerate(held):
            left = first + wide * (place + 0.15 + 0.7 * number / count)
            top = HEIGHT - within.up(float(value))
            found.append(f"M{left:.1f} {foot}V{top}h{0.7 * wide / count:.1f}V{foot}Z")
    return "".join(found)


def _dots(graph: Graph, number: int, lesson: Lesson, within: DrawnRange, places: FloatArray) -> str:
    """A dot for each thing that was measured, where it is heard, and an upright line as far as its tries lie apart."""
    along, found = lesson.timeline.quantity(lesson.timeline.axis).in_unit(), []
    for stage, row in _stages(lesson):
        low, high = np.interp([stage.start_s, stage.end_s], lesson.timeline.time_s, along)
        for spot in graph.traces[number].spots:
            if low <= spot.x <= high:
                share = (spot.x - low) / (high - low) if high > low else 0.5
                x = HEIGHT * (row.bar - 1 + share * row.bars) / lesson.score.bars
                found.append(f"M{x:.1f} {HEIGHT - within.up(spot.y)}h0")
    return "".join(found)


def ends_of_names(graph: Graph, lesson: Lesson, within: DrawnRange, gap: float) -> Sequence[float]:
    """How high the name of each trace stands, 0 to 1, where it ends, none on another."""
    ends = [within.up(float(_values(graph, trace, lesson)[-1])) / HEIGHT for trace in graph.traces]
    order, places, free = sorted(range(len(ends)), key=ends.__getitem__), [0.0] * len(ends), 0.0
    for left, k in zip(range(len(ends) - 1, -1, -1), order, strict=True):
        places[k] = min(max(ends[k], free), 1.0 - left * gap)
        free = places[k] + gap
    return places
