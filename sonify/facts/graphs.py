"""What a graph shows, computed once: paper draws it with typst, the page as SVG.

The kind follows from what was measured: bars for things side by side, points for one number against another, a line
over time. What is compared stands in one graph on one scale. Every reading is drawn, no line leads over categories.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, floor, isfinite, log10

import numpy as np

from sonify.facts.once import once_a_lesson
from sonify.frozen import dataclass
from sonify.kinds.experiments import SHAPES
from sonify.kinds.timelines import TIMELINES
from sonify.records.experiment import Experiment, Series
from sonify.records.fact import Words
from sonify.records.lesson import Lesson
from sonify.records.scene import Rule
from sonify.records.timeline import FloatArray, Quantity, Stage
from sonify.units import convert

BARS, POINTS, LINE = "bars", "points", "line"
#: A quantity that changes by less than this share of itself is still: the rest is rounding.
STILL = 1e-6
#: More readings than these on a line are not marked one by one (our own limit: their dots would touch).
MOST_SPOTS = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """From the first tick to the last. name: "" where the graph's own name says it. ticks: round numbers, in `unit`."""

    ticks: tuple[float, ...]
    unit: str
    name: str = ""

    def share(self, value: float) -> float:
        """How far along the axis a value lies, 0 to 1."""
        return (value - self.ticks[0]) / (self.ticks[-1] - self.ticks[0])

    @property
    def power(self) -> int:
        """The power of ten taken out of an axis whose numbers would not read well in full, else 0."""
        power = floor(log10(max(abs(tick) for tick in self.ticks)) + 1e-9)
        return 0 if -3 <= power <= 5 else power

    @property
    def digits(self) -> int:
        """As many significant digits as tell the ticks apart, and at least three."""
        largest = max(abs(tick) for tick in self.ticks)
        return max(3, floor(log10(largest) + 1e-9) - floor(log10(self.ticks[1] - self.ticks[0]) + 1e-9) + 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One thing that was measured. x: along the axis of what was changed, a category's place from 0, or seconds.

    y: the reading, or the mean of its tries. least, most: how far the tries lie apart. tries: each of them, where they
    are known. All in the axes' units.
    """

    x: float
    y: float
    least: float
    most: float
    tries: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """One quantity of a graph. name: what stands at its curve, "" for one alone. spots: () for what is computed.

    part: the one that plays it, of what is compared; "" where nobody alone does.
    """

    quantity: str
    name: str = ""
    part: str = ""
    spots: tuple[Spot, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Graph:
    """kind: BARS, POINTS or LINE. x: the axis of what was changed; None for time and for categories, which are the
    stages named in `places`, by their titles."""

    kind: str
    name: str
    y: Axis
    traces: tuple[Trace, ...]
    x: Axis | None = None
    places: tuple[Words, ...] = ()


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


@once_a_lesson
def compared(lesson: Lesson) -> tuple[tuple[Rule, ...], ...]:
    """Rules of parts that are alike but for the quantity: what the class compares, in the scene's order."""
    alike: dict[tuple[object, ...], dict[str, Rule]] = {}
    for rule in lesson.scene.rules:
        if rule.part is not None and rule.quantity:
            ends = (rule.low.value, rule.high.value, rule.low.unit, rule.to_low, rule.to_high)
            alike.setdefault((rule.control, *ends), {}).setdefault(rule.quantity, rule)
    found: list[tuple[Rule, ...]] = []
    for rules in alike.values():
        names = set(rules)
        if len(rules) > 1 and not any(names & {rule.quantity for rule in other} for other in found):
            found.append(tuple(rules.values()))
    return tuple(found)


@once_a_lesson
def overlaid(lesson: Lesson) -> tuple[tuple[Rule, ...], ...]:
    """What is drawn on one scale: what the class compares, and tunes that follow quantities in one unit, each by a rule
    of its own (hunters and hunted)."""
    tunes: dict[str, dict[str, Rule]] = {}
    for rule in lesson.scene.rules:
        if rule.part is not None and rule.quantity and rule.control == "pitch":
            tunes.setdefault(rule.low.unit, {}).setdefault(rule.quantity, rule)
    taken = {rule.quantity for rules in compared(lesson) for rule in rules}
    own = (tuple(rules.values()) for rules in tunes.values() if len(rules) > 1 and not taken & set(rules))
    return (*compared(lesson), *own)


def graphs(lesson: Lesson, quantities: Iterable[Quantity]) -> tuple[Graph, ...]:
    """A graph for each quantity, what is compared in one, in the order in which the first of each comes."""
    wanted = {quantity.name: quantity for quantity in quantities}
    done: set[str] = set()
    found = []
    for name in wanted:
        if name not in done:
            rules = next((rules for rules in overlaid(lesson) if name in {r.quantity for r in rules}), ())
            together = {rule.quantity: rule.part or "" for rule in rules if rule.quantity in wanted}
            together = together or dict.fromkeys(_groups_of(name, wanted), "")
            done |= set(together)
            found.append(_graph(lesson, [(wanted[each], together[each]) for each in together]))
    return tuple(found)


def of_table(experiment: Experiment) -> Graph:
    """The graph of what a table's first quantity was, before anything sounds: as the sheets draw it."""
    shown = experiment.of(experiment.quantities[0])
    unit, kind = shown[0].unit, SHAPES[experiment.shape].graph
    traces = tuple(
        Trace(
            quantity=each.name,
            name=each.group,
            spots=_measured(experiment, each, unit, from_first=kind == LINE),
        )
        for each in shown
    )
    steps = experiment.steps
    return Graph(
        kind=kind,
        name=experiment.quantities[0],
        y=_upright(kind, unit, [], traces),
        traces=traces,
        x=_along(experiment.changed, experiment.changed_unit, steps) if kind == POINTS else None,
        places=experiment.labels if kind == BARS else (),
    )


def _upright(kind: str, unit: str, values: Sequence[float], traces: Iterable[Trace]) -> Axis:
    """The axis upwards, over all values and how far tries lie apart; that of bars with nought on it."""
    spots = [spot for trace in traces for spot in trace.spots]
    ends = [*values, *(end for spot in spots for end in (spot.least, spot.most)), *([0.0] if kind == BARS else [])]
    return Axis(ticks=tuple(nice_ticks(min(ends), max(ends))), unit=unit)


def _along(name: str, unit: str, values: FloatArray) -> Axis:
    return Axis(name=name, unit=unit, ticks=tuple(nice_ticks(float(values.min()), float(values.max()), most=6)))


def _groups_of(name: str, wanted: dict[str, Quantity]) -> list[str]:
    """Of groups in one unit ("height: sill", "height: fridge") all; else the quantity alone."""
    head, colon, _ = name.partition(": ")
    unit = wanted[name].unit
    return [q.name for q in wanted.values() if q.name.startswith(head + colon) and q.unit == unit] if colon else [name]


def _graph(lesson: Lesson, drawn: Sequence[tuple[Quantity, str]]) -> Graph:
    kind = _kind(lesson)
    first, single = drawn[0][0], len(drawn) == 1
    unit = first.unit
    traces = tuple(
        Trace(
            quantity=q.name,
            name="" if single else _called(q.name, part),
            part="" if single else part or _player(q.name, lesson),
            spots=_spots(q, unit, lesson),
        )
        for q, part in drawn
    )
    return Graph(
        kind=kind,
        name=_title([q.name for q, _ in drawn]),
        y=_upright(kind, unit, [value for q, _ in drawn for value in _in(unit, q)], traces),
        traces=traces,
        x=changed_axis(lesson) if kind == POINTS else None,
        places=tuple(stage.title for stage in categories(lesson)) if kind == BARS else (),
    )


def _kind(lesson: Lesson) -> str:
    if not TIMELINES[lesson.timeline.kind].joined:
        return BARS
    return POINTS if lesson.timeline.axis else LINE


def _in(unit: str, quantity: Quantity) -> list[float]:
    return [float(each) for each in convert(quantity.values, quantity.si_unit, unit)]


def _called(quantity: str, part: str) -> str:
    """What stands at a curve: the group ("height: sill"), else the part that plays it."""
    return quantity.partition(": ")[2] or part


def _player(quantity: str, lesson: Lesson) -> str:
    """The one part that a rule moves by a quantity, "" where several are."""
    parts = {rule.part for rule in lesson.scene.rules if rule.quantity == quantity and rule.part}
    return parts.pop() if len(parts) == 1 else ""


def _title(names: Sequence[str]) -> str:
    """What several quantities have in common before a colon, else all of them."""
    heads = {name.partition(": ")[0] for name in names}
    return heads.pop() if len(heads) == 1 else ", ".join(names)


def changed_axis(lesson: Lesson) -> Axis:
    """The axis of what was changed, of a timeline that walks along it."""
    quantity = lesson.timeline.quantity(lesson.timeline.axis)
    return _along(quantity.name, quantity.unit, quantity.in_unit())


def categories(lesson: Lesson) -> tuple[Stage, ...]:
    """The stages of a table that stand for one thing each."""
    return tuple(stage for stage in lesson.timeline.stages if not stage.gathers)


def unread(graph: Graph, trace: Trace, lesson: Lesson) -> frozenset[str]:
    """The stages of things, or of steps, at which nothing was read of a quantity, so that nothing is drawn there."""
    read = [spot.x for spot in trace.spots]
    if graph.kind == BARS:
        return frozenset(stage.name for at, stage in enumerate(categories(lesson)) if at not in read)
    if graph.kind != POINTS:
        return frozenset()
    timeline, found = lesson.timeline, set()
    along = timeline.quantity(timeline.axis).in_unit()
    for stage in timeline.stages:
        low, high = np.interp([stage.start_s, stage.end_s], timeline.time_s, along)
        if not any(low <= x <= high for x in read):
            found.add(stage.name)
    return frozenset(found)


# --- what was measured -----------------------------------------------------------------------------------------------


def _spots(quantity: Quantity, unit: str, lesson: Lesson) -> tuple[Spot, ...]:
    kind, experiment = _kind(lesson), lesson.scene.experiment
    series = next((s for s in experiment.series if s.name == quantity.name), None) if experiment else None
    if kind == BARS:
        return _bars(quantity, unit, series, lesson)
    if experiment is not None and series is not None and (kind == POINTS or experiment.timed):
        found = _measured(experiment, series, unit, from_first=kind == LINE)
        return found if kind == POINTS or len(found) <= MOST_SPOTS else ()
    if kind == LINE:
        return ()
    at = dict(zip(lesson.timeline.quantity(lesson.timeline.axis).in_unit().tolist(), _in(unit, quantity), strict=True))
    return tuple(Spot(x=x, y=y, least=y, most=y) for x, y in at.items())


def _measured(experiment: Experiment, series: Series, unit: str, *, from_first: bool) -> tuple[Spot, ...]:
    """What was read at each step; where nothing was, nothing is drawn."""
    read = np.any([np.isfinite(each.values) for each in experiment.series], axis=0)
    start = float(experiment.steps[read.argmax()]) if from_first else 0.0
    found = []
    for x, *ends in zip(experiment.steps, series.values, series.least, series.most, strict=True):
        if isfinite(ends[0]):
            y, least, most = (float(convert(end, series.unit, unit)) for end in ends)
            found.append(Spot(x=float(x) - start, y=y, least=least, most=most))
    return tuple(found)


def _bars(quantity: Quantity, unit: str, series: Series | None, lesson: Lesson) -> tuple[Spot, ...]:
    """One bar a category: the mean of its readings, and each of them."""
    time_s, values = lesson.timeline.time_s, np.array(_in(unit, quantity))
    stages = categories(lesson)
    read = _read(series, stages, lesson)
    found = []
    for place, stage in enumerate(stages):
        if stage.name in read and read[stage.name] is None:
            continue
        inside = (time_s >= stage.start_s) & (time_s <= stage.end_s)
        tries = tuple(values[inside][::2].tolist())  # each reading is held from one sample to the next
        least, most = min(tries), max(tries)
        if series is not None and len(tries) == 1 and (at := read.get(stage.name)) is not None:
            least, most = (float(convert(end[at], series.unit, unit)) for end in (series.least, series.most))
        found.append(Spot(x=float(place), y=float(np.mean(tries)), least=least, most=most, tries=tries))
    return tuple(found)


def _read(series: Series | None, stages: Sequence[Stage], lesson: Lesson) -> dict[str, int | None]:
    """Of stages that are words of an experiment: at which step each was read, None where nothing was."""
    experiment = lesson.scene.experiment
    if series is None or experiment is None or not experiment.named:
        return {}
    names = {stage.name for stage in stages}
    steps = {name: at for at, name in enumerate(experiment.words) if name in names}
    return {name: at if isfinite(series.values[at]) else None for name, at in steps.items()}
