"""The stages of muddy water's way, found in the model's output, and the facts that are told of them, with figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sonify.processes.declared import Adviser, events_at, first, spans
from sonify.processes.filtering_model import DRIP_M3, Course, Setup, follow
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, fixed, given
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.process import ConditionSpec
from sonify.records.timeline import Event, Missing
from sonify.units import convert

SOME_KG = 0.1e-3  # less of a kind than this is none
DOWN = 0.05  # of the sand still sinking: it counts as down
HALF = 0.5  # of the first flow: the paper counts as clogging
FEWEST = 3  # samples of a stage of filtering
CLEARER = 0.01  # of the mud: so much has gone at least where the water is called clearer
COUNTED = 10.0  # drips a second: more are a trickle that nobody counts
NEAR = 1.0 + 1e-9  # for the rounding of machine numbers
TOLD_M = (0.5e-3, 0.1e-3)  # grains of sand whose way to the bottom is told

DECLARED = Declared("filtering")
_SHARE = Amount(value=100.0 * DOWN, unit="percent", given="our own limit of sand being down")

STAGES = (
    DECLARED.stage("sieving"),
    DECLARED.stage("sand", seen_as=fact("filtering-seen-sand", share=_SHARE)),
    DECLARED.stage("silt"),
    DECLARED.stage("dripping"),
    DECLARED.stage("clogging"),
    DECLARED.stage("clear"),
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


def told(course: Course, whole: Stretch, came: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage, with this run's own figures."""
    writers = {
        "sieving": _sieving,
        "sand": _sand,
        "silt": _silt,
        "dripping": _dripping,
        "clogging": _clogging,
        "clear": _clear,
    }
    return {name: writers[name](course, whole.steps(*span)) for name, span in came.items()}


def _grams(stretch: Stretch, name: str, how: str) -> Amount:
    return stretch.figure(name, how, places=1)


def _in_water(kind: str) -> str:
    return f"{kind} in the water"


def _condition(setup: Setup, name: str, si_unit: str, unit: str) -> Amount:
    return given(convert(float(getattr(setup, name)), si_unit, unit), unit, name, digits=2)


def _thousandths(value_m: float, source: Reading) -> Fact:
    """A length as thousandths of a millimetre, which children can think of more easily than of micrometres."""
    number = Amount(value=1e6 * value_m, digits=2, source=replace(source, times=1e6))
    return fact("filtering-thousandths", number=number)


def _sieving(course: Course, stretch: Stretch) -> Words:
    parts: list[Arg] = [
        fact("filtering-of-kind", mass=stretch.scaled(name, "change", -1e3, "g", places=1), kind=kind)
        for kind in ("gravel", "sand", "silt")
        if -stretch.at(name := _in_water(kind), "change") >= SOME_KG
    ]
    return fact(
        "filtering-sieving",
        opening=_condition(course.setup, "sieve_opening", "m", "mm"),
        lasts=stretch.lasts("sieving"),
        held=_grams(stretch, "caught by the sieve", "last"),
        parts=tuple(parts),
    )


def _sand(course: Course, stretch: Stretch) -> Words:
    sand = stretch.reading(_in_water("sand"), "last")
    few = replace(sand, how="first", times=DOWN * NEAR)
    figures: dict[str, Arg] = {"lasts": stretch.lasts("sand"), "sand": _grams(stretch, sand.of, "first")}
    ways = [way for size in TOLD_M if (way := _way_down(course, stretch, size)) is not None]
    if stretch.at(sand.of, "last") > DOWN * NEAR * stretch.at(sand.of, "first"):
        return fact("filtering-sand-sinking", left=_grams(stretch, sand.of, "last"), **figures), *ways
    return fact("filtering-sand-down", Claim(kind="at most", left=sand, right=few), **figures), *ways


def _way_down(course: Course, stretch: Stretch, size_m: float) -> Fact | None:
    """How long a grain takes from the top of the jar to the bottom; None where it is poured off before.

    When the largest grains still in the water are of a size, those of that size have just come down all the way.
    """
    name = "largest grain in the water"
    if stretch.at(name, "first") <= size_m or stretch.at(name, "last") >= size_m:
        return None
    standing = course.time_s[course.marks[0] : course.marks[1] + 1]
    largest = course.largest_m[course.marks[0] : course.marks[1] + 1]
    at = int((largest <= size_m).argmax())
    share = (size_m - largest[at - 1]) / (largest[at] - largest[at - 1])
    seconds = float(standing[at - 1] + share * (standing[at] - standing[at - 1]) - stretch.start)
    source = replace(stretch.reading(name, "when under", size_m), less=Reading(how="begins", of="sand"))
    return fact(
        "filtering-sinks",
        size=Amount(value=1e3 * size_m, unit="mm", digits=2, source=fixed(size_m)),
        depth=_condition(course.setup, "jar_depth", "m", "cm"),
        lasts=Duration(seconds=seconds, source=source),
    )


