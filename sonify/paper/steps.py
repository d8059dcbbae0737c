"""The fewest stages that tell how something changed: where it starts, where it turns, where it ends."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sonify.facts.sheet import stage_mean, subject_of
from sonify.paper.rules import sections_of
from sonify.records.controls import Key
from sonify.records.lesson import Lesson
from sonify.records.score import Part

#: A turn counts from this share of the whole change up (our own choice).
TURN = 0.15


def turning_points(values: Sequence[float]) -> list[int]:
    """The places of the first and the last value and of those between at which the course turns.

    >>> turning_points([1, 2, 3, 9]), turning_points([1, 5, 9, 4, 0]), turning_points([3, 3, 3])
    ([0, 3], [0, 2, 4], [0])
    """
    if not values:
        return []
    least = TURN * (max(values) - min(values))
    kept = [0]
    way = 0
    for place in range(1, len(values)):
        step = values[place] - values[kept[-1]]
        if way and step * way >= 0:  # on the same way, further
            kept[-1] = place
        elif abs(step) > least:
            kept.append(place)
            way = 1 if step > 0 else -1
    last = len(values) - 1
    if kept[-1] != last and abs(values[last] - values[kept[-1]]) > least:
        kept.append(last)
    return kept


def fewest(key: Key, part: Part, rows: list[dict[str, Any]], lesson: Lesson) -> list[dict[str, Any]]:
    """The rows of a rule where its quantity starts, turns and ends; what reads like the step before is none."""
    if not rows or not rows[0]["letter"]:
        return rows
    quantity = subject_of(key, lesson)
    means = {s.letter: stage_mean(quantity, s, lesson) for s in sections_of(part, lesson)}
    chosen = [rows[place] for place in turning_points([means[row["letter"]] for row in rows])]
    found = chosen[:1]
    for row in chosen[1:]:
        if (row["science"], row["sound"]) != (found[-1]["science"], found[-1]["sound"]):
            found.append(row)
    return found
