"""The pendulum as a fair test: first one swing, then another mass, another height, another length, one at a time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, radians, sqrt

import numpy as np

from sonify.processes.declared import Adviser, quantities, stages
from sonify.processes.pendulum_words import reason, told
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch
from sonify.processes.trials import differs, held, spans_of
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline
from sonify.science.pendulum import GRAVITY, swing_motion, swing_period

LOOKS = 64  # in one swing, at which the energy is added up

_DECLARED = Declared("pendulum")
_LENGTH, _MASS, _ANGLE = ("cm", "m"), ("g", "kg"), ("deg", "rad")
_LENGTHS, _MASSES, _ANGLES = (0.1, 6.0), (0.005, 100.0), (radians(2.0), radians(90.0))

CONDITIONS = (
    _DECLARED.condition("length", _LENGTH, 0.25, _LENGTHS),
    _DECLARED.condition("mass", _MASS, 0.05, _MASSES),
    _DECLARED.condition("release", _ANGLE, radians(10.0), _ANGLES),
    _DECLARED.condition("other_mass", _MASS, 0.1, _MASSES),
    _DECLARED.condition("other_release", _ANGLE, radians(30.0), _ANGLES),
    _DECLARED.condition("other_length", _LENGTH, 1.0, _LENGTHS),
    _DECLARED.condition("gravity", ("m/s**2", "m/s**2"), GRAVITY, (1.0, 30.0)),
    _DECLARED.condition("watch", ("s", "s"), 30.0, (5.0, 600.0)),
)

QUANTITIES = (
    _DECLARED.quantity("time of a swing", "T", ("s", "s")),
    _DECLARED.quantity("crossing rate", "n", ("1/min", "1/s")),
    _DECLARED.quantity("length", "L", _LENGTH),
    _DECLARED.quantity("mass", "m", _MASS),
    _DECLARED.quantity("release angle", "a", _ANGLE),
    _DECLARED.quantity("height of release", "h", _LENGTH),
    _DECLARED.quantity("speed at the bottom", "v", ("m/s", "m/s")),
)

#: Each trial after the first: what is changed in it, and the condition that says to what.
CHANGED = {"mass": "other_mass", "release": "other_release", "length": "other_length"}
STAGES = (
    _DECLARED.stage("first swing"),
    _DECLARED.stage("other mass"),
    _DECLARED.stage("other release"),
    _DECLARED.stage("other length"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Swing:
    """One pendulum as it is let go, SI."""

    length: float
    mass: float
    release: float
    gravity: float

    def values(self) -> dict[str, float]:
        height = self.length * (1.0 - cos(self.release))
        period = self.period
        return {
            "time of a swing": period,
            "crossing rate": 2.0 / period,
            "length": self.length,
            "mass": self.mass,
            "release angle": self.release,
            "height of release": height,
            "speed at the bottom": sqrt(2.0 * self.gravity * height),
        }

    @property
    def period(self) -> float:
        return float(swing_period(self.length, self.release, self.gravity))

    def energy(self) -> FloatArray:
        """Of height and of motion together, through one swing, J."""
        elapsed = np.linspace(0.0, self.period, LOOKS)
        angle, rate = swing_motion(elapsed, self.length, self.release, self.gravity)
        up = self.mass * self.gravity * self.length * (1.0 - np.cos(angle))
        moving: FloatArray = up + 0.5 * self.mass * (self.length * rate) ** 2
        return moving


def run(conditions: Mapping[str, float]) -> Timeline:
    """The trials that follow from the conditions (SI units)."""
    tried = _trials(conditions)
    time_s, values = held([swing.values() for swing in tried.values()], conditions["watch"])
    made, found = quantities(QUANTITIES, values), spans_of(tuple(tried))
    whole = Stretch.whole(time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(whole, found)),
        missing=_missing(conditions, tuple(tried)),
        conserved=(_kept(tuple(tried.values())),),
    )


def _trials(conditions: Mapping[str, float]) -> dict[str, _Swing]:
    """The first swing, and each that differs from it by enough to be tried."""
    first = {name: conditions[name] for name in ("length", "mass", "release", "gravity")}
    tried = {"first swing": _Swing(**first)}
    for name, other in CHANGED.items():
        if differs(conditions[name], conditions[other]):
            tried[f"other {name}"] = _Swing(**{**first, name: conditions[other]})
    return tried


def _kept(swings: tuple[_Swing, ...]) -> Conserved:
    """The energy of each swing, and the largest drift of all."""
    drifts = [float(np.ptp(energy) / energy.max()) for energy in (swing.energy() for swing in swings)]
    return Conserved(name="energy of each swing", relative_drift=max(drifts))


def _missing(conditions: Mapping[str, float], tried: tuple[str, ...]) -> tuple[Missing, ...]:
    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=_trials)
    return tuple(
        adviser.missing(
            f"other {name}", reason(name), [(other, 2.0 * conditions[name]), (other, 0.5 * conditions[name])]
        )
        for name, other in CHANGED.items()
        if f"other {name}" not in tried
    )


PROCESS = ProcessSpec(
    name="pendulum",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(4),
    sources=("OPENSTAX-CP1", "NIST-DLMF"),
    cautions=always("swinging"),
)
