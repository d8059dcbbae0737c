"""The computed science as curves over the bars of the piece. All figures are made here; the page only draws them."""

from __future__ import annotations

from typing import Any

import numpy as np

from sonify.facts.graphs import LINE, Graph, graphs, unread
from sonify.facts.sheet import held, rows_fact
from sonify.facts.sounding import soundings
from sonify.kinds.timelines import TIMELINES
from sonify.page.graphs import HEIGHT, DrawnRange, ends_of_names, paths, range_of
from sonify.page.held import held_steps
from sonify.page.words import both, figures, heading, with_unit
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.timeline import FloatArray, Quantity
from sonify.records.words import measure_text
from sonify.say import say
from sonify.say.parts import listed
from sonify.units import convert

#: A curve is drawn with at most so many points, from 0 (its least value) to HEIGHT (its greatest), and its value is
#: told at every beat, or in long pieces at so many places at least.
POINTS, PLACES = 600, 800
#: The names of what is compared stand so far apart, as a share of the drawing's height.
NAME_GAP = 0.12
HOUR_S = 3600.0


def places_told(beats: int) -> FloatArray:
    """The beats at which values are told: every one, or every second, third ... so that PLACES are not passed."""
    return np.arange(0.0, float(beats), max(1.0, np.ceil(beats / PLACES)))


def drawn(values: FloatArray, within: DrawnRange | None = None) -> list[int]:
    """Values as heights 0 to HEIGHT; a quantity that never changes lies in the middle."""
    within = within or DrawnRange(low=float(values.min()), high=float(values.max()))
    return [within.up(float(value)) for value in values]


def paired(lesson: Lesson, quantity: Quantity) -> tuple[Quantity, Quantity | None]:
    """What is drawn and said first, and what stands in brackets: the companion first, which pupils know."""
    if not quantity.companion:
        return quantity, None
    return lesson.timeline.quantity(quantity.companion), quantity


def curve(lesson: Lesson, quantity: Quantity) -> dict[str, Any]:
    """One quantity over the piece: points for the line, its value along the way, and a sentence that describes it.

    A quantity with a companion is drawn on the companion's scale and shows both values: "6 °C (573 m/s)".
    """
    time_map, timeline = lesson.controls.time_map, lesson.timeline
    (graph,) = graphs(lesson, [quantity])
    within = range_of(graph, lesson) if graph.kind != LINE else None
    beats = lesson.score.bars * lesson.score.metre.beats
    drawn_as, other = paired(lesson, quantity)

    def at(of: Quantity, places: FloatArray) -> FloatArray:
        return convert(timeline.at(of.name, time_map.model_time_s(places)), of.si_unit, of.unit)

    def texts(of: Quantity | None) -> list[str]:
        places = places_told(beats)
        return [with_unit(figure, of.unit) for figure in figures(at(of, places))] if of else [""] * len(places)

    places = np.linspace(0.0, float(beats), min(POINTS, 4 * beats) + 1)
    fine = at(drawn_as, places)
    beside = at(other, places) if other else fine

    def measured(k: int) -> list[str]:
        """The value at a point, and in the other unit."""
        own = measure_text(float(fine[k]), drawn_as.unit)
        return [own, measure_text(float(beside[k]), other.unit) if other else ""]

    low, high = measured(int(fine.argmin())), measured(int(fine.argmax()))
    if within is not None:
        low, high = ([measure_text(end, drawn_as.unit), ""] for end in (within.low, within.high))
    title = heading(quantity.name)
    if quantity.drawn:
        title = say(fact("drawn-beside", quantity=title))
    return {
        "name": quantity.name,
        "heading": title,
        "title": title,
        "meaning": say(quantity.meaning),
        "whose": say(quantity.whose),
        "points": drawn(fine, within),
        "kind": graph.kind,
        "paths": [] if within is None else paths(graph, lesson, within, places),
        "names": [],
        "low": low,
        "high": high,
        "steps": [],
        "values": [both(a, b) for a, b in zip(texts(drawn_as), texts(other), strict=True)],
        "described": say(held(rows_fact(quantity, lesson, unread(graph, graph.traces[0], lesson)), lesson))
        if graph.kind != LINE and len(graph.traces[0].spots) <= len(lesson.score.sections)
        else say(
            fact(
                "hear-curve-told",
                title=title,
                whose="yes" if quantity.whose else "no",
                owner=say(quantity.whose),
                first=both(*measured(0)),
                low=both(*low),
                high=both(*high),
                last=both(*measured(-1)),
            )
        ),
    }


def together(lesson: Lesson, graph: Graph) -> dict[str, Any]:
    """What is compared, on one scale, with its names; the first is the one whose place is marked."""
    beats = lesson.score.bars * lesson.score.metre.beats
    places = np.linspace(0.0, float(beats), min(POINTS, 4 * beats) + 1)
    within = range_of(graph, lesson)
    single = [curve(lesson, lesson.timeline.quantity(trace.quantity)) for trace in graph.traces]
    first = lesson.timeline.quantity(graph.traces[0].quantity)
    times = lesson.controls.time_map.model_time_s(places)
    names = [trace.name for trace in graph.traces]
    title = heading(graph.name)
    return {
        **single[0],
        "name": graph.name,
        "heading": title,
        "title": title,
        "whose": "",
        "points": drawn(convert(lesson.timeline.at(first.name, times), first.si_unit, graph.y.unit), within),
        "paths": paths(graph, lesson, within, places),
        "names": list(zip(names, ends_of_names(graph, lesson, within, NAME_GAP), strict=True)),
        "low": [measure_text(within.low, graph.y.unit), ""],
        "high": [measure_text(within.high, graph.y.unit), ""],
        "values": [
            listed([f"{name} {value}" for name, value in zip(names, row, strict=True)])
            for row in zip(*(each["values"] for each in single), strict=True)
        ],
        "described": " ".join(each["described"] for each in single),
    }


