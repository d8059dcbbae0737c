"""The time map: which bars each stage gets, at what tempo. Model time is not uniform in it; the sheets say so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil, floor, inf

import numpy as np

from sonify.errors import BadRule, SonifyError, UnknownName
from sonify.frozen import dataclass
from sonify.mapping.rules import BoundRule
from sonify.mapping.thresholds import can_be_told_apart
from sonify.records.controls import StageBars, TimeMap
from sonify.records.fact import Amount, Elapsed, Words, fact, wrong
from sonify.records.findings import Finding
from sonify.records.process import ProcessSpec
from sonify.records.scene import Music, Scene
from sonify.records.timeline import FloatArray, Quantity, Stage, Timeline

# How many bars each stage gets: the length first, then four bars at least, then phrases of two, then the shares.

#: A tempo is held at least so long, that a non-musician can conduct it (our own design limit).
LEAST_BARS = 4
#: How near the asked length is met.
LENGTH_TOLERANCE = 0.10
#: Least bars and the unit that bars come in, the best first: length is kept before the wishes are.
_WISHES = ((LEAST_BARS, 2), (LEAST_BARS, 1), (3, 1), (2, 2), (2, 1), (1, 1))


def stage_bars(bar_seconds: Sequence[float], shares: Sequence[float], length_s: float) -> tuple[int, ...]:
    """Bars for each stage, given how long one bar of each lasts and its share of all bars.

    Meets length_s within LENGTH_TOLERANCE where any division into whole bars does, and comes as near as it can where
    none does. Keeps LEAST_BARS a stage and even numbers where the length allows.
    """
    tried = []
    for least, unit in _WISHES:
        bars = _nearest(bar_seconds, shares, length_s, least, unit)
        if abs(seconds(bars, bar_seconds) / length_s - 1.0) <= LENGTH_TOLERANCE:
            return bars
        tried.append(bars)
    return min(tried, key=lambda bars: abs(seconds(bars, bar_seconds) - length_s))


def seconds(bars: Sequence[int], bar_seconds: Sequence[float]) -> float:
    """How long so many bars of each stage last."""
    return sum(count * each for count, each in zip(bars, bar_seconds, strict=True))


def length_for_least_bars(bar_seconds: Sequence[float]) -> int:
    """The least length in whole seconds, rounded up to five, at which every stage has LEAST_BARS."""
    return 5 * ceil(LEAST_BARS * sum(bar_seconds) / 5.0)


def _nearest(
    bar_seconds: Sequence[float], shares: Sequence[float], length_s: float, least: int, unit: int
) -> tuple[int, ...]:
    """The division in steps of `unit` bars, at least `least` a stage, whose length is nearest."""
    total = least * len(shares)
    for _ in range(4):  # a few steps settle it: the mean bar changes little with the total
        now_s = seconds(_divided(total, shares, least, unit), bar_seconds)
        total = max(least * len(shares), unit * round(total * length_s / now_s / unit))
    totals = {max(least * len(shares), total + step * unit) for step in range(-2, 3)}
    divisions = [_divided(total, shares, least, unit) for total in sorted(totals)]
    return min(divisions, key=lambda bars: abs(seconds(bars, bar_seconds) - length_s))


def _divided(total: int, shares: Sequence[float], least: int, unit: int) -> tuple[int, ...]:
    """`total` bars (rounded up to whole units): whole units by share, the rest to whoever is furthest below it."""
    whole = sum(shares)
    ideal = [share / whole * total for share in shares]
    bars = [max(least, unit * floor(bars / unit)) for bars in ideal]
    while sum(bars) - unit >= total:  # some stages were lifted to the least: the others make room
        over = [have - want if have > least else -inf for want, have in zip(ideal, bars, strict=True)]
        bars[over.index(max(over))] -= unit
    while sum(bars) < total:
        short = [want - have for want, have in zip(ideal, bars, strict=True)]
        bars[short.index(max(short))] += unit
    return tuple(bars)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """A stage and what the scene says of it."""

    stage: Stage
    share: float
    caption: Words


def time_map(
    scene: Scene,
    timeline: Timeline,
    process: ProcessSpec,
    tempo_rule: BoundRule | None,
    *,
    bpms: Sequence[float] = (),
) -> tuple[TimeMap, tuple[Finding, ...]]:
    """Bars and tempo of every stage. bpms: of each stage, where the author says them and no rule does.

    Raises SonifyError where the timeline has no stage at all.
    """
    if not timeline.stages:
        raise SonifyError(wrong("error_mapping-stage-found-what", name=process.name))
    plans = _plans(scene, timeline, process)
    music, beats = scene.music, scene.music.metre.beats
    asked = list(bpms) or [_bpm(plan.stage.start_s, plan.stage.end_s, timeline, music, tempo_rule) for plan in plans]
    held = asked if tempo_rule is None or music.gliding else stepped_bpms(asked, tempo_rule)
    glides = tempo_rule is not None and music.gliding
    paces = [
        _pace(plan.stage, timeline, music, tempo_rule) if glides else 60.0 / bpm
        for plan, bpm in zip(plans, held, strict=True)
    ]
    bar_seconds = [beats * pace for pace in paces]
    bars = stage_bars(bar_seconds, [plan.share for plan in plans], music.length_s)
    rows: list[StageBars] = []
    for plan, count, tempo in zip(plans, bars, zip(asked, held, strict=True), strict=True):
        first = rows[-1].bar + rows[-1].bars if rows else 1
        rows.append(_row(plan, first, count, tempo, timeline, music, tempo_rule))
    found = TimeMap(metre=music.metre, stages=tuple(rows))
    untold = () if bpms else _tempo_findings(tempo_rule, music)
    return found, (*untold, *_length_findings(found, music, bar_seconds))


def stage_mean(quantity: Quantity, timeline: Timeline, start_s: float, end_s: float) -> float:
    """The mean of a quantity over a stretch of model time, SI: the exact mean of the line through its samples."""
    if end_s <= start_s:
        return float(timeline.at(quantity.name, np.array([start_s]))[0])
    inside = timeline.time_s[(timeline.time_s > start_s) & (timeline.time_s < end_s)]
    times = np.concatenate([[start_s], inside, [end_s]])
    return float(np.trapezoid(timeline.at(quantity.name, times), times) / (end_s - start_s))


def whole_bpms(bpms: FloatArray, music: Music) -> FloatArray:
    """Tempi as a person sets them: whole numbers, inside the scene's limits."""
    least, most = ceil(music.slowest_bpm), floor(music.fastest_bpm)
    if most < least:  # limits that leave no whole number between them
        return np.full(np.shape(bpms), (music.slowest_bpm + music.fastest_bpm) / 2.0)
    return np.clip(np.floor(bpms + 0.5), least, most)


