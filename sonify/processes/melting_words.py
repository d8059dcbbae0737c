"""What is told of a melting: facts for each stage, its two moments, why a stage did not come, and its cautions."""

from __future__ import annotations

from collections.abc import Mapping

from sonify.processes.melting_model import Melt
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Named, Reading, Words, fact
from sonify.records.timeline import Event
from sonify.science.melting import BUTTER, CHOCOLATE, ICE, SUBSTANCES, WAX

DECLARED = Declared("melting")

TENTH_K = 0.1  # as thermometers are read
NEAR = 1e-9  # for the rounding of machine numbers

#: What to be careful of, by substance: rows of kinds.cautions.
_CAUTIONS = {
    ICE.name: ("ice",),
    WAX.name: ("wax", "flame"),
    BUTTER.name: ("fat", "milk"),
    CHOCOLATE.name: ("chocolate", "allergies"),
}


def cautions(conditions: Mapping[str, float]) -> tuple[str, ...]:
    """What a lesson with this substance has to say."""
    return _CAUTIONS[SUBSTANCES[round(conditions["substance"])].name]


def told(course: Melt, whole: Stretch, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage, with this run's own figures."""
    return {name: _stage(name, course, whole.steps(*span)) for name, span in found.items()}


def _what(course: Melt) -> Named:
    return Named("substance", course.pan.substance.name)


def _degrees(stretch: Stretch, how: str) -> Amount:
    return stretch.figure("temperature", how, places=1)


def _stage(name: str, course: Melt, stretch: Stretch) -> Words:
    places: dict[str, Arg] = {"what": _what(course), "lasts": stretch.lasts(name), "to": _degrees(stretch, "last")}
    warmer = stretch.at("temperature", "change")
    if name in ("solid", "liquid"):
        if warmer < TENTH_K:
            return fact(f"melting-{name}-still", **places)
        heat = stretch.figure("heat from the bath", "change", digits=2)
        return fact(
            f"melting-{name}-warms",
            _more(stretch, "temperature"),
            heat=heat,
            **places,
            **{"from": _degrees(stretch, "first")},
        )
    places["share_from"] = stretch.figure("share melted", "first", places=0)
    places["share_to"] = stretch.figure("share melted", "last", places=0)
    grows = _more(stretch, "share melted")
    if warmer < TENTH_K:
        return fact("melting-melts-still", grows, stretch.steady("temperature", slack=1e-3), **places)
    return fact("melting-melts", grows, _more(stretch, "temperature"), **places, **{"from": _degrees(stretch, "first")})


def _more(stretch: Stretch, name: str) -> Claim:
    """That there is more of it at the end: in warm water that is hardly warmer it rises by little, and still rises."""
    first, last = stretch.reading(name, "first"), stretch.reading(name, "last")
    return Claim(kind="more", left=last, right=first, slack=NEAR)


def events(course: Melt, whole: Stretch, found: Mapping[str, tuple[int, int]]) -> tuple[Event, ...]:
    """When melting is seen to begin, and when hardly anything solid is left."""
    moments = []
    for stage, name, message in (
        ("first half", "melting begins", "melting-begins"),
        ("liquid", "hardly any solid", "melting-hardly-solid"),
    ):
        if stage not in found:
            continue
        sample = found[stage][0]
        here = whole.steps(sample, sample)
        level = here.at("share melted", "first") - NEAR
        reached = Claim(kind="at least", left=here.reading("share melted", "first"), right=fixed(level))
        text = fact(message, reached, what=_what(course), at=_degrees(here, "first"))
        moments.append(Event(name=name, time_s=float(course.time_s[sample]), text=text))
    return tuple(moments)


def reason(whole: Stretch) -> Fact:
    """Why a stage did not come: how warm it grew, and how much had melted by then."""
    return fact(
        "melting-too-cool",
        after=Duration(seconds=float(whole.time_s[-1]), source=Reading(how="ends")),
        at=_degrees(whole, "last"),
        share=whole.figure("share melted", "last", places=0),
    )
