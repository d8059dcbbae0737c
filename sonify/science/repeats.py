"""Repeated readings of one thing: what to take for the result."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range

_READINGS = Range("readings", "", -1e300, 1e300, "a mean of numbers")


def mean_reading(readings: FloatArray) -> FloatArray:
    """Return the mean of repeated readings, the best estimate that they give.

        mean = (q_1 + q_2 + ... + q_n) / n

    Args:
        readings: the repeats along the first axis; more quantities may stand side by side on the second.

    Raises:
        OutOfRange: a reading is not a finite number.

    Valid: independent readings of one thing under the same conditions, any unit.
    Source: JCGM-100, section 4.2.1.
    Check: three tries of a stretch test:
        >>> print(mean_reading(np.array([12.0, 13.0, 12.5])))
        12.5
    """
    mean: FloatArray = np.mean(_READINGS.checked(readings), axis=0)
    return mean