def stepped_bpms(asked: Sequence[float], rule: BoundRule) -> list[float]:
    """The tempo of each stage: a step that the class would not hear is not played, the tempo before it is held.

    A rule that exaggerates nothing plays what the science gives, however small.
    """
    found: list[float] = []
    for bpm in asked:
        before = found[-1] if found else bpm
        heard = rule.as_science or can_be_told_apart("tempo", before, bpm)
        found.append(bpm if heard else before)
    return found


def whole_bpm(bpm: float, music: Music) -> float:
    """One tempo as a person sets it."""
    return float(whole_bpms(np.array([bpm]), music)[0])


def middle_bpm(music: Music) -> float:
    """The tempo of a scene that has no tempo rule."""
    return whole_bpm((music.slowest_bpm + music.fastest_bpm) / 2.0, music)


def bar_edges_s(stage: StageBars) -> FloatArray:
    """The model times at which a stage's bars begin, and its end."""
    return np.linspace(stage.start_s, stage.end_s, stage.bars + 1)


def _plans(scene: Scene, timeline: Timeline, process: ProcessSpec) -> list[_Plan]:
    known = {spec.name for spec in process.stages} | {stage.name for stage in timeline.stages}
    for note in scene.stages:
        if note.stage not in known:
            raise UnknownName("stage", note.stage, known, where=note.key)
        if not 0.0 < note.share < float("inf"):
            raise BadRule(
                f"{note.key}.share",
                wrong("error_mapping-write-number-above", share=f"{note.share:g}", stage=note.stage),
            )
    notes = {note.stage: note for note in scene.stages}
    plans = []
    for stage in timeline.stages:
        said = notes.get(stage.name)
        caption = (said.caption if said else "") or stage.science or stage.title
        plans.append(_Plan(stage=stage, share=said.share if said else 1.0, caption=caption))
    return plans


