"""Water drawn into narrow gaps: how high it can climb against its weight, and how fast it gets there.

A cloth is taken as a bundle of tubes of one width that wind as they climb. Its "winding" is the length of a tube over
the height it gains (tortuosity): 1 is straight.
"""

from __future__ import annotations

import numpy as np

from sonify.constants import STANDARD_GRAVITY_M_PER_S2
from sonify.frozen import dataclass
from sonify.science.liquid_water import surface_tension, water_density, water_viscosity
from sonify.science.ranges import FloatArray, Range, Values

_BY = "water in narrow gaps"
_RADIUS = Range("radius_m", "m", 0.0, 1.0e-3, f"{_BY} (wider ones hold no evenly curved surface)", above=True)
_ANGLE = Range("contact_angle_rad", "rad", 0.0, 0.5 * np.pi, f"{_BY} that it wets")
_WINDING = Range("winding", "1", 1.0, np.inf, _BY)
_TIME = Range("time_s", "s", 0.0, np.inf, _BY)
_SHARE = Range("height / limit", "1", 0.0, 1.0 - 1.0e-12, "the climb against gravity")


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A cloth's gaps and the water in them: radius, contact angle (0 wets fully), winding (1 is straight)."""

    radius_m: float
    temperature_k: float
    contact_angle_rad: float = 0.0
    winding: float = 1.0

    @property
    def pull_pa(self) -> float:
        """How strongly the curved surface pulls, 2 gamma cos(theta) / r."""
        radius = float(_RADIUS.checked(self.radius_m))
        wetting = float(_wetting(_ANGLE.checked(self.contact_angle_rad)))
        return 2.0 * float(surface_tension(self.temperature_k)) * wetting / radius

    @property
    def drag_pa_s_m2(self) -> float:
        """The drag of the walls: dh/dt = (pull - rho g h) / (drag h)."""
        winding = float(_WINDING.checked(self.winding))
        return (
            8.0 * float(water_viscosity(self.temperature_k)) * winding**2 / float(_RADIUS.checked(self.radius_m)) ** 2
        )


def jurin_height(radius_m: Values, temperature_k: Values, contact_angle_rad: Values = 0.0) -> FloatArray:
    """The height at which the weight of the climbing water balances the pull of its surface, m.

        h = 2 gamma cos(theta) / (rho g r)

    Args:
        radius_m: radius r of the gap or tube.
        temperature_k: temperature of the water, for its surface tension gamma and density rho.
        contact_angle_rad: angle theta at which the water meets the wall: 0 where it spreads by itself.

    Raises:
        OutOfRange: a radius of 0 or less or above 1 mm, an angle outside 0 to 90°, a temperature outside 0 to 100 °C.

    Valid: round gaps much narrower than 2.7 mm, clean water.
    Source: OPENSTAX-CP, "Cohesion and Adhesion in Liquids: Surface Tension and Capillary Action" (Jurin's law).
    Check: water of 20 °C in a tube of 0.5 mm radius, 29.7 mm:
        >>> print(f"{1000 * jurin_height(0.5e-3, 293.15):.1f}")
        29.7
    """
    radius, angle = _RADIUS.checked(radius_m), _ANGLE.checked(contact_angle_rad)
    weight = water_density(temperature_k) * STANDARD_GRAVITY_M_PER_S2
    return 2.0 * surface_tension(temperature_k) * _wetting(angle) / (weight * radius)


def washburn_height(time_s: Values, gap: Gap) -> FloatArray:
    """How far water has crept into a lying cloth, or how high while its own weight does not matter yet, m.

        h = sqrt(gamma r cos(theta) t / (2 mu)) / winding

    Args:
        time_s: time t since the water touched the cloth.
        gap: the cloth's gaps and the water.

    Raises:
        OutOfRange: a negative time, or a gap outside its own range.

    Valid: long after the first rush (milliseconds), heights far below the limit of `jurin_height`.
    Source: WASHBURN-1921; LUCAS-1918.
    Check: 10 micrometres, 20 °C, after 60 s, 14.76 cm:
        >>> print(f"{100 * washburn_height(60.0, Gap(radius_m=10e-6, temperature_k=293.15)):.2f}")
        14.76
    """
    return np.sqrt(2.0 * gap.pull_pa * _TIME.checked(time_s) / gap.drag_pa_s_m2)


