"""Ice heated to steam at a steady power, leg by leg: each leg either warms or changes the state, never both.

Within a leg the temperature follows from a heater against losses in proportion to the difference from the room, which
has an exact answer; nothing is stepped through time. Water and vessel are taken to be equally warm throughout.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.heating import (
    BOILING_J_PER_KG,
    BOILS_K,
    ICE_J_PER_KG_K,
    MELTING_J_PER_KG,
    MELTS_K,
    STEAM_J_PER_KG_K,
    WATER_J_PER_KG_K,
    heated_rise,
    heated_time,
    state_heat,
    warming_heat,
)

LONGEST_S = 24.0 * 3600.0  # nobody heats a pan for longer
SETTLED = 7.0  # time constants after which what can grow no warmer has come within a thousandth of its end
SAMPLES = 100  # in each leg


@dataclass(frozen=True, slots=True)
class Pan:
    """What is heated and how, in SI units."""

    mass: float
    start_temperature: float
    power: float
    room_temperature: float
    loss: float
    vessel: float
    boil_away: float
    steam_temperature: float

    @classmethod
    def of(cls, conditions: Mapping[str, float]) -> Pan:
        return cls(**{name: float(conditions[name]) for name in cls.__slots__})

    def spare_w(self, temperature_k: float) -> float:
        """What the heater gives more than the room takes at a temperature."""
        return self.power - self.loss * (temperature_k - self.room_temperature)


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One stretch of the heating. specific: of the water in its state, J/(kg K), 0 in a change of state.

    latent: of the change of state, J/kg, 0 in a warming. whole: it came to its end before time was up.
    """

    stage: str
    start_s: float
    seconds: float
    start_k: float
    specific: float = 0.0
    latent: float = 0.0
    whole: bool = True

    def held_j_k(self, pan: Pan) -> float:
        """Heat that water and vessel hold for a kelvin."""
        return pan.mass * self.specific + pan.vessel

    def rise_k(self, pan: Pan, time_s: FloatArray | float) -> FloatArray:
        """How much warmer it is after a time in this leg; nothing in a change of state."""
        if self.latent:
            return 0.0 * np.asarray(time_s)
        held = self.held_j_k(pan)
        return heated_rise(time_s, pan.spare_w(self.start_k) / held, pan.loss / held)

    def lost_j(self, pan: Pan, time_s: FloatArray | float) -> FloatArray:
        """Heat that the room has taken after a time in this leg: the loss at its start, and what warming adds to it."""
        steady = pan.loss * (self.start_k - pan.room_temperature) * np.asarray(time_s)
        if self.latent:
            return steady
        held, spare = self.held_j_k(pan), pan.spare_w(self.start_k)
        return steady + spare * np.asarray(time_s) - held * heated_rise(time_s, spare / held, pan.loss / held)

    def changed_kg(self, pan: Pan, time_s: FloatArray | float) -> FloatArray:
        """Ice melted or water boiled after a time in this leg."""
        return (pan.spare_w(self.start_k) / self.latent if self.latent else 0.0) * np.asarray(time_s)


#: Stage, temperature that ends it (None: a change of state), specific heat, latent heat.
_WAY = (
    ("ice", MELTS_K, ICE_J_PER_KG_K, 0.0),
    ("melting", None, 0.0, MELTING_J_PER_KG),
    ("water", BOILS_K, WATER_J_PER_KG_K, 0.0),
    ("boiling", None, 0.0, BOILING_J_PER_KG),
    ("steam", None, STEAM_J_PER_KG_K, 0.0),
)


def legs(pan: Pan) -> tuple[Leg, ...]:
    """The legs that come, in order: until the heater is switched off, time is up or it grows no warmer."""
    found: list[Leg] = []
    now, time_s = pan.start_temperature, 0.0
    for stage, end_k, specific, latent in _WAY:
        if stage in ("ice", "melting") and pan.start_temperature > MELTS_K:
            continue
        if stage == "steam" and (pan.boil_away < 1.0 or pan.steam_temperature <= BOILS_K):
            break
        leg = Leg(stage=stage, start_s=time_s, seconds=0.0, start_k=now, specific=specific, latent=latent)
        goal_k = pan.steam_temperature if stage == "steam" else end_k
        wanted_s = _seconds(pan, leg, goal_k)
        if wanted_s <= 0.0:
            continue
        most_s = min(LONGEST_S - time_s, SETTLED * leg.held_j_k(pan) / pan.loss if math.isinf(wanted_s) else wanted_s)
        leg = Leg(
            stage=stage,
            start_s=time_s,
            seconds=most_s,
            start_k=now,
            specific=specific,
            latent=latent,
            whole=most_s == wanted_s,
        )
        found.append(leg)
        if not leg.whole:
            break
        time_s += most_s
        now = now if goal_k is None else goal_k
    return tuple(found)


