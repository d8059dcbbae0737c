"""What a held tempo was set from: the quantity's average over each stage, as one step a stage over its curve."""

from __future__ import annotations

import re
from typing import Any

import numpy as np

from sonify.page.words import both, figures, with_unit
from sonify.records.controls import StageBars
from sonify.records.lesson import Lesson
from sonify.records.timeline import FloatArray, Quantity
from sonify.say import say
from sonify.units import convert


def companion_at(quantity: Quantity, companion: Quantity, values: FloatArray) -> FloatArray | None:
    """The companion where the quantity has these values (both SI), from their pairs; None where it is no function."""
    order = np.lexsort((companion.values, quantity.values))
    own, other = quantity.values[order], companion.values[order]
    steps = np.diff(other)
    if not (np.all(steps >= 0.0) or np.all(steps <= 0.0)):
        return None
    return np.interp(values, own, other)


def averages(lesson: Lesson) -> list[tuple[StageBars, float]]:
    """Each stage with the mean (SI) of the tempo rule's quantity; none without such a rule, or where a tempo glides."""
    curve, time_map = lesson.controls.curve("tempo"), lesson.controls.time_map
    if curve is None:
        return []
    beats = time_map.metre.beats
    return [
        (stage, float(np.mean(curve.quantity_values[beats * (stage.bar - 1) :][: beats * stage.bars])))
        for stage in time_map.stages
        if not stage.bar_bpms
    ]


def held_steps(lesson: Lesson) -> list[dict[str, Any]]:
    """For each stage of one tempo: its bars, its average in the unit of the axis (the companion's where there is one),
    and that average in words, as the key's table on paper has it: "19 °C on average (586 m/s)".
    """
    rows, curve = averages(lesson), lesson.controls.curve("tempo")
    if curve is None or not rows:
        return []
    quantity = lesson.timeline.quantity(curve.rule.quantity)
    means = np.array([mean for _, mean in rows])
    levels, texts = convert(means, quantity.si_unit, quantity.unit), _texts(lesson, quantity, means)
    if quantity.companion:
        companion = lesson.timeline.quantity(quantity.companion)
        found = companion_at(quantity, companion, means)
        if found is None:
            return []
        levels = convert(found, companion.si_unit, companion.unit)
    printed = _printed(lesson)
    steps = []
    for (stage, _), level, text in zip(rows, levels, texts, strict=True):
        words = turned(printed[stage.bar], bool(quantity.companion)) if stage.bar in printed else text
        first, *rest = words.split(" (", 1)
        average = f"{first} on average" + (f" ({rest[0]}" if rest else "")
        steps.append({"bar": stage.bar, "bars": stage.bars, "at": float(level), "words": average})
    return steps


def _printed(lesson: Lesson) -> dict[int, str]:
    """The averages as the tempo key's table has them, by the stage's first bar; {} where it lacks a stage."""
    stages = lesson.controls.time_map.stages
    table = next((key.stages for key in lesson.controls.keys if key.rule.control == "tempo"), ())
    if len(table) != len(stages):
        return {}
    return {stage.bar: say(text) for stage, (_, text, _) in zip(stages, table, strict=True)}


def turned(text: str, paired: bool) -> str:
    """A value and its companion's with the companion's first: "586 m/s (19 °C)" as "19 °C (586 m/s)"."""
    found = re.fullmatch(r"(.+) \((.+)\)", text) if paired else None
    return f"{found[2]} ({found[1]})" if found else text


def _texts(lesson: Lesson, quantity: Quantity, means: FloatArray) -> list[str]:
    """The means in words where no table has them."""
    own = [with_unit(figure, quantity.unit) for figure in figures(convert(means, quantity.si_unit, quantity.unit))]
    if not quantity.companion:
        return own
    companion = lesson.timeline.quantity(quantity.companion)
    others = companion_at(quantity, companion, means)
    if others is None:
        return own
    shown = figures(convert(others, companion.si_unit, companion.unit))
    return [both(with_unit(figure, companion.unit), text) for figure, text in zip(shown, own, strict=True)]
