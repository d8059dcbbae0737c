"""Melting: ice, candle wax, butter or chocolate in a dish that stands in warm water."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import Adviser, drift, first, quantities, spans, stages
from sonify.processes.melting_model import Dish, Melt, melt
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Named, Reading, Words, fact, wrong
from sonify.records.process import ConditionSpec, ProcessSpec
from sonify.records.timeline import Conserved, Event, FloatArray, Missing, Timeline
from sonify.science.melting import BUTTER, CHOCOLATE, ICE, SUBSTANCES, WAX

# What is told of a melting: facts for each stage, its two moments, why a stage did not come, and its cautions.

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


LEAST_GAP_K = 3.0  # between bath and substance at the start: less, and hardly any heat flows
MOST_MELTED = 0.9  # at the start: more, and there is nothing left to watch
#: Shares of what was solid at the start at which one stage ends and the next begins.
MARKS = {"first half": 0.05, "second half": 0.5, "liquid": 0.95}

_KELVIN = ("degC", "K")

CONDITIONS = (
    ConditionSpec(
        name="substance",
        meaning=DECLARED.words("condition", "substance"),
        unit="1",
        si_unit="1",
        default=3.0,
        low=0.0,
        high=len(SUBSTANCES) - 1.0,
        whole=True,
        choices=tuple(substance.name for substance in SUBSTANCES),
    ),
    DECLARED.condition("mass", ("g", "kg"), 0.1, (0.005, 1.0)),
    DECLARED.condition("start_temperature", _KELVIN, ZERO_CELSIUS_K + 18.0, (ZERO_CELSIUS_K - 20.0, 308.15)),
    DECLARED.condition("bath_temperature", _KELVIN, ZERO_CELSIUS_K + 45.0, (ZERO_CELSIUS_K + 10.0, 363.15)),
    DECLARED.condition("contact", ("W/K", "W/K"), 0.8, (0.05, 20.0)),
    DECLARED.condition("dish", ("J/K", "J/K"), 60.0, (0.0, 500.0)),
)

STAGES = tuple(DECLARED.stage(name) for name in ("solid", *MARKS))

_POWER, _ENERGY = ("W", "W"), ("kJ", "J")

QUANTITIES = (
    DECLARED.quantity("temperature", "T", _KELVIN),
    DECLARED.quantity("share melted", "f", ("%", "1")),
    DECLARED.quantity("heat flow", "P", _POWER),
    DECLARED.quantity("power melting", "P_m", _POWER),
    DECLARED.quantity("gap to the bath", "D", ("delta_degC", "K")),
    DECLARED.quantity("heat from the bath", "Q", _ENERGY),
    DECLARED.quantity("heat that warmed", "Q_w", _ENERGY),
    DECLARED.quantity("heat that melted", "Q_m", _ENERGY),
    DECLARED.quantity("heat in the dish", "Q_d", _ENERGY),
)

SOURCES = (
    "BUTTER-HARDNESS",
    "CHOCOLATE-CONSTANTS",
    "COCOA-BUTTER-FORMS",
    "GEANKOPLIS-FOODS",
    "GUELPH-MILK-FAT",
    "MILK-FAT-1998",
    "OPENSTAX-CALC1",
    "OPENSTAX-UP2",
    "PARAFFIN-WAX",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The melting that follows from the conditions (SI units): temperature, share melted, and where every joule went.

    Raises BadCondition where nothing would warm or melt.
    """
    pan = Dish.of(conditions)
    _check(pan)
    course = melt(pan)
    found = _found(course)
    made = quantities(QUANTITIES, _values(course))
    whole = Stretch.whole(course.time_s, made)
    balance = (-course.taken_j, course.warmed_j, course.melted_j, course.dish_j)
    return Timeline(
        process=PROCESS.name,
        time_s=course.time_s,
        quantities=made,
        stages=stages(STAGES, found, course.time_s, told(course, whole, found)),
        events=events(course, whole, found),
        missing=_missing(course, whole, found, conditions),
        conserved=(Conserved(name="energy", relative_drift=drift(balance, float(course.taken_j[-1]))),),
    )


def _check(pan: Dish) -> None:
    name, start_c = pan.substance.name, pan.start_temperature - ZERO_CELSIUS_K
    if start_c < pan.substance.lowest_c - 1e-9:
        raise BadCondition(
            "start_temperature",
            wrong("error_processes-computed-below-where", name=name, lowest_c=f"{pan.substance.lowest_c:g}"),
        )
    if pan.bath_temperature - pan.start_temperature < LEAST_GAP_K:
        raise BadCondition(
            "bath_temperature",
            wrong(
                "error_processes-water-warms-nothing",
                value=f"{pan.bath_temperature - ZERO_CELSIUS_K:.1f}",
                start_c=f"{start_c:.1f}",
                value_2=f"{start_c + LEAST_GAP_K:.1f}",
            ),
        )
    if pan.start_share > MOST_MELTED:
        raise BadCondition(
            "start_temperature",
            wrong("error_processes-melted-already-nothing", start_c=f"{start_c:.1f}", name=name),
        )


def _found(course: Melt) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    starts: dict[str, int | None] = {"solid": 0}
    starts |= {name: first(course.progress >= mark - 1e-12) for name, mark in MARKS.items()}
    return spans(starts, course.time_s.size - 1)


def _values(course: Melt) -> dict[str, FloatArray]:
    return {
        "temperature": course.temperature_k,
        "share melted": np.clip(course.share, 0.0, 1.0),
        "heat flow": course.flow_w,
        "power melting": course.melting_w,
        "gap to the bath": course.pan.bath_temperature - course.temperature_k,
        "heat from the bath": course.taken_j,
        "heat that warmed": course.warmed_j,
        "heat that melted": course.melted_j,
        "heat in the dish": course.dish_j,
    }


def _missing(
    course: Melt, whole: Stretch, found: Mapping[str, tuple[int, int]], conditions: Mapping[str, float]
) -> tuple[Missing, ...]:
    """Why a stage did not come, and which condition to change: the bath is too cool, or there was too little time."""
    lacking = [name for name in MARKS if name not in found]
    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=lambda each: _found(melt(Dish.of(each))))
    ends_k = course.pan.substance.points[-1][0]
    changes = [
        ("bath_temperature", max(ends_k + 15.0, course.pan.bath_temperature + 10.0)),
        ("contact", 10.0 * course.pan.contact),
        ("mass", 0.1 * course.pan.mass),
    ]
    return tuple(adviser.missing(name, reason(whole), changes) for name in lacking)


PROCESS = ProcessSpec(
    name="melting",
    title=DECLARED.words("title"),
    summary=DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=DECLARED.honesty(8),
    sources=SOURCES,
    cautions=cautions,
)