def _seconds(pan: Pan, leg: Leg, goal_k: float | None) -> float:
    """How long a leg takes; endless where the losses are too great."""
    if leg.latent:
        kg = pan.mass * (pan.boil_away if leg.stage == "boiling" else 1.0)
        spare = pan.spare_w(leg.start_k)
        return float(state_heat(kg, leg.latent)) / spare if spare > 0.0 else math.inf
    assert goal_k is not None, "a leg that warms has a temperature to reach"
    held = leg.held_j_k(pan)
    return float(heated_time(goal_k - leg.start_k, pan.spare_w(leg.start_k) / held, pan.loss / held))


@dataclass(frozen=True, slots=True, eq=False)
class HeatingCurve:
    """The heating sampled: arrays of one length. spans: first and last sample of each leg.

    Heats are counted from the start. changing_w, melting_kg_s, boiling_kg_s: of the leg that a sample ends.
    """

    pan: Pan
    legs: tuple[Leg, ...]
    spans: dict[str, tuple[int, int]]
    time_s: FloatArray
    temperature_k: FloatArray
    melted_kg: FloatArray
    boiled_kg: FloatArray
    melting_kg_s: FloatArray
    boiling_kg_s: FloatArray
    lost_j: FloatArray

    @property
    def given_j(self) -> FloatArray:
        return self.pan.power * self.time_s

    @property
    def loss_w(self) -> FloatArray:
        return self.pan.loss * (self.temperature_k - self.pan.room_temperature)

    @property
    def changing_w(self) -> FloatArray:
        """Power that goes into melting or boiling."""
        return self.melting_kg_s * MELTING_J_PER_KG + self.boiling_kg_s * BOILING_J_PER_KG

    @property
    def water_j(self) -> FloatArray:
        """Heat in ice, water and steam, from their temperature and state alone."""
        t, start = self.temperature_k, self.pan.start_temperature
        warmed = sum(
            warming_heat(self.pan.mass, specific, np.clip(t, low, high) - min(max(start, low), high))
            for specific, low, high in (
                (ICE_J_PER_KG_K, 0.0, MELTS_K),
                (WATER_J_PER_KG_K, MELTS_K, BOILS_K),
                (STEAM_J_PER_KG_K, BOILS_K, np.inf),
            )
        )
        ice = 0.0 if start > MELTS_K else MELTING_J_PER_KG
        return warmed + ice * self.melted_kg + BOILING_J_PER_KG * self.boiled_kg

    @property
    def vessel_j(self) -> FloatArray:
        return self.pan.vessel * (self.temperature_k - self.pan.start_temperature)


def heat(pan: Pan) -> HeatingCurve:
    """The whole heating, every leg sampled evenly, its end included."""
    way = legs(pan)
    melted = 0.0 if pan.start_temperature <= MELTS_K else pan.mass
    boiled = lost = 0.0
    rows = [np.array([[0.0, pan.start_temperature, melted, boiled, 0.0, 0.0, lost]])]
    spans: dict[str, tuple[int, int]] = {}
    for leg in way:
        t = leg.seconds * np.arange(1, SAMPLES + 1) / SAMPLES
        changed, gone = leg.changed_kg(pan, t), leg.lost_j(pan, t)
        rate = np.full(SAMPLES, float(changed[-1]) / leg.seconds)
        still = np.zeros(SAMPLES)
        melts, boils = (leg.stage == name for name in ("melting", "boiling"))
        columns = (
            leg.start_s + t,
            leg.start_k + leg.rise_k(pan, t),
            melted + (changed if melts else still),
            boiled + (changed if boils else still),
            rate if melts else still,
            rate if boils else still,
            lost + gone,
        )
        rows.append(np.column_stack(columns))
        melted, boiled, lost = (float(columns[i][-1]) for i in (2, 3, 6))
        first = SAMPLES * len(spans)
        spans[leg.stage] = (first, first + SAMPLES)
    return HeatingCurve(pan, way, spans, *np.concatenate(rows).T)
