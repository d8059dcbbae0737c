"""The heating curve: ice to steam at a steady power, with both plateaux and what the room takes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from sonify.constants import MOLAR_MASS_WATER_KG_PER_MOL, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import Adviser, drift, quantities, stages
from sonify.processes.heating_curve_model import LONGEST_S, HeatingCurve, Leg, Pan, heat, legs
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch, fixed, given
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact, wrong
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, Event, FloatArray, Missing, Timeline
from sonify.science.heating import BOILS_K, MELTS_K
from sonify.science.kinetic import mean_speed
from sonify.units import convert

# What is told of the heating curve: facts for each stage, the moments at its corners, and why a stage did not come.

TENTH_K = 0.1  # as thermometers are read
LARGE_J = 99_950.0  # more heat is told in whole kilojoules
NEAR = 1e-9  # for the rounding of machine numbers, as a share


def told(curve: HeatingCurve, whole: Stretch) -> dict[str, Words]:
    """The facts of each stage, with this run's own figures."""
    return {
        leg.stage: (_changing if leg.latent else _warming)(curve, leg, whole.steps(*curve.spans[leg.stage]))
        for leg in curve.legs
    }


def _degrees(stretch: Stretch, how: str) -> Amount:
    return stretch.figure("temperature", how, places=1)


def _heat(stretch: Stretch) -> Amount:
    """Heat that the water has taken over the stretch."""
    of = "heat in the water"
    return stretch.figure(of, "change", places=1 if stretch.at(of, "change") < LARGE_J else 0)


def _warming(curve: HeatingCurve, leg: Leg, stretch: Stretch) -> Words:
    temperature, lasts = "temperature", stretch.lasts(leg.stage)
    warmer = stretch.at(temperature, "change")
    if warmer < TENTH_K:
        warms = fact("heating_curve-hardly-warms", lasts=lasts, what=leg.stage, to=_degrees(stretch, "last"))
    else:
        first, last = stretch.reading(temperature, "first"), stretch.reading(temperature, "last")
        by = replace(stretch.reading(temperature, "change"), less=None)
        each = replace(stretch.reading("heat in the water", "change"), per=by, times=1e-3)
        warms = fact(
            "heating_curve-warms",
            Claim(kind="more", left=last, right=first, slack=NEAR),
            what=leg.stage,
            lasts=lasts,
            heat=_heat(stretch),
            each=Amount(value=1e-3 * stretch.at(each.of, "change") / warmer, unit="kJ", digits=3, source=each),
            **{"from": _degrees(stretch, "first"), "to": _degrees(stretch, "last")},
        )
    return warms if leg.whole else (warms, _end(curve, stretch))


def _end(curve: HeatingCurve, stretch: Stretch) -> Fact:
    """Why a warming did not come to its end: the room takes all that the heater gives, or time was up."""
    if _settled(curve):
        claim, figures = _room_takes(curve, stretch)
        return fact("heating_curve-stuck", claim, **figures)
    return fact("heating_curve-time-up", after=_all_time(stretch))


def _settled(curve: HeatingCurve) -> bool:
    """Whether it can grow no warmer, rather than that time was up."""
    return float(curve.time_s[-1]) < (1.0 - NEAR) * LONGEST_S


def _room_takes(curve: HeatingCurve, stretch: Stretch) -> tuple[Claim, dict[str, Arg]]:
    """That it hardly warms any more, with the heat that the room takes of what the heater gives."""
    at_last = stretch.between(float(curve.time_s[-2]), float(curve.time_s[-1])).reading("temperature", "change")
    hardly = Claim(kind="at most", left=at_last, right=fixed(TENTH_K))
    return hardly, {
        "at": _degrees(stretch, "last"),
        "taken": stretch.figure("power lost", "last", digits=2),
        "given": given(curve.pan.power, "W", "power", digits=2),
    }


def _all_time(stretch: Stretch) -> Duration:
    return Duration(seconds=float(stretch.time_s[-1]), source=Reading(how="ends"))


def _changing(curve: HeatingCurve, leg: Leg, stretch: Stretch) -> Words:
    share, message = {
        "melting": ("share melted", "heating_curve-melts"),
        "boiling": ("share boiled", "heating_curve-boils"),
    }[leg.stage]
    return fact(
        message,
        stretch.steady("temperature", slack=1e-6),
        lasts=stretch.lasts(leg.stage),
        at=_degrees(stretch, "last"),
        mass=stretch.scaled(share, "change", 1e3 * curve.pan.mass, "g"),
        heat=_heat(stretch),
    )


