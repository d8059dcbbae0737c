"""Something solid in a dish that stands in warm water, leg by leg along its melting curve.

Within a leg it takes the same heat for every degree, or all of it for melting at one temperature. The temperature then
follows Newton's law exactly, so nothing is stepped through time. Substance and dish are equally warm throughout.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import numpy as np

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.heating import heated_rise, heated_time
from sonify.science.melting import (
    SUBSTANCES,
    Substance,
    melted_heat,
    share_melted,
    warmed_heat,
)

LONGEST_S = 24.0 * 3600.0  # nobody watches a dish for longer
SETTLED = 1.2  # time constants after which a leg that nears the bath ends
SAMPLES = 60  # in each leg


@dataclass(frozen=True, slots=True)
class Dish:
    """What stands in the warm water, in SI units."""

    substance: Substance
    mass: float
    start_temperature: float
    bath_temperature: float
    contact: float
    dish: float

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Dish:
        others = {name: float(conditions[name]) for name in cls.__slots__ if name != "substance"}
        return cls(substance=SUBSTANCES[round(conditions["substance"])], **others)

    @property
    def start_share(self) -> float:
        return float(share_melted(self.substance, self.start_temperature))


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One stretch of the melting curve. held_j_k: heat for a degree, melting included; 0 where all of it melts.

    end_k: infinite above the curve. melts_j: heat that melts over the whole leg.
    """

    start_k: float
    end_k: float
    shares: tuple[float, float]
    held_j_k: float
    melts_j: float

    def seconds(self, pan: Dish) -> float:
        """How long it takes; endless where the bath is no warmer than its end."""
        gap = pan.bath_temperature - self.start_k
        if not self.held_j_k:
            return self.melts_j / (pan.contact * gap) if gap > 0.0 else math.inf
        if self.end_k >= pan.bath_temperature:
            return math.inf
        rate = pan.contact / self.held_j_k
        return float(heated_time(self.end_k - self.start_k, rate * gap, rate))

    def rise_k(self, pan: Dish, time_s: FloatArray) -> FloatArray:
        if not self.held_j_k:
            return np.zeros_like(time_s)
        rate = pan.contact / self.held_j_k
        return heated_rise(time_s, rate * (pan.bath_temperature - self.start_k), rate)

    def taken_j(self, pan: Dish, time_s: FloatArray) -> FloatArray:
        """Heat that has come from the bath after a time in this leg: contact times the gap, added up."""
        gap = pan.bath_temperature - self.start_k
        if not self.held_j_k:
            return pan.contact * gap * time_s
        rate = pan.contact / self.held_j_k
        return pan.contact * gap * -np.expm1(-rate * time_s) / rate

    def share(self, pan: Dish, time_s: FloatArray) -> FloatArray:
        """The share melted after a time in this leg."""
        first, last = self.shares
        if not self.held_j_k:
            return first + self.taken_j(pan, time_s) / self.melts_j * (last - first)
        if math.isinf(self.end_k):
            return np.full_like(time_s, last)
        return first + self.rise_k(pan, time_s) / (self.end_k - self.start_k) * (last - first)


def legs(pan: Dish) -> Iterator[Leg]:
    """The stretches of the melting curve from where it starts, the last one open above."""
    now, share = pan.start_temperature, pan.start_share
    for end_k, melted in (*pan.substance.points, (math.inf, 1.0)):
        if end_k < now or (end_k == now and melted <= share):
            continue
        span = end_k - now
        melts = float(melted_heat(pan.substance, pan.mass, melted) - melted_heat(pan.substance, pan.mass, share))
        held = 0.0
        if span > 0.0:
            held = pan.mass * pan.substance.specific_between(_below(pan, now), end_k) + pan.dish
            held += melts / span
        yield Leg(start_k=now, end_k=end_k, shares=(share, melted), held_j_k=held, melts_j=melts)
        now, share = end_k, melted


def _below(pan: Dish, now_k: float) -> float:
    """The point of the curve at or below a temperature: the specific heat is that of the whole stretch."""
    return max((at for at, _ in pan.substance.points if at <= now_k), default=0.0)


@dataclass(frozen=True, slots=True, eq=False)
class Melt:
    """The melting sampled: arrays of one length. Heats are counted from the start."""

    pan: Dish
    time_s: FloatArray
    temperature_k: FloatArray
    share: FloatArray
    taken_j: FloatArray
    melting_w: FloatArray

    @property
    def flow_w(self) -> FloatArray:
        return self.pan.contact * (self.pan.bath_temperature - self.temperature_k)

    @property
    def warmed_j(self) -> FloatArray:
        """Heat that has warmed the substance, from its temperature alone."""
        return warmed_heat(self.pan.substance, self.pan.mass, self.pan.start_temperature, self.temperature_k)

    @property
    def melted_j(self) -> FloatArray:
        """Heat that has melted it, from its share melted alone."""
        substance, mass = self.pan.substance, self.pan.mass
        return melted_heat(substance, mass, self.share) - melted_heat(substance, mass, self.pan.start_share)

    @property
    def dish_j(self) -> FloatArray:
        return self.pan.dish * (self.temperature_k - self.pan.start_temperature)

    @property
    def progress(self) -> FloatArray:
        """The share melted of what was solid at the start."""
        return (self.share - self.pan.start_share) / (1.0 - self.pan.start_share)


def melt(pan: Dish) -> Melt:
    """The whole melting, every leg sampled evenly, its end included."""
    rows = [np.array([[0.0, pan.start_temperature, pan.start_share, 0.0, 0.0]])]
    began = taken = 0.0
    for leg in legs(pan):
        wanted = leg.seconds(pan)
        usual = SETTLED * leg.held_j_k / pan.contact if math.isinf(wanted) else wanted
        lasts = min(usual, LONGEST_S - began)
        t = lasts * np.arange(1, SAMPLES + 1) / SAMPLES
        heat, share = leg.taken_j(pan, t), leg.share(pan, t)
        before = np.concatenate(([leg.shares[0]], share[:-1]))
        melting = melted_heat(pan.substance, pan.mass, 1.0) * (share - before) * SAMPLES / lasts
        rows.append(np.column_stack([began + t, leg.start_k + leg.rise_k(pan, t), share, taken + heat, melting]))
        began, taken = began + lasts, taken + float(heat[-1])
        if lasts < wanted:
            break
    return Melt(pan, *np.concatenate(rows).T)
