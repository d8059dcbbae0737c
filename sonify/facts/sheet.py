"""What the sheets say of science and of sound, as facts with the readings they rest on, held before they are printed.

A stage has one figure of each quantity, and every sheet prints that one: with as many digits as tell two stages apart.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import floor, log10

import numpy as np

from sonify.facts.evidence import Evidence
from sonify.facts.once import once_a_lesson
from sonify.facts.verdicts import true_words
from sonify.kinds.experiments import BEFORE_AFTER
from sonify.kinds.timelines import TABLE, TIMELINES
from sonify.records.controls import Key
from sonify.records.fact import Amount, Arg, Claim, Fact, Reading, Words, fact
from sonify.records.lesson import Lesson
from sonify.records.scene import Rule
from sonify.records.score import Section
from sonify.records.timeline import FloatArray, Quantity, Stage, Timeline
from sonify.units import convert, half_up

#: Units that pupils of 7 to 11 meet in lessons (our own choice); all others are told in words.
KNOWN_UNITS = ("degC", "m", "km", "cm", "mm", "g", "kg", "%", "percent")
#: A known unit serves from so many of it up: 0.04 mm says nothing to a child (our own choice).
LEAST_TOLD = 1.0
#: Two stages differ from this share of the larger figure up, or in degrees from this share of a degree.
APART, DEGREES_APART = 0.02, 0.3
#: A stage of a table is no one thing where its values spread over so much of what all stages do (our own limit).
RANGE = 0.5
#: From such a share of the rule's range up: little and much, in words.
AMOUNTS = (("very-little", 0.0), ("little", 0.15), ("some", 0.4), ("much", 0.65), ("very-much", 0.85))

#: A rule whose lower end is so much of its upper one begins far from nothing: how much is then told of the whole.
FAR_FROM_NOTHING = 0.25
#: What one stage may be of an earlier one, and how far off it may lie to be told so (our own limit).
RATIOS = (("half", 1 / 2), ("third", 1 / 3), ("quarter", 1 / 4), ("twice", 2.0), ("three", 3.0), ("four", 4.0))
ABOUT = 0.06
#: Units whose nought is not nothing: no half and no double of them means anything.
NO_RATIO = ("dB", "degC", "degF")


@once_a_lesson
def evidence(lesson: Lesson) -> Evidence:
    """What every sentence of a sheet is held against."""
    rules = tuple(key.rule for key in lesson.controls.keys)
    return Evidence(timeline=lesson.timeline, score=lesson.score, rules=rules)


def held(words: Words, lesson: Lesson) -> Words:
    """Words as they may be printed: a false fact gives way to its weaker one, or is left out."""
    return true_words(words, evidence(lesson))[0]


def plain_title(words: Words) -> Arg:
    """A stage's title as a place of a message takes it."""
    return words if isinstance(words, str | Fact) else ""


# --- bars and beats --------------------------------------------------------------------------------------------------


def in_bars(how: str, first: int, bars: int, of: str = "") -> Reading:
    """A reading of the Score in some bars; of: a part, "" for all who play."""
    return Reading(how=how, of=of, start=float(first), end=float(first + bars))


def in_section(how: str, section: Section) -> Reading:
    """A reading of the Score in a section."""
    return in_bars(how, section.bar, section.bars)


def mean_bpm(lesson: Lesson, section: Section) -> float:
    """The beat of a section, averaged over its time where it glides."""
    clock, beats = lesson.score.clock, lesson.score.metre.beats
    first, count = (section.bar - 1) * beats, section.bars * beats
    return 60.0 * count / float(clock.seconds(first + count) - clock.seconds(first))


def beat_of(lesson: Lesson, section: Section) -> Amount:
    """The same as a figure."""
    return Amount(value=float(half_up(mean_bpm(lesson, section), 0)), places=0, source=in_section("bpm", section))


def strokes_a_bar(lesson: Lesson, section: Section) -> float:
    """What all groups together begin in a bar of a section, the pulse that a waiting group keeps not counted."""
    beats = lesson.score.metre.beats
    first, end = (section.bar - 1) * beats, (section.bar - 1 + section.bars) * beats
    parts = [part for part in lesson.score.group_parts if not part.pulse]
    struck = sum(first <= note.beat < end for part in parts for note in part.notes)
    return struck / section.bars


