"""What a held tempo was set from: the quantity's average over each stage, as one step a stage over its curve."""

from __future__ import annotations

from typing import Any

import numpy as np

from sonify.page.words import both, figures, with_unit
from sonify.records.controls import StageBars
from sonify.records.fact import Fact, Words, fact
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
    if curve is None or not rows or not curve.rule.quantity:
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
        first, second = printed.get(stage.bar, text)
        average = both(say(fact("hear-on-average", value=first)), second)
        steps.append({"bar": stage.bar, "bars": stage.bars, "at": float(level), "words": average})
    return steps


def _printed(lesson: Lesson) -> dict[int, tuple[str, str]]:
    """The averages as the tempo key's table has them, by the stage's first bar; {} where it lacks a stage.

    Each as a value and what goes with it, the companion first where there is one: children know it.
    """
    stages = lesson.controls.time_map.stages
    table = next((key.stages for key in lesson.controls.keys if key.rule.control == "tempo"), ())
    if len(table) != len(stages):
        return {}
    return {stage.bar: companion_first(value) for stage, (_, value, _) in zip(stages, table, strict=True)}


def companion_first(value: Words) -> tuple[str, str]:
    """A value of the key and what goes with it: of "586 m/s (19 °C)" first "19 °C", then "586 m/s"; "" for nothing."""
    told = dict(value.args) if isinstance(value, Fact) else {}
    if "beside" not in told:
        return say(value), ""
    own, beside = (say(fact("value-alone", value=told[name])) for name in ("value", "beside"))
    return beside, own


def _texts(lesson: Lesson, quantity: Quantity, means: FloatArray) -> list[tuple[str, str]]:
    """The means where no table has them, each as a value and what goes with it."""
    own = [with_unit(figure, quantity.unit) for figure in figures(convert(means, quantity.si_unit, quantity.unit))]
    if not quantity.companion:
        return [(text, "") for text in own]
    companion = lesson.timeline.quantity(quantity.companion)
    others = companion_at(quantity, companion, means)
    if others is None:
        return [(text, "") for text in own]
    shown = figures(convert(others, companion.si_unit, companion.unit))
    return [(with_unit(figure, companion.unit), text) for figure, text in zip(shown, own, strict=True)]