def steps(lesson: Lesson, quantity: Quantity) -> list[dict[str, Any]]:
    """The held averages as steps over the quantity's curve: `level` is their height on it."""
    drawn_as, _ = paired(lesson, quantity)
    beats = lesson.score.bars * lesson.score.metre.beats
    times = lesson.controls.time_map.model_time_s(np.linspace(0.0, float(beats), min(POINTS, 4 * beats) + 1))
    fine = convert(lesson.timeline.at(drawn_as.name, times), drawn_as.si_unit, drawn_as.unit)
    (graph,) = graphs(lesson, [quantity])
    within = (
        range_of(graph, lesson) if graph.kind != LINE else DrawnRange(low=float(fine.min()), high=float(fine.max()))
    )
    return [
        {
            "bar": step["bar"],
            "bars": step["bars"],
            "level": within.up(float(step["at"])),
            "words": step["words"],
        }
        for step in held_steps(lesson)
    ]


def model_times(lesson: Lesson) -> list[str]:
    """The time in the science at the same places: "14:20" where there is a clock, else how long since the start."""
    seconds = lesson.controls.time_map.model_time_s(places_told(lesson.score.bars * lesson.score.metre.beats))
    start_h, span_s = lesson.timeline.clock_start, float(np.ptp(seconds))
    if not TIMELINES[lesson.timeline.kind].timed:  # categories have no time
        return ["" for _ in seconds]
    if start_h is not None:
        minutes = [int(s // 60) + round(start_h * 60) for s in seconds]
        return [f"{m // 60 % 24:02d}:{m % 60:02d}" for m in minutes]
    for unit, length_s in (("years", 365.25 * 24 * HOUR_S), ("days", 24 * HOUR_S)):
        if span_s >= 5 * length_s:
            return [_from_start(with_unit(figure, unit)) for figure in figures(seconds / length_s)]
    if span_s >= 3 * HOUR_S:
        minutes = [round(s / 60.0) for s in seconds]
        return [say(fact("hear-hours-from-start", hours=str(m // 60), minutes=f"{m % 60:02d}")) for m in minutes]
    unit, length_s = ("min", 60.0) if span_s >= 180.0 else ("s", 1.0) if span_s >= 1e-3 else ("ps", 1e-12)
    return [_from_start(with_unit(figure, unit)) for figure in figures(seconds / length_s)]


def _from_start(time: str) -> str:
    return say(fact("hear-from-start", time=time))


def happenings(lesson: Lesson) -> list[dict[str, Any]]:
    """The events of the process that fall within the piece: at which beat and in which bar, and what."""
    beats = np.linspace(0.0, lesson.score.bars * lesson.score.metre.beats - 1e-6, 4096)
    times = lesson.controls.time_map.model_time_s(beats)
    found = []
    for event in lesson.timeline.events:
        if times[0] <= event.time_s <= times[-1]:
            place = float(np.interp(event.time_s, times, beats))
            bar = int(place // lesson.score.metre.beats) + 1
            found.append({"beat": round(place, 3), "bar": bar, "text": say(event.text)})
    return found


def science(lesson: Lesson) -> dict[str, Any]:
    """All curves: what is compared first, then the quantity that sets the tempo."""
    if not lesson.timeline.quantities:
        return {"curves": [_no_curve(lesson)], "measured": False, **_along(lesson)}
    rule = next((key.rule for key in lesson.controls.keys if key.rule.control == "tempo"), None)
    first = rule.quantity if rule else lesson.timeline.quantities[0].name
    shown = [quantity for quantity in lesson.timeline.quantities if quantity.name != lesson.timeline.axis]
    ordered = sorted(shown, key=lambda quantity: quantity.name != first)
    curves = [curve(lesson, quantity) for quantity in ordered]
    if rule:
        curves[0]["title"] = say(fact("hear-sets-the-tempo", title=curves[0]["title"]))
        curves[0]["steps"] = steps(lesson, ordered[0])
    sides = [together(lesson, graph) for graph in graphs(lesson, shown) if len(graph.traces) > 1]
    return {"curves": [*sides, *curves], "measured": True, **_along(lesson)}


def _along(lesson: Lesson) -> dict[str, Any]:
    """What goes along with every curve."""
    return {"times": model_times(lesson), "events": happenings(lesson), "height": HEIGHT}


def _no_curve(lesson: Lesson) -> dict[str, Any]:
    """Where nothing is measured: no line, and in place of averages the words for the sound of each stage."""
    bars = {section.letter: section for section in lesson.score.sections}
    steps = [
        {"bar": bars[each.letter].bar, "bars": bars[each.letter].bars, "level": HEIGHT // 2, "words": say(each.told)}
        for each in soundings(lesson.scene, lesson.score)
    ]
    nothing = dict.fromkeys(("name", "heading", "title", "meaning", "whose", "described"), "")
    values = ["" for _ in places_told(lesson.score.bars * lesson.score.metre.beats)]
    shapes = {"kind": LINE, "paths": [], "names": []}
    return {**nothing, **shapes, "points": [0, 0], "low": [], "high": [], "steps": steps, "values": values}
