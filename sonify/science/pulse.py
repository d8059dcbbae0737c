"""The pulse: at rest, on the way to another level, and the beats counted meanwhile."""

from __future__ import annotations

from math import log

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

#: Mean resting pulse of UK children aged 9 to 11, beats a minute (PETERS-2014): boys, girls.
RESTING_BOYS_PER_MIN, RESTING_GIRLS_PER_MIN = 78.7, 82.2

_PULSE = Range("pulse_hz", "1/s", 0.0, 5.0, "a living heart (up to 300 a minute)", above=True)
_ELAPSED = Range("elapsed_s", "s", 0.0, np.inf, "the time since exercise began or ended")
_CONSTANT = Range("time_constant_s", "s", 0.0, 3600.0, "an approach that ends within hours", above=True)
_HALF = Range("half_time_s", "s", 0.0, 2400.0, "an approach that ends within hours", above=True)


def pulse_on_the_way(start_hz: Values, target_hz: Values, elapsed_s: Values, time_constant_s: Values) -> FloatArray:
    """Return the pulse on its way from one level to another: quickly at first, then more and more slowly.

        p(t) = target + (start - target) exp(-t / tau)

    Args:
        start_hz: pulse at the beginning, beats a second.
        target_hz: pulse it would end at.
        elapsed_s: time t since the beginning.
        time_constant_s: tau, to be measured: after so long 63 % of the way is done.

    Raises:
        OutOfRange: a pulse no heart has, a time before the beginning, no time constant.

    Valid: gentle to moderate exercise; after the hardest a single exponential does not describe the recovery.
    Source: PIERPONT-2000, first-order decay of the heart rate.
    Check: half way after tau ln 2, from 150 to 80 a minute:
        >>> print(f"{60.0 * pulse_on_the_way(2.5, 80.0 / 60.0, 60.0 * np.log(2.0), 60.0):.1f}")
        115.0
    """
    start, target = _PULSE.checked(start_hz), _PULSE.checked(target_hz)
    left = np.exp(-_ELAPSED.checked(elapsed_s) / _CONSTANT.checked(time_constant_s))
    pulse: FloatArray = target + (start - target) * left
    return pulse


def beats_on_the_way(start_hz: Values, target_hz: Values, elapsed_s: Values, time_constant_s: Values) -> FloatArray:
    """Return how many times the heart beats on the way from one level to another.

        N(t) = target t + (start - target) tau (1 - exp(-t / tau)), the integral of the pulse

    Args:
        start_hz: pulse at the beginning, beats a second.
        target_hz: pulse it would end at.
        elapsed_s: time t since the beginning.
        time_constant_s: tau, to be measured.

    Raises:
        OutOfRange: a pulse no heart has, a time before the beginning, no time constant.

    Valid: as `pulse_on_the_way`.
    Source: PIERPONT-2000, integrated.
    Check: a steady pulse of 80 a minute for a minute:
        >>> print(f"{beats_on_the_way(80.0 / 60.0, 80.0 / 60.0, 60.0, 45.0):.0f}")
        80
    """
    start, target = _PULSE.checked(start_hz), _PULSE.checked(target_hz)
    elapsed, constant = _ELAPSED.checked(elapsed_s), _CONSTANT.checked(time_constant_s)
    beats: FloatArray = target * elapsed - (start - target) * constant * np.expm1(-elapsed / constant)
    return beats


def half_time_to_constant(half_time_s: Values) -> FloatArray:
    """Return the time constant of an approach that is half done after a given time, which pupils can measure.

        tau = t_half / ln 2

    Args:
        half_time_s: time until half of the way is done.

    Raises:
        OutOfRange: no time, or hours.

    Valid: a single exponential.
    Source: OPENSTAX-CALC1, doubling time and half-life.
    Check: half done after 45 s:
        >>> print(f"{half_time_to_constant(45.0):.1f}")
        64.9
    """
    constant: FloatArray = _HALF.checked(half_time_s) / log(2.0)
    return constant
