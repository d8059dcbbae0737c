"""Three strips of cloth hang with their lower edge in water, each in a jar of its own, and drink.

A strip is a bundle of winding gaps of one width. What it has drunk at a time is its open share times the height the
water has climbed; it stops when it is wet to the top, when its water weighs as much as its gaps can pull, or when its
jar is empty. Every jar gives up exactly what its strip takes, interval by interval.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.capillarity import Gap, climbed_height, jurin_height

SAMPLES = 720  # of a test of twelve minutes: one a second
STOPPED = 0.95  # of its own limit: a strip counts as having stopped drinking


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A cloth: the word its conditions begin with, what pupils call it, and the letter of its symbols."""

    key: str
    name: str
    letter: str


MATERIALS = (
    Material(key="paper", name="kitchen paper", letter="p"),
    Material(key="towel", name="cotton towel", letter="t"),
    Material(key="sponge", name="sponge cloth", letter="s"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One strip in its jar, SI units."""

    material: Material
    gap: Gap
    thickness_m: float
    open_share: float
    width_m: float
    length_m: float
    jar_m3: float

    @classmethod
    def of(cls, material: Material, conditions: Mapping[str, float]) -> Strip:
        own = {word: float(conditions[f"{material.key}_{word}"]) for word in OWN}
        return cls(
            material=material,
            gap=Gap(
                radius_m=0.5 * own["gap"],
                temperature_k=float(conditions["temperature"]),
                contact_angle_rad=own["angle"],
                winding=own["winding"],
            ),
            thickness_m=own["thickness"],
            open_share=own["open"],
            width_m=float(conditions["strip_width"]),
            length_m=float(conditions["strip_length"]),
            jar_m3=float(conditions["jar"]),
        )

    @property
    def room_m2(self) -> float:
        """Water to a metre of height, m³/m."""
        return self.open_share * self.width_m * self.thickness_m

    @property
    def lift_m(self) -> float:
        """How high its gaps can pull water."""
        gap = self.gap
        return float(jurin_height(gap.radius_m, gap.temperature_k, gap.contact_angle_rad))

    @property
    def limits_m3(self) -> dict[str, float]:
        """What each of the three limits would let it drink: wet to the top, the water's weight, the jar."""
        return {"top": self.room_m2 * self.length_m, "weight": self.room_m2 * self.lift_m, "jar": self.jar_m3}

    @property
    def limit_m3(self) -> float:
        return min(self.limits_m3.values())

    @property
    def limited_by(self) -> str:
        """ "top", "weight" or "jar"."""
        limits = self.limits_m3
        return min(limits, key=lambda name: limits[name])

    def drunk_m3(self, time_s: FloatArray) -> FloatArray:
        """What it has drunk by each time."""
        return np.minimum(self.room_m2 * climbed_height(time_s, self.gap), self.limit_m3)


#: What each cloth's own conditions are called after its key.
OWN = ("gap", "winding", "thickness", "open", "angle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Soak:
    """The test as computed. cloth, jar, rate: by material key, m³ and m³/s over time_s."""

    strips: tuple[Strip, ...]
    time_s: FloatArray
    cloth_m3: dict[str, FloatArray]
    jar_m3: dict[str, FloatArray]
    rate_m3_s: dict[str, FloatArray]

    @property
    def total_rate_m3_s(self) -> FloatArray:
        return np.asarray(np.sum(list(self.rate_m3_s.values()), axis=0))

    @property
    def total_m3(self) -> FloatArray:
        return np.asarray(np.sum(list(self.cloth_m3.values()), axis=0))

    def height_m(self, strip: Strip) -> FloatArray:
        """How high the strip is wet."""
        return self.cloth_m3[strip.material.key] / strip.room_m2

    def stopped_at(self, strip: Strip) -> int | None:
        """The first sample at which the strip has all but stopped; None where it goes on drinking to the end."""
        hits = np.flatnonzero(self.cloth_m3[strip.material.key] >= STOPPED * strip.limit_m3)
        return int(hits[0]) if hits.size and strip.limit_m3 > 0.0 else None


def soak(conditions: Mapping[str, float]) -> Soak:
    """The test under these conditions (SI)."""
    strips = tuple(Strip.of(material, conditions) for material in MATERIALS)
    time_s = np.linspace(0.0, float(conditions["test_time"]), SAMPLES + 1)
    cloth, jar, rate = {}, {}, {}
    for strip in strips:
        key = strip.material.key
        taken = np.diff(strip.drunk_m3(time_s))
        cloth[key] = np.concatenate([[0.0], np.cumsum(taken)])
        jar[key] = np.subtract.accumulate(np.concatenate([[strip.jar_m3], taken]))
        flux = taken / np.diff(time_s)
        rate[key] = np.append(flux, flux[-1])
    return Soak(strips=strips, time_s=time_s, cloth_m3=cloth, jar_m3=jar, rate_m3_s=rate)
