"""The computed science as curves over the bars of the piece. All figures are made here; the page only draws them."""

from __future__ import annotations

from math import floor, log10
from typing import Any

import numpy as np

from sonify.records.lesson import Lesson
from sonify.records.timeline import FloatArray, Quantity
from sonify.records.words import measure_text, number_text
from sonify.units import convert, printed

#: A curve is drawn with at most so many points, from 0 (its least value) to HEIGHT (its greatest), and its value is
#: told at every beat, or in long pieces at so many places at least.
POINTS, HEIGHT, PLACES = 600, 1000, 800
HOUR_S = 3600.0


def figures(values: FloatArray) -> list[str]:
    """Each value as text, all with the decimals that show about a fiftieth of their range."""
    spread = float(np.ptp(values))
    decimals = 1 - floor(log10(spread)) if spread > 0 else 1
    if decimals > 6 or float(np.max(np.abs(values))) >= 1e7:
        return [number_text(float(value)) for value in values]
    rounded = np.round(values, max(0, decimals)) + 0.0  # + 0.0 turns -0 into 0
    return [f"{value:.{max(0, decimals)}f}".replace("-", "−") for value in rounded]


def with_unit(figure: str, unit: str) -> str:
    """A figure and its unit, held together by a space that no line breaks at."""
    return figure if unit in ("", "1") else f"{figure}\u00a0{printed(unit)}"


def places_told(beats: int) -> FloatArray:
    """The beats at which values are told: every one, or every second, third ... so that PLACES are not passed."""
    return np.arange(0.0, float(beats), max(1.0, np.ceil(beats / PLACES)))


def drawn(values: FloatArray) -> list[int]:
    """Values as heights 0 to HEIGHT; a quantity that never changes lies in the middle."""
    low, spread = float(values.min()), float(np.ptp(values))
    if spread == 0.0:
        return [HEIGHT // 2] * len(values)
    return [round(float(share) * HEIGHT) for share in (values - low) / spread]


def heading(name: str) -> str:
    """A quantity's name as a heading: "Journey temperature"."""
    return name[:1].upper() + name[1:]


def curve(lesson: Lesson, quantity: Quantity) -> dict[str, Any]:
    """One quantity over the piece: points for the line, its value along the way, and a sentence that describes it.

    A quantity with a companion shows both values: "573 m/s, that is 6 °C".
    """
    time_map, timeline = lesson.controls.time_map, lesson.timeline
    beats = lesson.score.bars * lesson.score.metre.beats

    def at(of: Quantity, places: FloatArray) -> FloatArray:
        return convert(timeline.at(of.name, time_map.model_time_s(places)), of.si_unit, of.unit)

    def texts(of: Quantity) -> list[str]:
        return [with_unit(figure, of.unit) for figure in figures(at(of, places_told(beats)))]

    fine = at(quantity, np.linspace(0.0, float(beats), min(POINTS, 4 * beats) + 1))
    values = texts(quantity)
    if quantity.companion:
        values = [
            f"{a}, that is {b}" for a, b in zip(values, texts(timeline.quantity(quantity.companion)), strict=True)
        ]
    low, high = float(fine.min()), float(fine.max())
    return {
        "name": quantity.name,
        "heading": heading(quantity.name),
        "title": heading(quantity.name),
        "meaning": quantity.meaning,
        "whose": quantity.whose,
        "points": drawn(fine),
        "low": measure_text(low, quantity.unit),
        "high": measure_text(high, quantity.unit),
        "values": values,
        "described": (
            f"{heading(quantity.name)}{f' of {quantity.whose}' if quantity.whose else ''}: "
            f"{measure_text(float(fine[0]), quantity.unit)} at the start, "
            f"between {measure_text(low, quantity.unit)} and {measure_text(high, quantity.unit)}, "
            f"{measure_text(float(fine[-1]), quantity.unit)} at the end."
        ),
    }


def model_times(lesson: Lesson) -> list[str]:
    """The time in the science at the same places: "14:20" where there is a clock, else how long since the start."""
    seconds = lesson.controls.time_map.model_time_s(places_told(lesson.score.bars * lesson.score.metre.beats))
    start_h, span_s = lesson.timeline.clock_start, float(np.ptp(seconds))
    if start_h is not None:
        minutes = [int(s // 60) + round(start_h * 60) for s in seconds]
        return [f"{m // 60 % 24:02d}:{m % 60:02d}" for m in minutes]
    if span_s >= 3 * HOUR_S:
        minutes = [round(s / 60.0) for s in seconds]
        return [f"{m // 60}\u00a0h {m % 60:02d}\u00a0min from the start" for m in minutes]
    unit, length_s = ("min", 60.0) if span_s >= 180.0 else ("s", 1.0) if span_s >= 1e-3 else ("ps", 1e-12)
    return [with_unit(figure, unit) + " from the start" for figure in figures(seconds / length_s)]


def happenings(lesson: Lesson) -> list[dict[str, Any]]:
    """The events of the process that fall within the piece: where (0 to 1 of its beats) and what."""
    beats = np.linspace(0.0, lesson.score.bars * lesson.score.metre.beats - 1e-6, 4096)
    times = lesson.controls.time_map.model_time_s(beats)
    found = []
    for event in lesson.timeline.events:
        if times[0] <= event.time_s <= times[-1]:
            place = float(np.interp(event.time_s, times, beats))
            found.append({"beat": round(place, 3), "text": event.text})
    return found


def science(lesson: Lesson) -> dict[str, Any]:
    """All curves, the quantity that sets the tempo first."""
    rule = next((key.rule for key in lesson.controls.keys if key.rule.control == "tempo"), None)
    first = rule.quantity if rule else lesson.timeline.quantities[0].name
    ordered = sorted(lesson.timeline.quantities, key=lambda quantity: quantity.name != first)
    curves = [curve(lesson, quantity) for quantity in ordered]
    if rule:
        curves[0]["title"] += ": sets the tempo"
    return {
        "curves": curves,
        "times": model_times(lesson),
        "events": happenings(lesson),
        "height": HEIGHT,
    }
