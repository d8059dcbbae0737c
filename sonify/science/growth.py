"""Growth that begins slowly, is quickest in the middle and levels off: two curves, and the one that fits best."""

from __future__ import annotations

import numpy as np

from sonify.errors import OutOfRange
from sonify.science.ranges import FloatArray, Range, Values

LOGISTIC, GOMPERTZ = CURVES = ("logistic", "gompertz")
#: Fewer readings than this leave three numbers open.
FEWEST_READINGS = 4

_FINAL = Range("final_m", "m", 0.0, np.inf, "a plant that grows", above=True)
_RATE = Range("rate_per_s", "1/s", 0.0, np.inf, "a plant that grows", above=True)
_SINCE = Range("since_fastest_s", "s", -np.inf, np.inf, "a plant that grows")


def logistic_height(since_fastest_s: Values, final_m: Values, rate_per_s: Values) -> FloatArray:
    """Return a height, m, that grows fastest when it is half of what it will be.

        h = H / (1 + exp(-k t))

    Args:
        since_fastest_s: time t since it grew fastest, negative before.
        final_m: the height H that it comes to.
        rate_per_s: k, how steep the curve is.

    Raises:
        OutOfRange: no height, no rate, or not a number.

    Valid: a plant that is not cut, moved or short of anything, over one season.
    Source: REED-HOLLAND-1919.
    Check: half of its height when it grows fastest:
        >>> print(f"{logistic_height(0.0, 2.61, 1e-6):.3f}")
        1.305
    """
    steep = np.tanh(_RATE.checked(rate_per_s) * _SINCE.checked(since_fastest_s) / 2.0)
    height: FloatArray = _FINAL.checked(final_m) / 2.0 * (1.0 + steep)
    return height


def logistic_growth(since_fastest_s: Values, final_m: Values, rate_per_s: Values) -> FloatArray:
    """Return how fast a logistic height grows, m/s.

        k H / 4 / cosh²(k t / 2)

    Args:
        since_fastest_s: time t since it grew fastest, negative before.
        final_m: the height H that it comes to.
        rate_per_s: k, how steep the curve is.

    Raises:
        OutOfRange: as `logistic_height`.

    Valid: as `logistic_height`.
    Source: REED-HOLLAND-1919, its derivative, which is k h (1 - h / H).
    Check: 2.61 m at 0.0877 a day, at its fastest 5.7 cm a day:
        >>> print(f"{logistic_growth(0.0, 2.61, 0.0877 / 86_400) * 8_640_000:.1f}")
        5.7
    """
    rate = _RATE.checked(rate_per_s)
    flat = 1.0 - np.tanh(rate * _SINCE.checked(since_fastest_s) / 2.0) ** 2
    growth: FloatArray = rate * _FINAL.checked(final_m) / 4.0 * flat
    return growth


def gompertz_height(since_fastest_s: Values, final_m: Values, rate_per_s: Values) -> FloatArray:
    """Return a height, m, that grows fastest early, at 37 % of what it will be.

        h = H exp(-exp(-k t))

    Args:
        since_fastest_s: time t since it grew fastest, negative before.
        final_m: the height H that it comes to.
        rate_per_s: k, how steep the curve is.

    Raises:
        OutOfRange: as `logistic_height`.

    Valid: as `logistic_height`.
    Source: GOMPERTZ-1825.
    Check: H / e when it grows fastest:
        >>> print(f"{gompertz_height(0.0, 1.0, 1e-6):.4f}")
        0.3679
    """
    with np.errstate(over="ignore"):
        height: FloatArray = _FINAL.checked(final_m) * np.exp(
            -np.exp(-_RATE.checked(rate_per_s) * _SINCE.checked(since_fastest_s))
        )
    return height


def gompertz_growth(since_fastest_s: Values, final_m: Values, rate_per_s: Values) -> FloatArray:
    """Return how fast a Gompertz height grows, m/s.

        k H exp(-k t - exp(-k t))

    Args:
        since_fastest_s: time t since it grew fastest, negative before.
        final_m: the height H that it comes to.
        rate_per_s: k, how steep the curve is.

    Raises:
        OutOfRange: as `logistic_height`.

    Valid: as `logistic_height`.
    Source: GOMPERTZ-1825, its derivative, which is k h ln(H / h).
    Check: at its fastest k H / e:
        >>> print(f"{gompertz_growth(0.0, 1.0, 1.0):.4f}")
        0.3679
    """
    rate = _RATE.checked(rate_per_s)
    scaled = rate * _SINCE.checked(since_fastest_s)
    with np.errstate(over="ignore"):
        growth: FloatArray = rate * _FINAL.checked(final_m) * np.exp(-scaled - np.exp(-scaled))
    return growth


def fitted_growth(time_s: FloatArray, height_m: FloatArray, curve: str) -> tuple[float, float, float]:
    """Return the final height, m, the rate, 1/s, and the time of fastest growth, s, that come nearest to readings.

        least squares of the heights, from a start that the readings themselves give

    Args:
        time_s: when each reading was taken.
        height_m: what was read.
        curve: "logistic" or "gompertz".

    Raises:
        OutOfRange: fewer than four readings, or heights that do not grow.

    Valid: readings from before the fastest growth until well after it; with fewer the final height is a guess.
    Source: REED-HOLLAND-1919, fitted by Levenberg and Marquardt's steps (scipy).
    Check: readings of a curve give the curve:
        >>> days = np.arange(0.0, 90.0, 7.0)
        >>> print(f"{fitted_growth(days, logistic_height(days - 34.0, 2.6, 0.09), 'logistic')[2]:.3f}")
        34.000
    """
    from scipy.optimize import least_squares

    if time_s.size < FEWEST_READINGS:
        raise OutOfRange("time_s", float(time_s.size), "readings", f"{FEWEST_READINGS} and more", "a curve of growth")
    tall, span = float(height_m.max()), float(np.ptp(time_s))
    if not (span > 0.0 and float(height_m[-1]) > float(height_m[0])):
        raise OutOfRange("height_m", float(height_m[-1]), "m", "heights that grow", "a curve of growth")
    height = logistic_height if curve == LOGISTIC else gompertz_height
    middle = float(np.interp(0.5 * tall, np.maximum.accumulate(height_m), time_s))

    def off(numbers: FloatArray) -> FloatArray:
        final, rate, fastest = np.exp(numbers[0]), np.exp(numbers[1]), numbers[2] * span
        missed: FloatArray = (height(time_s - fastest, float(final), float(rate) / span) - height_m) / tall
        return missed

    found = least_squares(off, [np.log(1.05 * tall), np.log(8.0), middle / span], xtol=1e-12, ftol=1e-12)
    final, rate, fastest = found.x
    return float(np.exp(final)), float(np.exp(rate)) / span, float(fastest) * span
