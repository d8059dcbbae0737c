"""What stands on the poster: the process as big stages with the science as a curve, who plays, and the key."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, floor, log10
from typing import Any

import numpy as np

from sonify.facts.graphs import BARS, LINE, Graph, Trace, graphs, overlaid, unread
from sonify.facts.sheet import held, rows_fact, subject_of, told_in_figures, turns, way_claim, way_fact
from sonify.facts.sounding import soundings, unmeasured
from sonify.paper.facts import badge, groups, playing, stage_rows
from sonify.paper.pictures import stage_picture
from sonify.paper.rules import is_own, rules_for
from sonify.paper.settings import PaperSettings
from sonify.records.controls import Key
from sonify.records.curve import Curve, science_curve
from sonify.records.fact import Amount, Fact, Reading, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Section
from sonify.records.timeline import Quantity
from sonify.records.words import without_title
from sonify.say import say
from sonify.say.parts import listed, number, own_name
from sonify.units import printed

#: Stages side by side; more of them go in rows of as even a length as can be.
MOST_IN_A_ROW, MOST_IN_LARGE_PRINT = 6, 5
#: Stretches of an axis on which each line up is ten times as much.
MOST_TENFOLD = 5


def sheet(lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    """Everything that poster.typ places."""
    stages = [_stage(row, lesson, settings) for row in stage_rows(lesson)]
    curve = drawn_on_poster(lesson, settings)
    most = MOST_IN_LARGE_PRINT if settings.large_print else MOST_IN_A_ROW
    if settings.large_print and curve is not None and curve["names"]:
        most -= 1  # the names beside the curves take a column
    return {
        "title": lesson.score.title,
        "rows": _rows(stages, most),
        "count": len(stages),
        "cycle": lesson.process.cycle and len(stages) > 1,
        "curve": curve,
        "groups": [
            {**badge(group, settings), "names": listed([own_name(part) for part in parts])}
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
        "picture": stage_picture(section, lesson).for_sheet(),
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
    """What is drawn above the stages where nothing is compared, and on the graphic score; "" where no rule moves the
    beat."""
    key = _beat_key(lesson)
    return subject_of(key, lesson).name if key else ""


def drawn_curve(lesson: Lesson) -> Curve | None:
    """The curve above the graphic score: what is compared, on one scale, as on the poster."""
    names = compared_names(lesson)
    if not names:
        return science_curve(lesson, drawn_quantity(lesson))
    (graph,) = graphs(lesson, [lesson.timeline.quantity(name) for name in names])
    first, *others = [curve for name in names if (curve := science_curve(lesson, name)) is not None]
    groups_of = {part.name: part.group for part in lesson.score.group_parts}
    players = tuple(groups_of[trace.part] for trace in graph.traces if trace.part in groups_of)
    return replace(
        first,
        name=graph.name,
        tenfold=False,
        beside=tuple(curve.values for curve in others),
        groups=players if len(players) == len(names) else (),
    )


def _beat_key(lesson: Lesson) -> Key | None:
    return next((key for key in lesson.controls.keys if key.rule.control == "tempo"), None)


def drawn_on_poster(lesson: Lesson, settings: PaperSettings) -> dict[str, Any] | None:
    """What is compared, else the quantity that the beat follows (or goes with, where pupils know that one better),
    stage by stage."""
    key, names = _beat_key(lesson), compared_names(lesson)
    curves = [science_curve(lesson, name) for name in names or [drawn_quantity(lesson)]]
    first = curves[0]
    if first is None:
        return None
    quantities = [lesson.timeline.quantity(curve.name) for curve in curves if curve is not None]
    (graph,) = graphs(lesson, quantities)
    by_ten = not names and key is not None and key.rule.curve == "logarithmic" and graph.kind == LINE
    tenfold = by_ten and min(first.values) > 0
    known = all(told_in_figures(quantity, lesson) for quantity in quantities)
    values = [log10(value) for value in first.values] if tenfold else []
    ticks = _powers(min(values), max(values)) if tenfold else list(graph.y.ticks)
    step = 10.0 ** (ticks[1] - ticks[0]) if tenfold else ticks[1] - ticks[0]
    return {
        "name": graph.name,
        "kind": graph.kind,
        "unit": printed(graph.y.unit) if known and graph.y.unit not in ("", "1") else "",
        "step": number(step) if tenfold else "",
        "own": say(fact("drawn-axis")) if any(quantity.drawn for quantity in quantities) else "",
        "drawn": say(_drawn(tenfold=tenfold, kind=graph.kind, step=number(step))),
        "ticks": [
            {"at": _share(tick, ticks), "text": _tick(tick, ticks, tenfold=tenfold, known=known)} for tick in ticks
        ],
        "known": known,
        "zero": min(1.0, max(0.0, _share(0.0, ticks))),
        # an area tells an amount where its foot is nought
        "filled": not tenfold and ticks[0] == 0.0,
        "names": [_named(trace, lesson, settings) for trace in graph.traces] if len(graph.traces) > 1 else [],
        "stages": [
            [_panel(graph, trace, section, ticks, values, lesson) for trace in graph.traces]
            for section in lesson.score.sections
        ],
        "alt": " ".join(say(held(_told(graph, trace, lesson), lesson)) for trace in graph.traces),
    }


def _tick(tick: float, ticks: list[float], *, tenfold: bool, known: bool) -> str:
    """A number in a unit that pupils know; else which end is less and which is more, or how many times as much."""
    if tenfold and not known and tick != ticks[0]:
        return say(fact("poster-times", times=number(10.0 ** (tick - ticks[0]))))
    if known:
        return number(10.0**tick if tenfold else tick)
    ends = {ticks[0]: "less", ticks[-1]: "more"}
    return say(fact(f"poster-{ends[tick]}")) if tick in ends else ""


def _named(trace: Trace, lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    """What stands at a curve of several: its name, and the tile of the group that plays it."""
    part = next((part for part in lesson.score.group_parts if part.name == trace.part), None)
    return {"name": trace.name, "who": badge(part.group, settings) if part else None}


def _told(graph: Graph, trace: Trace, lesson: Lesson) -> Fact:
    quantity = lesson.timeline.quantity(trace.quantity)
    stepped = len(lesson.score.sections) >= len(graph.traces[0].spots)
    empty = unread(graph, trace, lesson)
    return rows_fact(quantity, lesson, empty) if graph.kind != LINE and stepped else _alt(quantity, lesson)


def compared_names(lesson: Lesson) -> list[str]:
    """The quantities whose tunes are heard against each other, where any are: they are what is drawn."""
    tunes = (rules for rules in overlaid(lesson) if rules[0].control == "pitch")
    return [rule.quantity for rule in next(tunes, ())]


def _drawn(*, tenfold: bool, kind: str, step: str) -> Fact:
    if kind != LINE:
        return fact("poster-bars" if kind == BARS else "poster-points")
    return fact("poster-equal-tenfold", step=step) if tenfold else fact("poster-equal")


def _panel(
    graph: Graph, trace: Trace, section: Section, ticks: list[float], values: list[float], lesson: Lesson
) -> dict[str, Any]:
    """One quantity in a stage's column, in shares of it: a line, bars (from, to, how high), or spots."""
    quantity = lesson.timeline.quantity(trace.quantity)
    stage = next(stage for stage in lesson.timeline.stages if stage.name == section.name)
    found: dict[str, Any] = {"points": [], "bars": [], "spots": []}
    if graph.kind == LINE:
        curve = science_curve(lesson, trace.quantity)
        assert curve is not None  # drawn because it is heard
        beats = lesson.score.metre.beats
        first, end = (section.bar - 1) * beats, (section.bar - 1 + section.bars) * beats
        heights = (_share(value, ticks) for value in values or curve.values)
        found["points"] = _stretch(list(zip(curve.beats, heights, strict=True)), first, end)
    elif graph.kind == BARS:
        rows, count = turns(quantity, lesson.timeline, stage.start_s, stage.end_s), len(graph.traces)
        rows = [] if stage.name in unread(graph, trace, lesson) else rows
        place = [each.quantity for each in graph.traces].index(trace.quantity)
        for start, stop, value in rows:
            wide = (stop - start) * 0.7 / count
            left = start + 0.15 * (stop - start) + place * wide
            found["bars"].append([round(left, 4), round(left + wide, 4), _share(value, ticks)])
    else:
        low, high = (
            float(np.interp(t, lesson.timeline.time_s, lesson.timeline.quantity(lesson.timeline.axis).in_unit()))
            for t in (stage.start_s, stage.end_s)
        )
        for spot in trace.spots:
            if low <= spot.x <= high:
                at = (spot.x - low) / (high - low) if high > low else 0.5
                ends = {name: _share(getattr(spot, name), ticks) for name in ("y", "least", "most")}
                found["spots"].append({"x": round(at, 4), **ends})
    return found


def _powers(low: float, high: float) -> list[float]:
    """Powers of ten from below to above, no more than six of them, evenly apart."""
    first, last = floor(low), max(ceil(high), floor(low) + 1)
    step = ceil((last - first) / MOST_TENFOLD)
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
    own = [part for part in lesson.score.group_parts if is_own(key, part, lesson)]
    return not own or any(key in rules_for(part, lesson) for part in own)


def _key(key: Key, lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    """What is heard when the science rises."""
    rule = key.rule
    part = next((part for part in lesson.score.group_parts if is_own(key, part, lesson)), None)
    who = rule.part or say(fact("sheet-everybody"))
    quantity, heard = subject_of(key, lesson).name, way_fact(key, lesson)
    told = fact("poster-rule", way_claim(key, lesson), quantity=quantity, heard=heard, who=who)
    return {
        "quantity": quantity,
        "heard": say(heard),
        "told": say(held(told, lesson)),
        "who": badge(part.group, settings) if part else None,
    }
