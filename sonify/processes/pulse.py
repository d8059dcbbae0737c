"""The pulse: at rest, in exercise, and on its way back. How fast it comes back is for the class to measure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from sonify.errors import BadCondition
from sonify.processes.declared import Adviser, first, quantities, spans, stages
from sonify.processes.specs import Declared, always, quantity_spec, share_of_ours
from sonify.processes.telling import Stretch
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact, wrong
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Event, FloatArray, Missing, Timeline
from sonify.science.pulse import (
    RESTING_BOYS_PER_MIN,
    RESTING_GIRLS_PER_MIN,
    beats_on_the_way,
    half_time_to_constant,
    pulse_on_the_way,
)

# What is told of a pulse: facts for each stage, moments, and why a stage did not come ---------------------------------

Spans = Mapping[str, tuple[int, int]]
#: Shares: what is left of the extra pulse when the heart has settled; what it may do of the rise and still rest.
SETTLED, AWAKE = 0.10, 0.05


def told(whole: Stretch, found: Spans) -> dict[str, Words]:
    """The facts of each stage, with this run's own figures."""
    return {name: _WRITERS[name](name, whole.steps(*span), whole) for name, span in found.items()}


def _resting(name: str, stretch: Stretch, whole: Stretch) -> Fact:
    return fact("pulse-resting", pulse=_pulse(stretch, "first"), beats=_beats(stretch), lasts=stretch.lasts(name))


def _quickening(name: str, stretch: Stretch, whole: Stretch) -> Fact:
    ends = _ends(name, stretch)
    return fact("pulse-quickening", stretch.rises("pulse"), **ends).or_else(_from_to(name, stretch))


def _working(name: str, stretch: Stretch, whole: Stretch) -> Fact:
    near: dict[str, Arg] = {"pulse": _pulse(stretch, "last"), "beats": _beats(stretch), "lasts": stretch.lasts(name)}
    return fact("pulse-working", stretch.steady("pulse", 0.06), **near).or_else(_from_to(name, stretch))


def _recovering(name: str, stretch: Stretch, whole: Stretch) -> Fact:
    over = Claim(
        kind="same",
        left=Reading(how="begins", of=name),
        right=Reading(how="happens", of="exercise ends"),
        slack=1e-6,
    )
    drops = fact("pulse-recovering", over, stretch.falls("pulse"), **_ends(name, stretch))
    hardly = fact("pulse-recovering-hardly", over, pulse=_pulse(stretch, "last"), lasts=stretch.lasts(name))
    return hardly if _alike(stretch) else drops.or_else(hardly)


def _settling(name: str, stretch: Stretch, whole: Stretch) -> Fact:
    if _alike(stretch):
        return fact("pulse-near", pulse=_pulse(stretch, "last"), lasts=stretch.lasts(name))
    middle = 0.5 * (stretch.start + stretch.end)
    early, late = (
        Reading(how="change", of="pulse", start=start, end=end, times=-1.0)
        for start, end in ((stretch.start, middle), (middle, stretch.end))
    )
    slower = Claim(kind="more", left=early, right=late)
    settling = fact("pulse-settling", slower, stretch.falls("pulse"), **_ends(name, stretch))
    return settling.or_else(_from_to(name, stretch))


def _rested(name: str, stretch: Stretch, whole: Stretch) -> Fact:
    left = Claim(
        kind="at most",
        left=stretch.reading("extra pulse", "most"),
        right=Reading(how="most", of="extra pulse", start=whole.start, end=whole.end, times=SETTLED),
    )
    near: dict[str, Arg] = {"pulse": _pulse(stretch, "last"), "lasts": stretch.lasts(name)}
    return fact("pulse-rested", left, **near).or_else(_from_to(name, stretch))


_WRITERS: dict[str, Callable[[str, Stretch, Stretch], Fact]] = {
    "resting": _resting,
    "quickening": _quickening,
    "working": _working,
    "recovering": _recovering,
    "settling": _settling,
    "rested": _rested,
}


def _from_to(name: str, stretch: Stretch) -> Fact:
    return fact("pulse-from-to", **_ends(name, stretch))


def _ends(name: str, stretch: Stretch) -> dict[str, Arg]:
    return {"from": _pulse(stretch, "first"), "to": _pulse(stretch, "last"), "lasts": stretch.lasts(name)}


def _pulse(stretch: Stretch, how: str) -> Amount:
    """Beats a minute, to the beat."""
    reading = Reading(how=how, of="pulse", start=stretch.start, end=stretch.end, times=60.0)
    return Amount(value=60.0 * stretch.at("pulse", how), places=0, source=reading)


def _alike(stretch: Stretch) -> bool:
    """Whether the pulse is printed alike at both ends."""
    return round(_pulse(stretch, "first").value) == round(_pulse(stretch, "last").value)


