"""Stretches that begin and end with a reading, so that every figure told of them stands in the table."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from sonify.frozen import dataclass
from sonify.processes.measured_stretches import WITHIN, Stretch, paced, stretches
from sonify.records.timeline import FloatArray

#: So few readings were written down one by one: each of them counts, and lines come nearer to them.
BY_HAND, NEARER = 24, 0.03
#: A turn is told at its highest or lowest reading, where that is no further off than so many (our own).
NEAR = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A stretch from reading `first` to reading `last`. way: "rising", "falling" or "level". pace: as in `Stretch`."""

    first: int
    last: int
    way: str
    pace: str = ""


def cut_at_readings(at: FloatArray, values: FloatArray, level: float, most: int) -> tuple[Cut, ...]:
    """The stretches of one series (SI) over where it was read, at most `most` of them.

    level: a stretch that climbs or falls by less than this share of the range is level.
    """
    by_hand = at.size <= BY_HAND
    found = stretches(at, values, level, most, within=NEARER if by_hand else WITHIN, wild=not by_hand)
    edges = _at_turns(_edges(at, found), values)
    still = level * float(np.ptp(values))
    pieces = [
        Stretch(
            way=_way(float(values[b] - values[a]), still),
            start_s=float(at[a]),
            end_s=float(at[b]),
            first=float(values[a]),
            last=float(values[b]),
        )
        for a, b in pairwise(edges)
    ]
    return tuple(
        Cut(first=a, last=b, way=each.way, pace=each.pace)
        for (a, b), each in zip(pairwise(edges), paced(pieces), strict=True)
    )


def _edges(at: FloatArray, found: tuple[Stretch, ...]) -> list[int]:
    """The reading nearest to where each stretch begins, and the last one; two at one reading are one."""
    begins = [int(np.abs(at - each.start_s).argmin()) for each in found]
    return sorted({0, *begins, at.size - 1})


def _at_turns(edges: list[int], values: FloatArray) -> list[int]:
    """The same edges, those between up and down moved to the highest or lowest reading that lies NEAR by."""
    moved = list(edges)
    for number in range(1, len(edges) - 1):
        before, here, after = moved[number - 1], edges[number], edges[number + 1]
        up, on = values[here] - values[before], values[after] - values[here]
        if up * on < 0.0:
            first = max(before + 1, here - NEAR)
            near = values[first : min(after, here + NEAR + 1)]
            moved[number] = first + int(near.argmax() if up > 0.0 else near.argmin())
    return moved


def _way(climb: float, still: float) -> str:
    if abs(climb) < still or climb == 0.0:
        return "level"
    return "rising" if climb > 0.0 else "falling"
