"""The heating curve: ice to steam at a steady power, with both plateaux and what the room takes."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import MOLAR_MASS_WATER_KG_PER_MOL, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import Adviser, drift, quantities, stages
from sonify.processes.heating_curve_model import Curve, Pan, heat, legs
from sonify.processes.heating_curve_words import events, reason, told
from sonify.processes.specs import Declared, always
from sonify.processes.telling import Stretch
from sonify.records.fact import wrong
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline
from sonify.science.heating import BOILS_K, MELTS_K
from sonify.science.kinetic import mean_speed

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


def quantity_values(curve: Curve) -> dict[str, FloatArray]:
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


def missing(curve: Curve, whole: Stretch, conditions: Mapping[str, float]) -> tuple[Missing, ...]:
    """Why each stage that was asked for did not come, and which condition to change.

    A heater that is switched off before all the water has boiled away is not asked for hot steam.
    """
    pan = curve.pan
    asked = ORDER if pan.boil_away == 1.0 and pan.steam_temperature > BOILS_K else ORDER[:-1]
    adviser = Adviser(
        specs=CONDITIONS, conditions=conditions, found=lambda each: [leg.stage for leg in legs(Pan.of(each))]
    )
    return tuple(_missing(name, curve, whole, adviser) for name in asked if name not in curve.spans)


def _missing(name: str, curve: Curve, whole: Stretch, adviser: Adviser) -> Missing:
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