def _beats(stretch: Stretch) -> Amount:
    return stretch.figure("heartbeats", "change", places=0)


def events(whole: Stretch, conditions: Mapping[str, float]) -> tuple[Event, ...]:
    """When the exercise begins and ends, and the count at the end."""
    moves, stops = conditions["rest"], conditions["rest"] + conditions["exercise"]
    at_end = whole.between(stops, stops)
    highest = Claim(
        kind="same", left=at_end.reading("pulse", "first"), right=whole.reading("pulse", "most"), slack=1e-6
    )
    begins = fact("pulse-begins", after=_set("rest", conditions))
    ends = fact("pulse-ends", highest, pulse=_pulse(at_end, "first"))
    return (
        Event(name="exercise begins", time_s=moves, text=begins),
        Event(name="exercise ends", time_s=stops, text=ends),
        Event(name="the last beat", time_s=whole.end, text=fact("pulse-count", beats=_beats(whole))),
    )


def reasons(whole: Stretch, conditions: Mapping[str, float]) -> dict[str, Fact]:
    """Why a stage may stay away. The others come under all conditions that are allowed."""
    rise = Reading(how="condition", of="exercise_pulse", less=Reading(how="condition", of="resting_pulse"))
    most = whole.reading("extra pulse", "most")
    asleep = Claim(kind="at most", left=most, right=replace(rise, times=AWAKE))
    return {
        "quickening": fact("pulse-too-short-to-rise", asleep, exercise=_set("exercise", conditions)).or_else(
            fact("pulse-too-short-to-quicken", exercise=_set("exercise", conditions))
        ),
        "working": fact("pulse-too-short-to-get-there", exercise=_set("exercise", conditions)),
        "settling": fact("pulse-too-short-for-half", recovery=_set("recovery", conditions)),
        "rested": fact("pulse-too-short-to-come-back", recovery=_set("recovery", conditions)),
    }


def _set(condition: str, conditions: Mapping[str, float]) -> Duration:
    return Duration(seconds=conditions[condition], source=Reading(how="condition", of=condition))


STEP_S = 1.0
LEAST_RISE_HZ = 10.0 / 60.0
#: Share of the whole rise from which on the heart has got there (a choice of our own, as AWAKE and SETTLED are).
THERE = 0.95

_DECLARED = Declared("pulse")
_PULSE, _TIME = ("1/min", "1/s"), ("s", "s")


CONDITIONS = (
    _DECLARED.condition(
        "resting_pulse",
        _PULSE,
        (RESTING_BOYS_PER_MIN + RESTING_GIRLS_PER_MIN) / 2.0 / 60.0,
        (40.0 / 60.0, 130.0 / 60.0),
    ),
    _DECLARED.condition(
        "exercise_pulse",
        _PULSE,
        150.0 / 60.0,
        (60.0 / 60.0, 220.0 / 60.0),
    ),
    _DECLARED.condition("rise_half_time", _TIME, 20.0, (3.0, 300.0)),
    _DECLARED.condition(
        "recovery_half_time",
        _TIME,
        45.0,
        (5.0, 900.0),
    ),
    _DECLARED.condition("rest", ("min", "s"), 60.0, (10.0, 1800.0)),
    _DECLARED.condition("exercise", ("min", "s"), 180.0, (10.0, 3600.0)),
    _DECLARED.condition("recovery", ("min", "s"), 300.0, (10.0, 7200.0)),
)


STAGES = (
    _DECLARED.stage("resting", seen_as=fact("pulse-seen-resting", share=share_of_ours(AWAKE))),
    _DECLARED.stage("quickening", seen_as=fact("pulse-seen-quickening", share=share_of_ours(THERE))),
    _DECLARED.stage("working"),
    _DECLARED.stage("recovering"),
    _DECLARED.stage("settling", seen_as=fact("pulse-seen-settling", share=share_of_ours(SETTLED))),
    _DECLARED.stage("rested"),
)
ORDER = tuple(stage.name for stage in STAGES)


WHOSE = fact("pulse-whose")

QUANTITIES = (
    quantity_spec("pulse", "p", _PULSE, fact("pulse-quantity-pulse"), whose=WHOSE),
    quantity_spec("extra pulse", "p_x", _PULSE, fact("pulse-quantity-extra-pulse"), whose=WHOSE),
    quantity_spec("time between beats", "T", _TIME, fact("pulse-quantity-time-between-beats"), whose=WHOSE),
    quantity_spec("effort", "e", ("%", "1"), fact("pulse-quantity-effort"), whose=WHOSE),
    quantity_spec("heartbeats", "N", ("1", "1"), fact("pulse-quantity-heartbeats"), whose=WHOSE),
)

HONESTY = (
    fact("pulse-honesty-published"),
    fact("pulse-honesty-measure"),
    fact("pulse-honesty-curves"),
    fact("pulse-honesty-smooth"),
    fact("pulse-honesty-beat"),
)

