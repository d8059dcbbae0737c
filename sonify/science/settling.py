"""Grains sinking in still water: how fast, by Stokes' law where it holds and by a drag law where it does not."""

from __future__ import annotations

import numpy as np

from sonify.constants import STANDARD_GRAVITY_M_PER_S2
from sonify.errors import OutOfRange
from sonify.science.ranges import FloatArray, Range, Values

#: Grain sizes that part clay from silt, silt from sand and sand from gravel, m (ISO 14688-1).
CLAY_BELOW_M, SILT_BELOW_M, SAND_BELOW_M = 2.0e-6, 63.0e-6, 2.0e-3
#: Beyond this Reynolds number Stokes' law makes grains more than a few hundredths too fast.
STOKES_REYNOLDS, DRAG_REYNOLDS = 0.5, 800.0

_BY = "a grain sinking"
_DIAMETER = Range("diameter_m", "m", 0.0, np.inf, _BY, above=True)
_GRAIN = Range("grain_kg_m3", "kg/m³", 0.0, np.inf, _BY, above=True)
_WATER = Range("water_kg_m3", "kg/m³", 0.0, np.inf, _BY, above=True)
_VISCOSITY = Range("viscosity_pa_s", "Pa s", 0.0, np.inf, _BY, above=True)
_HEAVIER = Range("grain_kg_m3 - water_kg_m3", "kg/m³", 0.0, np.inf, f"{_BY} (a lighter one floats)")
_REYNOLDS = Range("reynolds", "1", 0.0, DRAG_REYNOLDS, "Schiller and Naumann's drag law", above=True)
_SPREAD = Range("largest_m / smallest_m", "1", 1.0, np.inf, "a mixture of grain sizes")
_TIME = Range("time_s", "s", 0.0, np.inf, "a jar standing")
_DEPTH = Range("depth_m", "m", 0.0, np.inf, "a jar standing", above=True)
_SPEED = Range("speed_m_s", "m/s", 0.0, np.inf, "a jar standing")


def reynolds_number(speed_m_s: Values, diameter_m: Values, water_kg_m3: Values, viscosity_pa_s: Values) -> FloatArray:
    """How much a grain's motion is ruled by the water's inertia rather than its stickiness (no unit).

        Re = rho v d / mu

    Args:
        speed_m_s: speed v of the grain through the water.
        diameter_m: diameter d of the grain.
        water_kg_m3: density rho of the water (or the air).
        viscosity_pa_s: dynamic viscosity mu of the water (or the air).

    Raises:
        OutOfRange: a negative speed, a diameter, density or viscosity of 0 or less, or not a number.

    Valid: any sphere in any fluid.
    Source: OPENSTAX-CP, "Motion of an Object in a Viscous Fluid".
    Check: a grain of 0.1 mm at 8 mm/s in water of 20 °C, 0.8:
        >>> print(f"{reynolds_number(0.008, 1e-4, 998.2, 1.0016e-3):.1f}")
        0.8
    """
    speed, diameter = _SPEED.checked(speed_m_s), _DIAMETER.checked(diameter_m)
    return _WATER.checked(water_kg_m3) * speed * diameter / _VISCOSITY.checked(viscosity_pa_s)


def stokes_speed(diameter_m: Values, grain_kg_m3: Values, water_kg_m3: Values, viscosity_pa_s: Values) -> FloatArray:
    """How fast a tiny sphere sinks, m/s: twice the size is four times the speed.

        v = (rho_grain - rho) g d^2 / (18 mu)

    Args:
        diameter_m: diameter d of the grain.
        grain_kg_m3: density of the grain (quartz: 2650), no less than the water's.
        water_kg_m3: density rho of the water.
        viscosity_pa_s: dynamic viscosity mu of the water.

    Raises:
        OutOfRange: a grain so large that its Reynolds number passes 0.5 (use `settling_speed`), one that floats, a
            size, density or viscosity of 0 or less, or not a number.

    Valid: Reynolds numbers up to 0.5: quartz in water up to about 0.08 mm.
    Source: OPENSTAX-CP, "Motion of an Object in a Viscous Fluid" (Stokes' law).
    Check: quartz of 10 micrometres in water of 20 °C, 0.08985 mm/s:
        >>> print(f"{1000 * stokes_speed(10e-6, 2650.0, 998.2, 1.0016e-3):.5f}")
        0.08985
    """
    speed = _stokes(diameter_m, grain_kg_m3, water_kg_m3, viscosity_pa_s)
    largest = float(np.max(reynolds_number(speed, diameter_m, water_kg_m3, viscosity_pa_s), initial=0.0))
    if not largest <= STOKES_REYNOLDS:
        raise OutOfRange("the Reynolds number", largest, "", f"0 to {STOKES_REYNOLDS:g}", "Stokes' law of sinking")
    return speed


def drag_coefficient(reynolds: Values) -> FloatArray:
    """The drag on a sphere as a share of the pressure of the flow on its disc (no unit).

        C = 24/Re (1 + 0.15 Re^0.687)

    Args:
        reynolds: Reynolds number Re of the sphere.

    Raises:
        OutOfRange: 0 or less, above 800, or not a number.

    Valid: smooth spheres, Reynolds numbers up to 800; within 5 % of measured drag, 9 % near Re 300.
    Source: SCHILLER-NAUMANN-1935; compared with PRUPPACHER-KLETT-1997.
    Check: Re 100, 1.09 (measured 1.10):
        >>> print(f"{drag_coefficient(100.0):.2f}")
        1.09
    """
    re = _REYNOLDS.checked(reynolds)
    return 24.0 / re * (1.0 + 0.15 * re**0.687)