def _silt(course: Course, stretch: Stretch) -> Words:
    silt, clay, largest = _in_water("silt"), _in_water("clay"), "largest grain in the water"
    whole = stretch.between(0.0, stretch.end)
    told: list[Words] = [
        fact(
            "filtering-silt",
            lasts=stretch.lasts("silt"),
            left=_grams(stretch, silt, "last"),
            silt=_grams(whole, silt, "first"),
        )
    ]
    if whole.at(clay, "first") >= SOME_KG:
        size = _thousandths(stretch.at(largest, "last"), stretch.reading(largest, "last"))
        figures = {"left": _grams(stretch, clay, "last"), "clay": _grams(whole, clay, "first")}
        told.append(fact("filtering-clay", size=size, **figures))
    return tuple(told)


def _drips(stretch: Stretch, how: str) -> Fact:
    """The flow as children count it: drips a second, or seconds a drip where they are slow."""
    flow = "flow through the paper"
    a_second = stretch.at(flow, how) / DRIP_M3
    if a_second >= COUNTED:
        trickle = Claim(kind="at least", left=stretch.reading(flow, how), right=fixed(COUNTED * DRIP_M3))
        return fact("filtering-trickle", trickle)
    if a_second >= 0.95:
        return fact("filtering-drips-a-second", drips=stretch.scaled(flow, how, 1.0 / DRIP_M3, "1", digits=2))
    reading = replace(fixed(DRIP_M3), per=stretch.reading(flow, how))
    return fact("filtering-drip-every", lasts=Duration(seconds=1.0 / a_second, source=reading))


def _flow(stretch: Stretch, how: str) -> Amount:
    return stretch.scaled("flow through the paper", how, 60e6, "ml", digits=2)


def _since_pouring(stretch: Stretch, ends: str) -> Duration:
    """From the pouring into the filter to the end of a stage."""
    pouring = Reading(how="begins", of="dripping")
    return Duration(seconds=stretch.end - stretch.start, source=replace(Reading(how="ends", of=ends), less=pouring))


def _dripping(course: Course, stretch: Stretch) -> Words:
    pore = _thousandths(course.setup.paper_pore, Reading(how="condition", of="paper_pore"))
    held = stretch.reading("caught by the paper", "last")
    at_first = fact("filtering-dripping", flow=_flow(stretch, "first"), drips=_drips(stretch, "first"))
    if stretch.at(held.of, "last") < SOME_KG:
        little = Claim(kind="less", left=held, right=fixed(SOME_KG * NEAR))
        return at_first, fact("filtering-caught-little", little, pore=pore)
    figures: dict[str, Arg] = {"held": _grams(stretch, held.of, "last"), "after": _since_pouring(stretch, "dripping")}
    return at_first, fact("filtering-caught", pore=pore, **figures)


def _clogging(course: Course, stretch: Stretch) -> Words:
    pouring, last = (float(course.time_s[course.marks[mark]]) for mark in (1, 2))
    # what flows is kept where a sample begins, so that of the last drip stands one sample before it
    flowing = stretch.between(stretch.start, float(course.time_s[course.marks[2] - 1]))
    figures: dict[str, Arg] = {
        "held": _grams(stretch, "caught by the paper", "last"),
        "flow": _flow(flowing, "last"),
        "drips": _drips(flowing, "last"),
        "after": _since_pouring(stretch.between(pouring, last), "clogging"),
    }
    plain = fact("filtering-clogging-plain", **figures)
    told = fact("filtering-clogging", flowing.falls("flow through the paper"), **figures).or_else(plain)
    return told if course.finished else (told, _above(stretch))


def _above(stretch: Stretch) -> Fact:
    rest = stretch.reading("water to be filtered", "last")
    return fact(
        "filtering-above",
        Claim(kind="more", left=rest, right=fixed(0.0)),
        rest=stretch.figure(rest.of, "last", digits=2),
    )


def _clear(course: Course, stretch: Stretch) -> Words:
    silt, clay = (_grams(stretch, _in_water(kind), "last") for kind in ("silt", "clay"))
    stores = ("caught by the sieve", "on the bottom of the jar", "caught by the paper")
    sieve, bottom, paper = (_grams(stretch, name, "last") for name in stores)
    through = fact(
        "filtering-clear",
        through=stretch.figure("filtered water", "last", digits=2),
        sieve=sieve,
        bottom=bottom,
        paper=paper,
    )
    mud = stretch.reading("mud in the water", "last")
    at_first = Reading(how="first", of=mud.of)
    if stretch.at(mud.of, "last") * course.setup.water < SOME_KG:
        little = replace(Reading(how="condition", of="water"), times=1.0 / (SOME_KG * NEAR))
        hardly = Claim(kind="less", left=mud, right=Reading(how="fixed", level=1.0, per=little))
        return through, fact("filtering-hardly-a-grain", hardly)
    if stretch.at(mud.of, "last") > (1.0 - CLEARER) * float(course.in_water_kg[0].sum()) / course.setup.water:
        return through, fact("filtering-not-clearer", silt=silt, clay=clay)
    clearer = Claim(kind="less", left=mud, right=at_first, slack=0.9 * CLEARER)
    return through, fact("filtering-not-clean", clearer, silt=silt, clay=clay)


