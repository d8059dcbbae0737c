"""What is told of a pulse: facts for each stage, moments, and why a stage did not come."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from sonify.processes.telling import Stretch
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.timeline import Event

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
        "quickening": fact("pulse-too-short-to-rise", asleep, exercise=_set("exercise", conditions)),
        "working": fact("pulse-too-short-to-get-there", exercise=_set("exercise", conditions)),
        "settling": fact("pulse-too-short-for-half", recovery=_set("recovery", conditions)),
        "rested": fact("pulse-too-short-to-come-back", recovery=_set("recovery", conditions)),
    }


def _set(condition: str, conditions: Mapping[str, float]) -> Duration:
    return Duration(seconds=conditions[condition], source=Reading(how="condition", of=condition))