@once_a_lesson
def busiest(lesson: Lesson) -> Words:
    """Where the stage with the most sounds is not the quickest: its figures beside those of the quickest."""
    if not lesson.score.sections:
        return ()
    busy = max(lesson.score.sections, key=lambda section: strokes_a_bar(lesson, section))
    quick = max(lesson.score.sections, key=lambda section: round(mean_bpm(lesson, section)))
    if round(mean_bpm(lesson, busy)) >= round(mean_bpm(lesson, quick)):
        return ()
    here, there = (in_section("strokes a bar", section) for section in (busy, quick))
    told = fact(
        "teacher-busiest",
        Claim(kind="busier", left=here, right=there),
        Claim(kind="slower", left=here, right=there),
        pulse="yes" if any(part.pulse for part in lesson.score.group_parts) else "no",
        busy=plain_title(busy.title),
        strokes=_strokes(lesson, busy, here),
        bpm=beat_of(lesson, busy),
        quick=plain_title(quick.title),
        top=beat_of(lesson, quick),
        fewer=_strokes(lesson, quick, there),
    )
    return held(told, lesson)


def _strokes(lesson: Lesson, section: Section, reading: Reading) -> Amount:
    """Strokes a bar; where there is none at all, no reading can be taken again."""
    struck = strokes_a_bar(lesson, section)
    return Amount(value=struck, digits=2, source=reading if struck else None, given="" if struck else "none at all")


# --- the science of a stage ------------------------------------------------------------------------------------------


def _mean_reading(quantity: Quantity, section: Section, lesson: Lesson) -> Reading | None:
    stage = next((stage for stage in lesson.timeline.stages if stage.name == section.name), None)
    if stage is None:
        return None
    return Reading(how="mean", of=quantity.name, start=stage.start_s, end=stage.end_s)


def stage_mean(quantity: Quantity, section: Section, lesson: Lesson) -> float:
    """A quantity's mean over a stage, in SI: the one figure of a stage that every sheet prints."""
    span = next((row for row in lesson.controls.time_map.stages if row.stage == section.name), None)
    start, end = (span.start_s, span.end_s) if span else (lesson.timeline.time_s[0], lesson.timeline.time_s[-1])
    time_s = lesson.timeline.time_s
    times = np.concatenate(([start], time_s[(time_s > start) & (time_s < end)], [end]))
    values = np.interp(times, time_s, quantity.values)
    if end <= start or np.ptp(values) == 0.0:  # a held reading is itself, to the last digit: 12.35 is rounded one way
        return float(values[0])
    return float(np.trapezoid(values, times) / (end - start))


def _in_unit(quantity: Quantity, value_si: float) -> float:
    return float(convert(value_si, quantity.si_unit, quantity.unit))


def stage_figures(quantity: Quantity, lesson: Lesson) -> dict[str, Amount]:
    """Each stage's mean by its name, in the unit people read, as finely as tells stages apart that are not alike."""
    means = {s.name: _in_unit(quantity, stage_mean(quantity, s, lesson)) for s in lesson.score.sections}
    degrees = quantity.unit == "degC"

    def amount(value: float, finer: int) -> Amount:
        if degrees:
            return Amount(value=float(half_up(value, finer)) + 0.0, unit=quantity.unit, digits=12, grain=10.0**-finer)
        return Amount(value=value, unit=quantity.unit, digits=2 + finer)

    def rounded(value: float, finer: int) -> float:
        return float(half_up(value, finer)) if degrees else float(f"{value:.{2 + finer}g}")

    def alike(one: float, other: float) -> bool:
        return abs(one - other) < (DEGREES_APART if degrees else APART * max(abs(one), abs(other)))

    pairs = [pair for pair in combinations(means.values(), 2) if not alike(*pair)]
    finer = next((n for n in (0, 1) if all(rounded(a, n) != rounded(b, n) for a, b in pairs)), 1)
    if lesson.timeline.kind == TABLE:
        finer = 1  # as finely as the readings themselves are told
    found = {}
    for section in lesson.score.sections:
        source = _mean_reading(quantity, section, lesson)
        given = "" if source else "a stage of the score alone"
        found[section.name] = replace(amount(means[section.name], finer), source=source, given=given)
    return found