def events(curve: HeatingCurve, whole: Stretch) -> tuple[Event, ...]:
    """The corners of the curve."""
    moments: list[Event] = []

    def add(name: str, sample: int, message: str, quantity: str, level: float) -> None:
        here = whole.steps(sample, sample).reading(quantity, "first")
        reached = Claim(kind="at least", left=here, right=fixed(level * (1.0 - NEAR)))
        moments.append(Event(name=name, time_s=float(curve.time_s[sample]), text=fact(message, reached)))

    for leg in curve.legs:
        start, end = curve.spans[leg.stage]
        if leg.stage == "melting":
            add("first melting", start, "heating_curve-first-melting", "temperature", MELTS_K)
            if leg.whole:
                add("ice gone", end, "heating_curve-ice-gone", "share melted", 1.0)
        if leg.stage == "boiling":
            add("boiling begins", start, "heating_curve-boiling-begins", "temperature", BOILS_K)
    return (*moments, Event(name="heater off", time_s=float(curve.time_s[-1]), text=_off(whole)))


def _off(whole: Stretch) -> Fact:
    boiled = whole.reading("share boiled", "last")
    if whole.at(boiled.of, "last") > 0.0:
        return fact("heating_curve-off-boiled", boiled=whole.figure(boiled.of, "last", digits=2))
    return fact("heating_curve-off", Claim(kind="at most", left=boiled, right=fixed(0.0)))


def reason(name: str, curve: HeatingCurve, whole: Stretch) -> Fact:
    """Why a stage did not come."""
    start = Reading(how="condition", of="start_temperature")
    at = given(convert(curve.pan.start_temperature, "K", "degC"), "degC", start.of, places=1)
    melts = fixed(MELTS_K)
    if name in ("ice", "melting") and curve.pan.start_temperature > MELTS_K:
        return fact("heating_curve-starts-as-water", Claim(kind="more", left=start, right=melts, slack=1e-12), at=at)
    if name == "ice" and curve.pan.start_temperature >= MELTS_K:
        return fact("heating_curve-starts-at", Claim(kind="at least", left=start, right=melts), at=at)
    if _settled(curve):
        claim, figures = _room_takes(curve, whole)
        return fact("heating_curve-room-takes", claim, **figures)
    return fact("heating_curve-too-little", after=_all_time(whole))


_DECLARED = Declared("heating_curve")

_KELVIN = ("degC", "K")

CONDITIONS = (
    _DECLARED.condition("mass", ("g", "kg"), 0.3, (0.01, 5.0)),
    _DECLARED.condition(
        "start_temperature", _KELVIN, ZERO_CELSIUS_K - 18.0, (ZERO_CELSIUS_K - 40.0, ZERO_CELSIUS_K + 95.0)
    ),
    _DECLARED.condition("power", ("W", "W"), 600.0, (5.0, 25_000.0)),
    _DECLARED.condition("room_temperature", _KELVIN, ZERO_CELSIUS_K + 20.0, (ZERO_CELSIUS_K, 313.15)),
    _DECLARED.condition("loss", ("W/K", "W/K"), 1.2, (0.0, 20.0)),
    _DECLARED.condition("vessel", ("J/K", "J/K"), 250.0, (0.0, 5000.0)),
    _DECLARED.condition("boil_away", ("%", "1"), 1.0, (0.01, 1.0)),
    _DECLARED.condition("steam_temperature", _KELVIN, ZERO_CELSIUS_K + 130.0, (BOILS_K, ZERO_CELSIUS_K + 200.0)),
)

STAGES = (
    _DECLARED.stage("ice"),
    _DECLARED.stage("melting"),
    _DECLARED.stage("water"),
    _DECLARED.stage("boiling"),
    _DECLARED.stage("steam"),
)
ORDER = tuple(stage.name for stage in STAGES)


_ENERGY, _POWER, _MASS_RATE, _SHARE = ("kJ", "J"), ("W", "W"), ("g/s", "kg/s"), ("%", "1")