def settling_speed(diameter_m: Values, grain_kg_m3: Values, water_kg_m3: Values, viscosity_pa_s: Values) -> FloatArray:
    """How fast a sphere sinks, from the finest clay to coarse sand, m/s: its weight in water against its drag.

        v (1 + 0.15 Re^0.687) = (rho_grain - rho) g d^2 / (18 mu), Re = rho v d / mu

    Args:
        diameter_m: diameter d of the grain.
        grain_kg_m3: density of the grain (quartz: 2650), no less than the water's.
        water_kg_m3: density rho of the water.
        viscosity_pa_s: dynamic viscosity mu of the water.

    Raises:
        OutOfRange: a grain so large that its Reynolds number passes 800, one that floats, a size, density or viscosity
            of 0 or less, or not a number.

    Valid: single smooth spheres, Reynolds numbers up to 800: quartz in water up to about 2.6 mm. For small ones it is
        Stokes' law. Real grains are angular and sink more slowly, coarse sand by a third.
    Source: SCHILLER-NAUMANN-1935.
    Check: a raindrop of 0.5 mm in air of 20 °C, measured 2.06 m/s:
        >>> print(f"{settling_speed(0.5e-3, 998.2, 1.204, 1.82e-5):.2f}")
        2.02
    """
    stokes = _stokes(diameter_m, grain_kg_m3, water_kg_m3, viscosity_pa_s)
    per_speed = reynolds_number(1.0, diameter_m, water_kg_m3, viscosity_pa_s)
    # Newton's method on x = ln v: x + ln(1 + 0.15 Re^0.687) rises by 1 to 1.687 with x, so it always converges.
    moving = stokes > 0.0
    x = np.log(np.where(moving, stokes, 1.0))
    target = x
    for _ in range(50):
        drag = 0.15 * (per_speed * np.exp(x)) ** 0.687
        step = (x + np.log1p(drag) - target) / (1.0 + 0.687 * drag / (1.0 + drag))
        x = x - step
        if np.all(np.abs(step) < 1e-14):
            break
    speed: FloatArray = np.where(moving, np.exp(x), 0.0)
    largest = float(np.max(per_speed * speed, initial=0.0))
    if not largest <= DRAG_REYNOLDS:
        raise OutOfRange(
            "the Reynolds number", largest, "", f"0 to {DRAG_REYNOLDS:g}", "the drag law for a sinking grain"
        )
    return speed


def share_still_sinking(time_s: Values, speed_m_s: Values, depth_m: Values) -> FloatArray:
    """The share of grains of one size that have not reached the bottom of a jar that was shaken and put down.

        share = 1 - v t / H, and 0 from t = H/v on

    Args:
        time_s: time t since the jar was put down.
        speed_m_s: speed v at which such grains sink.
        depth_m: depth H of the water.

    Raises:
        OutOfRange: a negative time or speed, a depth of 0 or less, or not a number.

    Valid: still water, grains spread evenly at first and too few to hinder each other (under about 1 % by volume).
    Source: HAZEN-1904 (a basin without flow).
    Check: half way through the time that the topmost grain needs, half are down:
        >>> print(share_still_sinking(30.0, 0.002, 0.12))
        0.5
    """
    fallen = _TIME.checked(time_s) * _SPEED.checked(speed_m_s) / _DEPTH.checked(depth_m)
    return np.maximum(1.0 - fallen, 0.0)


def share_held(smallest_m: Values, largest_m: Values, opening_m: Values) -> FloatArray:
    """The share, by mass, of a mixture of grain sizes that a sieve with square or round openings holds back.

        share = ln(largest/opening) / ln(largest/smallest), held between 0 and 1

    Args:
        smallest_m: the smallest grains' diameter.
        largest_m: the largest grains' diameter, no less than the smallest.
        opening_m: the width of the sieve's openings.

    Raises:
        OutOfRange: a size or opening of 0 or less, a largest below the smallest, or not a number.

    Valid: round grains, as much mass in every doubling of size (a straight line on the logarithmic grading chart).
    Source: ISO-14688-1 for the grading chart; the straight line is ours.
    Check: sand from 0.0625 to 2 mm on a sieve of 1 mm: one doubling of five, 20 %:
        >>> print(f"{100 * share_held(0.0625e-3, 2e-3, 1e-3):.0f}")
        20
    """
    smallest, largest = _DIAMETER.checked(smallest_m), _DIAMETER.checked(largest_m)
    doublings = np.log(_SPREAD.checked(largest / smallest))
    above = np.log(largest / _DIAMETER.checked(opening_m))
    one_size = doublings <= 0.0
    share = np.where(one_size, above > 0.0, above / np.where(one_size, 1.0, doublings))
    return np.clip(share, 0.0, 1.0)


def _stokes(diameter_m: Values, grain_kg_m3: Values, water_kg_m3: Values, viscosity_pa_s: Values) -> FloatArray:
    """Stokes' speed, whether it holds or not."""
    diameter = _DIAMETER.checked(diameter_m)
    heavier = _HEAVIER.checked(_GRAIN.checked(grain_kg_m3) - _WATER.checked(water_kg_m3))
    return heavier * STANDARD_GRAVITY_M_PER_S2 * diameter**2 / (18.0 * _VISCOSITY.checked(viscosity_pa_s))
