"""Where everybody sits: the groups in a half circle before the conductor, from left to right."""

from __future__ import annotations

import math

from sonify.records.score import Score

HALF_CIRCLE_RAD = math.radians(65.0)  # the outermost groups sit this far to the side
COUNT_IN_GROUP = 0


def pan(group: int, groups: int) -> float:
    """Stereo place of a group, -1 left to 1 right; the count-in is in the middle.

    >>> [round(pan(g, 5), 2) for g in (1, 3, 5)]
    [-0.72, 0.0, 0.72]
    """
    if group == COUNT_IN_GROUP or groups < 2:
        return 0.0
    return HALF_CIRCLE_RAD / (0.5 * math.pi) * (2.0 * (group - 1) / (groups - 1) - 1.0)


def sides(place: float) -> tuple[float, float]:
    """Gain of the left and the right channel: equal power at every place.

    >>> sides(0.0)
    (0.7071, 0.7071)
    """
    angle = (place + 1.0) * math.pi / 4.0
    return math.cos(angle), math.sin(angle)


def places(score: Score) -> tuple[float, ...]:
    """Stereo place of every part."""
    groups = max((part.group for part in score.parts), default=0)
    return tuple(pan(part.group, groups) for part in score.parts)
