"""Drawn: a process of the author's own. Its stages stand in the scene, its quantities are drawn, nothing is computed.

The same drawing may be laid over the stages of a process that computes: `with_drawn`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from sonify.errors import BadFile, BadRule, SonifyError, Words
from sonify.kinds.timelines import ORDER, TIME
from sonify.processes.declared import quantities
from sonify.processes.drawn_curves import Course, courses
from sonify.processes.telling import Stretch, source_of, told_apart
from sonify.records.drawing import FEWEST_STAGES, MOST_STAGES, DrawnQuantity
from sonify.records.fact import Claim, Fact, fact, wrong
from sonify.records.process import ProcessSpec, QuantitySpec, SlowPart, StageSpec
from sonify.records.scene import Scene
from sonify.records.timeline import Event, FloatArray, Stage, Timeline
from sonify.units import convert, si

# What is told of a drawn quantity: true of the drawing, and never told as measured or computed ------------------------

#: A stage tells of so many quantities at most, those that change first.
MOST_TOLD = 4
#: Told as a rise or a fall from this share of the quantity's whole swing on; less is hardly anything.
CLEAR = 0.05
#: A quantity that moves by less than this share of its whole swing hardly changes (as the claim "steady" has it).
HARDLY = 0.05
#: How far back a rise may go between, as a share of its way, and be called one still.
SETBACK = 0.1


def told_stage(whole: Stretch, names: tuple[str, ...], start: float, end: float) -> tuple[Fact, ...]:
    """What the drawing does in a stage, quantity by quantity, those that change first."""
    here = whole.between(start, end)
    moving = sorted(names, key=lambda name: not np.ptp(here.values(name)))
    return tuple(_told(whole, here, name) for name in moving[:MOST_TOLD])


def _told(whole: Stretch, here: Stretch, name: str) -> Fact:
    values, swing = here.values(name), float(np.ptp(whole.values(name)))
    if np.ptp(values) == 0.0:
        return fact("drawn-stays", here.steady(name), quantity=name, value=here.figure(name, "first"))
    way = _way(values, swing)
    ends = told_apart(here.figure(name, "first"), here.figure(name, "last"))
    if way and ends:
        rises = here.rises(name) if way == "rises" else here.falls(name)
        return fact(f"drawn-{way}", rises, quantity=name, **{"from": ends[0], "to": ends[1]})
    if not way and np.ptp(values) <= HARDLY * swing:
        return fact("drawn-hardly", here.steady(name), quantity=name, value=here.figure(name, "median"))
    between = told_apart(here.figure(name, "least"), here.figure(name, "most"))
    if between and not way:
        least, most = between
        apart = Claim(kind="less", left=source_of(least), right=source_of(most), slack=1e-9)
        return fact("drawn-between", apart, quantity=name, least=least, most=most)
    return fact("drawn-about", quantity=name, value=here.figure(name, "median"))


def _way(values: np.ndarray, swing: float) -> str:
    """rises, falls, or "" where it does neither plainly."""
    gone = float(values[-1] - values[0])
    sign = 1.0 if gone > 0.0 else -1.0
    back = float(np.max(np.maximum.accumulate(sign * values) - sign * values))
    if abs(gone) < CLEAR * swing or back > SETBACK * abs(gone):
        return ""
    return "rises" if gone > 0.0 else "falls"


#: How long a stage is in science.csv where nobody says how long it takes.
NOMINAL_S = 60.0
#: A stage ends a little before the next begins, so that a value may differ between them; as a share of its length.
BREATH = 1e-6
#: Of a stage's length, the decimal places at which curves may bend.
PLACES = 6
#: The shortest stage as a share of the longest, at the least.
MOST_UNLIKE = 1e-6

HONESTY = (fact("drawn-honesty-own"), fact("drawn-honesty-check"))


# --- the author's own stages -----------------------------------------------------------------------------------------


def for_scene(scene: Scene) -> ProcessSpec:
    """The process with one scene's stages and quantities. Raises BadFile, naming line and key."""
    faults = [*own_faults(scene), *_faults(scene)]
    names = [note.stage for note in scene.stages]
    drawn: tuple[Course, ...] = ()
    if not faults:
        drawn, faults = _courses(scene, names, circle=scene.circle)
    if faults:
        raise BadFile.several(faults)
    specs = specs_of(scene.drawn, drawn)
    timed = bool(scene.stages[0].lasts_s)
    return replace(
        PROCESS,
        stages=own_stages(scene),
        quantities=specs,
        run=partial(run, scene, specs, drawn),
        honesty=(*HONESTY, *(() if timed else (fact("drawn-honesty-no-time"),))),
        cycle=scene.circle,
        for_scene=None,
    )


