"""What an author drew, as plain data that a page can show and change."""

from __future__ import annotations

from typing import Any

import numpy as np

from sonify.records.drawing import DrawnQuantity
from sonify.records.lesson import Lesson
from sonify.records.timeline import FloatArray, Quantity
from sonify.say import say
from sonify.units import printed


def drawing(lesson: Lesson) -> dict[str, Any] | None:
    """The stages to draw over, and every drawn quantity as a line; None where a scene can have none.

    A place counts stages: 0 is the beginning of the first, 1 that of the second, and so on. Two points at one place are
    a step. `own`: the stages stand in the scene; else a process computes them, and a drawing may lie beside.
    """
    scene = lesson.scene
    if scene.table is not None or (scene.own_stages and not scene.drawn):
        return None
    names = [spec.name for spec in lesson.process.stages]
    return {
        "own": scene.own_stages,
        "circle": lesson.process.cycle,
        "stages": [{"name": spec.name, "title": say(spec.title)} for spec in lesson.process.stages],
        "quantities": [
            _row(number, drawn, lesson.timeline.quantity(drawn.name), lesson, names)
            for number, drawn in enumerate(scene.drawn)
        ],
    }


def _row(number: int, drawn: DrawnQuantity, quantity: Quantity, lesson: Lesson, names: list[str]) -> dict[str, Any]:
    values = quantity.in_unit()
    return {
        "number": number,
        "name": drawn.name,
        "unit": drawn.unit,
        "unit_shown": printed(drawn.unit),
        "way": "values" if drawn.values else "points" if drawn.points else "shape",
        "shape": drawn.shape,
        "given": [list(point) for point in drawn.points] or list(drawn.values),
        "line": _line(values, lesson, names),
        "low": float(f"{values.min():.6g}"),
        "high": float(f"{values.max():.6g}"),
    }


def _line(values: FloatArray, lesson: Lesson, names: list[str]) -> list[list[float]]:
    """The line as places and values, stage by stage, without the points that lie on it."""
    time_s, found = lesson.timeline.time_s, list[list[float]]()
    for stage in lesson.timeline.stages:
        here = (time_s >= stage.start_s) & (time_s <= stage.end_s)
        shares = (time_s[here] - stage.start_s) / (stage.end_s - stage.start_s)
        place = names.index(stage.name)
        kept = _bends(shares, values[here])
        found += [[round(place + float(x), 4), float(f"{y:.6g}")] for x, y in kept]
    return [point for number, point in enumerate(found) if number == 0 or point != found[number - 1]]


def _bends(shares: FloatArray, values: FloatArray) -> list[tuple[float, float]]:
    """The ends, and the points at which the line changes its slope."""
    if shares.size < 3:
        return list(zip(shares.tolist(), values.tolist(), strict=True))
    slopes = np.diff(values) / np.diff(shares)
    bent = np.abs(np.diff(slopes)) > 1e-6 * max(float(np.ptp(values)), 1e-12)
    kept = np.concatenate([[True], bent, [True]])
    return list(zip(shares[kept].tolist(), values[kept].tolist(), strict=True))
