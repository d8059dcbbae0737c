"""What stands on the poster: the process as big stages with the science as a curve, who plays, and the key."""

from __future__ import annotations

from math import ceil, floor, log10
from typing import Any

import numpy as np

from sonify.facts.sheet import held, rows_fact, subject_of, turns, way_claim, way_fact
from sonify.facts.sounding import soundings, unmeasured
from sonify.kinds.timelines import TIMELINES
from sonify.paper.facts import badge, groups, playing, stage_rows
from sonify.paper.plots import nice_ticks
from sonify.paper.rules import rules_for
from sonify.paper.settings import PaperSettings
from sonify.records.controls import Key
from sonify.records.curve import science_curve
from sonify.records.fact import Amount, Fact, Reading, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Section
from sonify.records.timeline import Quantity
from sonify.records.words import without_title
from sonify.say import say
from sonify.say.parts import listed, number
from sonify.units import printed

#: Stages side by side; more of them go in rows of as even a length as can be.
MOST_IN_A_ROW, MOST_IN_LARGE_PRINT = 6, 5


def sheet(lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    """Everything that poster.typ places."""
    stages = [_stage(row, lesson, settings) for row in stage_rows(lesson)]
    return {
        "title": lesson.score.title,
        "rows": _rows(stages, MOST_IN_LARGE_PRINT if settings.large_print else MOST_IN_A_ROW),
        "count": len(stages),
        "cycle": lesson.process.cycle and len(stages) > 1,
        "curve": _curve(lesson),
        "groups": [
            {**badge(group, settings), "names": listed([part.name for part in parts])}
            for group, parts in groups(lesson.score).items()
        ],
        "key": say(fact("order-head-why" if unmeasured(lesson.scene) else "poster-key")),
        "keys": [
            *({"told": text} for text in _sounds(lesson)),
            *(_key(key, lesson, settings) for key in lesson.controls.keys if _anybody_plays(key, lesson)),
        ],
    }


def _rows(stages: list[dict[str, Any]], most: int) -> list[list[dict[str, Any]]]:
    if not stages:
        return []
    length = ceil(len(stages) / ceil(len(stages) / most))
    return [stages[first : first + length] for first in range(0, len(stages), length)]


def _stage(row: dict[str, Any], lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    section = next(s for s in lesson.score.sections if s.name == row["name"])
    heard = [part for part in lesson.score.group_parts if _plays_in(part, section, lesson)]
    return {
        **{name: row[name] for name in ("letter", "title", "bpm", "with_bpm", "pace", "where")},
        "caption": without_title(row["title"], row["caption"]),
        "first": section == lesson.score.sections[0],
        "who": [badge(group, settings) for group in sorted({part.group for part in heard})],
    }


def _plays_in(part: Part, section: Section, lesson: Lesson) -> bool:
    """Whether a part plays in a stage, or what pupils invent for it stands there."""
    end = section.bar + section.bars
    runs = [*playing(part, lesson.score), *((blank.bar, blank.bars) for blank in part.blanks)]
    return any(first < end and section.bar < first + bars for first, bars in runs)


# The curve: each stage's stretch of it as shares of that stage's column.


def drawn_quantity(lesson: Lesson) -> str:
    """What is drawn above the stages here and on the graphic score; "" where no rule moves the beat."""
    key = _beat_key(lesson)
    return subject_of(key, lesson).name if key else ""


def _beat_key(lesson: Lesson) -> Key | None:
    return next((key for key in lesson.controls.keys if key.rule.control == "tempo"), None)


def _curve(lesson: Lesson) -> dict[str, Any] | None:
    """The quantity that the beat follows (or goes with, where pupils know that one better), stage by stage."""
    key = _beat_key(lesson)
    curve = science_curve(lesson, drawn_quantity(lesson))
    if curve is None:
        return None
    tenfold = key is not None and key.rule.curve == "logarithmic" and min(curve.values) > 0
    values = [log10(value) for value in curve.values] if tenfold else list(curve.values)
    joined = TIMELINES[lesson.timeline.kind].joined
    least = min(values) if joined else min(0.0, *values)
    ticks = _powers(least, max(values)) if tenfold else nice_ticks(least, max(values), most=3)
    step = 10.0 ** (ticks[1] - ticks[0])
    beats = lesson.score.metre.beats
    spans = [((s.bar - 1) * beats, (s.bar - 1 + s.bars) * beats) for s in lesson.score.sections]
    points = list(zip(curve.beats, (_share(value, ticks) for value in values), strict=True))
    return {
        "name": curve.name,
        "unit": "" if curve.unit in ("", "1") else printed(curve.unit),
        "step": number(step) if tenfold else "",
        "own": say(fact("drawn-axis")) if lesson.timeline.quantity(curve.name).drawn else "",
        "drawn": say(_drawn(tenfold=tenfold, joined=joined, step=number(step))),
        "ticks": [{"at": _share(tick, ticks), "text": number(10.0**tick if tenfold else tick)} for tick in ticks],
        "stages": [_stretch(points, first, end) for first, end in spans],
        "bars": [] if joined else [_bars(section, curve.name, ticks, lesson) for section in lesson.score.sections],
        "alt": say(held((_alt if joined else rows_fact)(lesson.timeline.quantity(curve.name), lesson), lesson)),
    }


def _drawn(*, tenfold: bool, joined: bool, step: str) -> Fact:
    if not joined:
        return fact("poster-bars")
    return fact("poster-equal-tenfold", step=step) if tenfold else fact("poster-equal")


def _bars(section: Section, quantity: str, ticks: list[float], lesson: Lesson) -> list[list[float]]:
    """What stands side by side in a stage of a table: from and to as shares of its column, and how high."""
    stage = next(stage for stage in lesson.timeline.stages if stage.name == section.name)
    rows = turns(lesson.timeline.quantity(quantity), lesson.timeline, stage.start_s, stage.end_s)
    return [[start, end, _share(value, ticks)] for start, end, value in rows]


def _powers(low: float, high: float) -> list[float]:
    """Powers of ten from below to above, no more than four of them, evenly apart."""
    first, last = floor(low), max(ceil(high), floor(low) + 1)
    step = ceil((last - first) / 3)
    return [float(power) for power in range(first, last + step, step)]


def _share(value: float, ticks: list[float]) -> float:
    return round((value - ticks[0]) / (ticks[-1] - ticks[0]), 4)


def _stretch(points: list[tuple[float, float]], first: float, end: float) -> list[list[float]]:
    """The curve's points between two beats, x as a share of the stage."""
    return [[round((beat - first) / (end - first), 4), y] for beat, y in points if first <= beat <= end]


def _alt(quantity: Quantity, lesson: Lesson) -> Fact:
    """The curve in words: its value at the start of each stage and at the end."""
    stages = lesson.timeline.stages
    found = []
    for stage in stages:
        reading = Reading(how="first", of=quantity.name, start=stage.start_s, end=stage.end_s)
        value = _value(quantity, stage.start_s, reading, lesson)
        found.append(fact("poster-begins", value=value, stage=say(stage.title)))
    last = stages[-1]
    reading = Reading(how="last", of=quantity.name, start=last.start_s, end=last.end_s)
    found.append(fact("poster-ends", value=_value(quantity, last.end_s, reading, lesson)))
    return fact("poster-course", name=quantity.name, places=tuple(found))


def _value(quantity: Quantity, time_s: float, reading: Reading, lesson: Lesson) -> Amount:
    value = float(np.interp(time_s, lesson.timeline.time_s, quantity.in_unit()))
    return Amount(value=value, unit=quantity.unit, source=reading)


# The key.


def _sounds(lesson: Lesson) -> list[str]:
    """How each stage is meant to sound, and why, where its author says so."""
    return [
        say(fact("order-told", stage=each.title, sounds=each.told, why=each.why))
        for each in soundings(lesson.scene, lesson.score)
        if each.words
    ]


def _anybody_plays(key: Key, lesson: Lesson) -> bool:
    """False for a rule of one part's own that its instrument cannot follow."""
    own = [part for part in lesson.score.group_parts if part.name == key.rule.part]
    return not own or any(key in rules_for(part, lesson) for part in own)


def _key(key: Key, lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    """What is heard when the science rises."""
    rule = key.rule
    part = next((part for part in lesson.score.group_parts if part.name == rule.part), None)
    who = rule.part or say(fact("sheet-everybody"))
    quantity, heard = subject_of(key, lesson).name, way_fact(key, lesson)
    told = fact("poster-rule", way_claim(key, lesson), quantity=quantity, heard=heard, who=who)
    return {
        "quantity": quantity,
        "heard": say(heard),
        "told": say(held(told, lesson)),
        "who": badge(part.group, settings) if part else None,
    }
