"""The pendulum as a fair test: first one swing, then another mass, another height, another length, one at a time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import cos, radians, sqrt

import numpy as np

from sonify.frozen import dataclass
from sonify.processes.declared import Adviser
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch, told_apart
from sonify.processes.trials import alike, apart, differs, pair, ratio, timeline_of
from sonify.records.fact import Amount, Arg, Fact, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline
from sonify.science.pendulum import GRAVITY, swing_motion, swing_period

# What is told of a pendulum: how long a swing takes in each trial, beside the first -----------------------------------

PERIOD = "time of a swing"


def told(whole: Stretch, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each trial."""
    first = whole.steps(*found["first swing"])
    told: dict[str, Words] = {"first swing": _first(first)}
    writers = {"other mass": _mass, "other release": _release, "other length": _length}
    for name in found:
        if name in writers:
            told[name] = writers[name](whole.steps(*found[name]), first)
    return told


def reason(changed: str) -> Fact:
    """Why a trial did not come: nothing was changed in it."""
    return fact("pendulum-unchanged", changed=fact(f"pendulum-changed-{changed}"))


def _first(first: Stretch) -> Fact:
    return fact(
        "pendulum-first",
        length=_of(first, "length"),
        mass=_of(first, "mass"),
        release=_of(first, "release angle"),
        period=_of(first, PERIOD),
        crossings=_a_minute(first),
    )


def _a_minute(stretch: Stretch) -> Amount:
    """How often it crosses the middle, to the one."""
    source = replace(stretch.reading("crossing rate", "first"), times=60.0)
    return Amount(value=60.0 * stretch.at("crossing rate", "first"), digits=3, source=source)


def _mass(here: Stretch, first: Stretch) -> Fact:
    heavier = here.at("mass", "first") > first.at("mass", "first")
    now, before = _pair(here, first, "mass")
    return fact(
        "pendulum-mass",
        apart(here, first, "mass"),
        alike(here, first, PERIOD),
        way="heavier" if heavier else "lighter",
        now=now,
        before=before,
        period=_of(here, PERIOD),
    )


def _release(here: Stretch, first: Stretch) -> Fact:
    wider = here.at("release angle", "first") > first.at("release angle", "first")
    now, before = _pair(here, first, "release angle")
    told: dict[str, Arg] = {"way": "wider" if wider else "narrower", "now": now, "before": before}
    further = apart(here, first, "release angle")
    both = told_apart(_of(here, PERIOD), _of(first, PERIOD), most=3)
    if both is None:
        hardly = alike(here, first, PERIOD, 0.01)
        return fact("pendulum-release-same", further, hardly, period=_of(here, PERIOD), **told)
    longer = apart(here, first, PERIOD, 1e-6)
    return fact("pendulum-release", further, longer, period=both[0], was=both[1], **told)


def _length(here: Stretch, first: Stretch) -> Fact:
    now, before = _pair(here, first, "length")
    period, was = _pair(here, first, PERIOD)
    return fact(
        "pendulum-length",
        apart(here, first, "length"),
        apart(here, first, PERIOD, 1e-6),
        way="longer" if here.at("length", "first") > first.at("length", "first") else "shorter",
        now=now,
        before=before,
        period=period,
        was=was,
        times=ratio(here, first, "length"),
        slower=ratio(here, first, PERIOD),
    )


def _of(stretch: Stretch, name: str) -> Amount:
    return stretch.figure(name, "first")


def _pair(here: Stretch, first: Stretch, name: str) -> tuple[Amount, Amount]:
    """A quantity now and in the first trial, with as many digits as tell them apart."""
    return pair(_of(here, name), _of(first, name))


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
    return timeline_of(
        PROCESS,
        {name: swing.values() for name, swing in tried.items()},
        conditions["watch"],
        told,
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
