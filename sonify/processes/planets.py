"""Planets go once round the Sun, one after the other, from the nearest of the four to the furthest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import pi

import numpy as np

from sonify.processes.declared import quantities, stages
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch
from sonify.processes.trials import APART, pair
from sonify.records.fact import Amount, Arg, Claim, Fact, Named, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.orbits import (
    AU_M,
    ORBITS,
    YEAR_S,
    eccentric_anomaly,
    gone_round,
    orbit_speed,
    orbit_years,
    sun_distance,
)

NAMES = tuple(ORBITS)
#: Which four go round: the scene's word, and the planets from the nearest to the furthest.
FOURS = {"inner": NAMES[:4], "outer": NAMES[2:]}
ORDER = ("first planet", "second planet", "third planet", "fourth planet")
LOOKS = 96  # in each turn
#: A pace that swings by less is not told as uneven (our own choice).
OVAL = 0.1

DISTANCE, SPEED, PACE, TIME, PULL = "distance from the Sun", "speed", "pace", "time of a turn", "pull of the Sun"

# What is told of each planet: how long it takes, how fast it is and how far out ------------------------------------


def told(whole: Stretch, found: Mapping[str, tuple[int, int]], four: tuple[str, ...]) -> dict[str, Words]:
    """The facts of each stage. four: the planet of each."""
    cut = {name: whole.steps(*span) for name, span in found.items()}
    said: dict[str, Words] = {ORDER[0]: _first(four[0], cut[ORDER[0]])}
    for number in range(1, len(ORDER)):
        said[ORDER[number]] = _later(four[number - 1 : number + 1], cut[ORDER[number - 1]], cut[ORDER[number]])
    return said


def _way(name: str, here: Stretch) -> dict[str, Arg]:
    """A planet, and how long a turn of it takes: in days, from two of the Earth's turns on in years."""
    days = here.at(TIME, "first") < 2.0 * YEAR_S
    unit = "day" if days else "year"
    return {
        "planet": Named("planet", name),
        "time": here.figure(TIME, "first", unit=unit, places=0 if days else 1),
        "pace": here.figure(PACE, "mean"),
        "speed": here.figure(SPEED, "mean"),
    }


def _first(name: str, here: Stretch) -> Fact:
    swings = Claim(kind="more", left=here.reading(PACE, "most"), right=here.reading(PACE, "least"), slack=OVAL)
    plain = fact("planets-first", **_way(name, here))
    most, least = here.figure(PACE, "most"), here.figure(PACE, "least")
    return fact("planets-first-oval", swings, most=most, least=least, **_way(name, here)).or_else(plain)


def _later(names: tuple[str, ...], before: Stretch, here: Stretch) -> Fact:
    """A planet beside the one before it: further away, and slower."""
    speed, was = pair(here.figure(SPEED, "mean"), before.figure(SPEED, "mean"))
    return fact(
        "planets-later",
        Claim(kind="more", left=here.reading(DISTANCE, "least"), right=before.reading(DISTANCE, "most")),
        Claim(kind="less", left=here.reading(SPEED, "mean"), right=before.reading(SPEED, "mean")),
        Claim(kind="more", left=here.reading(TIME, "first"), right=before.reading(TIME, "first")),
        **{**_way(names[1], here), "speed": speed},
        inner=Named("planet", names[0]),
        further=_further(before, here),
        was=was,
    )


def _further(before: Stretch, here: Stretch) -> Amount:
    """How many times as far from the Sun a planet is as the one before, both on average over a turn."""
    source = replace(here.reading(DISTANCE, "mean"), per=before.reading(DISTANCE, "mean"))
    return Amount(value=here.at(DISTANCE, "mean") / before.at(DISTANCE, "mean"), digits=2, source=source)


_DECLARED = Declared("planets")

CONDITIONS = (
    replace(_DECLARED.condition("planets", ("1", "1"), 0.0, (0.0, len(FOURS) - 1.0), whole=True), choices=tuple(FOURS)),
)

QUANTITIES = (
    _DECLARED.quantity(PACE, "p", ("deg/day", "rad/s")),
    _DECLARED.quantity(SPEED, "v", ("km/s", "m/s")),
    _DECLARED.quantity(DISTANCE, "r", ("au", "m")),
    _DECLARED.quantity(PULL, "g", ("mm/s**2", "m/s**2")),
    _DECLARED.quantity(TIME, "T", ("day", "s")),
    _DECLARED.quantity("way round", "w", ("deg", "rad")),
    _DECLARED.quantity("pace of the Earth", "e", ("deg/day", "rad/s")),
)

