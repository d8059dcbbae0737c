"""A storm's rain on the ground: how it comes, what runs off at once, and how ground and river let the rest go."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

_RAIN = Range("rain_m", "m", 0.0, np.inf, "the run-off of TR-55")
_CURVE = Range("curve_number", "", 30.0, 100.0, "the run-off of TR-55")
_DURATION = Range("duration_s", "s", 0.0, np.inf, "a linear reservoir")
_RESIDENCE = Range("residence_s", "s", 0.0, np.inf, "a linear reservoir", above=True)
_SINCE = Range("time_s", "s", 0.0, np.inf, "a storm")
_LENGTH = Range("storm_s", "s", 0.0, np.inf, "a storm", above=True)
_STORM = Range("rain_m", "m", 0.0, np.inf, "a storm")
_PEAK = Range("peak_share", "1", 0.0, 1.0, "a storm")


def storm_rain(time_s: Values, storm_s: Values, rain_m: Values, peak_share: Values) -> FloatArray:
    """How much rain of a storm has fallen by a time, m: it grows to one peak and dies away, both evenly.

        P(t) = P x^2 / r up to the peak, P (1 - (1 - x)^2 / (1 - r)) after it; x = t / T; the peak is 2 P / T

    Args:
        time_s: time t since the first drop.
        storm_s: length T of the storm.
        rain_m: rain P of the whole storm.
        peak_share: share r of the storm after which it rains hardest; 0.375 is an American average.

    Raises:
        OutOfRange: a negative time or rain, a storm of no length, a share outside 0 to 1, or not a number.

    Valid: one storm with one peak, as a pattern for design; real storms have several.
    Source: YEN-CHOW-1980 (triangular hyetograph).
    Check: 30 mm in 2 hours, peak after three eighths: 11.25 mm have fallen by then, and it then rains 30 mm an hour:
        >>> at_peak, later = storm_rain(np.array([2700.0, 2701.0]), 7200.0, 0.030, 0.375)
        >>> print(f"{1000 * at_peak:.2f} {1000 * 3600 * (later - at_peak):.1f}")
        11.25 30.0
    """
    x = np.minimum(_SINCE.checked(time_s) / _LENGTH.checked(storm_s), 1.0)
    rain, r = _STORM.checked(rain_m), _PEAK.checked(peak_share)
    rising = x**2 / np.where(r > 0.0, r, 1.0)
    falling = 1.0 - (1.0 - x) ** 2 / np.where(r < 1.0, 1.0 - r, 1.0)
    fallen: FloatArray = rain * np.where(x < r, rising, np.where(r < 1.0, falling, 1.0))
    return fallen


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
