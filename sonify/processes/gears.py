"""A handle turns a wheel, and its teeth turn another: as large, larger, smaller, and with more friction."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import pi

from sonify.frozen import dataclass
from sonify.processes.declared import Adviser
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch, fixed
from sonify.processes.trials import alike, apart, differs, pair, ratio, timeline_of
from sonify.records.fact import Amount, Arg, Claim, Fact, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, Missing, Timeline
from sonify.science.machines import wheel_pace, wheel_torque

HANDLE, WHEEL = "pace of the handle", "pace of the wheel"
TURNS = "speed of the wheel"
FORCE, TEETH, HEAT, OUT, IN = "strength of the wheel", "teeth of the wheel", "heat", "work out", "work in"

# What is told of each pair of wheels, beside the first --------------------------------------------------------------


def told(whole: Stretch, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each trial."""
    cut = {name: whole.steps(*span) for name, span in found.items()}
    first = cut["first pair"]
    said: dict[str, Words] = {"first pair": (_first(first), _balance(first))}
    for name in ("larger wheel", "smaller wheel"):
        if name in cut:
            said[name] = (_other(cut[name], first), _balance(cut[name]))
    if "more friction" in cut:
        said["more friction"] = (_friction(cut["more friction"], first), _balance(cut["more friction"]))
    return {name: said[name] for name in found}


def _count(here: Stretch, name: str) -> Amount:
    return here.figure(name, "first", places=0)


def _first(here: Stretch) -> Fact:
    return fact(
        "gears-first",
        driver=_count(here, "teeth of the handle"),
        teeth=_count(here, TEETH),
        handle=here.figure(HANDLE, "first"),
        wheel=here.figure(WHEEL, "first"),
        strength=here.figure(FORCE, "first"),
    )


def _other(here: Stretch, first: Stretch) -> Fact:
    """Another wheel: larger is slower and stronger, smaller is quicker and weaker."""
    strength, was = pair(here.figure(FORCE, "first"), first.figure(FORCE, "first"))
    way = "larger" if here.at(TEETH, "first") > first.at(TEETH, "first") else "smaller"
    return fact(
        "gears-other",
        apart(here, first, TEETH),
        apart(here, first, WHEEL),
        apart(here, first, FORCE),
        way=way,
        teeth=_count(here, TEETH),
        before=_count(first, TEETH),
        handle=here.figure(HANDLE, "first"),
        wheel=here.figure(WHEEL, "first"),
        strength=strength,
        was=was,
        slower=ratio(here, first, WHEEL, digits=2),
    )


def _friction(here: Stretch, first: Stretch) -> Fact:
    strength, was = pair(here.figure(FORCE, "first"), first.figure(FORCE, "first"))
    return fact(
        "gears-friction",
        alike(here, first, WHEEL),
        apart(here, first, "share lost"),
        apart(here, first, FORCE),
        share=here.figure("share lost", "first"),
        before=first.figure("share lost", "first"),
        wheel=here.figure(WHEEL, "first"),
        strength=strength,
        was=was,
    )


def _balance(here: Stretch) -> Fact:
    """The work put in is the work that comes out and the heat."""
    places: dict[str, Arg] = {
        "work": here.figure(IN, "first"),
        "out": here.figure(OUT, "first"),
        "heat": here.figure(HEAT, "first"),
    }
    spent = replace(here.reading(IN, "first"), less=here.reading(OUT, "first"))
    same = Claim(kind="same", left=spent, right=here.reading(HEAT, "first"), slack=1e-9)
    some = Claim(kind="more", left=here.reading(HEAT, "first"), right=fixed(0.0))
    return fact("gears-balance", same, some, **places).or_else(
        fact("gears-no-heat", work=places["work"], out=places["out"])
    )


_DECLARED = Declared("gears")
_COUNT, _TURNS, _FORCE, _WATT, _SHARE = ("1", "1"), ("1/min", "1/s"), ("N*m", "N*m"), ("W", "W"), ("%", "1")
_TEETH = (6.0, 60.0)

CONDITIONS = (
    _DECLARED.condition("driver", _COUNT, 12.0, _TEETH, whole=True),
    _DECLARED.condition("driven", _COUNT, 12.0, _TEETH, whole=True),
    _DECLARED.condition("larger", _COUNT, 18.0, _TEETH, whole=True),
    _DECLARED.condition("smaller", _COUNT, 6.0, _TEETH, whole=True),
    _DECLARED.condition("pace", _TURNS, 72.0 / 60.0, (10.0 / 60.0, 150.0 / 60.0)),
    _DECLARED.condition("strength", _FORCE, 1.0, (0.05, 20.0)),
    _DECLARED.condition("lost", _SHARE, 0.05, (0.0, 0.5)),
    _DECLARED.condition("more_lost", _SHARE, 0.4, (0.0, 0.9)),
    _DECLARED.condition("watch", ("s", "s"), 20.0, (5.0, 600.0)),
)

