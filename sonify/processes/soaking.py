"""Soaking: a fair test of three cloths. Same strip, same water, same time; which drinks most, and which fastest?"""

from __future__ import annotations

from collections.abc import Mapping
from math import radians

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes import soaking_words as words
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.soaking_model import MATERIALS, Material, Soak, soak
from sonify.processes.specs import condition_spec, quantity_spec
from sonify.records.process import ConditionSpec, ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline

#: Gap width (m), winding, thickness (m), open share, contact angle (degrees): round figures of ours for one of each.
_CLOTHS = {
    "paper": (120.0e-6, 3.0, 0.9e-3, 0.90, 0.0),
    "towel": (100.0e-6, 6.0, 2.0e-3, 0.75, 0.0),
    "sponge": (400.0e-6, 10.0, 2.5e-3, 0.85, 0.0),
}


def _of_cloth(material: Material) -> tuple[ConditionSpec, ...]:
    gap, winding, thickness, open_share, angle = _CLOTHS[material.key]
    key, name = material.key, f"the {material.name}"
    return (
        condition_spec(f"{key}_gap", f"width of the gaps in {name}", ("um", "m"), gap, (10.0e-6, 1.0e-3)),
        condition_spec(
            f"{key}_winding",
            f"how many times longer than straight the water's way up {name} is, tight places included",
            ("1", "1"),
            winding,
            (1.0, 30.0),
        ),
        condition_spec(f"{key}_thickness", f"how thick {name} is when wet", ("mm", "m"), thickness, (0.1e-3, 10.0e-3)),
        condition_spec(f"{key}_open", f"share of {name} that is gaps", ("%", "1"), open_share, (0.2, 0.98)),
        condition_spec(
            f"{key}_angle",
            f"angle at which water meets the fibres of {name}: 0° spreads by itself, at 90° nothing is drunk",
            ("deg", "rad"),
            radians(angle),
            (0.0, radians(90.0)),
        ),
    )


CONDITIONS = (
    condition_spec(
        "temperature",
        "temperature of the water, the same for all",
        ("degC", "K"),
        ZERO_CELSIUS_K + 20.0,
        (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 45.0),
    ),
    condition_spec("strip_width", "width of every strip", ("cm", "m"), 0.10, (0.01, 0.30)),
    condition_spec("strip_length", "how much of every strip hangs above the water", ("cm", "m"), 0.15, (0.02, 0.50)),
    condition_spec("jar", "water in every jar at the start", ("ml", "m**3"), 60.0e-6, (1.0e-6, 1.0e-3)),
    condition_spec("test_time", "how long the test lasts", ("min", "s"), 720.0, (30.0, 7200.0)),
    *(condition for material in MATERIALS for condition in _of_cloth(material)),
)


_VOLUME, _HEIGHT, _RATE = ("ml", "m**3"), ("cm", "m"), ("ml/min", "m**3/s")

QUANTITIES = (
    *(
        quantity_spec(f"water in the {m.name}", f"V_{m.letter}", _VOLUME, f"water that the {m.name} has drunk so far")
        for m in MATERIALS
    ),
    *(
        quantity_spec(f"wet height of the {m.name}", f"h_{m.letter}", _HEIGHT, f"how high the {m.name} is wet")
        for m in MATERIALS
    ),
    *(
        quantity_spec(
            f"drinking rate of the {m.name}", f"Q_{m.letter}", _RATE, f"how fast the {m.name} drinks just now"
        )
        for m in MATERIALS
    ),
    *(
        quantity_spec(f"jar of the {m.name}", f"J_{m.letter}", _VOLUME, f"water left in the jar under the {m.name}")
        for m in MATERIALS
    ),
    quantity_spec("drinking rate", "Q", _RATE, "how fast all three drink together just now"),
    quantity_spec("water drunk", "V", _VOLUME, "water that all three have drunk so far"),
)

HONESTY = (
    "The cloths are model cloths: the widths of their gaps, how much they wind, their thickness and open share are "
    "round figures of ours for one of each kind. Another towel can win. Only the class's own test says which of the "
    "school's cloths drinks most.",
    "A real cloth has gaps of many widths and fibres that swell when they get wet; here every cloth has one width and "
    "stays as it is.",
    "All three limits of real cloths are in it: full to the top, the weight of the water, an empty jar. Water that "
    "dries off on the way, or is sucked into the middle of the threads, is left out.",
    "The very first moment is left out too: for some thousandths of a second the water's own inertia holds it back.",
    "The test is fair because everything but the cloth is the same: width and length of the strips, the water, its "
    "temperature, the time. In the music the rule is the same for all three parts as well.",
)

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
        raise BadCondition(
            "paper_angle", "water wets none of the three cloths, so none drinks; allowed for one at least: 0° to 89°"
        )
    came = words.found(test)
    return Timeline(
        process=PROCESS.name,
        time_s=test.time_s,
        quantities=quantities(QUANTITIES, _values(test)),
        stages=stages(words.STAGES, came, test.time_s, words.science_sentences(test, came)),
        events=words.events(test),
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
    title="Which cloth drinks most?",
    summary="A fair test: strips of kitchen paper, towel and sponge cloth hang in water and drink, in millilitres.",
    conditions=CONDITIONS,
    stages=words.STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
