"""Falling through air that pushes back with the square of the speed."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

_MASS = Range("mass_kg", "kg", 0.0, np.inf, "a thing that falls", above=True)
_AREA = Range("area_m2", "m²", 0.0, np.inf, "a thing that falls", above=True)
_DRAG = Range("drag", "", 0.0, np.inf, "a thing in air", above=True)
_DENSITY = Range("density_kg_m3", "kg/m³", 0.0, np.inf, "a thing in air", above=True)
_PULL = Range("gravity", "m/s²", 0.0, np.inf, "a fall", above=True)
_TOP = Range("terminal_m_s", "m/s", 0.0, np.inf, "a fall through air", above=True)
_ELAPSED = Range("elapsed_s", "s", 0.0, np.inf, "the time since it was let go")
_WAY = Range("fallen_m", "m", 0.0, np.inf, "a way down")


def terminal_speed(
    mass_kg: Values, area_m2: Values, drag: Values, density_kg_m3: Values, gravity: Values
) -> FloatArray:
    """Return the speed, m/s, at which the air pushes back as hard as gravity pulls.

        v_t = sqrt(2 m g / (rho C A))

    Args:
        mass_kg: mass m.
        area_m2: area A across the way it falls.
        drag: drag coefficient C: about 0.5 a ball, 1.0 a flat body, 1.3 a parachute.
        density_kg_m3: density rho of the air, 1.21 near the ground.
        gravity: g, m/s².

    Raises:
        OutOfRange: any of them nothing, negative, or not a number.

    Valid: where the push of the air goes with the square of the speed: larger than a raindrop, slower than sound.
    Source: OPENSTAX-CP1, Drag Forces.
    Check: 75 kg, 0.18 m², C 0.70: 98 m/s:
        >>> print(f"{terminal_speed(75.0, 0.18, 0.70, 1.21, 9.80):.1f}")
        98.2
    """
    carried = _DENSITY.checked(density_kg_m3) * _DRAG.checked(drag) * _AREA.checked(area_m2)
    speed: FloatArray = np.sqrt(2.0 * _MASS.checked(mass_kg) * _PULL.checked(gravity) / carried)
    return speed


def falling_speed(elapsed_s: Values, terminal_m_s: Values, gravity: Values) -> FloatArray:
    """Return the speed, m/s, of something that was let go at rest.

        v = v_t tanh(g t / v_t)

    Args:
        elapsed_s: time t since it was let go.
        terminal_m_s: the speed v_t that it comes to.
        gravity: g, m/s².

    Raises:
        OutOfRange: a time before it was let go, no gravity, no terminal speed.

    Valid: as `terminal_speed`, straight down in still air of one density.
    Source: OPENSTAX-CP1, Drag Forces, its equation of motion solved.
    Check: while it is slow the air hardly matters: after 1 s nearly 9.8 m/s:
        >>> print(f"{falling_speed(1.0, 98.2, 9.80):.2f}")
        9.77
    """
    top = _TOP.checked(terminal_m_s)
    speed: FloatArray = top * np.tanh(_PULL.checked(gravity) * _ELAPSED.checked(elapsed_s) / top)
    return speed


def fallen(elapsed_s: Values, terminal_m_s: Values, gravity: Values) -> FloatArray:
    """Return how far, m, something has fallen that was let go at rest.

        s = (v_t² / g) ln cosh(g t / v_t)

    Args:
        elapsed_s: time t since it was let go.
        terminal_m_s: the speed v_t that it comes to.
        gravity: g, m/s².

    Raises:
        OutOfRange: as `falling_speed`.

    Valid: as `falling_speed`.
    Source: OPENSTAX-CP1, Drag Forces, its equation of motion solved.
    Check: while it is slow nearly g t² / 2: 4.9 m in a second:
        >>> print(f"{fallen(1.0, 98.2, 9.80):.2f}")
        4.89
    """
    top, pull = _TOP.checked(terminal_m_s), _PULL.checked(gravity)
    way: FloatArray = top**2 / pull * _log_cosh(pull * _ELAPSED.checked(elapsed_s) / top)
    return way


def fall_time(fallen_m: Values, terminal_m_s: Values, gravity: Values) -> FloatArray:
    """Return how long, s, a fall from rest takes.

        t = (v_t / g) arcosh(exp(g s / v_t²))

    Args:
        fallen_m: how far it falls, s.
        terminal_m_s: the speed v_t that it comes to.
        gravity: g, m/s².

    Raises:
        OutOfRange: a way up, no gravity, no terminal speed.

    Valid: as `falling_speed`.
    Source: OPENSTAX-CP1, Drag Forces, its equation of motion solved.
    Check: the same fall backwards:
        >>> print(f"{fall_time(fallen(2.0, 5.0, 9.80), 5.0, 9.80):.6f}")
        2.000000
    """
    top, pull = _TOP.checked(terminal_m_s), _PULL.checked(gravity)
    depth = pull * _WAY.checked(fallen_m) / top**2
    seconds: FloatArray = top / pull * (depth + np.log1p(np.sqrt(-np.expm1(-2.0 * depth))))
    return seconds


def heat_of_fall(elapsed_s: Values, terminal_m_s: Values, gravity: Values) -> FloatArray:
    """Return what the push of the air has turned into heat, J for each kilogram.

        the integral of (g / v_t²) v³: v_t² (ln cosh x - tanh² x / 2), x = g t / v_t

    Args:
        elapsed_s: time t since it was let go.
        terminal_m_s: the speed v_t that it comes to.
        gravity: g, m/s².

    Raises:
        OutOfRange: as `falling_speed`.

    Valid: as `falling_speed`.
    Source: OPENSTAX-CP1, Drag Forces, the force times the way added up.
    Check: at the terminal speed every metre fallen turns g joules a kilogram into heat:
        >>> print(f"{heat_of_fall(101.0, 5.0, 9.80) - heat_of_fall(100.0, 5.0, 9.80):.3f}")
        49.000
    """
    top, pull = _TOP.checked(terminal_m_s), _PULL.checked(gravity)
    scaled = pull * _ELAPSED.checked(elapsed_s) / top
    heat: FloatArray = top**2 * (_log_cosh(scaled) - np.tanh(scaled) ** 2 / 2.0)
    return heat


def _log_cosh(scaled: FloatArray) -> FloatArray:
    """The logarithm of cosh where cosh itself would overflow, and where it is nearly 1."""
    small = np.minimum(scaled, 20.0)
    near: FloatArray = np.log1p(2.0 * np.sinh(small / 2.0) ** 2)
    return np.where(scaled < 20.0, near, scaled - np.log(2.0))[()]