QUANTITIES = (
    _DECLARED.quantity(WHEEL, "n", _TURNS),
    _DECLARED.quantity(HANDLE, "h", _TURNS),
    _DECLARED.quantity(TURNS, "k", _COUNT),
    _DECLARED.quantity(FORCE, "M", _FORCE),
    _DECLARED.quantity(HEAT, "Q", _WATT),
    _DECLARED.quantity(IN, "P", _WATT),
    _DECLARED.quantity(OUT, "p", _WATT),
    _DECLARED.quantity("share lost", "q", _SHARE),
    _DECLARED.quantity(TEETH, "z", _COUNT),
    _DECLARED.quantity("teeth of the handle", "y", _COUNT),
)

STAGES = (
    _DECLARED.stage("first pair"),
    _DECLARED.stage("larger wheel"),
    _DECLARED.stage("smaller wheel"),
    _DECLARED.stage("more friction"),
)
#: Each trial after the first, and the condition that it takes in place of one of the first's.
CHANGED = {
    "larger wheel": ("driven", "larger"),
    "smaller wheel": ("driven", "smaller"),
    "more friction": ("lost", "more_lost"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pair:
    """Two wheels, the one with the handle and the one that it drives, SI."""

    driver: float
    driven: float
    pace: float
    strength: float
    lost: float

    def values(self) -> dict[str, float]:
        wheel = float(wheel_pace(self.pace, self.driver, self.driven))
        torque = float(wheel_torque(self.strength, self.driver, self.driven, self.lost))
        done = 2.0 * pi * self.pace * self.strength
        return {
            WHEEL: wheel,
            HANDLE: self.pace,
            TURNS: wheel / self.pace,
            FORCE: torque,
            HEAT: done * self.lost,
            IN: done,
            OUT: 2.0 * pi * wheel * torque,
            "share lost": self.lost,
            TEETH: self.driven,
            "teeth of the handle": self.driver,
        }


def run(conditions: Mapping[str, float]) -> Timeline:
    """The pairs of wheels that follow from the conditions (SI units)."""
    tried = _tried(conditions)
    values = {name: pair_of.values() for name, pair_of in tried.items()}
    return timeline_of(
        PROCESS,
        values,
        conditions["watch"],
        told,
        missing=_missing(conditions, tuple(tried)),
        conserved=(
            Conserved(
                name="work: what the hand does, what the wheel does, and heat",
                relative_drift=max(abs(one[IN] - one[OUT] - one[HEAT]) / one[IN] for one in values.values()),
            ),
            Conserved(
                name="teeth that pass on one wheel and on the other",
                relative_drift=max(
                    abs(one[WHEEL] * one[TEETH] / (one[HANDLE] * one["teeth of the handle"]) - 1.0)
                    for one in values.values()
                ),
            ),
        ),
    )


def _tried(conditions: Mapping[str, float]) -> dict[str, _Pair]:
    """The first pair, and each that differs from it the way its name says."""
    first = {name: conditions[name] for name in ("driver", "driven", "pace", "strength", "lost")}
    tried = {"first pair": _Pair(**first)}
    for name, (changed, by) in CHANGED.items():
        other = conditions[by]
        goes_its_way = other < conditions[changed] if name == "smaller wheel" else other > conditions[changed]
        if goes_its_way and differs(conditions[changed], other):
            tried[name] = _Pair(**{**first, changed: other})
    return tried


def _missing(conditions: Mapping[str, float], tried: tuple[str, ...]) -> tuple[Missing, ...]:
    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=_tried)
    lacking = []
    for name, (changed, by) in CHANGED.items():
        if name in tried:
            continue
        here, there = conditions[changed], conditions[by]
        if name == "smaller wheel":
            changes = [(by, 0.5 * here), (changed, 2.0 * there)]
        elif name == "larger wheel":
            changes = [(by, 1.5 * here), (changed, there / 1.5)]
        else:
            changes = [(by, min(0.9, 2.0 * here + 0.1)), (changed, 0.25 * there)]
        lacking.append(adviser.missing(name, fact(f"gears-no-{name.replace(' ', '-')}"), changes))
    return tuple(lacking)


PROCESS = ProcessSpec(
    name="gears",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(4),
    sources=("OPENSTAX-CP1",),
    cautions=always("fingers"),
)
