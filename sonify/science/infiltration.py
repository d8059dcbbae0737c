"""Water soaking into soil: a sharp wet front that suction and weight pull down (the model of Green and Ampt)."""

from __future__ import annotations

import numpy as np

from sonify.frozen import dataclass
from sonify.science.ranges import FloatArray, Range, Values

_BY = "Green and Ampt's infiltration"
_FORCED = Range("infiltrated_m", "m", 0.0, np.inf, _BY, above=True)
_INFILTRATED = Range("infiltrated_m", "m", 0.0, np.inf, _BY)
_DURATION = Range("duration_s", "s", 0.0, np.inf, _BY)
_CONDUCTIVITY = Range("conductivity_m_s", "m/s", 0.0, np.inf, _BY, above=True)
_PULL = Range("pull_m", "m", 0.0, np.inf, _BY)
_ROOM = Range("room", "1", 0.0, 1.0, _BY)
_RAIN = Range("rain_rate_m_s", "m/s", 0.0, np.inf, _BY)
_SOIL = Range("wetness", "1", 0.0, 1.0, "a soil")


@dataclass(frozen=True, slots=True, kw_only=True)
class Soil:
    """A kind of soil: conductivity K where it is wet, suction psi at the wet front, pores that water can fill."""

    conductivity_m_s: float
    suction_m: float
    pores: float

    def room(self, wetness: float) -> float:
        """The share of the soil that water can still fill. wetness: share of its pores that hold water already."""
        return self.pores * (1.0 - float(_SOIL.checked(wetness)))


#: RAWLS-1983, as CHOW-1988, table 4.3.1, prints them (conductivity is half the saturated one, for trapped air).
SOILS = {
    "sand": Soil(conductivity_m_s=11.78e-2 / 3600.0, suction_m=0.0495, pores=0.417),
    "loamy sand": Soil(conductivity_m_s=2.99e-2 / 3600.0, suction_m=0.0613, pores=0.401),
    "sandy loam": Soil(conductivity_m_s=1.09e-2 / 3600.0, suction_m=0.1101, pores=0.412),
    "loam": Soil(conductivity_m_s=0.34e-2 / 3600.0, suction_m=0.0889, pores=0.434),
    "silt loam": Soil(conductivity_m_s=0.65e-2 / 3600.0, suction_m=0.1668, pores=0.486),
    "clay loam": Soil(conductivity_m_s=0.10e-2 / 3600.0, suction_m=0.2088, pores=0.309),
    "clay": Soil(conductivity_m_s=0.03e-2 / 3600.0, suction_m=0.3163, pores=0.385),
}


def infiltration_rate(infiltrated_m: Values, conductivity_m_s: Values, pull_m: Values, room: Values) -> FloatArray:
    """How fast soil under a puddle drinks once it has drunk so much, m/s: fast at first, then ever nearer K.

        f = K (1 + (psi + h) d / F)

    Args:
        infiltrated_m: water F that has soaked in already.
        conductivity_m_s: conductivity K of the wet soil.
        pull_m: suction psi at the wet front, and the depth h of the puddle added to it.
        room: share d of the soil that the water fills.

    Raises:
        OutOfRange: nothing soaked in yet, a conductivity of 0 or less, a negative pull, a room outside 0 to 1.

    Valid: deep even soil, water standing on it; the front stays sharp.
    Source: GREEN-AMPT-1911, as in CHOW-1988, equation 4.3.7; RAWLS-1983 for the soils.
    Check: silt loam, three tenths full, after 3.17 cm (example 4.3.1), 1.81 cm an hour:
        >>> soil = SOILS["silt loam"]
        >>> print(f"{360000 * infiltration_rate(0.0317, soil.conductivity_m_s, soil.suction_m, soil.room(0.3)):.2f}")
        1.81
    """
    conductivity, pull = _CONDUCTIVITY.checked(conductivity_m_s), _PULL.checked(pull_m)
    return conductivity * (1.0 + pull * _ROOM.checked(room) / _FORCED.checked(infiltrated_m))