def events(course: Course, whole: Stretch, came: Mapping[str, tuple[int, int]]) -> tuple[Event, ...]:
    """Moments worth naming, in order."""
    stand, filtering, done = course.marks

    def here(sample: int, name: str) -> Reading:
        return whole.steps(sample, sample).reading(name, "first")

    mud = here(stand, "mud in the water")
    if course.in_water_kg[stand].sum() > 0.0:
        down = fact("filtering-put-down", Claim(kind="more", left=mud, right=fixed(0.0)))
    else:
        down = fact("filtering-put-down-clean", Claim(kind="at most", left=mud, right=fixed(0.0)))
    moments: list[tuple[int, str, Fact]] = [(stand, "jar put down", down)]
    if "silt" in came and "sand" in came:
        sand = replace(here(stand, _in_water("sand")), times=DOWN * NEAR)
        at_most = Claim(kind="at most", left=here(came["silt"][0], sand.of), right=sand)
        moments.append((came["silt"][0], "sand down", fact("filtering-sand-is-down", at_most)))
    filtered = Claim(kind="at most", left=here(filtering, "filtered water"), right=fixed(0.0))
    moments.append((filtering, "first drip", fact("filtering-first-drip", filtered)))
    if "clogging" in came:
        flow = replace(here(filtering, "flow through the paper"), times=HALF * NEAR)
        half = Claim(kind="at most", left=here(came["clogging"][0], flow.of), right=flow)
        moments.append((came["clogging"][0], "half as fast", fact("filtering-half-as-fast", half)))
    if course.finished:
        rest = replace(here(filtering, "water to be filtered"), times=1e-6)
        nothing = Claim(kind="at most", left=here(done, rest.of), right=rest)
        moments.append((done, "last drip", fact("filtering-last-drip", nothing)))
    return events_at(moments, course.time_s)


def missing(
    course: Course,
    whole: Stretch,
    came: Mapping[str, tuple[int, int]],
    conditions: Mapping[str, float],
    specs: tuple[ConditionSpec, ...],
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change."""
    adviser = Adviser(specs=specs, conditions=conditions, found=lambda changed: found(follow(Setup.of(changed))))
    usual = {spec.name: spec.default for spec in specs}
    longer = [("standing_time", factor * conditions["standing_time"]) for factor in (3.0, 10.0, 50.0)]
    reasons: dict[str, tuple[Words, list[tuple[str, float]]]] = {
        "sieving": (
            fact("filtering-no-sieving", _less(whole, "caught by the sieve", "last")),
            [("gravel", usual["gravel"]), ("sieve_opening", 0.5e-3)],
        ),
        "sand": (
            fact("filtering-no-sand", _less(whole.steps(course.marks[0], course.marks[0]), _in_water("sand"), "first")),
            [("sand", usual["sand"]), ("sieve_opening", usual["sieve_opening"])],
        ),
        "silt": (
            _no_silt(course, whole),
            [*longer, ("silt", usual["silt"]), ("sieve_opening", usual["sieve_opening"])],
        ),
        "dripping": (fact("filtering-no-dripping"), [("patience", usual["patience"])]),
        "clogging": (
            _no_clogging(course),
            [
                *([] if course.finished else [("patience", 5.0 * conditions["patience"])]),
                ("paper_pore", usual["paper_pore"]),
                ("silt", 3.0 * max(conditions["silt"], usual["silt"])),
                ("paper_flow", 3.0 * conditions["paper_flow"]),
            ],
        ),
        "clear": (
            fact(
                "filtering-no-clear",
                rest=whole.figure("water to be filtered", "last", digits=2),
                after=Duration(seconds=course.setup.patience, source=Reading(how="condition", of="patience")),
            ),
            [
                *(("patience", factor * conditions["patience"]) for factor in (2.0, 5.0)),
                ("paper_flow", 5.0 * conditions["paper_flow"]),
                ("silt", 0.3 * conditions["silt"]),
            ],
        ),
    }
    return tuple(adviser.missing(s.name, *reasons[s.name]) for s in STAGES if s.name not in came)


def _less(stretch: Stretch, name: str, how: str) -> Claim:
    """That there is next to nothing of something."""
    return Claim(kind="less", left=stretch.reading(name, how), right=fixed(SOME_KG * (1.0 + 1e-2)))


def _no_silt(course: Course, whole: Stretch) -> Fact:
    stand, filtering, _ = course.marks
    sand = course.kind_kg("sand")
    if sand[filtering] <= DOWN * sand[stand]:
        return fact("filtering-no-silt")
    at_first, left = (whole.steps(mark, mark).reading(_in_water("sand"), "first") for mark in (stand, filtering))
    return fact(
        "filtering-no-silt-sand", Claim(kind="more", left=left, right=replace(at_first, times=DOWN), slack=NEAR - 1.0)
    )


def _no_clogging(course: Course) -> Fact:
    _, filtering, _ = course.marks
    halved = first(course.flow_m3_s <= HALF * course.flow_m3_s[filtering], filtering)
    if halved is not None and halved - filtering < FEWEST:
        return fact("filtering-no-clogging-at-once")
    return fact("filtering-no-clogging" if course.finished else "filtering-no-clogging-yet")
