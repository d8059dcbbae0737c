"""The stages of muddy water's way, found in the model's output, and what a teacher reads about them, with figures."""

from __future__ import annotations

from collections.abc import Mapping

from sonify.processes.declared import Adviser, first, spans
from sonify.processes.filtering_model import DRIP_M3, QUARTZ_KG_M3, Course, Setup, follow
from sonify.records.process import ConditionSpec, StageSpec
from sonify.records.timeline import Event, Missing
from sonify.records.words import duration_text, number_text
from sonify.science.liquid_water import water_density, water_viscosity
from sonify.science.settling import settling_speed

GRAMS, ML = 1.0e3, 1.0e6
SOME_KG = 0.1e-3  # less of a kind than this is none
DOWN = 0.05  # of the sand still sinking: it counts as down
HALF = 0.5  # of the first flow: the paper counts as clogging
FEWEST = 3  # samples of a stage of filtering

STAGES = (
    StageSpec(name="sieving", title="The sieve holds the gravel", seen_as="grains are held while the water is poured"),
    StageSpec(
        name="sand",
        title="The sand sinks",
        seen_as=f"from the jar being put down until {100 * DOWN:g} % of its sand are still sinking",
    ),
    StageSpec(name="silt", title="The silt sinks slowly", seen_as="from then until the water is poured off"),
    StageSpec(
        name="dripping",
        title="Water drips through the paper",
        seen_as="from the pouring until the flow has fallen to half of what it was at first",
    ),
    StageSpec(name="clogging", title="Mud clogs the paper", seen_as="from then until the last drip"),
    StageSpec(name="clear", title="Clearer, but not clean", seen_as="all water is through: we hold it to the light"),
)


def found(course: Course) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    stand, filtering, done = course.marks
    sand, flow = course.kind_kg("sand"), course.flow_m3_s
    silt = course.kind_kg("silt")
    with_sand = sand[stand] >= SOME_KG
    down = first(sand <= DOWN * sand[stand], stand) if with_sand else stand
    sinks = down is not None and down < filtering and silt[down] - silt[filtering] >= SOME_KG
    halved = first(flow <= HALF * flow[filtering], filtering)
    clogs = halved is not None and halved - filtering >= FEWEST and done - halved >= FEWEST
    starts = {
        "sieving": 0 if course.sieve_kg[stand] >= SOME_KG else None,
        "sand": stand if with_sand else None,
        "silt": down if sinks else None,
        "dripping": filtering,
        "clogging": halved if clogs else None,
        "clear": done if course.finished else None,
    }
    return spans(starts, course.time_s.size - 1 if course.finished else done)


def grams(mass_kg: float) -> str:
    return f"{max(GRAMS * mass_kg, 0.0):.1f} g"


def millimetres(size_m: float) -> str:
    return f"{number_text(1000.0 * size_m, 2)} mm"


def sinking_time_s(course: Course, size_m: float) -> float:
    """How long a grain of a size takes from the top of the jar to the bottom."""
    setup = course.setup
    water, viscosity = water_density(setup.temperature), water_viscosity(setup.temperature)
    return setup.jar_depth / float(settling_speed(size_m, QUARTZ_KG_M3, water, viscosity))


def drips_a_second(flow_m3_s: float) -> str:
    return number_text(flow_m3_s / DRIP_M3, 2)


def science_sentences(course: Course, came: Mapping[str, tuple[int, int]]) -> dict[str, str]:
    """One sentence or two a stage, with this run's own figures."""
    writers = {
        "sieving": _sieving,
        "sand": _sand,
        "silt": _silt,
        "dripping": _dripping,
        "clogging": _clogging,
        "clear": _clear,
    }
    return {name: writers[name](course, *span) for name, span in came.items()}


def _sieving(course: Course, start: int, end: int) -> str:
    setup = course.setup
    parts = [
        f"{grams(held)} of the {kind}"
        for kind in ("gravel", "sand", "silt")
        if (held := float(course.kind_kg(kind)[0] - course.kind_kg(kind)[course.marks[0]])) >= SOME_KG
    ]
    return (
        f"The sieve has openings of {millimetres(setup.sieve_opening)}. In {duration_text(setup.pouring_time)} of "
        f"pouring it holds {grams(float(course.sieve_kg[end]))}: {' and '.join(parts)}. Smaller grains go through."
    )


def _sand(course: Course, start: int, end: int) -> str:
    large, small = min(course.setup.sieve_opening, 1.0e-3), 0.1e-3
    ways = [
        f"a grain of {millimetres(size)} sinks {number_text(100.0 * course.setup.jar_depth, 2)} cm in "
        f"{duration_text(sinking_time_s(course, size))}"
        for size in dict.fromkeys((large, small))
    ]
    lasts, sand = float(course.time_s[end] - course.time_s[start]), float(course.kind_kg("sand")[course.marks[0]])
    return (
        f"The jar is put down, and {', '.join(ways)}. After {duration_text(lasts)} nearly all of {grams(sand)} of sand "
        "lies on the bottom."
    )