SOURCES = ("OPENSTAX-CALC1", "PETERS-2014", "PIERPONT-2000")


def run(conditions: Mapping[str, float]) -> Timeline:
    """The pulse that follows from the conditions (SI units).

    Raises BadCondition where the exercise does not raise the pulse.
    """
    least = conditions["resting_pulse"] + LEAST_RISE_HZ
    if conditions["exercise_pulse"] < least:
        refused = wrong("error_processes-exercise-hardly-raises", least=f"{60 * least:.3g}")
        raise BadCondition("exercise_pulse", refused)
    values = _values(conditions)
    time_s = values.pop("time")
    found = _found(time_s, values["pulse"], conditions)
    made = quantities(QUANTITIES, values)
    whole = Stretch.whole(time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(whole, found)),
        events=events(whole, conditions),
        missing=_missing(whole, found, conditions),
    )


def _times(conditions: Mapping[str, float]) -> FloatArray:
    """Second by second, with the two moments at which effort changes among them."""
    moves, stops = conditions["rest"], conditions["rest"] + conditions["exercise"]
    turns = np.array([moves, stops, stops + conditions["recovery"]])
    seconds = np.arange(0.0, turns[-1], STEP_S)
    apart = np.min(np.abs(seconds[:, None] - turns), axis=1) > 1e-6 * STEP_S
    return np.sort(np.concatenate([seconds[apart], turns]))


def _values(conditions: Mapping[str, float]) -> dict[str, FloatArray]:
    """Every quantity over time, SI: three pieces, each beginning where the one before it ended."""
    time_s = _times(conditions)
    rest, work = conditions["resting_pulse"], conditions["exercise_pulse"]
    moves, stops = conditions["rest"], conditions["rest"] + conditions["exercise"]
    up, down = (float(half_time_to_constant(conditions[f"{way}_half_time"])) for way in ("rise", "recovery"))
    rising, falling = np.clip(time_s - moves, 0.0, stops - moves), np.clip(time_s - stops, 0.0, None)
    top = float(pulse_on_the_way(rest, work, stops - moves, up))
    pulse = np.where(
        time_s <= stops, pulse_on_the_way(rest, work, rising, up), pulse_on_the_way(top, rest, falling, down)
    )
    counted = rest * np.minimum(time_s, moves) + beats_on_the_way(rest, work, rising, up)
    return {
        "time": time_s,
        "pulse": pulse,
        "extra pulse": np.maximum(pulse - rest, 0.0),  # rounding may leave a hair below
        "time between beats": 1.0 / pulse,
        "effort": ((time_s >= moves) & (time_s < stops)).astype(np.float64),
        "heartbeats": counted + beats_on_the_way(top, rest, falling, down),
    }


def _found(time_s: FloatArray, pulse: FloatArray, conditions: Mapping[str, float]) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    rest = conditions["resting_pulse"]
    rise, extra = conditions["exercise_pulse"] - rest, pulse - rest
    stops = int(np.searchsorted(time_s, conditions["rest"] + conditions["exercise"]))
    top = float(extra[stops])
    there, awake = first(extra >= THERE * rise), first(extra >= AWAKE * rise)
    return spans(
        {
            "resting": 0,
            "quickening": awake if awake is not None and awake < stops else None,
            "working": there if there is not None and there < stops else None,
            "recovering": stops,
            "settling": first(extra <= 0.5 * top, stops),
            "rested": first(extra <= SETTLED * top, stops),
        },
        pulse.size - 1,
    )


def _missing(
    whole: Stretch, found: Mapping[str, tuple[int, int]], conditions: Mapping[str, float]
) -> tuple[Missing, ...]:
    """Stages that never came, and the condition that brings them."""

    def tried(changed: Mapping[str, float]) -> dict[str, tuple[int, int]]:
        values = _values(changed)
        return _found(values["time"], values["pulse"], changed)

    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=tried)
    exercise, recovery, why = conditions["exercise"], conditions["recovery"], reasons(whole, conditions)
    changes = {
        "quickening": [("exercise", conditions["rise_half_time"]), ("rise_half_time", exercise)],
        "working": [("exercise", 6.0 * conditions["rise_half_time"]), ("rise_half_time", exercise / 6.0)],
        "settling": [("recovery", 5.0 * conditions["recovery_half_time"]), ("recovery_half_time", recovery / 5.0)],
        "rested": [("recovery", 6.0 * conditions["recovery_half_time"]), ("recovery_half_time", recovery / 6.0)],
    }
    return tuple(adviser.missing(name, why[name], changes[name]) for name in ORDER if name not in found)


PROCESS = ProcessSpec(
    name="pulse",
    title=fact("pulse-title"),
    summary=fact("pulse-summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    cautions=always("exertion"),
)
