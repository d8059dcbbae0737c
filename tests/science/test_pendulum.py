"""The pendulum: against scipy's elliptic functions, and by stepping through its equation of motion."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.special import ellipj, ellipk

from sonify.errors import OutOfRange
from sonify.science.pendulum import small_swing_period, swing_motion, swing_period

ANGLES = np.radians([0.5, 10.0, 30.0, 60.0, 90.0, 135.0, 170.0])


def test_the_period_is_the_complete_elliptic_integral() -> None:
    """scipy.special.ellipk: T = 4 sqrt(L / g) K(m), m = sin²(theta / 2)."""
    theirs = 4.0 * np.sqrt(0.7 / 9.81) * ellipk(np.sin(ANGLES / 2.0) ** 2)
    np.testing.assert_allclose(swing_period(0.7, ANGLES, 9.81), theirs, rtol=1e-13)


@pytest.mark.parametrize("release", ANGLES)
def test_the_motion_is_the_jacobian_sine(release: float) -> None:
    length, gravity = 1.3, 9.81
    elapsed = np.linspace(0.0, 3.0 * float(swing_period(length, release, gravity)), 50)
    angle, rate = swing_motion(elapsed, length, release, gravity)
    modulus, frequency = np.sin(release / 2.0), np.sqrt(gravity / length)
    sine, cosine, _, _ = ellipj(frequency * elapsed + ellipk(modulus**2), modulus**2)
    np.testing.assert_allclose(angle, 2.0 * np.arcsin(modulus * sine), atol=1e-9)
    np.testing.assert_allclose(rate, 2.0 * modulus * frequency * cosine, atol=1e-9)


def test_stepping_through_the_motion_comes_to_the_same() -> None:
    """theta'' = -(g / L) sin(theta), by a Runge-Kutta of order 8 (scipy)."""
    length, release, gravity = 0.25, np.radians(80.0), 9.81
    elapsed = np.linspace(0.0, 4.0, 30)
    stepped = solve_ivp(
        lambda _, y: [y[1], -gravity / length * np.sin(y[0])],
        (0.0, 4.0),
        [release, 0.0],
        method="DOP853",
        t_eval=elapsed,
        rtol=1e-11,
        atol=1e-12,
    )
    np.testing.assert_allclose(swing_motion(elapsed, length, release, gravity)[0], stepped.y[0], atol=1e-8)


def test_four_times_the_length_takes_twice_as_long_at_any_angle() -> None:
    np.testing.assert_allclose(swing_period(1.0, ANGLES) / swing_period(0.25, ANGLES), 2.0, rtol=1e-14)
    np.testing.assert_allclose(swing_period(1.0, 1e-4), small_swing_period(1.0), rtol=1e-8)


@pytest.mark.parametrize(("length", "release"), [(0.0, 0.1), (1.0, 0.0), (1.0, 3.0), (float("nan"), 0.1)])
def test_what_is_no_pendulum_is_refused(length: float, release: float) -> None:
    with pytest.raises(OutOfRange):
        swing_period(length, release)