QUANTITIES = (
    _DECLARED.quantity("temperature", "T", _KELVIN, whose="water"),
    _DECLARED.quantity("mean molecule speed", "v", ("m/s", "m/s"), whose="water", companion="temperature"),
    _DECLARED.quantity("share melted", "m", _SHARE),
    _DECLARED.quantity("share boiled", "b", _SHARE),
    _DECLARED.quantity("melting rate", "M", _MASS_RATE),
    _DECLARED.quantity("boiling rate", "B", _MASS_RATE),
    _DECLARED.quantity("power changing the state", "P_s", _POWER),
    _DECLARED.quantity("power lost", "P_l", _POWER),
    _DECLARED.quantity("heat given", "Q", _ENERGY),
    _DECLARED.quantity("heat in the water", "Q_w", _ENERGY),
    _DECLARED.quantity("heat in the vessel", "Q_v", _ENERGY),
    _DECLARED.quantity("heat lost", "Q_l", _ENERGY),
)

HONESTY = _DECLARED.honesty(9)

SOURCES = ("OPENSTAX-CALC1", "OPENSTAX-UP2", "OPENSTAX-CP", "IAPWS-95")


def run(conditions: Mapping[str, float]) -> Timeline:
    """The heating that follows from the conditions (SI units): temperatures, states, and where every joule went.

    Raises BadCondition where the water would cool from the start.
    """
    pan = Pan.of(conditions)
    if pan.spare_w(pan.start_temperature) <= 0.0:
        taken, start_c = pan.power - pan.spare_w(pan.start_temperature), pan.start_temperature - ZERO_CELSIUS_K
        raise BadCondition(
            "power",
            wrong(
                "error_processes-warms-nothing-here",
                power=f"{pan.power:g}",
                taken=f"{taken:.0f}",
                start_c=f"{start_c:.1f}",
                taken_2=f"{taken:.0f}",
            ),
        )
    curve = heat(pan)
    made = quantities(QUANTITIES, quantity_values(curve))
    whole = Stretch.whole(curve.time_s, made)
    moved = float(curve.given_j[-1] + np.sum(np.abs(np.diff(curve.lost_j))))
    balance = (-curve.given_j, curve.water_j, curve.vessel_j, curve.lost_j)
    return Timeline(
        process=PROCESS.name,
        time_s=curve.time_s,
        quantities=made,
        stages=stages(STAGES, curve.spans, curve.time_s, told(curve, whole)),
        events=events(curve, whole),
        missing=missing(curve, whole, conditions),
        conserved=(Conserved(name="energy", relative_drift=drift(balance, moved)),),
    )


def quantity_values(curve: HeatingCurve) -> dict[str, FloatArray]:
    """Every quantity in SI units by name."""
    mass = curve.pan.mass
    return {
        "temperature": curve.temperature_k,
        "mean molecule speed": mean_speed(curve.temperature_k, MOLAR_MASS_WATER_KG_PER_MOL),
        "share melted": curve.melted_kg / mass,
        "share boiled": curve.boiled_kg / mass,
        "melting rate": curve.melting_kg_s,
        "boiling rate": curve.boiling_kg_s,
        "power changing the state": curve.changing_w,
        "power lost": curve.loss_w,
        "heat given": curve.given_j,
        "heat in the water": curve.water_j,
        "heat in the vessel": curve.vessel_j,
        "heat lost": curve.lost_j,
    }


def missing(curve: HeatingCurve, whole: Stretch, conditions: Mapping[str, float]) -> tuple[Missing, ...]:
    """Why each stage that was asked for did not come, and which condition to change.

    A heater that is switched off before all the water has boiled away is not asked for hot steam.
    """
    pan = curve.pan
    asked = ORDER if pan.boil_away == 1.0 and pan.steam_temperature > BOILS_K else ORDER[:-1]
    adviser = Adviser(
        specs=CONDITIONS, conditions=conditions, found=lambda each: [leg.stage for leg in legs(Pan.of(each))]
    )
    return tuple(_missing(name, curve, whole, adviser) for name in asked if name not in curve.spans)


def _missing(name: str, curve: HeatingCurve, whole: Stretch, adviser: Adviser) -> Missing:
    pan = curve.pan
    if name in ("ice", "melting") and pan.start_temperature >= MELTS_K:
        changes = [("start_temperature", ZERO_CELSIUS_K - 18.0)]
    else:
        enough = 1.2 * pan.loss * (BOILS_K - pan.room_temperature)
        changes = [("power", max(enough, 2.0 * pan.power)), ("loss", 0.0), ("power", 25e3)]
    return adviser.missing(name, reason(name, curve, whole), changes)


PROCESS = ProcessSpec(
    name="heating-curve",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    cautions=always("boiling"),
)