def own_stages(scene: Scene) -> tuple[StageSpec, ...]:
    return tuple(
        StageSpec(name=note.stage, title=title_of(note.stage), seen_as=fact("drawn-seen")) for note in scene.stages
    )


def title_of(name: str) -> str:
    return name[:1].upper() + name[1:]


def own_faults(scene: Scene) -> Iterator[BadFile]:
    """What is wrong with stages and events of one's own."""
    count = len(scene.stages)
    if not FEWEST_STAGES <= count <= MOST_STAGES:
        ends = {"fewest": FEWEST_STAGES, "most": MOST_STAGES}
        told = wrong("error_drawn-stages" if count else "error_drawn-no-stages", count=count, **ends)
        yield fault(scene, "stage", told)
    lasting = [note for note in scene.stages if note.lasts_s]
    for note in scene.stages if lasting else ():
        if not note.lasts_s:
            told = wrong("error_drawn-missing-write-each")
            yield fault(scene, f"{note.key}.lasts", told)
    longest = max((note.lasts_s for note in lasting), default=0.0)
    for note in lasting:
        if note.lasts_s < MOST_UNLIKE * longest:
            yield fault(scene, f"{note.key}.lasts", wrong("error_drawn-less-millionth-longest"))
    names = [note.stage for note in scene.stages]
    for event in scene.events:
        if event.stage not in names:
            told = wrong("error_drawn-no-such-stage", stage=event.stage, names=", ".join(names))
            yield fault(scene, f"{event.key}.stage", told)


def _faults(scene: Scene) -> Iterator[BadFile]:
    if not scene.drawn:
        yield fault(scene, "drawn", wrong("error_drawn-nothing-drawn"))
    for note in scene.stages:
        if note.sounds:
            yield fault(scene, f"{note.key}.sound", wrong("error_drawn-sound-of-order"))
        if note.why:
            yield fault(scene, f"{note.key}.why", wrong("error_drawn-why-of-sound"))


def fault(scene: Scene, key: str, message: Words) -> BadFile:
    return BadFile(scene.origin.file, message, line=scene.origin.line(key), key=key)


def _courses(scene: Scene, stages: Sequence[str], *, circle: bool) -> tuple[tuple[Course, ...], list[BadFile]]:
    try:
        return courses(scene.drawn, stages, circle=circle), []
    except BadRule as error:
        return (), [fault(scene, error.key, error.message)]


def specs_of(drawn: Sequence[DrawnQuantity], found: Sequence[Course]) -> tuple[QuantitySpec, ...]:
    """Each drawn quantity. A true zero is believed of a temperature, and of what never goes below its zero."""
    return tuple(
        QuantitySpec(
            name=each.name,
            symbol=f"y{number}",
            unit=each.unit,
            si_unit=si(each.unit),
            true_zero=_true_zero(each.unit, course),
            meaning=fact("drawn-quantity"),
            drawn=True,
        )
        for number, (each, course) in enumerate(zip(drawn, found, strict=True), 1)
    )


def _true_zero(unit: str, course: Course) -> bool:
    in_si = si(unit)
    if in_si == "K":
        return not unit.startswith("delta_")
    return in_si != "dB" and min(float(values.min()) for _, values in course.stages) >= 0.0


def run(
    scene: Scene, specs: tuple[QuantitySpec, ...], drawn: tuple[Course, ...], conditions: Mapping[str, float]
) -> Timeline:
    """The drawing over the author's stages."""
    spans, edges = own_spans(scene), []
    time_s: list[FloatArray] = []
    values: dict[str, list[FloatArray]] = {spec.name: [] for spec in specs}
    for number, (start, end) in enumerate(spans):
        shares = np.unique(np.round(np.concatenate([course.stages[number][0] for course in drawn]), PLACES))
        time_s.append(start + shares * (end - start))
        edges.append((float(time_s[-1][0]), float(time_s[-1][-1])))
        for spec, course in zip(specs, drawn, strict=True):
            values[spec.name].append(convert(course.at(number, shares), spec.unit, spec.si_unit))
    made = quantities(specs, {name: np.concatenate(each) for name, each in values.items()})
    whole = Stretch.whole(np.concatenate(time_s), made)
    names = tuple(spec.name for spec in specs)
    return Timeline(
        process=PROCESS.name,
        time_s=whole.time_s,
        quantities=made,
        stages=tuple(
            Stage(
                name=note.stage,
                title=title_of(note.stage),
                start_s=start,
                end_s=end,
                science=told_stage(whole, names, start, end),
            )
            for note, (start, end) in zip(scene.stages, edges, strict=True)
        ),
        events=own_events(scene, edges),
        kind=TIME if scene.stages[0].lasts_s else ORDER,
    )