def is_range(quantity: Quantity, section: Section, lesson: Lesson) -> bool:
    """Whether a stage of a table holds one value after another that lie so far apart that no one figure is its own:
    all in order, or a material whose tries differ much."""
    stage = next((stage for stage in lesson.timeline.stages if stage.name == section.name), None)
    if lesson.timeline.kind != TABLE or stage is None:
        return False
    inside = _inside(quantity, stage, lesson)
    means = [stage_mean(quantity, each, lesson) for each in lesson.score.sections]
    return bool(inside.size) and float(np.ptp(inside)) > RANGE * float(np.ptp(means))


def stage_facts(quantity: Quantity, lesson: Lesson) -> dict[str, Fact]:
    """Each stage's figure by its name, as every sheet prints it; from least to most where it holds several things."""
    figures = stage_figures(quantity, lesson)
    found = {}
    for section in lesson.score.sections:
        found[section.name] = fact("meaning-figure", value=figures[section.name])
        if is_range(quantity, section, lesson):
            stage = next(stage for stage in lesson.timeline.stages if stage.name == section.name)
            inside = _inside(quantity, stage, lesson)
            low, high = (
                Amount(
                    value=_in_unit(quantity, value),
                    unit=quantity.unit,
                    source=Reading(how=how, of=quantity.name, start=stage.start_s, end=stage.end_s),
                )
                for how, value in (("least", float(inside.min())), ("most", float(inside.max())))
            )
            found[section.name] = fact("meaning-range", low=low, high=high)
            if not stage.gathers:
                found[section.name] = fact("meaning-range-mean", low=low, high=high, mean=figures[section.name])
    return found


def _inside(quantity: Quantity, stage: Stage, lesson: Lesson) -> FloatArray:
    """A quantity's own samples in a stage of a table, SI."""
    time_s = lesson.timeline.time_s
    return quantity.values[(time_s >= stage.start_s) & (time_s <= stage.end_s)]


def by_size(lesson: Lesson) -> tuple[str, tuple[Section, ...]]:
    """The quantity by whose size a table's stages are put in order, and those that have one, least first; ("", ()) for
    stages that come one after the other in time."""
    experiment = lesson.scene.experiment
    before_after = experiment is not None and experiment.shape == BEFORE_AFTER
    if TIMELINES[lesson.timeline.kind].order != "size" or before_after:
        return "", ()
    quantity = lesson.timeline.quantities[0]
    gathering = {stage.name for stage in lesson.timeline.stages if stage.gathers}
    single = [section for section in lesson.score.sections if section.name not in gathering]
    return quantity.name, tuple(sorted(single, key=lambda section: stage_mean(quantity, section, lesson)))


def told_in_figures(quantity: Quantity, lesson: Lesson) -> bool:
    """Whether pupils read a quantity as figures: in a unit that they know, and not in hundredths of it.

    What they measured or counted themselves, step by step, they know.
    """
    experiment = lesson.scene.experiment
    if lesson.timeline.kind == TABLE or (experiment is not None and not experiment.timed):
        return True
    if quantity.unit not in KNOWN_UNITS:
        return False
    means = [abs(_in_unit(quantity, stage_mean(quantity, s, lesson))) for s in lesson.score.sections]
    return quantity.unit == "degC" or max(means, default=0.0) >= LEAST_TOLD


def measuring(quantity: Quantity, lesson: Lesson) -> Rule | None:
    """The rule whose range tells how much of a quantity is little or much: the whole piece's before a part's."""
    own = [key.rule for key in lesson.controls.keys if key.rule.quantity == quantity.name]
    return min(own, key=lambda rule: rule.part is not None, default=None)


def _value_at(rule: Rule, share: float, quantity: Quantity) -> float:
    """The value (SI) that lies at a share of a rule's range, as the rule maps it; of all there is, where the range
    begins far from nothing: half of a pulse is not "very little" of it."""
    low, high = (float(convert(end.value, end.unit, quantity.si_unit)) for end in (rule.low, rule.high))
    if quantity.unit not in NO_RATIO and min(low, high) >= FAR_FROM_NOTHING * max(low, high) > 0.0:
        return share * max(low, high)
    return float(low * (high / low) ** share) if rule.curve == "logarithmic" else low + share * (high - low)


def amount_name(rule: Rule | None, value_si: float, quantity: Quantity) -> str:
    """How much a value is, a row of AMOUNTS; "some" where no rule measures it."""
    if rule is None:
        return "some"
    low, high = (_value_at(rule, share, quantity) for share in (0.0, 1.0))
    up = 1.0 if high >= low else -1.0
    return next(
        (name for name, least in reversed(AMOUNTS) if up * value_si >= up * _value_at(rule, least, quantity)),
        AMOUNTS[0][0],
    )