def climbing_time(height_m: Values, gap: Gap) -> FloatArray:
    """How long water takes to climb to a height against its own weight, s.

        t = (8 mu winding^2 h_J / (rho g r^2)) (-h/h_J - ln(1 - h/h_J)), h_J the limit of `jurin_height`

    Args:
        height_m: height h, from 0 to below the limit.
        gap: the cloth's gaps and the water.

    Raises:
        OutOfRange: a height below 0 or at or above the limit, or a gap outside its own range.

    Valid: as `washburn_height`, with gravity.
    Source: WASHBURN-1921, integrated with gravity as in FRIES-DREYER-2008.
    Check: half way up takes 0.193 of the time scale (ln 2 less 1/2):
        >>> gap = Gap(radius_m=100e-6, temperature_k=293.15)
        >>> half = 0.5 * jurin_height(100e-6, 293.15)
        >>> print(f"{climbing_time(half, gap) / _time_scale(gap):.4f}")
        0.1931
    """
    limit = jurin_height(gap.radius_m, gap.temperature_k, gap.contact_angle_rad)
    share = _SHARE.checked(np.asarray(height_m, dtype=np.float64) / limit)
    return _time_scale(gap) * (-share - np.log1p(-share))


def climbed_height(time_s: Values, gap: Gap) -> FloatArray:
    """How high water has climbed against its own weight, m: the inverse of `climbing_time`, by Newton's method.

        dh/dt = (r^2 / (8 mu winding^2 h)) (2 gamma cos(theta) / r - rho g h)

    Args:
        time_s: time since the water touched the lower edge.
        gap: the cloth's gaps and the water; at a contact angle of 90° nothing climbs.

    Raises:
        OutOfRange: a negative time, or a gap outside its own range.

    Valid: as `climbing_time`; after some thirty time scales the height is the limit to rounding.
    Source: FRIES-DREYER-2008 (there with Lambert's function: h = h_J (1 + W(-exp(-1 - t/scale)))).
    Check: early on it is Washburn's law, 10 micrometres for 10 s, 6.03 cm less 3 % for its weight:
        >>> gap = Gap(radius_m=10e-6, temperature_k=293.15)
        >>> print(f"{climbed_height(10.0, gap) / washburn_height(10.0, gap):.2f}")
        0.99
    """
    times = _TIME.checked(time_s)
    limit = jurin_height(gap.radius_m, gap.temperature_k, gap.contact_angle_rad)
    if limit <= 0.0 or gap.pull_pa <= 0.0:
        return np.zeros_like(times)
    wanted = times / _time_scale(gap)
    # s is how far 1 - h/h_J has fallen as a logarithm: h/h_J = 1 - exp(-s) and wanted = s - 1 + exp(-s)
    s = np.sqrt(2.0 * wanted) + wanted
    for _ in range(60):
        fall = -np.expm1(-s)
        step = np.where(fall > 0.0, (s - fall - wanted) / np.where(fall > 0.0, fall, 1.0), 0.0)
        s = np.maximum(s - step, 0.0)
        if np.all(np.abs(step) <= 1e-13 * (1.0 + s)):
            break
    return limit * -np.expm1(-s)


def _wetting(angle_rad: FloatArray) -> FloatArray:
    """cos(theta); the cosine of a right angle rounds to a hair off 0 and is taken as 0."""
    cosine = np.cos(angle_rad)
    return np.where(cosine > 1.0e-12, cosine, 0.0)


def _time_scale(gap: Gap) -> float:
    """8 mu winding^2 h_J / (rho g r^2), s."""
    weight = float(water_density(gap.temperature_k)) * STANDARD_GRAVITY_M_PER_S2
    return gap.drag_pa_s_m2 * gap.pull_pa / weight**2
