"""What stands on the poster: the process as big stages with the science as a curve, who plays, and the key."""

from __future__ import annotations

from math import ceil, floor, log10
from typing import Any

from sonify.paper.facts import badge, groups, listed, playing, stage_rows
from sonify.paper.plots import nice_ticks
from sonify.paper.rules import RISES, rises, subject_of
from sonify.paper.settings import PaperSettings
from sonify.records.controls import Key
from sonify.records.curve import Curve, science_curve
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Section
from sonify.records.words import number_text, without_title
from sonify.say import say
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
            {**badge(group, settings), "names": [part.name for part in parts]}
            for group, parts in groups(lesson.score).items()
        ],
        "keys": [_key(key, lesson, settings) for key in lesson.controls.keys],
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
        **{name: row[name] for name in ("letter", "title", "bpm", "pace", "where")},
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
    ticks = _powers(min(values), max(values)) if tenfold else nice_ticks(min(values), max(values), most=3)
    beats = lesson.score.metre.beats
    spans = [((s.bar - 1) * beats, (s.bar - 1 + s.bars) * beats) for s in lesson.score.sections]
    points = list(zip(curve.beats, (_share(value, ticks) for value in values), strict=True))
    return {
        "name": curve.name,
        "unit": "" if curve.unit in ("", "1") else printed(curve.unit),
        "step": number_text(10.0 ** (ticks[1] - ticks[0])) if tenfold else "",
        "ticks": [{"at": _share(tick, ticks), "text": number_text(10.0**tick if tenfold else tick)} for tick in ticks],
        "stages": [_stretch(points, first, end) for first, end in spans],
        "alt": _alt(curve, spans, lesson),
    }


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


def _alt(curve: Curve, spans: list[tuple[int, int]], lesson: Lesson) -> str:
    """The curve in words: its value at the start of each stage and at the end."""
    unit = f" {printed(curve.unit)}" if curve.unit not in ("", "1") else ""
    at = dict(zip(curve.beats, curve.values, strict=True))
    starts = [
        f"{number_text(at[float(first)])}{unit} where {say(section.title)} begins"
        for (first, _), section in zip(spans, lesson.score.sections, strict=True)
    ]
    return f"Curve of {curve.name}: {listed([*starts, f'{number_text(curve.values[-1])}{unit} at the end'])}."


# The key.


def _key(key: Key, lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    """What is heard when the science rises."""
    rule = key.rule
    part = next((part for part in lesson.score.group_parts if part.name == rule.part), None)
    return {
        "quantity": subject_of(key, lesson).name,
        "heard": RISES[rule.control][0 if rises(key, lesson) else 1],
        "who": badge(part.group, settings) if part else None,
        "part": rule.part or "everybody",
    }
