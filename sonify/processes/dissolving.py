"""Dissolving: salt in a jar of water, how fast by stirring, warmth and size of grain, and where it ends."""

from __future__ import annotations

from collections.abc import Mapping
from math import pi

from sonify.constants import ZERO_CELSIUS_K
from sonify.processes import dissolving_words as words
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.dissolving_model import Jar, Setup, dissolve
from sonify.processes.specs import always
from sonify.processes.telling import Stretch
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline

RPM = 2.0 * pi / 60.0  # a turn a minute in rad/s


_DECLARED = words.DECLARED

CONDITIONS = (
    _DECLARED.condition("water", ("ml", "m**3"), 200.0e-6, (50.0e-6, 2.0e-3)),
    _DECLARED.condition("salt", ("g", "kg"), 80.0e-3, (1.0e-3, 0.5)),
    _DECLARED.condition("grain", ("mm", "m"), 1.0e-3, (0.1e-3, 6.0e-3)),
    _DECLARED.condition(
        "temperature", ("degC", "K"), ZERO_CELSIUS_K + 20.0, (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 60.0)
    ),
    _DECLARED.condition("stirring", ("rpm", "rad/s"), 40.0 * RPM, (0.0, 150.0 * RPM)),
    _DECLARED.condition("stir_after", ("s", "s"), 120.0, (0.0, 7200.0)),
    _DECLARED.condition("watching", ("min", "s"), 600.0, (60.0, 7200.0)),
)


_GRAMS, _MM, _SHARE = ("g", "kg"), ("mm", "m"), ("%", "1")

QUANTITIES = (
    _DECLARED.quantity("undissolved salt", "m_g", _GRAMS),
    _DECLARED.quantity("dissolved salt", "m_d", _GRAMS),
    _DECLARED.quantity("salt low in the jar", "m_1", _GRAMS),
    _DECLARED.quantity("salt higher up", "m_2", _GRAMS),
    _DECLARED.quantity("dissolving rate", "R", ("g/min", "kg/s")),
    _DECLARED.quantity("fullness", "f", _SHARE),
    _DECLARED.quantity("room left", "r", _SHARE),
    _DECLARED.quantity("grain size", "d", _MM),
    _DECLARED.quantity("clinging layer", "delta", _MM),
    _DECLARED.quantity("salty layer", "s", ("g/kg", "1")),
    _DECLARED.quantity("spoon", "n", ("rpm", "rad/s")),
)

HONESTY = _DECLARED.honesty(7)

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
    made = quantities(QUANTITIES, _values(jar))
    whole = Stretch.whole(jar.time_s, made)
    stores = [jar.grains_kg, jar.low_kg, jar.rest_kg]
    return Timeline(
        process=PROCESS.name,
        time_s=jar.time_s,
        quantities=made,
        stages=stages(words.STAGES, came, jar.time_s, words.told(jar, whole, came)),
        events=words.events(jar, whole, came),
        missing=words.missing(jar, whole, came, conditions, CONDITIONS),
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
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=words.STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    cautions=always("taste"),
)
