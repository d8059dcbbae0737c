"""How a curve goes: up, down, up and down again, down and up again, or level."""

from __future__ import annotations

import numpy as np

from sonify.records.listening import Points
from sonify.records.timeline import FloatArray

#: A curve goes a way if it strays from it by no more than this share of its whole swing (our own limit).
STRAY = 0.25
#: A hill's top stands at least so far (share of the swing) above both of its ends.
TOP = 0.6
#: Each way to go, drawn plainly.
PLAIN: dict[str, Points] = {
    "up": ((0.0, 0.1), (1.0, 0.9)),
    "down": ((0.0, 0.9), (1.0, 0.1)),
    "level": ((0.0, 0.5), (1.0, 0.5)),
    "hill": ((0.0, 0.1), (0.5, 0.9), (1.0, 0.1)),
    "valley": ((0.0, 0.9), (0.5, 0.1), (1.0, 0.9)),
}


def growth_of(values: FloatArray) -> str:
    """The way that values go, a key of PLAIN; "" where they go no such way clearly.

    >>> [growth_of(np.array(v)) for v in ([1.0, 2, 3], [3.0, 1, 0], [0.0, 4, 1], [4.0, 0, 4])]
    ['up', 'down', 'hill', 'valley']
    >>> growth_of(np.array([2.0, 2, 2])), growth_of(np.array([0.0, 3, 1.5, 3]))
    ('level', '')
    """
    swing = float(np.ptp(values))
    if swing <= 1e-9 * float(np.max(np.abs(values))):
        return "level"
    scaled = (values - values.min()) / swing
    if _rises(scaled) and scaled[-1] - scaled[0] >= 1 - STRAY:
        return "up"
    if _rises(-scaled) and scaled[0] - scaled[-1] >= 1 - STRAY:
        return "down"
    for name, curve in (("hill", scaled), ("valley", 1 - scaled)):
        top = int(np.argmax(curve))
        high = min(curve[top] - curve[0], curve[top] - curve[-1]) >= TOP
        if high and _rises(curve[: top + 1]) and _rises(-curve[top:]):
            return name
    return ""


def _rises(values: FloatArray) -> bool:
    """Whether values never fall back by more than STRAY below their highest so far."""
    return bool(np.all(np.maximum.accumulate(values) - values <= STRAY))


def growth_points(shape: str) -> Points:
    """A plain curve that goes this way."""
    return PLAIN[shape]


def regrown(points: Points, shape: str, wanted: str) -> Points:
    """A curve of one way bent into another: drawn with the same hand, so that no answer stands out.

    points: x rising from 0 to 1, y from 0 to 1, going the way `shape` ("up", "down", "hill" or "valley").
    """
    if wanted == shape:
        return points
    rise = _rise(points, shape)
    back = tuple((1 - x, y) for x, y in reversed(rise))
    if wanted in ("up", "down"):
        return rise if wanted == "up" else back
    hill = tuple((x / 2, y) for x, y in rise) + tuple((0.5 + x / 2, y) for x, y in back[1:])
    return hill if wanted == "hill" else tuple((x, 1 - y) for x, y in hill)


def _rise(points: Points, shape: str) -> Points:
    """The rising stretch of a curve, over x from 0 to 1."""
    if shape == "down":
        return tuple((1 - x, y) for x, y in reversed(points))
    if shape == "valley":
        points = tuple((x, 1 - y) for x, y in points)
    if shape == "up":
        return points
    top = max(range(1, len(points)), key=lambda place: points[place][1])
    return tuple((x / points[top][0], y) for x, y in points[: top + 1])