def _amount_claims(rule: Rule | None, name: str, mean: Reading | None, quantity: Quantity) -> tuple[Claim, ...]:
    """That the mean lies between the edges of its word."""
    if rule is None or mean is None:
        return ()
    place = [row for row, _ in AMOUNTS].index(name)
    edges = [(place, "at least")] if place else []
    edges += [(place + 1, "at most")] if place + 1 < len(AMOUNTS) else []
    swapped = {"at least": "at most", "at most": "at least"}
    falls = _value_at(rule, 1.0, quantity) < _value_at(rule, 0.0, quantity)
    return tuple(
        Claim(
            kind=swapped[kind] if falls else kind,
            left=mean,
            right=Reading(how="fixed", level=_value_at(rule, AMOUNTS[edge][1], quantity)),
        )
        for edge, kind in edges
    )


def science_facts(quantity: Quantity, lesson: Lesson, names: frozenset[str]) -> dict[str, Words]:
    """Each of some stages' science for pupils, by the stage's name: a figure, or little and much.

    Where two stages have the same word, the later one is compared with the earlier: more, less, or as much.
    """
    known = _science_told(lesson)
    if (quantity.name, names) not in known:
        sections = [section for section in lesson.score.sections if section.name in names]
        make = _figure_facts if told_in_figures(quantity, lesson) else _amount_facts
        told = {name: held(told, lesson) for name, told in make(quantity, sections, lesson).items()}
        known[quantity.name, names] = told
    return dict(known[quantity.name, names])


@once_a_lesson
def _science_told(lesson: Lesson) -> dict[tuple[str, frozenset[str]], dict[str, Words]]:
    """What has been found so far, by quantity and stages: every card, the plan and the guide ask for the same."""
    return {}


def _figure_facts(quantity: Quantity, sections: list[Section], lesson: Lesson) -> dict[str, Fact]:
    figures, told = stage_figures(quantity, lesson), stage_facts(quantity, lesson)
    every = [figure.value for figure in figures.values()]
    ranked = quantity.unit == "degC" and len(set(every)) > 2
    found = {}
    for section in sections:
        figure, plain = figures[section.name], told[section.name]
        found[section.name] = plain
        for kind, end in (("greatest", max(every)), ("least", min(every))):
            if ranked and figure.source and figure.value == end and every.count(end) == 1:
                claim = Claim(kind=kind, left=figure.source)
                found[section.name] = fact(f"meaning-{kind}", claim, value=figure).or_else(plain)
    return found


def _amount_facts(quantity: Quantity, sections: list[Section], lesson: Lesson) -> dict[str, Fact]:
    rule = measuring(quantity, lesson)
    found: dict[str, Fact] = {}
    before: dict[str, Section] = {}
    for section in sections:
        value, mean = stage_mean(quantity, section, lesson), _mean_reading(quantity, section, lesson)
        name = amount_name(rule, value, quantity)
        claims = _amount_claims(rule, name, mean, quantity)
        plain = fact(f"meaning-amount{'' if claims else '-unmeasured'}", *claims, amount=name)
        found[section.name] = plain
        if (earlier := before.get(name)) is not None and mean is not None:
            other, then = stage_mean(quantity, earlier, lesson), _mean_reading(quantity, earlier, lesson)
            apart = abs(value - other) > APART * max(abs(value), abs(other))
            kind = ("more" if value > other else "less") if apart else "same"
            claim = Claim(kind=kind, left=mean, right=then)
            compared = fact(f"meaning-amount-{kind}", *claims, claim, amount=name, letter=earlier.letter)
            found[section.name] = compared.or_else(plain)
        before[name] = section
        if (ratio := _ratio_fact(quantity, section, sections, lesson)) is not None:
            found[section.name] = ratio.or_else(found[section.name])
    return found