def _pace(stage: Stage, timeline: Timeline, music: Music, rule: BoundRule | None) -> float:
    """Seconds a beat of a gliding stage: the mean over its model time."""
    edges = np.linspace(stage.start_s, stage.end_s, 4 * LEAST_BARS + 1)
    each = [_bpm(a, b, timeline, music, rule) for a, b in zip(edges, edges[1:], strict=False)]
    return float(np.mean([60.0 / bpm for bpm in each]))


def _bpm(start_s: float, end_s: float, timeline: Timeline, music: Music, rule: BoundRule | None) -> float:
    if rule is None:
        return middle_bpm(music)
    mean = stage_mean(rule.quantity, timeline, start_s, end_s)
    return whole_bpm(float(rule.apply(np.array([mean]))[0]), music)


def _row(
    plan: _Plan,
    first: int,
    count: int,
    tempo: tuple[float, float],
    timeline: Timeline,
    music: Music,
    rule: BoundRule | None,
) -> StageBars:
    stage = plan.stage
    asked_bpm, bpm = tempo
    row = StageBars(
        stage=stage.name,
        title=stage.title,
        bar=first,
        bars=count,
        start_s=stage.start_s,
        end_s=stage.end_s,
        bpm=bpm,
        asked_bpm=asked_bpm,
        caption=plan.caption,
    )
    if rule is None or not music.gliding:
        return row
    return _gliding(row, timeline, music, rule)


def _gliding(row: StageBars, timeline: Timeline, music: Music, rule: BoundRule) -> StageBars:
    edges = bar_edges_s(row)
    each = tuple(_bpm(a, b, timeline, music, rule) for a, b in zip(edges, edges[1:], strict=False))
    return replace(row, bar_bpms=each, bpm=whole_bpm(sum(each) / len(each), music))


def _tempo_findings(rule: BoundRule | None, music: Music) -> list[Finding]:
    if rule is not None or music.slowest_bpm == music.fastest_bpm:  # one beat for all was meant: that is fair
        return []
    return [
        Finding(
            kind="rule",
            message=fact(
                "rule-no-tempo",
                bpm=_tempo(middle_bpm(music)),
                slowest=_tempo(music.slowest_bpm),
                fastest=_tempo(music.fastest_bpm),
            ),
            fix=fact("mend-add-tempo"),
            where="tempo",
            serious=False,
        )
    ]


def _tempo(bpm: float) -> Amount:
    return Amount(value=bpm, given="a tempo of the scene")


def _length_findings(found: TimeMap, music: Music, bar_seconds: Sequence[float]) -> list[Finding]:
    enough = length_for_least_bars(bar_seconds)
    fix = fact("mend-length", seconds=str(enough))
    findings = []
    if not abs(found.length_s / music.length_s - 1.0) <= LENGTH_TOLERANCE:
        findings.append(
            Finding(
                kind="length",
                message=fact(
                    "rule-length-missed",
                    lasts=Elapsed(found.length_s),
                    asked=Elapsed(music.length_s),
                    stages=len(found.stages),
                ),
                fix=fix,
                where="length",
            )
        )
    short = [stage for stage in found.stages if stage.bars < LEAST_BARS]
    if short:
        names = tuple(fact("rule-stage-of-bars", stage=stage.title, bars=stage.bars) for stage in short)
        findings.append(
            Finding(
                kind="length",
                message=fact("rule-no-room", length=Elapsed(music.length_s), bars=LEAST_BARS, stages=names),
                fix=fix,
                where=fact("rule-stages", stages=tuple(stage.title for stage in short)),
            )
        )
    return findings
