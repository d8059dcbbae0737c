"""Questions that the Score raises, answered from the recording: yes, no, or that it cannot be told, and why."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from sonify.listening.entering import Entered
from sonify.listening.measuring import PHONE_DB, WIDE
from sonify.listening.plan import Plan, Stage
from sonify.records.fact import Arg, Words, fact
from sonify.records.listened import CANNOT_TELL, NO, YES, BarHeard, Question, StageHeard

Floats = NDArray[np.float64]

#: Two stages are asked about where the score's tempi are so far apart, and its levels so many decibels.
TEMPO_APART, LEVEL_APART_DB = 0.03, 4.0
#: A tempo's answer lies so far beyond its interval: the intervals are measured ones, and wrong is worse than "cannot
#: tell".
BEYOND = 0.004
#: A part's entry is asked about with so many of those that follow; the order is told where it is so sure (set on
#: simulated performances).
NEXT, ORDER_SURE = 2, 0.95
#: A part came in where it is written if it did within so many bars.
NEAR = 2


def questions(
    plan: Plan, stages: Sequence[StageHeard], entries: Sequence[Entered], bars: Sequence[BarHeard]
) -> tuple[Question, ...]:
    return (
        *_tempi(stages),
        *_levels(plan, stages),
        *_crescendos(plan, stages, bars),
        *_orders(plan, entries),
        *_places(plan, entries),
    )


def _tempi(stages: Sequence[StageHeard]) -> list[Question]:
    out = []
    for before, after in pairwise(stages):
        if abs(after.planned_bpm / before.planned_bpm - 1.0) < TEMPO_APART:
            continue
        quicker = after.planned_bpm > before.planned_bpm
        places = {"stage": after.letter, "title": after.title, "other": before.letter, "before": before.title}
        asked = fact("recorded-ask-tempo", way="quicker" if quicker else "slower", **places)
        answer, why = _compared(before, after, quicker=quicker)
        out.append(Question(kind="tempo", stage=after.letter, part="", asked=asked, answer=answer, why=why))
    return out


def _compared(before: StageHeard, after: StageHeard, *, quicker: bool) -> tuple[str, Words]:
    if before.bpm is None or after.bpm is None:
        missing = before if before.bpm is None else after
        return CANNOT_TELL, missing.why
    shown = {"one": f"{before.bpm.value:.0f}", "two": f"{after.bpm.value:.0f}"}
    ratio = np.log(after.bpm.value / before.bpm.value)
    half = sum(np.log(row.high / row.low) / 2.0 for row in (before.bpm, after.bpm)) + BEYOND
    if abs(ratio) <= half:
        return CANNOT_TELL, fact("recorded-too-near", **shown)
    return (YES if (ratio > 0.0) == quicker else NO), fact("recorded-tempi", **shown)


def planned_levels_db(plan: Plan) -> Floats:
    """Roughly how loud every bar is as written: the strokes' energy by their velocities (40 log10, as MIDI has it)."""
    energy = np.zeros(plan.bars)
    for line in plan.lines:
        at = np.clip((line.beats // plan.beats_a_bar).astype(int), 0, plan.bars - 1)
        np.add.at(energy, at, (line.velocity / 127.0) ** 4)
    return np.asarray(10.0 * np.log10(energy / plan.bar_s + 1e-4))


def _mean_db(levels_db: Floats) -> float:
    return float(10.0 * np.log10(np.mean(10.0 ** (levels_db / 10.0))))


def _levels(plan: Plan, stages: Sequence[StageHeard]) -> list[Question]:
    written = planned_levels_db(plan)
    planned = [_mean_db(written[stage.bar : stage.end]) for stage in plan.stages]
    out = []
    for number, (before, after) in enumerate(pairwise(stages)):
        change = planned[number + 1] - planned[number]
        if abs(change) < LEVEL_APART_DB:
            continue
        places = {"stage": after.letter, "title": after.title, "other": before.letter, "before": before.title}
        asked = fact("recorded-ask-level", way="louder" if change > 0 else "softer", **places)
        if before.level_db is None or after.level_db is None:
            missing = before if before.level_db is None else after
            answer, why = CANNOT_TELL, missing.why or fact("recorded-noisy")
        else:
            found = after.level_db.value - before.level_db.value
            halves = [(row.high - row.low) / 2.0 - PHONE_DB for row in (before.level_db, after.level_db)]
            half = float(np.hypot(halves[0], halves[1])) + PHONE_DB
            shown = {"decibels": f"{abs(found):.0f}", "found": "louder" if found > 0 else "softer"}
            answer, why = CANNOT_TELL, fact("recorded-levels-near")
            if abs(found) > half:
                answer, why = (YES if (found > 0) == (change > 0) else NO), fact("recorded-levels", **shown)
        out.append(Question(kind="level", stage=after.letter, part="", asked=asked, answer=answer, why=why))
    return out


def _crescendos(plan: Plan, stages: Sequence[StageHeard], bars: Sequence[BarHeard]) -> list[Question]:
    """Whether a stage that is to grow louder (or softer) did: its last third against its first."""
    written = planned_levels_db(plan)
    out = []
    for stage, row in zip(plan.stages, stages, strict=True):
        planned = _grown(written[stage.bar : stage.end])
        if abs(planned) < LEVEL_APART_DB or stage.bars < 6:
            continue
        way = "louder" if planned > 0 else "softer"
        asked = fact("recorded-ask-crescendo", way=way, stage=row.letter, title=row.title)
        answer, why = _grew(stage, row, bars, way)
        out.append(Question(kind="crescendo", stage=row.letter, part="", asked=asked, answer=answer, why=why))
    return out


def _grown(levels_db: Floats) -> float:
    third = max(1, len(levels_db) // 3)
    return _mean_db(levels_db[-third:]) - _mean_db(levels_db[:third])


def _grew(stage: Stage, row: StageHeard, bars: Sequence[BarHeard], way: str) -> tuple[str, Words]:
    if row.bpm is None:
        return CANNOT_TELL, row.why
    if row.level_db is None:
        return CANNOT_TELL, fact("recorded-noisy")
    first = next(n for n, bar in enumerate(bars) if bar.bar == row.bar and bar.start_s >= (row.start_s or 0.0) - 1.0)
    heard = np.array([bar.level_db for bar in bars[first : first + stage.bars]])
    third = max(2, stage.bars // 3)
    change = float(heard[-third:].mean() - heard[:third].mean())
    places = np.arange(stage.bars)
    left = heard - np.polynomial.Polynomial.fit(places, heard, 1)(places)
    spread = np.sqrt(np.square(left).sum() / (stage.bars - 2) * 2.0 / third)
    if abs(change) <= WIDE * spread + PHONE_DB:
        return CANNOT_TELL, fact("recorded-levels-near")
    found = "louder" if change > 0 else "softer"
    return (YES if found == way else NO), fact("recorded-grew", decibels=f"{abs(change):.0f}", found=found)


def _places(plan: Plan, entries: Sequence[Entered]) -> list[Question]:
    """Whether each part came in where it is written, or near it."""
    out = []
    for row in entries:
        if row.never:
            continue
        part = row.heard
        places: dict[str, Arg] = {"part": part.part, "group": part.group, "bar": part.planned_bar, "bars": NEAR}
        answer, why = CANNOT_TELL, part.why or fact("recorded-came-near")
        if part.heard is not None:
            first, last = part.heard.low - part.planned_bar, part.heard.high - part.planned_bar
            told = fact("recorded-came", bar=round(part.heard.value))
            if first >= -NEAR and last <= NEAR:
                answer, why = YES, told
            elif first > NEAR or last < -NEAR:
                answer, why = NO, told
        asked = fact("recorded-ask-came", **places)
        stage = plan.stages[plan.stage_of(part.planned_bar - 1)].letter
        out.append(Question(kind="came", stage=stage, part=part.part, asked=asked, answer=answer, why=why))
    return out


def _orders(plan: Plan, entries: Sequence[Entered]) -> list[Question]:
    """Whether each part came in before those that are to come in next, where they are other groups'."""
    out = []
    # what no recording could tell is not asked
    asked_of = sorted((row for row in entries if not row.never), key=lambda row: row.heard.planned_bar)
    for number, one in enumerate(asked_of):
        first = one.heard
        later = [
            row
            for row in asked_of[number + 1 :]
            if row.heard.group != first.group and row.heard.planned_bar > first.planned_bar
        ]
        for two in later[:NEXT]:
            second = two.heard
            places: dict[str, Arg] = {
                "part": first.part,
                "group": first.group,
                "later": second.part,
                "other": second.group,
            }
            asked = fact("recorded-ask-entry", **places)
            answer, why = _ordered(one, two)
            stage = plan.stages[plan.stage_of(first.planned_bar - 1)].letter
            out.append(Question(kind="entry", stage=stage, part=first.part, asked=asked, answer=answer, why=why))
    return out


def _ordered(one: Entered, two: Entered) -> tuple[str, Words]:
    for row in (one, two):
        if row.chances is None:
            return CANNOT_TELL, fact("recorded-entry-untold", part=row.heard.part, why=row.heard.why)
    assert one.chances is not None and two.chances is not None
    ahead, behind = _ahead(one.chances, two.chances), _ahead(two.chances, one.chances)
    names: dict[str, Arg] = {"part": one.heard.part, "later": two.heard.part}
    shown = [row.heard.heard for row in (one, two)]
    if max(ahead, behind) < ORDER_SURE:
        if shown[0] is not None and shown[1] is not None:
            bars = {"bar": round(shown[0].value), "other": round(shown[1].value)}
            return CANNOT_TELL, fact("recorded-entries-near", **names, **bars)
        row = one if shown[0] is None else two
        return CANNOT_TELL, fact("recorded-entry-untold", part=row.heard.part, why=row.heard.why)
    answer = YES if ahead > behind else NO
    if shown[0] is None or shown[1] is None:
        return answer, fact("recorded-entries-apart", way="before" if ahead > behind else "after", **names)
    return answer, fact("recorded-entries", bar=round(shown[0].value), other=round(shown[1].value), **names)


def _ahead(one: Floats, two: Floats) -> float:
    """The chance that one came in, and in a bar before the other. One that seems to have been there from the start
    tells nothing: something else may sound like it."""
    return float(np.sum(one[1:-1] * np.cumsum(two[::-1])[::-1][2:]))
