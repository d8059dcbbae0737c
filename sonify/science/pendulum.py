"""The pendulum: how long a swing takes, exactly and for small swings, and where the bob is meanwhile."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

#: The pull of the Earth near sea level at middle latitudes, m/s² (standard gravity).
GRAVITY = 9.80665
#: More rounds of the arithmetic-geometric mean than any angle needs: each doubles the digits.
ROUNDS = 8

_LENGTH = Range("length_m", "m", 0.0, np.inf, "a pendulum", above=True)
_PULL = Range("gravity", "m/s²", 0.0, np.inf, "a pendulum", above=True)
_ANGLE = Range("release_rad", "rad", 0.0, np.radians(170.0), "a swing that turns back", above=True)
_ELAPSED = Range("elapsed_s", "s", 0.0, np.inf, "the time since the bob was let go")


def small_swing_period(length_m: Values, gravity: Values = GRAVITY) -> FloatArray:
    """Return how long one swing there and back takes, s, where the bob is let go close to the middle.

        T = 2 pi sqrt(L / g)

    Args:
        length_m: from the hook to the middle of the bob.
        gravity: g, m/s².

    Raises:
        OutOfRange: no length, or no gravity.

    Valid: small swings: at 20° it is 0.8 % short. A thin thread, a small heavy bob, no air.
    Source: OPENSTAX-CP1, The Simple Pendulum.
    Check: 0.75000 m where g is 9.8281 m/s²:
        >>> print(f"{small_swing_period(0.75, 9.8281):.4f}")
        1.7357
    """
    period: FloatArray = 2.0 * np.pi * np.sqrt(_LENGTH.checked(length_m) / _PULL.checked(gravity))
    return period


def swing_period(length_m: Values, release_rad: Values, gravity: Values = GRAVITY) -> FloatArray:
    """Return how long one swing there and back takes, s, from any height up to nearly straight up.

        T = 2 pi sqrt(L / g) / M(1, cos(theta / 2)); M the arithmetic-geometric mean

    Args:
        length_m: from the hook to the middle of the bob.
        release_rad: angle theta to the vertical at which it is let go.
        gravity: g, m/s².

    Raises:
        OutOfRange: no length, no gravity, an angle of nothing or of more than 170°.

    Valid: a rigid or taut thread, no air.
    Source: NIST-DLMF, 19.8.5 for the complete elliptic integral.
    Check: let go level with the hook, 18.03 % longer than a small swing:
        >>> print(f"{swing_period(1.0, np.pi / 2) / small_swing_period(1.0):.4f}")
        1.1803
    """
    half = np.cos(_ANGLE.checked(release_rad) / 2.0)
    one, other = np.ones_like(half), half
    for _ in range(ROUNDS):
        one, other = (one + other) / 2.0, np.sqrt(one * other)
    period: FloatArray = small_swing_period(length_m, gravity) / one
    return period


def swing_motion(
    elapsed_s: Values, length_m: float, release_rad: float, gravity: float = GRAVITY
) -> tuple[FloatArray, FloatArray]:
    """Return the angle to the vertical, rad, and how fast it changes, rad/s, after the bob was let go at rest.

        sin(theta / 2) = k sn(u), theta' = 2 k w cn(u); w = sqrt(g / L), u = w t + K, k = sin(theta_0 / 2)

    Args:
        elapsed_s: time t since it was let go.
        length_m: from the hook to the middle of the bob.
        release_rad: angle theta_0 at which it was let go.
        gravity: g, m/s².

    Raises:
        OutOfRange: as `swing_period`, or a time before the beginning.

    Valid: as `swing_period`.
    Source: NIST-DLMF, 22.19(i), the elliptic functions by descending transformations of 22.20(ii).
    Check: a quarter of a swing after it was let go the bob passes the middle:
        >>> print(f"{swing_motion(float(swing_period(1.0, 1.0)) / 4.0, 1.0, 1.0)[0]:.9f}".replace("-", ""))
        0.000000000
    """
    elapsed = np.asarray(_ELAPSED.checked(elapsed_s))
    modulus = np.sin(_ANGLE.checked(release_rad) / 2.0)
    means, gaps, other = [1.0], [float(modulus)], float(np.sqrt(1.0 - modulus**2))
    for _ in range(ROUNDS):
        mean, other, gap = (means[-1] + other) / 2.0, float(np.sqrt(means[-1] * other)), (means[-1] - other) / 2.0
        means.append(mean)
        gaps.append(gap)
    frequency = float(np.sqrt(_PULL.checked(gravity) / _LENGTH.checked(length_m)))
    phase = 2.0**ROUNDS * means[-1] * (frequency * elapsed + np.pi / (2.0 * means[-1]))
    for mean, gap in zip(means[:0:-1], gaps[:0:-1], strict=True):
        phase = (phase + np.arcsin(gap / mean * np.sin(phase))) / 2.0
    angle: FloatArray = 2.0 * np.arcsin(modulus * np.sin(phase))
    rate: FloatArray = 2.0 * modulus * frequency * np.cos(phase)
    return angle, rate
