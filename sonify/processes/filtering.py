"""Muddy water: sieving, standing and filtering part gravel, sand, silt and clay by the size of their grains."""

from __future__ import annotations

from collections.abc import Mapping

from sonify.constants import ZERO_CELSIUS_K
from sonify.processes import filtering_words as words
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.filtering_model import KINDS, Course, Setup, follow
from sonify.processes.specs import always
from sonify.processes.telling import Stretch
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline

_GRAMS, _MM, _CM, _MIN = ("g", "kg"), ("mm", "m"), ("cm", "m"), ("min", "s")

_DECLARED = words.DECLARED

CONDITIONS = (
    _DECLARED.condition("water", ("ml", "m**3"), 500.0e-6, (50.0e-6, 5.0e-3)),
    _DECLARED.condition("gravel", _GRAMS, 40.0e-3, (0.0, 0.5)),
    _DECLARED.condition("sand", _GRAMS, 40.0e-3, (0.0, 0.2)),
    _DECLARED.condition("silt", _GRAMS, 12.0e-3, (0.0, 0.1)),
    _DECLARED.condition("clay", _GRAMS, 4.0e-3, (0.0, 0.05)),
    _DECLARED.condition(
        "temperature", ("degC", "K"), ZERO_CELSIUS_K + 15.0, (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 25.0)
    ),
    _DECLARED.condition("sieve_opening", _MM, 1.0e-3, (0.05e-3, 2.0e-3)),
    _DECLARED.condition("pouring_time", ("s", "s"), 30.0, (5.0, 300.0)),
    _DECLARED.condition("jar_depth", _CM, 0.12, (0.02, 0.5)),
    _DECLARED.condition("standing_time", _MIN, 300.0, (5.0, 86_400.0)),
    _DECLARED.condition("paper_pore", ("um", "m"), 3.0e-6, (0.5e-6, 50.0e-6)),
    _DECLARED.condition("paper_area", ("cm**2", "m**2"), 60.0e-4, (10.0e-4, 0.1)),
    _DECLARED.condition("paper_flow", ("ml/s", "m**3/s"), 1.0e-6, (0.05e-6, 20.0e-6)),
    _DECLARED.condition("funnel_depth", _CM, 0.05, (0.01, 0.3)),
    _DECLARED.condition("patience", _MIN, 3600.0, (60.0, 86_400.0)),
)


QUANTITIES = (
    *(_DECLARED.quantity(f"{kind} in the water", f"m_{kind[:2]}", _GRAMS) for kind in reversed(KINDS)),
    _DECLARED.quantity("mud in the water", "c", ("g/l", "kg/m**3")),
    _DECLARED.quantity("largest grain in the water", "d", _MM),
    _DECLARED.quantity("caught by the sieve", "m_1", _GRAMS),
    _DECLARED.quantity("on the bottom of the jar", "m_2", _GRAMS),
    _DECLARED.quantity("caught by the paper", "m_3", _GRAMS),
    _DECLARED.quantity("flow through the paper", "Q", ("ml/min", "m**3/s")),
    _DECLARED.quantity("water to be filtered", "V_1", ("ml", "m**3")),
    _DECLARED.quantity("filtered water", "V_2", ("ml", "m**3")),
)

HONESTY = _DECLARED.honesty(8)

SOURCES = (
    "CARMAN-1937",
    "DARCY-1856",
    "GEANKOPLIS-1993",
    "HAZEN-1904",
    "IAPWS-2008-VISCOSITY",
    "ISO-14688-1",
    "KELL-1975",
    "OPENSTAX-CP",
    "RUTH-1935",
    "SCHILLER-NAUMANN-1935",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """What becomes of the muddy water under these conditions (SI units)."""
    course = follow(Setup.of(conditions))
    came = words.found(course)
    made = quantities(QUANTITIES, _values(course))
    whole = Stretch.whole(course.time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=course.time_s,
        quantities=made,
        stages=stages(words.STAGES, came, course.time_s, words.told(course, whole, came)),
        events=words.events(course, whole, came),
        missing=words.missing(course, whole, came, conditions, CONDITIONS),
        conserved=_conserved(course),
    )


def _values(course: Course) -> dict[str, FloatArray]:
    values = {f"{kind} in the water": course.kind_kg(kind) for kind in KINDS}
    return values | {
        "mud in the water": course.in_water_kg.sum(axis=1) / course.setup.water,
        "largest grain in the water": course.largest_m,
        "caught by the sieve": course.sieve_kg,
        "on the bottom of the jar": course.bottom_kg,
        "caught by the paper": course.paper_kg,
        "flow through the paper": course.flow_m3_s,
        "water to be filtered": course.unfiltered_m3,
        "filtered water": course.filtered_m3,
    }


def _conserved(course: Course) -> tuple[Conserved, ...]:
    grains = [course.in_water_kg.sum(axis=1), course.sieve_kg, course.bottom_kg, course.paper_kg]
    moved = float(course.sieve_kg[-1] + course.bottom_kg[-1] + course.paper_kg[-1])
    water = [course.unfiltered_m3, course.filtered_m3]
    return (
        Conserved(name="grains", relative_drift=drift(grains, moved)),
        Conserved(name="water", relative_drift=drift(water, float(course.filtered_m3[-1]))),
    )


PROCESS = ProcessSpec(
    name="filtering",
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
