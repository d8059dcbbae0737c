"""Rain on the ground: what runs off at once, and how ground and river let the rest go."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

_RAIN = Range("rain_m", "m", 0.0, np.inf, "the run-off of TR-55")
_CURVE = Range("curve_number", "", 30.0, 100.0, "the run-off of TR-55")
_DURATION = Range("duration_s", "s", 0.0, np.inf, "a linear reservoir")
_RESIDENCE = Range("residence_s", "s", 0.0, np.inf, "a linear reservoir", above=True)


def direct_runoff(rain_m: Values, curve_number: Values) -> FloatArray:
    """How much of a storm's rain runs off straight away, m of water; nothing until the ground is wetted.

        Q = (P - 0.2 S)^2 / (P + 0.8 S) where P > 0.2 S, else 0; S = 1000/CN - 10 inches

    Args:
        rain_m: rain P of the storm so far.
        curve_number: curve number CN of the ground: 98 for roofs and streets, 61 for good pasture on average soil.

    Raises:
        OutOfRange: negative rain, a curve number outside 30 to 100, or not a number.

    Valid: one storm on land as the United States class it: a pattern elsewhere, not a design value.
    Source: TR-55, equations 2-1 to 2-4.
    Check: 6 inches on curve number 70, printed 2.81 inches:
        >>> print(f"{direct_runoff(6 * 0.0254, 70.0) / 0.0254:.2f}")
        2.81
    """
    rain, held = _RAIN.checked(rain_m), (1000.0 / _CURVE.checked(curve_number) - 10.0) * 0.0254
    beyond = np.maximum(rain - 0.2 * held, 0.0)
    return beyond**2 / np.maximum(beyond + held, 1.0e-12)  # P + 0.8 S is (P - 0.2 S) + S


def released_share(duration_s: Values, residence_s: Values) -> FloatArray:
    """The share of a linear reservoir's water that has left after a time in which nothing came in.

        share = 1 - exp(-t/k), from Q = V/k

    Args:
        duration_s: time t.
        residence_s: residence time k of the reservoir.

    Raises:
        OutOfRange: a negative time, a residence time of 0 or less, or not a number.

    Valid: outflow in proportion to what is stored.
    Source: CHOW-1988, section 8.5 (linear reservoir).
    Check: after one residence time 36.8 % are left:
        >>> print(f"{100 * (1 - released_share(3600.0, 3600.0)):.1f}")
        36.8
    """
    return -np.expm1(-_DURATION.checked(duration_s) / _RESIDENCE.checked(residence_s))
