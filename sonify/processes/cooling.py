"""Cooling: two cups of the same drink, one wrapped better than the other, race towards the temperature of the room."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import MOLAR_MASS_WATER_KG_PER_MOL, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.cooling_model import CUPS, Cup, Race, cup, times
from sonify.processes.cooling_words import events, never_apart, told
from sonify.processes.declared import Adviser, drift, first, quantities, spans, stages
from sonify.processes.specs import Declared, always, quantity_spec
from sonify.processes.telling import Stretch
from sonify.records.fact import fact, wrong
from sonify.records.process import ProcessSpec, QuantitySpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline
from sonify.science.kinetic import mean_speed

_DECLARED = Declared("cooling")

LEAST_K = 5.0  # difference from the room at the start: less, and there is no race
TOLD_APART_K = 0.5  # the least gap that two school thermometers tell apart (our own limit)


_KELVIN, _WRAP, _CONDUCTS, _LINK = ("degC", "K"), ("mm", "m"), ("W/m/K", "W/m/K"), ("W/K", "W/K")
_CONDUCTIVITY = (0.015, 400.0)  # still air would be 0.026; copper 400

CONDITIONS = (
    _DECLARED.condition("drink", ("g", "kg"), 0.2, (0.02, 2.0)),
    _DECLARED.condition(
        "start_temperature",
        _KELVIN,
        ZERO_CELSIUS_K + 80.0,
        (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 98.0),
    ),
    _DECLARED.condition("room_temperature", _KELVIN, ZERO_CELSIUS_K + 20.0, (ZERO_CELSIUS_K, 313.15)),
    _DECLARED.condition("wrap_a", _WRAP, 0.0, (0.0, 0.1)),
    _DECLARED.condition("wrap_a_conductivity", _CONDUCTS, 0.04, _CONDUCTIVITY),
    _DECLARED.condition("wrap_b", _WRAP, 0.02, (0.0, 0.1)),
    _DECLARED.condition("wrap_b_conductivity", _CONDUCTS, 0.04, _CONDUCTIVITY),
    _DECLARED.condition("cup_heat", ("J/K", "J/K"), 200.0, (1.0, 3000.0)),
    _DECLARED.condition("contact", _LINK, 5.0, (0.1, 100.0)),
    _DECLARED.condition("wall_area", ("cm**2", "m**2"), 0.025, (0.001, 0.5)),
    _DECLARED.condition("top_loss", _LINK, 0.08, (0.0, 2.0)),
    _DECLARED.condition("air_film", ("W/m**2/K",) * 2, 10.0, (2.0, 100.0)),
    _DECLARED.condition("duration", ("min", "s"), 360.0 * 60.0, (300.0, 48.0 * 3600.0)),
)

STAGES = (
    _DECLARED.stage("level"),
    _DECLARED.stage("apart"),
    _DECLARED.stage("closing"),
    _DECLARED.stage("home"),
)
ORDER = tuple(stage.name for stage in STAGES)


def _of_cup(name: str) -> tuple[QuantitySpec, ...]:
    return (
        quantity_spec(f"temperature of cup {name}", f"T_{name}", _KELVIN, fact("cooling-cup-temperature", cup=name)),
        quantity_spec(
            f"molecule speed in cup {name}",
            f"v_{name}",
            ("m/s", "m/s"),
            fact("cooling-cup-molecules"),
            companion=f"temperature of cup {name}",
        ),
        quantity_spec(
            f"warmth left in cup {name}",
            f"s_{name}",
            ("%", "1"),
            fact("cooling-cup-warmth"),
        ),
        quantity_spec(f"wall temperature of cup {name}", f"W_{name}", _KELVIN, fact("cooling-cup-wall")),
        quantity_spec(
            f"heat loss of cup {name}",
            f"P_{name}",
            ("W", "W"),
            fact("cooling-cup-loss"),
        ),
        quantity_spec(f"heat from cup {name}", f"Q_{name}", ("kJ", "J"), fact("cooling-cup-heat")),
        quantity_spec(
            f"cup {name} by one exponential",
            f"N_{name}",
            _KELVIN,
            fact("cooling-cup-newton"),
        ),
    )


QUANTITIES = (
    *_of_cup("A"),
    *_of_cup("B"),
    _DECLARED.quantity("pace of the race", "p", ("K/min", "K/s")),
    _DECLARED.quantity("gap", "G", ("delta_degC", "K")),
)

SOURCES = ("OPENSTAX-CALC1", "OPENSTAX-UP2", "MOSAIC-COOLING-WATER")


def run(conditions: Mapping[str, float]) -> Timeline:
    """The race that follows from the conditions (SI units).

    Raises BadCondition where the drink starts no warmer or colder than the room.
    """
    race = Race.of(conditions)
    if abs(race.ahead_k) < LEAST_K:
        raise BadCondition(
            "start_temperature",
            wrong(
                "error_processes-too-near-room",
                value=f"{race.start_temperature - ZERO_CELSIUS_K:.1f}",
                value_2=f"{race.room_temperature - ZERO_CELSIUS_K:.1f}",
                least_k=f"{LEAST_K:g}",
            ),
        )
    time_s = times(race)
    cups = (cup(race, 0, time_s), cup(race, 1, time_s))
    found = stage_spans(cups)
    made = quantities(QUANTITIES, quantity_values(race, cups))
    whole = Stretch.whole(time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(race, whole, found)),
        events=events(race, cups, whole, time_s),
        missing=missing(race, whole, conditions),
        conserved=(Conserved(name="energy", relative_drift=energy_drift(race, cups)),),
    )


def stage_spans(cups: tuple[Cup, Cup]) -> dict[str, tuple[int, int]]:
    """The stages by the gap between the drinks: first and last sample of each that came."""
    gap = np.abs(cups[0].drink_k - cups[1].drink_k)
    last, widest = len(gap) - 1, int(np.argmax(gap))
    if gap[widest] < TOLD_APART_K:
        return {"level": (0, last)}
    half = 0.5 * gap[widest]
    return spans(
        {
            "level": 0,
            "apart": first(gap >= half),
            "closing": widest,
            "home": first(gap <= half, widest),
        },
        last,
    )


def energy_drift(race: Race, cups: tuple[Cup, Cup]) -> float:
    """The largest drift of drinks, cups and room together, relative to the heat that moved."""
    drink_j_k, cup_j_k = race.capacities_j_k
    stores = [
        store
        for each in cups
        for store in (
            drink_j_k * (each.drink_k - race.room_temperature),
            cup_j_k * (each.wall_k - race.room_temperature),
            each.room_j,
        )
    ]
    moved = sum(float(np.sum(np.abs(np.diff(store)))) for store in stores)
    return drift(stores, moved)


def quantity_values(race: Race, cups: tuple[Cup, Cup]) -> dict[str, FloatArray]:
    """Every quantity in SI units by name."""
    values: dict[str, FloatArray] = {
        "gap": np.abs(cups[0].drink_k - cups[1].drink_k),
        "pace of the race": 0.5 * (cups[0].pace_k_s + cups[1].pace_k_s),
    }
    for name, each in zip(CUPS, cups, strict=True):
        values |= {
            f"temperature of cup {name}": each.drink_k,
            f"molecule speed in cup {name}": mean_speed(each.drink_k, MOLAR_MASS_WATER_KG_PER_MOL),
            f"warmth left in cup {name}": (each.drink_k - race.room_temperature) / race.ahead_k,
            f"wall temperature of cup {name}": each.wall_k,
            f"heat loss of cup {name}": each.loss_w,
            f"heat from cup {name}": each.room_j,
            f"cup {name} by one exponential": each.newton_k,
        }
    return values


def missing(race: Race, whole: Stretch, conditions: Mapping[str, float]) -> tuple[Missing, ...]:
    """Why each stage that did not come stayed away, and which condition to change."""

    def found(given: Mapping[str, float]) -> list[str]:
        other = Race.of(given)
        time_s = times(other)
        return list(stage_spans((cup(other, 0, time_s), cup(other, 1, time_s))))

    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=found)
    widest = whole.at("gap", "most")
    came = found(conditions)
    lacking = []
    for name in ORDER:
        if name in came:
            continue
        if widest < TOLD_APART_K:
            reason = never_apart(whole)
            thicker = [("wrap_b", 0.03), ("wrap_a", 0.03), ("wrap_b", 0.0), ("start_temperature", 353.15)]
            lacking.append(adviser.missing(name, reason, thicker))
            continue
        later = [("duration", factor * race.duration) for factor in (2.0, 4.0, 10.0)]
        reason = fact("cooling-too-short")
        if name in ("level", "apart"):
            later = [("duration", race.duration / factor) for factor in (4.0, 20.0)]
            reason = fact("cooling-too-soon")
        lacking.append(adviser.missing(name, reason, [*later, ("drink", 0.1)]))
    return tuple(lacking)


PROCESS = ProcessSpec(
    name="cooling",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(8),
    sources=SOURCES,
    cautions=always("hot-drinks"),
)
