"""What is told of the heating curve: facts for each stage, the moments at its corners, and why a stage did not come."""

from __future__ import annotations

from dataclasses import replace

from sonify.processes.heating_curve_model import LONGEST_S, Curve, Leg
from sonify.processes.telling import Stretch, fixed, given
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.timeline import Event
from sonify.science.heating import BOILS_K, MELTS_K
from sonify.units import convert

TENTH_K = 0.1  # as thermometers are read
LARGE_J = 99_950.0  # more heat is told in whole kilojoules
NEAR = 1e-9  # for the rounding of machine numbers, as a share


def told(curve: Curve, whole: Stretch) -> dict[str, Words]:
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


def _warming(curve: Curve, leg: Leg, stretch: Stretch) -> Words:
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


def _end(curve: Curve, stretch: Stretch) -> Fact:
    """Why a warming did not come to its end: the room takes all that the heater gives, or time was up."""
    if _settled(curve):
        claim, figures = _room_takes(curve, stretch)
        return fact("heating_curve-stuck", claim, **figures)
    return fact("heating_curve-time-up", after=_all_time(stretch))


def _settled(curve: Curve) -> bool:
    """Whether it can grow no warmer, rather than that time was up."""
    return float(curve.time_s[-1]) < (1.0 - NEAR) * LONGEST_S


def _room_takes(curve: Curve, stretch: Stretch) -> tuple[Claim, dict[str, Arg]]:
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


def _changing(curve: Curve, leg: Leg, stretch: Stretch) -> Words:
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


def events(curve: Curve, whole: Stretch) -> tuple[Event, ...]:
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


def reason(name: str, curve: Curve, whole: Stretch) -> Fact:
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
