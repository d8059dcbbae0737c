"""What an author drew as curves: each quantity stage by stage, from values, points or a shape. Nothing is computed.

A place counts stages: 0 is the beginning of the first, 1 that of the second, and so on.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from sonify.errors import BadRule, UnknownName
from sonify.frozen import dataclass
from sonify.kinds.shapes import SHAPES
from sonify.records.drawing import DrawnQuantity
from sonify.records.fact import wrong
from sonify.records.timeline import FloatArray

#: A bent shape is drawn with so many straight lines a stage, or a turn where it comes round.
LINES = 24
#: How much of its way a curve that levels off has left after a quarter of the whole (our own choice): e to the minus 1.
BEND = 4.0
#: A pattern that repeats goes up in this share of its turn, and comes down in the rest (our own choice).
UPWARDS = 0.25
#: How often what swings does so, where nobody says.
USUAL_SWINGS = 2

Knots = tuple[FloatArray, FloatArray]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Course:
    """A quantity in its unit: for every stage the shares (0 to 1, rising) and the values there, joined by lines."""

    stages: tuple[Knots, ...]

    def at(self, stage: int, shares: FloatArray) -> FloatArray:
        return np.interp(shares, *self.stages[stage])


def courses(drawn: Sequence[DrawnQuantity], stages: Sequence[str], *, circle: bool = False) -> tuple[Course, ...]:
    """The course of every quantity over the stages. Raises BadRule, naming the key, for one that cannot be drawn."""
    in_turn = [each.key for each in drawn if each.shape == "one after another"]
    return tuple(course(each, stages, circle=circle, in_turn=in_turn) for each in drawn)


def course(drawn: DrawnQuantity, stages: Sequence[str], *, circle: bool = False, in_turn: Sequence[str] = ()) -> Course:
    """One quantity's course. in_turn: the keys of all quantities that come one after another."""
    if drawn.values:
        return _from_values(drawn, len(stages), circle)
    if drawn.points:
        return _from_points(drawn, len(stages), circle)
    if circle and not SHAPES[drawn.shape].closes:
        closing = ", ".join(row.id for row in SHAPES.values() if row.closes)
        told = wrong("error_drawn-allowed-circle-write", shape=drawn.shape, closing=closing)
        raise BadRule(f"{drawn.key}.shape", told)
    match drawn.shape:
        case "jumps":
            return _held(_jump(drawn, stages))
        case "one after another":
            return _held(_turn(drawn, len(stages), in_turn))
    return _sampled(drawn, len(stages))


def _from_values(drawn: DrawnQuantity, count: int, circle: bool) -> Course:
    values = drawn.values
    if len(values) == count:
        return _held(values)
    key = f"{drawn.key}.values"
    if len(values) != count + 1:
        told = wrong("error_drawn-where-each-stage", values=len(values), count=count, more=count + 1)
        raise BadRule(key, told)
    if circle and values[0] != values[-1]:
        raise BadRule(key, wrong("error_drawn-leave-circle", first=f"{values[0]:g}", last=f"{values[-1]:g}"))
    ends = np.array([0.0, 1.0])
    return Course(stages=tuple((ends, np.array(pair)) for pair in zip(values, values[1:], strict=False)))


def _held(values: Sequence[float]) -> Course:
    """One value all through each stage."""
    return Course(stages=tuple((np.array([0.0, 1.0]), np.array([value, value])) for value in values))


def _from_points(drawn: DrawnQuantity, count: int, circle: bool) -> Course:
    key = f"{drawn.key}.points"
    places, values = (np.array(each) for each in zip(*drawn.points, strict=True))
    if places[0] < 0.0 or places[-1] > count:
        outside = places[0] if places[0] < 0.0 else places[-1]
        raise BadRule(key, wrong("error_drawn-point-outside", outside=f"{outside:g}", count=count))
    if circle and places[-1] == count and values[-1] != values[0]:
        raise BadRule(key, wrong("error_drawn-leave-last-point", first=f"{values[0]:g}", last=f"{values[-1]:g}"))
    if circle and places[-1] < count:
        places, values = np.append(places, float(count)), np.append(values, values[0])

    def value(at: FloatArray) -> FloatArray:
        return np.asarray(np.interp(at, places, values))

    found = []
    for stage in range(count):
        own = places[(places > stage) & (places < stage + 1)] - stage
        shares = np.concatenate([[0.0], own, [1.0]])
        found.append((shares, value(shares + stage)))
    return Course(stages=tuple(found))


def _jump(drawn: DrawnQuantity, stages: Sequence[str]) -> list[float]:
    key = f"{drawn.key}.at"
    if drawn.at not in stages:
        raise BadRule(key, UnknownName("stage", drawn.at, stages))
    first = list(stages).index(drawn.at)
    if first == 0:
        raise BadRule(key, wrong("error_drawn-first-stage-nothing", at=drawn.at))
    return [drawn.start if stage < first else drawn.end for stage in range(len(stages))]


def _turn(drawn: DrawnQuantity, count: int, in_turn: Sequence[str]) -> list[float]:
    """Its end value in its own stages, its start value in those of the others."""
    key, among = f"{drawn.key}.shape", len(in_turn)
    if not 2 <= among <= count:
        raise BadRule(key, wrong("error_drawn-takes-quantities-least", among=among, count=count))
    own = list(in_turn).index(drawn.key)
    return [drawn.end if stage * among // count == own else drawn.start for stage in range(count)]


def _sampled(drawn: DrawnQuantity, count: int) -> Course:
    """A shape over the whole, 0 where it starts and 1 where it ends, as straight lines between many places."""
    times = drawn.times or (USUAL_SWINGS if drawn.shape == "swings" else count)
    way = _ways(times)[drawn.shape]
    corners = np.arange(times)[:, None] + np.array([0.0, UPWARDS]) if drawn.shape == "repeats" else np.zeros((0, 2))
    every = max(1, times if drawn.shape == "swings" else 1)
    grid = np.unique(np.concatenate([np.linspace(0.0, 1.0, LINES * max(count, every) + 1), (corners / times).ravel()]))
    found = []
    for stage in range(count):
        inside = grid[(grid > stage / count) & (grid < (stage + 1) / count)] * count - stage
        shares = np.concatenate([[0.0], inside[(inside > 1e-9) & (inside < 1.0 - 1e-9)], [1.0]])
        along = way((shares + stage) / count)
        found.append((shares, drawn.start + along * (drawn.end - drawn.start)))
    return Course(stages=tuple(found))


def _ways(times: int) -> dict[str, Callable[[FloatArray], FloatArray]]:
    """How far each shape has come, 0 to 1, at a share of the whole."""

    def bent(share: FloatArray) -> FloatArray:
        return np.asarray((1.0 - np.exp(-BEND * share)) / (1.0 - np.exp(-BEND)))

    def swung(share: FloatArray) -> FloatArray:
        return np.asarray(0.5 * (1.0 - np.cos(2.0 * np.pi * times * share)))

    def repeated(share: FloatArray) -> FloatArray:
        turn = (share * times) % 1.0
        return np.minimum(turn / UPWARDS, (1.0 - turn) / (1.0 - UPWARDS))

    return {
        "steady": np.zeros_like,
        "rises": np.asarray,
        "falls": np.asarray,
        "rises and levels off": bent,
        "decays": bent,
        "swings": swung,
        "repeats": repeated,
    }
