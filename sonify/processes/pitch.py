"""High and low, loud and soft, as a fair test: a string, a tube or a bar, with one thing changed at a time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sonify.frozen import dataclass
from sonify.processes.declared import Adviser
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, given
from sonify.processes.trials import alike, apart, differs, pair, ratio, timeline_of
from sonify.records.fact import Amount, Fact, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, Missing, Timeline
from sonify.science.vibration import bar_frequency, string_frequency, tube_frequency

# What is told of a string, a tube or a bar: how often it vibrates in each trial, beside the whole one.

FREQUENCY, LOUDNESS = "frequency", "loudness"
#: What is changed besides length and strength, by kind: the conditions before and after, and the unit for telling them.
OTHERWISE = {
    "string": ("tension", "other_tension", "N"),
    "tube": ("air_speed", "other_air_speed", "m/s"),
    "bar": ("thickness", "other_thickness", "mm"),
}
_IN_UNIT = {"mm": 1000.0}


def told(
    whole: Stretch, found: Mapping[str, tuple[int, int]], kind: str, conditions: Mapping[str, float]
) -> dict[str, Words]:
    """The facts of each trial."""
    first = whole.steps(*found["whole"])
    said: dict[str, Words] = {}
    for name, span in found.items():
        here = whole.steps(*span)
        if name == "whole":
            said[name] = fact("pitch-whole", kind=kind, length=_of(here, "length"), frequency=_hz(here))
        elif name == "softly":
            said[name] = _softly(here, first)
        elif name == "otherwise":
            said[name] = _otherwise(here, first, kind, conditions)
        else:
            said[name] = _shorter(here, first, kind)
    return said


def reason(trial: str) -> Fact:
    """Why a trial did not come: nothing was changed in it."""
    return fact("pitch-unchanged", changed=fact(f"pitch-changed-{trial}"))


def _of(stretch: Stretch, name: str) -> Amount:
    return stretch.figure(name, "first")


def _hz(stretch: Stretch) -> Amount:
    """Vibrations a second, as a bare number."""
    return Amount(value=stretch.at(FREQUENCY, "first"), digits=3, source=stretch.reading(FREQUENCY, "first"))


def _softly(here: Stretch, first: Stretch) -> Fact:
    softer = here.at(LOUDNESS, "first") < first.at(LOUDNESS, "first")
    now, before = pair(_of(here, LOUDNESS), _of(first, LOUDNESS))
    return fact(
        "pitch-softly",
        apart(here, first, LOUDNESS),
        alike(here, first, FREQUENCY),
        way="softer" if softer else "louder",
        now=now,
        before=before,
        frequency=_hz(here),
    )


def _shorter(here: Stretch, first: Stretch, kind: str) -> Fact:
    now, before = pair(_of(here, "length"), _of(first, "length"))
    frequency, was = pair(_hz(here), _hz(first))
    return fact(
        "pitch-shorter",
        apart(here, first, "length"),
        apart(here, first, FREQUENCY),
        kind=kind,
        now=now,
        before=before,
        frequency=frequency,
        was=was,
        times=ratio(here, first, FREQUENCY),
    )


def _otherwise(here: Stretch, first: Stretch, kind: str, conditions: Mapping[str, float]) -> Fact:
    before, after, unit = OTHERWISE[kind]
    times = _IN_UNIT.get(unit, 1.0)
    more = conditions[after] > conditions[before]
    now, old = pair(*(given(times * conditions[name], unit, name) for name in (after, before)))
    frequency, was = pair(_hz(here), _hz(first))
    return fact(
        f"pitch-{kind}",
        apart(here, first, FREQUENCY, 1e-3),
        way="more" if more else "less",
        now=now,
        before=old,
        frequency=frequency,
        was=was,
        times=ratio(here, first, FREQUENCY),
    )


STRING, TUBE, BAR = KINDS = ("string", "tube", "bar")
#: Two loudnesses nearer than this are no trial of their own, dB (our own choice, near what ears tell apart).
LOUDER_DB = 1.0

_DECLARED = Declared("pitch")
_CM, _M_S, _DB, _SHARE = ("cm", "m"), ("m/s", "m/s"), ("dB", "dB"), ("%", "1")

CONDITIONS = (
    replace(_DECLARED.condition("thing", ("1", "1"), 0.0, (0.0, len(KINDS) - 1.0), whole=True), choices=KINDS),
    _DECLARED.condition("length", _CM, 0.6, (0.05, 5.0)),
    _DECLARED.condition("shorter", _SHARE, 0.75, (0.1, 1.0)),
    _DECLARED.condition("shortest", _SHARE, 0.5, (0.1, 1.0)),
    _DECLARED.condition("loudness", _DB, 70.0, (30.0, 100.0)),
    _DECLARED.condition("soft_loudness", _DB, 58.0, (30.0, 100.0)),
    _DECLARED.condition("tension", ("N", "N"), 60.0, (1.0, 1000.0)),
    _DECLARED.condition("other_tension", ("N", "N"), 240.0, (1.0, 1000.0)),
    _DECLARED.condition("line_mass", ("g/m", "kg/m"), 4.83e-4, (1e-5, 0.1)),
    _DECLARED.condition("air_speed", _M_S, 343.0, (300.0, 400.0)),
    _DECLARED.condition("other_air_speed", _M_S, 360.0, (300.0, 400.0)),
    _DECLARED.condition("thickness", ("mm", "m"), 0.005, (5e-4, 0.05)),
    _DECLARED.condition("other_thickness", ("mm", "m"), 0.01, (5e-4, 0.05)),
    _DECLARED.condition("bar_speed", _M_S, 5000.0, (500.0, 7000.0)),
    _DECLARED.condition("listen", ("s", "s"), 20.0, (1.0, 600.0)),
)

STAGES = (
    _DECLARED.stage("whole"),
    _DECLARED.stage("softly"),
    _DECLARED.stage("shorter"),
    _DECLARED.stage("shortest"),
    _DECLARED.stage("otherwise"),
)

QUANTITIES = (
    _DECLARED.quantity(FREQUENCY, "f", ("Hz", "1/s")),
    _DECLARED.quantity(LOUDNESS, "l", _DB, true_zero=False),
    _DECLARED.quantity("length", "L", _CM),
    _DECLARED.quantity("time of a vibration", "T", ("ms", "s")),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sounding:
    """Something as it is made to sound once, SI. power: L times f (a bar: L² times f) is the same at any length."""

    length: float
    loudness: float
    power: float
    of_bar: bool

    @property
    def frequency(self) -> float:
        return self.power / (self.length**2 if self.of_bar else self.length)

    def values(self) -> dict[str, float]:
        return {
            FREQUENCY: self.frequency,
            LOUDNESS: self.loudness,
            "length": self.length,
            "time of a vibration": 1.0 / self.frequency,
        }


def run(conditions: Mapping[str, float]) -> Timeline:
    """The trials that follow from the conditions (SI units)."""
    kind, tried = KINDS[round(conditions["thing"])], _trials(conditions)
    return timeline_of(
        PROCESS,
        {name: each.values() for name, each in tried.items()},
        conditions["listen"],
        lambda whole, found: told(whole, found, kind, conditions),
        missing=_missing(conditions, kind, tried),
        conserved=(_kept(conditions, kind, tried),),
    )


def _trials(conditions: Mapping[str, float]) -> dict[str, _Sounding]:
    """The whole thing, and each trial that differs from it by enough to be heard."""
    kind, length, loud = KINDS[round(conditions["thing"])], conditions["length"], conditions["loudness"]

    def sounding(length: float, loudness: float, **changed: float) -> _Sounding:
        frequency = _frequency(kind, length, {**conditions, **changed})
        power = frequency * (length**2 if kind == BAR else length)
        return _Sounding(length=length, loudness=loudness, power=power, of_bar=kind == BAR)

    tried = {"whole": sounding(length, loud)}
    if abs(loud - conditions["soft_loudness"]) >= LOUDER_DB:
        tried["softly"] = sounding(length, conditions["soft_loudness"])
    for name in ("shorter", "shortest"):
        if differs(1.0, conditions[name]):
            tried[name] = sounding(length * conditions[name], loud)
    before, after, _ = OTHERWISE[kind]
    if differs(conditions[before], conditions[after]):
        tried["otherwise"] = sounding(length, loud, **{before: conditions[after]})
    return tried


def _frequency(kind: str, length: float, conditions: Mapping[str, float]) -> float:
    if kind == STRING:
        return float(string_frequency(length, conditions["tension"], conditions["line_mass"]))
    if kind == TUBE:
        return float(tube_frequency(length, conditions["air_speed"]))
    return float(bar_frequency(length, conditions["thickness"], conditions["bar_speed"]))


def _kept(conditions: Mapping[str, float], kind: str, tried: Mapping[str, _Sounding]) -> Conserved:
    """Frequency times length (of a bar: times its square) stays as it is while only length and strength are changed."""
    powers = [each.power for name, each in tried.items() if name != "otherwise"]
    name = "frequency times length squared" if kind == BAR else "frequency times length"
    return Conserved(name=name, relative_drift=(max(powers) - min(powers)) / max(powers))


def _missing(conditions: Mapping[str, float], kind: str, tried: Mapping[str, _Sounding]) -> tuple[Missing, ...]:
    before, after, _ = OTHERWISE[kind]
    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=_trials)
    changes = {
        "softly": [("soft_loudness", conditions["loudness"] - 12.0), ("soft_loudness", conditions["loudness"] + 12.0)],
        "shorter": [("shorter", 0.75)],
        "shortest": [("shortest", 0.5)],
        "otherwise": [(after, 2.0 * conditions[before]), (after, 0.9 * conditions[before])],
    }
    return tuple(adviser.missing(name, reason(name), rows) for name, rows in changes.items() if name not in tried)


PROCESS = ProcessSpec(
    name="pitch",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(4),
    sources=("FLETCHER-ROSSING-1998",),
)
