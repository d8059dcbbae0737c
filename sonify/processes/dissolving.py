"""Dissolving: salt in a jar of water, how fast by stirring, warmth and size of grain, and where it ends."""

from __future__ import annotations

from collections.abc import Mapping
from math import pi

from sonify.constants import ZERO_CELSIUS_K
from sonify.processes import dissolving_words as words
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.dissolving_model import Jar, Setup, dissolve
from sonify.processes.specs import condition_spec, quantity_spec
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline

RPM = 2.0 * pi / 60.0  # a turn a minute in rad/s


CONDITIONS = (
    condition_spec("water", "water in the jar", ("ml", "m**3"), 200.0e-6, (50.0e-6, 2.0e-3)),
    condition_spec("salt", "salt that is put into it", ("g", "kg"), 80.0e-3, (1.0e-3, 0.5)),
    condition_spec("grain", "size of the grains of salt", ("mm", "m"), 1.0e-3, (0.1e-3, 6.0e-3)),
    condition_spec(
        "temperature",
        "temperature of the water",
        ("degC", "K"),
        ZERO_CELSIUS_K + 20.0,
        (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 60.0),
    ),
    condition_spec(
        "stirring", "how fast the spoon goes round, turns a minute", ("rpm", "rad/s"), 40.0 * RPM, (0.0, 150.0 * RPM)
    ),
    condition_spec("stir_after", "how long the jar is left alone before", ("s", "s"), 120.0, (0.0, 7200.0)),
    condition_spec("watching", "how long the jar is watched", ("min", "s"), 600.0, (60.0, 7200.0)),
)


_GRAMS, _MM, _SHARE = ("g", "kg"), ("mm", "m"), ("%", "1")

QUANTITIES = (
    quantity_spec("undissolved salt", "m_g", _GRAMS, "salt that is still in grains"),
    quantity_spec("dissolved salt", "m_d", _GRAMS, "salt that is dissolved in the water"),
    quantity_spec("salt low in the jar", "m_1", _GRAMS, "dissolved salt in the water between and just over the grains"),
    quantity_spec("salt higher up", "m_2", _GRAMS, "dissolved salt in the rest of the water"),
    quantity_spec("dissolving rate", "R", ("g/min", "kg/s"), "salt that dissolves just now"),
    quantity_spec("fullness", "f", _SHARE, "dissolved salt as a share of what the water can hold"),
    quantity_spec("room left", "r", _SHARE, "what the water could still take, as a share of what it can hold"),
    quantity_spec("grain size", "d", _MM, "how large a grain still is; 0 when none is left"),
    quantity_spec("clinging layer", "delta", _MM, "thickness of the layer of water that clings to a grain"),
    quantity_spec(
        "salty layer", "s", ("g/kg", "1"), "how much more salt a kilogram of water holds at the bottom than above"
    ),
    quantity_spec("spoon", "n", ("rpm", "rad/s"), "how fast the spoon goes round, in turns a minute"),
)

HONESTY = (
    "Dissolved salt is not gone: the water tastes of it, weighs more by it, and leaves it behind when it evaporates.",
    "Stirring and warmth change how fast salt dissolves, hardly how much. Hot water holds 9 % more salt than cold; of "
    "sugar it would hold twice as much and more.",
    "The grains are taken as balls of one size. Real salt is a mixture of little cubes and broken bits.",
    "How much water lies between the grains, and how fast it moves past them when the spoon goes round, are round "
    "figures of ours; the formulae between them are published.",
    "Left alone, real salt water sinks and creeps in ways of its own. In the model the bottom fills up and then next "
    "to nothing happens; salt by itself would take weeks to spread through the jar.",
    "Salt cools the water a little as it dissolves. The model leaves the temperature as it is.",
    "Both parts of the salt, sodium and chloride, wander together, a little faster in warm water.",
)

SOURCES = (
    "BRINE-DENSITY-1974",
    "CRC-IONS",
    "CRC-SOLUBILITY",
    "IAPWS-2008-VISCOSITY",
    "KELL-1975",
    "NERNST-1888",
    "NERNST-BRUNNER-1904",
    "NOYES-WHITNEY-1897",
    "OPENSTAX-CP",
    "RANZ-MARSHALL-1952",
    "SALT-TABLE",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """What becomes of the salt under these conditions (SI units)."""
    jar = dissolve(Setup.of(conditions))
    came = words.found(jar)
    stores = [jar.grains_kg, jar.low_kg, jar.rest_kg]
    return Timeline(
        process=PROCESS.name,
        time_s=jar.time_s,
        quantities=quantities(QUANTITIES, _values(jar)),
        stages=stages(words.STAGES, came, jar.time_s, words.science_sentences(jar, came)),
        events=words.events(jar, came),
        missing=words.missing(jar, came, conditions, CONDITIONS),
        conserved=(Conserved(name="salt", relative_drift=drift(stores, float(jar.dissolved_kg[-1]))),),
    )


def _values(jar: Jar) -> dict[str, FloatArray]:
    return {
        "undissolved salt": jar.grains_kg,
        "dissolved salt": jar.dissolved_kg,
        "salt low in the jar": jar.low_kg,
        "salt higher up": jar.rest_kg,
        "dissolving rate": jar.rate_kg_s,
        "fullness": jar.fullness,
        "room left": 1.0 - jar.fullness,
        "grain size": jar.grain_m,
        "clinging layer": jar.layer_m,
        "salty layer": jar.salty_layer,
        "spoon": jar.turning_rad_s,
    }


PROCESS = ProcessSpec(
    name="dissolving",
    title="Salt in the jar",
    summary="Salt dissolving in a jar of water: left alone, then stirred, until all is dissolved or the water is full.",
    conditions=CONDITIONS,
    stages=words.STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
