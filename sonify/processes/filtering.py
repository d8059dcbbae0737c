"""Muddy water: sieving, standing and filtering part gravel, sand, silt and clay by the size of their grains."""

from __future__ import annotations

from collections.abc import Mapping

from sonify.constants import ZERO_CELSIUS_K
from sonify.processes import filtering_words as words
from sonify.processes.declared import drift, quantities, stages
from sonify.processes.filtering_model import KINDS, Course, Setup, follow
from sonify.processes.specs import condition_spec, quantity_spec
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline

_GRAMS, _MM, _CM, _MIN = ("g", "kg"), ("mm", "m"), ("cm", "m"), ("min", "s")

CONDITIONS = (
    condition_spec("water", "water in the bucket", ("ml", "m**3"), 500.0e-6, (50.0e-6, 5.0e-3)),
    condition_spec("gravel", "gravel in it (2 to 20 mm)", _GRAMS, 40.0e-3, (0.0, 0.5)),
    condition_spec("sand", "sand in it (0.063 to 2 mm)", _GRAMS, 40.0e-3, (0.0, 0.2)),
    condition_spec("silt", "silt in it (0.002 to 0.063 mm)", _GRAMS, 12.0e-3, (0.0, 0.1)),
    condition_spec("clay", "clay in it (up to 0.002 mm)", _GRAMS, 4.0e-3, (0.0, 0.05)),
    condition_spec(
        "temperature",
        "temperature of the water",
        ("degC", "K"),
        ZERO_CELSIUS_K + 15.0,
        (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 25.0),
    ),
    condition_spec("sieve_opening", "width of the sieve's openings", _MM, 1.0e-3, (0.05e-3, 2.0e-3)),
    condition_spec("pouring_time", "how long pouring through the sieve takes", ("s", "s"), 30.0, (5.0, 300.0)),
    condition_spec("jar_depth", "how deep the water stands in the jar", _CM, 0.12, (0.02, 0.5)),
    condition_spec(
        "standing_time", "how long the jar stands before the water is poured off", _MIN, 300.0, (5.0, 86_400.0)
    ),
    condition_spec("paper_pore", "width of the filter paper's gaps", ("um", "m"), 3.0e-6, (0.5e-6, 50.0e-6)),
    condition_spec("paper_area", "area of wet filter paper", ("cm**2", "m**2"), 60.0e-4, (10.0e-4, 0.1)),
    condition_spec(
        "paper_flow", "clean water that the paper lets through at first", ("ml/s", "m**3/s"), 1.0e-6, (0.05e-6, 20.0e-6)
    ),
    condition_spec("funnel_depth", "how deep the water is kept in the funnel", _CM, 0.05, (0.01, 0.3)),
    condition_spec("patience", "how long the filter is given at most", _MIN, 3600.0, (60.0, 86_400.0)),
)


QUANTITIES = (
    *(
        quantity_spec(f"{kind} in the water", f"m_{kind[:2]}", _GRAMS, f"{kind} that is still in the water")
        for kind in reversed(KINDS)
    ),
    quantity_spec("mud in the water", "c", ("g/l", "kg/m**3"), "everything that is still in a litre of the water"),
    quantity_spec("largest grain in the water", "d", _MM, "size of the largest grains that are still in the water"),
    quantity_spec("caught by the sieve", "m_1", _GRAMS, "grains that the sieve holds"),
    quantity_spec("on the bottom of the jar", "m_2", _GRAMS, "grains that have sunk to the bottom"),
    quantity_spec("caught by the paper", "m_3", _GRAMS, "grains that the filter paper holds"),
    quantity_spec("flow through the paper", "Q", ("ml/min", "m**3/s"), "water that comes through the paper just now"),
    quantity_spec("water to be filtered", "V_1", ("ml", "m**3"), "water that has not come through the paper yet"),
    quantity_spec("filtered water", "V_2", ("ml", "m**3"), "water that has come through the paper"),
)

HONESTY = (
    "Filtered water is not drinking water. Clay, germs and whatever is dissolved go through paper. Nobody tastes it.",
    "Grains are taken as round quartz. Real grains are angular and flat, clay above all, and sink more slowly; in hard "
    "or salty water clay sticks together in flakes and sinks faster than here.",
    "Each kind has as much mass in every doubling of its size. Real mud has a mixture of its own.",
    "Grains sink each by itself, as in thin mud. In thick mud they hinder each other, and the water that they push up "
    "slows them all.",
    "Stokes' law holds for clay, silt and the finest sand only. For larger grains the speed follows from a measured "
    "drag law, which makes a grain of a millimetre about six times slower than Stokes' law would.",
    "The funnel is kept as full as it was, and stirred. When it runs empty the last water drips more slowly than here.",
    "The paper holds what is wider than its gaps and lets the rest through. A real paper also catches fine grains in "
    "its depth, and the mud on it catches finer and finer ones.",
    "The water that the wet mud keeps on sieve, bottom and paper is left out.",
)

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
    return Timeline(
        process=PROCESS.name,
        time_s=course.time_s,
        quantities=quantities(QUANTITIES, _values(course)),
        stages=stages(words.STAGES, came, course.time_s, words.science_sentences(course, came)),
        events=words.events(course, came),
        missing=words.missing(course, came, conditions, CONDITIONS),
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
    title="Muddy water",
    summary="Gravel, sand, silt and clay parted from water by a sieve, by standing, and by a filter that clogs.",
    conditions=CONDITIONS,
    stages=words.STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