def _ratio_fact(quantity: Quantity, section: Section, sections: list[Section], lesson: Lesson) -> Fact | None:
    """That a stage has half of what an earlier one had, or twice as much: the first one or the one before."""
    place = sections.index(section)
    here, mean = stage_mean(quantity, section, lesson), _mean_reading(quantity, section, lesson)
    if mean is None or not place or quantity.unit in NO_RATIO:
        return None
    for earlier in dict.fromkeys((0, place - 1)):
        there, then = (read(quantity, sections[earlier], lesson) for read in (stage_mean, _mean_reading))
        if not isinstance(then, Reading) or not isinstance(there, float) or min(here, there) <= 0.0:
            continue
        for name, ratio in RATIOS:
            if abs(here / there / ratio - 1.0) <= ABOUT:
                edges = (("at least", ratio * (1.0 - ABOUT)), ("at most", ratio * (1.0 + ABOUT)))
                claims = (Claim(kind=kind, left=mean, right=replace(then, times=edge)) for kind, edge in edges)
                return fact("meaning-amount-ratio", *claims, ratio=name, letter=sections[earlier].letter)
    return None


# --- rules -----------------------------------------------------------------------------------------------------------


def rises(key: Key, lesson: Lesson) -> bool:
    """Whether the sound of a rule rises with its quantity."""
    rule, quantity = key.rule, lesson.timeline.quantity(key.rule.quantity)
    low, high = (float(convert(end.value, end.unit, quantity.si_unit)) for end in (rule.low, rule.high))
    return (high > low) == (rule.to_high > rule.to_low)


def subject_of(key: Key, lesson: Lesson) -> Quantity:
    """The quantity that pupils are told of: the companion where the rule's own one has one."""
    quantity = lesson.timeline.quantity(key.rule.quantity)
    return lesson.timeline.quantity(quantity.companion) if quantity.companion else quantity


def way_claim(key: Key, lesson: Lesson) -> Claim:
    """That the rule gives a higher sound for more of its quantity, or a lower one."""
    rule, quantity = key.rule, lesson.timeline.quantity(key.rule.quantity)
    ends = sorted(float(convert(end.value, end.unit, quantity.si_unit)) for end in (rule.low, rule.high))
    much, little = (Reading(how="by rule", of=rule.key, level=end) for end in reversed(ends))
    return Claim(kind="more" if rises(key, lesson) else "less", left=much, right=little)


def way_fact(key: Key, lesson: Lesson) -> Fact:
    """What is heard when more of the quantity is there: "the beat is quicker"."""
    return fact("meaning-way", control=key.rule.control, way="up" if rises(key, lesson) else "down")


# --- curves ----------------------------------------------------------------------------------------------------------


def turns(quantity: Quantity, timeline: Timeline, start: float, end: float) -> list[tuple[float, float, float]]:
    """What stands side by side between two moments of a table: from, to (shares of the stretch), value (in `unit`)."""
    values = quantity.in_unit()
    edges = [float(time_s) for time_s in timeline.time_s[::2]] + [float(timeline.time_s[-1])]
    rows = zip(edges, edges[1:], values[::2], strict=False)
    span = end - start
    return [((a - start) / span, (b - start) / span, float(v)) for a, b, v in rows if start <= a < end]


def rows_fact(quantity: Quantity, lesson: Lesson, unread: frozenset[str] = frozenset()) -> Fact:
    """A table's quantity, one figure a stage. unread: stages of which there is none."""
    told = stage_facts(quantity, lesson)
    sections = [section for section in lesson.score.sections if section.name not in unread]
    rows = tuple(fact("plot-row", title=plain_title(s.title), value=told[s.name]) for s in sections)
    return fact("plot-rows", name=quantity.name, rows=rows)


def curve_fact(quantity: Quantity, timeline: Timeline) -> Fact:
    """A quantity's whole course in four figures, all to one step of three digits of the largest."""
    values = quantity.in_unit()
    largest = float(np.max(np.abs(values)))
    step = 10.0 ** (floor(log10(largest)) - 2) if largest > 0.0 else 1.0
    ends = {"first": values[0], "least": values.min(), "most": values.max(), "last": values[-1]}
    told: dict[str, Arg] = {
        how: Amount(
            value=round(float(value) / step) * step + 0.0,
            unit=quantity.unit,
            digits=3,
            grain=step,
            source=Reading(how=how, of=quantity.name, start=float(timeline.time_s[0]), end=float(timeline.time_s[-1])),
        )
        for how, value in ends.items()
    }
    over = "time" if TIMELINES[timeline.kind].timed else "piece"
    return fact("plot-course", name=quantity.name, over=over, **told)
