"""The heating curve: ice to steam at a steady power, with both plateaux and what the room takes."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import MOLAR_MASS_WATER_KG_PER_MOL, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import Adviser, drift, quantities, stages
from sonify.processes.heating_curve_model import LONGEST_S, Curve, Pan, heat, legs
from sonify.processes.heating_curve_words import degrees, events, science_sentences
from sonify.processes.specs import condition_spec, quantity_spec
from sonify.records.process import ProcessSpec, QuantitySpec, StageSpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline
from sonify.records.words import duration_text
from sonify.science.heating import BOILS_K, MELTS_K
from sonify.science.kinetic import mean_speed

WATER = "the ice, water or steam"


_KELVIN = ("degC", "K")

CONDITIONS = (
    condition_spec("mass", "mass of the ice or water", ("g", "kg"), 0.3, (0.01, 5.0)),
    condition_spec(
        "start_temperature",
        "temperature at the start; at 0 °C or below it is ice",
        _KELVIN,
        ZERO_CELSIUS_K - 18.0,
        (ZERO_CELSIUS_K - 40.0, ZERO_CELSIUS_K + 95.0),
    ),
    condition_spec("power", "heat that the heater gives to the vessel", ("W", "W"), 600.0, (5.0, 25_000.0)),
    condition_spec(
        "room_temperature", "temperature of the room", _KELVIN, ZERO_CELSIUS_K + 20.0, (ZERO_CELSIUS_K, 313.15)
    ),
    condition_spec("loss", "heat lost to the room for each degree of difference", ("W/K", "W/K"), 1.2, (0.0, 20.0)),
    condition_spec("vessel", "heat that the vessel takes for each degree", ("J/K", "J/K"), 250.0, (0.0, 5000.0)),
    condition_spec(
        "boil_away",
        "share of the water that boils away before the heater is switched off",
        ("%", "1"),
        1.0,
        (0.01, 1.0),
    ),
    condition_spec(
        "steam_temperature",
        "how hot the steam is made once all the water has boiled away, closed in under a loose piston",
        _KELVIN,
        ZERO_CELSIUS_K + 130.0,
        (BOILS_K, ZERO_CELSIUS_K + 200.0),
    ),
)

STAGES = (
    StageSpec(name="ice", title="The ice warms", seen_as="there is only ice, below 0 °C, and it grows warmer"),
    StageSpec(
        name="melting", title="The ice melts", seen_as="the temperature stays at 0 °C while the share melted grows"
    ),
    StageSpec(name="water", title="The water warms", seen_as="all is liquid, below 100 °C, and it grows warmer"),
    StageSpec(
        name="boiling", title="The water boils", seen_as="the temperature stays at 100 °C while the share boiled grows"
    ),
    StageSpec(name="steam", title="The steam warms", seen_as="all is steam, above 100 °C, and it grows warmer"),
)
ORDER = tuple(stage.name for stage in STAGES)


_ENERGY, _POWER, _MASS_RATE, _SHARE = ("kJ", "J"), ("W", "W"), ("g/s", "kg/s"), ("%", "1")

QUANTITIES = (
    quantity_spec("temperature", "T", _KELVIN, "how warm it is", whose=WATER),
    QuantitySpec(
        name="mean molecule speed",
        symbol="v",
        unit="m/s",
        si_unit="m/s",
        true_zero=True,
        meaning="mean speed of its molecules at that temperature, by kinetic theory",
        whose=WATER,
        companion="temperature",
    ),
    quantity_spec("share melted", "m", _SHARE, "how much of it has melted, or was liquid from the start"),
    quantity_spec("share boiled", "b", _SHARE, "how much of it has become steam"),
    quantity_spec("melting rate", "M", _MASS_RATE, "ice that melts in a second"),
    quantity_spec("boiling rate", "B", _MASS_RATE, "water that boils away in a second"),
    quantity_spec("power changing the state", "P_s", _POWER, "heat a second that melts or boils, and warms nothing"),
    quantity_spec("power lost", "P_l", _POWER, "heat a second that the room takes; negative while the room is warmer"),
    quantity_spec("heat given", "Q", _ENERGY, "heat that the heater has given since the start"),
    quantity_spec("heat in the water", "Q_w", _ENERGY, "heat that ice, water and steam have taken since the start"),
    quantity_spec("heat in the vessel", "Q_v", _ENERGY, "heat that the vessel has taken since the start"),
    quantity_spec("heat lost", "Q_l", _ENERGY, "heat that the room has taken since the start"),
)

HONESTY = (
    "While ice melts or water boils the temperature stands still although the heater goes on: the energy changes the "
    "state, not the temperature. Boiling all of it takes 6.75 times as much energy as melting it.",
    "All of the water is taken to be equally warm and to melt at 0 °C sharp. In a real pan the water warms at the "
    "bottom while ice still floats on top, so a thermometer shows rounded corners and, unstirred, no level stretch.",
    "Water boils at 100 °C only at the pressure of sea level, and there by a schoolroom's rounding: at 99.97 °C. On a "
    "hill of 900 m it boils near 97 °C.",
    "The heats are rounded averages of one school table (ice 2090, water 4186, steam 2020 joules a kilogram and "
    "degree; melting 334, boiling 2256 kilojoules a kilogram). Steam's is the least certain: other books print from "
    "1520 to 2080.",
    "What the room takes grows with the difference in temperature and with nothing else. A real pan without a lid also "
    "steams well below boiling, and loses much more heat by it.",
    "Steam is counted as if it stayed, closed in under a loose piston. From a pan it leaves at once; up to boiling dry "
    "that changes nothing in the times.",
    "What can be seen above a pan is not steam but tiny drops of water; steam is a gas and cannot be seen.",
    "Molecule speeds are those of kinetic theory for straight motion. At one temperature, ice, water and steam have "
    "the same: on the level stretches the molecules do not get faster, they get freer.",
    "The particle picture of melting is enrichment at this age in England, where it belongs to key stage 3.",
)

SOURCES = ("OPENSTAX-CALC1", "OPENSTAX-UP2", "OPENSTAX-CP", "IAPWS-95")


def run(conditions: Mapping[str, float]) -> Timeline:
    """The heating that follows from the conditions (SI units): temperatures, states, and where every joule went.

    Raises BadCondition where the water would cool from the start.
    """
    pan = Pan.of(conditions)
    if pan.spare_w(pan.start_temperature) <= 0.0:
        taken = pan.power - pan.spare_w(pan.start_temperature)
        raise BadCondition(
            "power",
            f"{pan.power:g} W warms nothing here: the room takes {taken:.0f} W from water of "
            f"{degrees(pan.start_temperature)}; allowed with this start and loss: more than {taken:.0f} W",
        )
    curve = heat(pan)
    moved = float(curve.given_j[-1] + np.sum(np.abs(np.diff(curve.lost_j))))
    balance = (-curve.given_j, curve.water_j, curve.vessel_j, curve.lost_j)
    return Timeline(
        process=PROCESS.name,
        time_s=curve.time_s,
        quantities=quantities(QUANTITIES, quantity_values(curve)),
        stages=stages(STAGES, curve.spans, curve.time_s, science_sentences(curve)),
        events=events(curve),
        missing=missing(curve, conditions),
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


def missing(curve: Curve, conditions: Mapping[str, float]) -> tuple[Missing, ...]:
    """Why each stage that was asked for did not come, and which condition to change.

    A heater that is switched off before all the water has boiled away is not asked for hot steam.
    """
    pan = curve.pan
    asked = ORDER if pan.boil_away == 1.0 and pan.steam_temperature > BOILS_K else ORDER[:-1]
    adviser = Adviser(
        specs=CONDITIONS, conditions=conditions, found=lambda each: [leg.stage for leg in legs(Pan.of(each))]
    )
    return tuple(_missing(name, curve, adviser) for name in asked if name not in curve.spans)


def _missing(name: str, curve: Curve, adviser: Adviser) -> Missing:
    pan, last_k = curve.pan, float(curve.temperature_k[-1])
    if name in ("ice", "melting") and pan.start_temperature >= MELTS_K:
        state = ", as water" if pan.start_temperature > MELTS_K else ""
        reason = f"it starts at {degrees(pan.start_temperature)}{state}"
        return adviser.missing(name, reason, [("start_temperature", ZERO_CELSIUS_K - 18.0)])
    reason = f"at {degrees(last_k)} the room takes {curve.loss_w[-1]:.0f} W of the {pan.power:g} W"
    if pan.spare_w(last_k) > 0.01 * pan.power:
        reason = f"time is up after {duration_text(LONGEST_S)}, and so little heat has not done it by then"
    enough = 1.2 * pan.loss * (BOILS_K - pan.room_temperature)
    return adviser.missing(name, reason, [("power", max(enough, 2.0 * pan.power)), ("loss", 0.0), ("power", 25e3)])


PROCESS = ProcessSpec(
    name="heating-curve",
    title="From ice to steam",
    summary="Ice heated at a steady power until it has melted, boiled and become hot steam.",
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