def infiltrated_water(
    infiltrated_m: Values, duration_s: Values, conductivity_m_s: Values, pull_m: Values, room: Values
) -> FloatArray:
    """How much water will have soaked in after a while more under a puddle of steady depth, m.

        F' - F - P ln((F' + P) / (F + P)) = K t, P = (psi + h) d; solved for F' by Newton's method

    Args:
        infiltrated_m: water F that has soaked in already.
        duration_s: time t.
        conductivity_m_s: conductivity K of the wet soil.
        pull_m: suction psi at the wet front, and the depth h of the puddle added to it.
        room: share d of the soil that the water fills.

    Raises:
        OutOfRange: negative water or time, a conductivity of 0 or less, a negative pull, a room outside 0 to 1.

    Valid: as `infiltration_rate`; the puddle never runs dry meanwhile.
    Source: GREEN-AMPT-1911, as in CHOW-1988, equation 4.4.5.
    Check: silt loam, three tenths full, one hour (example 4.3.1), 3.17 cm:
        >>> soil = SOILS["silt loam"]
        >>> inside = infiltrated_water(0.0, 3600.0, soil.conductivity_m_s, soil.suction_m, soil.room(0.3))
        >>> print(f"{100 * inside:.2f}")
        3.17
    """
    before, fallen = _INFILTRATED.checked(infiltrated_m), _DURATION.checked(duration_s)
    by_weight = _CONDUCTIVITY.checked(conductivity_m_s) * fallen
    reach = np.maximum(_PULL.checked(pull_m) * _ROOM.checked(room), 1.0e-12)  # a full soil is left to its weight
    # Started above the answer, where the curve bends one way, so that Newton's steps only come down to it: by today's
    # rate kept up, or by the law of the very first moments, whichever is nearer.
    kept_up = by_weight * (1.0 + reach / np.maximum(before, 1.0e-30))
    after = before + np.minimum(kept_up, by_weight + np.sqrt(2.0 * by_weight * (before + reach)))
    for _ in range(60):
        grown = after - before
        missed = grown - reach * np.log1p(grown / (before + reach)) - by_weight
        step = missed * (after + reach) / np.maximum(after, 1.0e-300)
        after = after - step
        if np.all(np.abs(step) <= 1.0e-14 * (after + reach)):
            break
    return np.maximum(after, before)


def water_before_ponding(
    rain_rate_m_s: Values, conductivity_m_s: Values, suction_m: Values, room: Values
) -> FloatArray:
    """How much of a steady rain soaks in before the first puddle stands, m; without end where soil keeps up with it.

        F = K psi d / (i - K) where i > K

    Args:
        rain_rate_m_s: rain rate i.
        conductivity_m_s: conductivity K of the wet soil.
        suction_m: suction psi at the wet front.
        room: share d of the soil that the water fills.

    Raises:
        OutOfRange: negative rain, a conductivity of 0 or less, a negative suction, a room outside 0 to 1.

    Valid: steady rain on even soil.
    Source: MEIN-LARSON-1973, as in CHOW-1988, equation 4.4.2.
    Check: 0.5 cm an hour on K 0.044 cm/h, psi 22.4 cm, room 0.25, printed 0.54 cm:
        >>> print(f"{100 * water_before_ponding(0.005 / 3600, 0.00044 / 3600, 0.224, 0.25):.2f}")
        0.54
    """
    rain, conductivity = _RAIN.checked(rain_rate_m_s), _CONDUCTIVITY.checked(conductivity_m_s)
    pulled = conductivity * _PULL.checked(suction_m) * _ROOM.checked(room)
    beyond = rain - conductivity
    return np.where(beyond > 0.0, pulled / np.where(beyond > 0.0, beyond, 1.0), np.inf)