def _silt(course: Course, start: int, end: int) -> str:
    silt = course.kind_kg("silt")
    return (
        f"Silt is finer and takes longer: a grain of 0.02 mm needs {duration_text(sinking_time_s(course, 20e-6))}. "
        f"When the water is poured off, {grams(float(silt[end]))} of {grams(float(silt[0]))} of silt are still in it, "
        f"and all of the clay: the largest clay grain would need {duration_text(sinking_time_s(course, 2e-6))}."
    )


def _dripping(course: Course, start: int, end: int) -> str:
    flow = float(course.flow_m3_s[start])
    return (
        f"At first {number_text(60.0 * ML * flow, 2)} ml a minute come through the paper, some {drips_a_second(flow)} "
        f"drips a second. It holds all that is larger than its gaps of {number_text(1e6 * course.setup.paper_pore, 2)} "
        f"thousandths of a millimetre: {grams(float(course.paper_kg[end]))} by "
        f"{duration_text(float(course.time_s[end] - course.time_s[start]))} after the pouring."
    )


def _clogging(course: Course, start: int, end: int) -> str:
    flow, begin = float(course.flow_m3_s[course.marks[2] - 1]), float(course.time_s[course.marks[1]])
    rest = "" if course.finished else f"; {ML * float(course.unfiltered_m3[end]):.0f} ml still stand above it"
    return (
        f"The mud on the paper is a filter too, and a thick one: with {grams(float(course.paper_kg[end]))} on it only "
        f"{number_text(60.0 * ML * flow, 2)} ml a minute come through, some {drips_a_second(flow)} drips a second, "
        f"{duration_text(float(course.time_s[course.marks[2]]) - begin)} after the pouring{rest}."
    )


def _clear(course: Course, start: int, end: int) -> str:
    silt, clay = float(course.kind_kg("silt")[-1]), float(course.kind_kg("clay")[-1])
    sieve, bottom, paper = (float(store[-1]) for store in (course.sieve_kg, course.bottom_kg, course.paper_kg))
    return (
        f"{ML * float(course.filtered_m3[-1]):.0f} ml are through. The sieve has {grams(sieve)}, the bottom of the jar "
        f"{grams(bottom)}, the paper {grams(paper)}. {grams(silt)} of fine silt and {grams(clay)} of clay are in the "
        "water still: clearer, but not clean, and not to drink."
    )


def events(course: Course, came: Mapping[str, tuple[int, int]]) -> tuple[Event, ...]:
    """Moments worth naming, in order."""
    stand, filtering, done = course.marks
    moments: list[tuple[int, str, str]] = [
        (stand, "jar put down", "The jar is put down, and the grains begin to sink.")
    ]
    if "silt" in came and "sand" in came:
        moments.append((came["silt"][0], "sand down", "Nearly all of the sand lies on the bottom."))
    moments.append((filtering, "first drip", "The first drip comes through the paper."))
    if "clogging" in came:
        moments.append((came["clogging"][0], "half as fast", "The paper lets through half as much as at first."))
    if course.finished:
        moments.append((done, "last drip", "The last drip comes through the paper."))
    return tuple(Event(name=n, time_s=float(course.time_s[sample]), text=text) for sample, n, text in sorted(moments))


def missing(
    course: Course,
    came: Mapping[str, tuple[int, int]],
    conditions: Mapping[str, float],
    specs: tuple[ConditionSpec, ...],
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change."""
    adviser = Adviser(specs=specs, conditions=conditions, found=lambda changed: found(follow(Setup.of(changed))))
    usual = {spec.name: spec.default for spec in specs}
    longer = [("standing_time", factor * conditions["standing_time"]) for factor in (3.0, 10.0, 50.0)]
    down = float(course.kind_kg("sand")[course.marks[1]]) > DOWN * float(course.kind_kg("sand")[course.marks[0]])
    reasons = {
        "sieving": (
            "the sieve holds nothing: there is nothing in the water that its openings do not let through",
            [("gravel", usual["gravel"]), ("sieve_opening", 0.5e-3)],
        ),
        "sand": (
            "no sand gets into the jar",
            [("sand", usual["sand"]), ("sieve_opening", usual["sieve_opening"])],
        ),
        "silt": (
            "the sand is still sinking when the water is poured off"
            if down
            else "next to no silt sinks before the water is poured off",
            [*longer, ("silt", usual["silt"]), ("sieve_opening", usual["sieve_opening"])],
        ),
        "dripping": ("no time is left to filter", [("patience", usual["patience"])]),
        "clogging": (
            "the paper catches too little to be clogged before all the water is through"
            if course.finished
            else "the paper lets through next to nothing",
            [
                *([] if course.finished else [("patience", 5.0 * conditions["patience"])]),
                ("paper_pore", usual["paper_pore"]),
                ("silt", 3.0 * max(conditions["silt"], usual["silt"])),
                ("paper_flow", 3.0 * conditions["paper_flow"]),
            ],
        ),
        "clear": (
            f"{ML * float(course.unfiltered_m3[-1]):.0f} ml still stand above the paper after "
            f"{duration_text(course.setup.patience)}",
            [
                *(("patience", factor * conditions["patience"]) for factor in (2.0, 5.0)),
                ("paper_flow", 5.0 * conditions["paper_flow"]),
                ("silt", 0.3 * conditions["silt"]),
            ],
        ),
    }
    return tuple(adviser.missing(s.name, *reasons[s.name]) for s in STAGES if s.name not in came)