STAGES = tuple(_DECLARED.stage(name) for name in ORDER)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The turns that follow from the conditions, one after the other (SI units)."""
    four = tuple(FOURS.values())[round(conditions["planets"])]
    time_s, values = _one_after_the_other([_turn(name) for name in four])
    made = quantities(QUANTITIES, values)
    found = {name: (number * LOOKS, (number + 1) * LOOKS - 1) for number, name in enumerate(ORDER)}
    whole = Stretch.whole(time_s, made)
    titled = [
        replace(spec, title=fact("planets-goes-round", planet=Named("planet", name)))
        for spec, name in zip(STAGES, four, strict=True)
    ]
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(titled, found, time_s, told(whole, found, four)),
        conserved=_kept(four),
    )


def _turn_s(name: str) -> float:
    return float(orbit_years(ORBITS[name].axis_au)) * YEAR_S


def _turn(name: str) -> dict[str, FloatArray]:
    """One turn from where the planet is nearest to the Sun to where it is so again; "time" from 0, SI."""
    orbit, turn_s = ORBITS[name], _turn_s(name)
    mean = np.linspace(0.0, 2.0 * pi, LOOKS)
    gone = gone_round(eccentric_anomaly(mean, orbit.eccentricity), orbit.eccentricity)
    distance = sun_distance(gone, orbit.axis_au, orbit.eccentricity)
    # the area law: a planet's pace goes as the inverse square of its distance
    square = orbit.axis_au**2 * np.sqrt(1.0 - orbit.eccentricity**2) / distance**2
    return {
        "time": mean / (2.0 * pi) * turn_s,
        PACE: 2.0 * pi / turn_s * square,
        SPEED: orbit_speed(distance, orbit.axis_au),
        DISTANCE: distance * AU_M,
        PULL: (2.0 * pi / YEAR_S) ** 2 * AU_M / distance**2,
        TIME: np.full(LOOKS, turn_s),
        "way round": gone,
        "pace of the Earth": np.full(LOOKS, 2.0 * pi / _turn_s("the Earth")),
    }


def _one_after_the_other(turns: list[dict[str, FloatArray]]) -> tuple[FloatArray, dict[str, FloatArray]]:
    """The turns in a row, parted by a hair, so that the last look at one planet is its own."""
    starts, at = [], 0.0
    for turn in turns:
        starts.append(at)
        at += (1.0 + APART) * float(turn["time"][-1])
    time_s = np.concatenate([start + turn["time"] for start, turn in zip(starts, turns, strict=True)])
    return time_s, {spec.name: np.concatenate([turn[spec.name] for turn in turns]) for spec in QUANTITIES}


def _kept(four: tuple[str, ...]) -> tuple[Conserved, ...]:
    """That each planet sweeps equal areas in equal times, and keeps its energy of motion and height together."""
    areas, energies = [], []
    for name in four:
        turn, oval = _turn(name), ORBITS[name].eccentricity
        inner = (
            2.0
            * np.arctan2(
                np.sqrt(1.0 - oval) * np.sin(turn["way round"] / 2.0),
                np.sqrt(1.0 + oval) * np.cos(turn["way round"] / 2.0),
            )
            % (2.0 * pi)
        )
        swept = np.unwrap(inner - oval * np.sin(inner))
        areas.append(float(np.max(np.abs(swept - swept[0] - 2.0 * pi * turn["time"] / turn["time"][-1]))))
        away = turn[DISTANCE] * turn[PACE] * oval * np.sin(turn["way round"]) / (1.0 + oval * np.cos(turn["way round"]))
        across = turn[DISTANCE] * turn[PACE]
        energies.append(float(np.max(np.abs((away**2 + across**2) / turn[SPEED] ** 2 - 1.0))))
    return (
        Conserved(name="the area that a planet sweeps in a day", relative_drift=max(areas) / (2.0 * pi)),
        Conserved(name="a planet's energy of motion and of height together", relative_drift=max(energies)),
    )


PROCESS = ProcessSpec(
    name="planets",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(6),
    sources=("MEEUS-1998", "JPL-ELEMENTS", "NASA-FACT-SHEETS"),
    cautions=always("sun"),
)
