"""Stretches of readings, found: where they rise, fall and stay level.

First the fewest straight lines are laid that follow the readings closely. Where even many lines do not, the readings go
up and down too often for lines, and the largest ups and downs are taken.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.series import equal_means, running_median, straight_lines, turning_points

#: The lines come within this share of the range of the readings, on average (our own choice).
WITHIN = 0.06
#: Points at equal times that the lines are laid through: enough for eight lines, and the search stays quick.
POINTS = 240
#: Neighbouring lines of one direction are one stretch unless one is this many times as steep (our own choice).
STEEPER = 2.0
EQUAL_PARTS = 4
#: A wild reading here and there must not bend a line: medians of so many, of few readings and of many.
FEW_MEDIAN, MANY_MEDIAN = 3, 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch from start_s to end_s, at first `first` and at last `last` (SI).

    way: "rising", "falling", "level", or "part" where nothing was told apart. pace: "fast" or "slowly" beside a
    neighbour of the same way. why: of a part, what the readings do all along: "rising", "falling", "still", or "".
    """

    way: str
    start_s: float
    end_s: float
    first: float
    last: float
    pace: str = ""
    why: str = ""

    @property
    def slope(self) -> float:
        return (self.last - self.first) / (self.end_s - self.start_s)

    @property
    def middle(self) -> float:
        return (self.first + self.last) / 2.0


def stretches(
    time_s: FloatArray, values: FloatArray, level: float, most: int, *, within: float = WITHIN, wild: bool = True
) -> tuple[Stretch, ...]:
    """The stretches of one quantity, or equal parts where it goes one way all along or never changes.

    level: a stretch that climbs or falls by less than this share of the range is level. most: lines at most.
    within: how near the lines come. wild: single wild readings are passed over; False: each of them counts.
    """
    edges, smooth = _smooth(time_s, values, wild=wild)
    swing = float(np.ptp(smooth))
    if swing <= 1e-9 * float(np.max(np.abs(smooth))):
        return _equal_parts(time_s, values, "" if np.ptp(values) else "still")
    still = level * swing
    starts, near = straight_lines(smooth, most, within)
    if near:
        lines = [_line(edges, smooth, a, b, still) for a, b in pairwise([*starts.tolist(), smooth.size])]
        found = _joined(lines, still)
    else:
        turns = turning_points(smooth, level, most)
        found = [_swing(edges, smooth, a, b, still) for a, b in pairwise(turns.tolist())]
    if len(found) > 1:
        return paced(found)
    way = found[0].way
    return _equal_parts(time_s, values, "" if way == "level" else way)


def _smooth(time_s: FloatArray, values: FloatArray, *, wild: bool) -> tuple[FloatArray, FloatArray]:
    """Edges of equal steps of time, and the readings in them, without single wild ones if so wanted."""
    edges = np.linspace(time_s[0], time_s[-1], POINTS + 1)
    if time_s.size > POINTS:
        return edges, running_median(equal_means(time_s, values, edges), MANY_MEDIAN)
    steady = running_median(values, FEW_MEDIAN) if wild and values.size >= 2 * FEW_MEDIAN else values
    return edges, np.interp(0.5 * (edges[1:] + edges[:-1]), time_s, steady)


def _way(climb: float, still: float) -> str:
    return "level" if abs(climb) < still else "rising" if climb > 0.0 else "falling"


def _line(edges: FloatArray, smooth: FloatArray, first: int, last: int, still: float) -> Stretch:
    """A stretch along a straight line; its ends go no further than the readings do."""
    part = smooth[first:last]
    slope, start = np.polyfit(np.arange(last - first, dtype=np.float64), part, 1)
    ends = np.clip([start - 0.5 * slope, start + (last - first - 0.5) * slope], part.min(), part.max())
    way = _way(float(ends[1] - ends[0]), still)
    if way == "level":
        ends = np.full(2, np.median(part))
    return Stretch(
        way=way, start_s=float(edges[first]), end_s=float(edges[last]), first=float(ends[0]), last=float(ends[1])
    )


def _swing(edges: FloatArray, smooth: FloatArray, first: int, last: int, still: float) -> Stretch:
    """A stretch from one turn of the readings to the next."""
    start, end = (edges[0] if first == 0 else _middle(edges, first)), _middle(edges, last)
    return Stretch(
        way=_way(float(smooth[last] - smooth[first]), still),
        start_s=float(start),
        end_s=float(edges[-1] if last == smooth.size - 1 else end),
        first=float(smooth[first]),
        last=float(smooth[last]),
    )


def _middle(edges: FloatArray, at: int) -> float:
    return float(0.5 * (edges[at] + edges[at + 1]))


def _joined(lines: list[Stretch], still: float) -> list[Stretch]:
    """Neighbouring lines that are one stretch made one: level at one height, or going one way at much the same pace."""
    found = lines[:1]
    for line in lines[1:]:
        last = found[-1]
        if last.way == line.way and (_one_height(last, line, still) if line.way == "level" else _one_pace(last, line)):
            found[-1] = replace(last, end_s=line.end_s, last=line.last)
        else:
            found.append(line)
    return found


def _one_height(a: Stretch, b: Stretch, still: float) -> bool:
    return abs(a.middle - b.middle) < still


def _one_pace(a: Stretch, b: Stretch) -> bool:
    slow, fast = sorted((abs(a.slope), abs(b.slope)))
    forward = b.last > a.first if a.way == "rising" else b.last < a.first
    return fast <= STEEPER * slow and forward


def paced(found: list[Stretch]) -> tuple[Stretch, ...]:
    """Of neighbours that go the same way, which goes fast and which slowly."""
    paces = [""] * len(found)
    for i, (a, b) in enumerate(pairwise(found)):
        if a.way == b.way != "level":
            steeper = abs(a.slope) > abs(b.slope)
            paces[i] = paces[i] or ("fast" if steeper else "slowly")
            paces[i + 1] = "slowly" if steeper else "fast"
    return tuple(replace(stretch, pace=pace) for stretch, pace in zip(found, paces, strict=True))


def _equal_parts(time_s: FloatArray, values: FloatArray, why: str) -> tuple[Stretch, ...]:
    edges = np.linspace(time_s[0], time_s[-1], EQUAL_PARTS + 1)
    ends = np.interp(edges, time_s, values)
    return tuple(
        Stretch(way="part", start_s=float(a), end_s=float(b), first=float(x), last=float(y), why=why)
        for (a, b), (x, y) in zip(pairwise(edges), pairwise(ends), strict=True)
    )