def own_spans(scene: Scene) -> list[tuple[float, float]]:
    """Model time at which each stage begins and ends, a breath before the next."""
    lengths = [note.lasts_s or NOMINAL_S for note in scene.stages]
    ends = np.cumsum(lengths)
    breath = [max(BREATH * length, BREATH * 1e-3 * float(ends[-1])) for length in lengths]
    breath[-1] = 0.0
    return [(float(end - length), float(end - gap)) for end, length, gap in zip(ends, lengths, breath, strict=True)]


def own_events(scene: Scene, spans: Sequence[tuple[float, float]]) -> tuple[Event, ...]:
    """The author's events, in the order in which they come."""
    by_stage = {note.stage: span for note, span in zip(scene.stages, spans, strict=True)}
    found = []
    for event in scene.events:
        start, end = by_stage[event.stage]
        found.append(Event(name=event.text, time_s=start + event.share * (end - start), text=event.text))
    return tuple(sorted(found, key=lambda each: each.time_s))


# --- laid over a process that computes -------------------------------------------------------------------------------


def with_drawn(process: ProcessSpec, scene: Scene) -> ProcessSpec:
    """A process that computes, with the scene's drawn quantities over its stages. Raises BadFile."""
    known = [spec.name for spec in process.quantities]
    faults = [
        fault(scene, f"{each.key}.name", wrong("error_drawn-computes-itself-give", name=process.name, name_2=each.name))
        for each in scene.drawn
        if each.name in known
    ]
    names = [stage.name for stage in process.stages]
    found, more = _courses(scene, names, circle=False)
    if faults or more:
        raise BadFile.several([*faults, *more])
    specs = specs_of(scene.drawn, found)
    laid = partial(_laid_over, names, specs, found)
    slow = process.slow
    return replace(
        process,
        quantities=(*process.quantities, *specs),
        run=_then(process.run, laid),
        honesty=(*process.honesty, fact("drawn-honesty-some", quantities=tuple(each.name for each in scene.drawn))),
        slow=slow and replace(slow, finish=_finished(slow, laid)),
    )


def _then(
    compute: Callable[[Mapping[str, float]], Timeline], laid: Callable[[Timeline], Timeline]
) -> Callable[[Mapping[str, float]], Timeline]:
    return lambda conditions: laid(compute(conditions))


def _finished(slow: SlowPart, laid: Callable[[Timeline], Timeline]) -> Callable[[Mapping[str, float], bytes], Timeline]:
    return lambda conditions, kept: laid(slow.finish(conditions, kept))


def _laid_over(
    names: Sequence[str], specs: tuple[QuantitySpec, ...], drawn: tuple[Course, ...], timeline: Timeline
) -> Timeline:
    """A computed timeline with the drawing beside it; a stage that never came takes its part of the drawing along."""
    time_s = timeline.time_s
    starts = np.array([stage.start_s for stage in timeline.stages])
    own = np.clip(np.searchsorted(starts, time_s, side="right") - 1, 0, len(starts) - 1)
    values = {spec.name: np.zeros_like(time_s) for spec in specs}
    for number, stage in enumerate(timeline.stages):
        here = own == number
        shares = np.clip((time_s[here] - stage.start_s) / (stage.end_s - stage.start_s), 0.0, 1.0)
        for spec, course in zip(specs, drawn, strict=True):
            in_unit = course.at(names.index(stage.name), shares)
            values[spec.name][here] = convert(in_unit, spec.unit, spec.si_unit)
    made = (*timeline.quantities, *quantities(specs, values))
    whole, told = Stretch.whole(time_s, made), tuple(spec.name for spec in specs)
    stages = []
    for number, stage in enumerate(timeline.stages):
        here = time_s[own == number]
        if here.size > 1:  # the moment at which the next stage begins is drawn as that one's
            beside = fact("drawn-told", told=told_stage(whole, told, float(here[0]), float(here[-1])))
            stage = replace(stage, science=(stage.science, beside))
        stages.append(stage)
    return replace(timeline, quantities=made, stages=tuple(stages))


def without_scene(conditions: Mapping[str, float]) -> Timeline:
    """Refuse: the stages stand in a scene file."""
    raise SonifyError(wrong("error_drawn-process-stages-scene"))


PROCESS = ProcessSpec(
    name="drawn",
    title=fact("drawn-title"),
    summary=fact("drawn-summary"),
    conditions=(),
    stages=(),
    quantities=(),
    run=without_scene,
    honesty=HONESTY,
    for_scene=for_scene,
)
