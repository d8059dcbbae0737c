"""Soaking: a fair test of three cloths. Same strip, same water, same time; which drinks most, and which fastest?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import radians

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes import soaking_words as words
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.soaking_model import MATERIALS, Material, Soak, soak
from sonify.processes.specs import condition_spec, quantity_spec
from sonify.processes.telling import Stretch
from sonify.records.fact import fact, wrong
from sonify.records.process import ConditionSpec, ProcessSpec, QuantitySpec
from sonify.records.timeline import Conserved, FloatArray, Timeline

#: Gap width (m), winding, thickness (m), open share, contact angle (degrees): round figures of ours for one of each.
_CLOTHS = {
    "paper": (120.0e-6, 3.0, 0.9e-3, 0.90, 0.0),
    "towel": (100.0e-6, 6.0, 2.0e-3, 0.75, 0.0),
    "sponge": (400.0e-6, 10.0, 2.5e-3, 0.85, 0.0),
}


#: What is set of each cloth: units and range.
_OWN = {
    "gap": (("um", "m"), (10.0e-6, 1.0e-3)),
    "winding": (("1", "1"), (1.0, 30.0)),
    "thickness": (("mm", "m"), (0.1e-3, 10.0e-3)),
    "open": (("%", "1"), (0.2, 0.98)),
    "angle": (("deg", "rad"), (0.0, radians(90.0))),
}


def _of_cloth(material: Material) -> Iterator[ConditionSpec]:
    for (word, (units, ends)), usual in zip(_OWN.items(), _CLOTHS[material.key], strict=True):
        meaning = fact(f"soaking-condition-{word}", cloth=words.cloth(material))
        usual_si = radians(usual) if word == "angle" else usual
        yield condition_spec(f"{material.key}_{word}", meaning, units, usual_si, ends)


CONDITIONS = (
    words.DECLARED.condition(
        "temperature", ("degC", "K"), ZERO_CELSIUS_K + 20.0, (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 45.0)
    ),
    words.DECLARED.condition("strip_width", ("cm", "m"), 0.10, (0.01, 0.30)),
    words.DECLARED.condition("strip_length", ("cm", "m"), 0.15, (0.02, 0.50)),
    words.DECLARED.condition("jar", ("ml", "m**3"), 60.0e-6, (1.0e-6, 1.0e-3)),
    words.DECLARED.condition("test_time", ("min", "s"), 720.0, (30.0, 7200.0)),
    *(condition for material in MATERIALS for condition in _of_cloth(material)),
)


_VOLUME, _HEIGHT, _RATE = ("ml", "m**3"), ("cm", "m"), ("ml/min", "m**3/s")


def _each(start: str, symbol: str, units: tuple[str, str], message: str) -> Iterator[QuantitySpec]:
    """One quantity of every cloth."""
    for m in MATERIALS:
        meaning = fact(f"soaking-quantity-{message}", cloth=words.cloth(m))
        yield quantity_spec(f"{start} the {m.name}", f"{symbol}_{m.letter}", units, meaning)


QUANTITIES = (
    *_each("water in", "V", _VOLUME, "water"),
    *_each("wet height of", "h", _HEIGHT, "height"),
    *_each("drinking rate of", "Q", _RATE, "rate"),
    *_each("jar of", "J", _VOLUME, "jar"),
    words.DECLARED.quantity("drinking rate", "Q", _RATE),
    words.DECLARED.quantity("water drunk", "V", _VOLUME),
)

HONESTY = words.DECLARED.honesty(5)

SOURCES = (
    "FRIES-DREYER-2008",
    "IAPWS-2008-VISCOSITY",
    "IAPWS-R1-76",
    "KELL-1975",
    "LUCAS-1918",
    "OPENSTAX-CP",
    "WASHBURN-1921",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The test that follows from the conditions (SI units).

    Raises BadCondition where no cloth drinks, because water wets none of them.
    """
    test = soak(conditions)
    if test.total_m3[-1] <= 0.0:
        raise BadCondition("paper_angle", wrong("error_processes-water-wets-none"))
    came = words.found(test)
    made = quantities(QUANTITIES, _values(test))
    whole = Stretch.whole(test.time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=test.time_s,
        quantities=made,
        stages=stages(words.STAGES, came, test.time_s, words.told(test, whole, came)),
        events=words.events(test, whole),
        missing=words.missing(test, came, conditions, CONDITIONS),
        conserved=(
            Conserved(
                name="water",
                relative_drift=drift([*test.cloth_m3.values(), *test.jar_m3.values()], float(test.total_m3[-1])),
            ),
        ),
    )


def _values(test: Soak) -> dict[str, FloatArray]:
    values = {"drinking rate": test.total_rate_m3_s, "water drunk": test.total_m3}
    for strip in test.strips:
        key, name = strip.material.key, strip.material.name
        values[f"water in the {name}"] = test.cloth_m3[key]
        values[f"wet height of the {name}"] = test.height_m(strip)
        values[f"drinking rate of the {name}"] = test.rate_m3_s[key]
        values[f"jar of the {name}"] = test.jar_m3[key]
    return values


PROCESS = ProcessSpec(
    name="soaking",
    title=words.DECLARED.words("title"),
    summary=words.DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=words.STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
