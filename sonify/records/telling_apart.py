"""How far apart two values of a control sound, in the unit of its threshold; who the thresholds are for."""

from __future__ import annotations

from math import inf, log10

#: From this age on the limits of 9 to 11 year-olds hold; below it those for 7 to 8 year-olds, where there are any.
OLDER = 9
#: Taps a beat: fewer are as good as none, and against silence so many are enough to be noticed (our own limit).
LEAST_DENSITY = 0.25


def level_db(velocity: float) -> float:
    """Level of a MIDI velocity below full, dB: 40 log10(v/127), the Downloadable Sounds law.

    >>> level_db(127.0), round(level_db(70.0), 1)
    (0.0, -10.3)
    """
    return 40.0 * log10(velocity / 127.0)


def difference(control: str, one: float, other: float) -> float:
    """How far apart two values of a control sound, in the unit of its threshold; never negative."""
    less, more = sorted((one, other))
    if control == "tempo":
        return 100.0 * (more / less - 1.0)
    if control == "density":
        if less <= 0.0 or less < LEAST_DENSITY <= 0.5 * more:  # as good as silence: no number of times it says anything
            return inf if more >= LEAST_DENSITY else 0.0
        return 100.0 * (more / less - 1.0)
    if control == "dynamics":
        return level_db(more) - level_db(less)
    return (100.0 if control == "brightness" else 1.0) * (more - less)
