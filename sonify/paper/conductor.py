"""What stands on the conductor's sheets: the map of the piece, the cue sheet moment by moment, the score's pages."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import groupby
from typing import Any

from sonify.paper import loudness
from sonify.paper.facts import (
    badge,
    bar_time,
    bars_text,
    dynamic_text,
    groups,
    listed,
    playing,
    stage_rows,
)
from sonify.paper.settings import PaperSettings
from sonify.records.lesson import Lesson
from sonify.records.scene import DYNAMICS
from sonify.records.score import Cue, Part, Score
from sonify.records.words import clock_text, number_text, tempo_word

#: What the conductor does, as a heading for the gesture.
ACTIONS = {
    "start": "Start",
    "enter": "Come in",
    "rest": "Stop and rest",
    "louder": "Louder",
    "softer": "Softer",
    "tempo": "New beat",
    "stop": "Stop",
}
_BPM = re.compile(r"([\d.]+) bpm")
_SVG = re.compile(r"<svg\b[^>]*>")
_SIDE = re.compile(r"""\s(width|height)=["']([\d.]+)(?:px|mm|cm|in|pt)?["']""")
_VIEW_BOX = re.compile(r"""\sviewBox=["']\s*[-\d.]+[\s,]+[-\d.]+[\s,]+([\d.]+)[\s,]+([\d.]+)""")


def sheet(lesson: Lesson, pages: tuple[str, ...], settings: PaperSettings) -> dict[str, Any]:
    """Everything that conductor.typ places."""
    score = lesson.score
    return {
        "title": score.title,
        "facts": _facts(score),
        "map": map_data(lesson, settings),
        "moments": moments(lesson, settings),
        "pages": [
            {"file": f"score-{number}.svg", "wide": _is_wide(page), "alt": f"Score, page {number} of {len(pages)}"}
            for number, page in enumerate(pages, start=1)
        ],
    }


def _facts(score: Score) -> str:
    length = clock_text(float(score.clock.seconds(score.end_beat)))
    return (
        f"{score.metre.text} time. {score.bars} bars, counted from 1 after the count-in. Times run from the start of "
        f"the recording, count-in included; the end is at {length}."
    )


def _is_wide(svg: str) -> bool:
    """Whether a picture is wider than high, from its own measures. An SVG that states none is taken as upright."""
    opening = _SVG.search(svg)
    if not opening:
        return False
    sides = dict(_SIDE.findall(opening[0]))
    if len(sides) == 2:
        return float(sides["width"]) > float(sides["height"])
    frame = _VIEW_BOX.search(opening[0])
    return frame is not None and float(frame[1]) > float(frame[2])


# The map: a lane for each group, stages as columns.


def map_data(lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    """The piece on one page: who plays in which bars, how loud, at what beat, and where the cues fall."""
    score = lesson.score
    lanes = [
        {
            **badge(group, settings),
            "rows": [_row(part, score) for part in parts],
        }
        for group, parts in groups(score).items()
    ]
    stages = stage_rows(lesson)
    return {
        "bars": score.bars,
        "stages": stages,
        "lanes": lanes,
        "everyone": sorted({cue.bar for cue in score.cues if not cue.part}),
        "alt": f"Map of {score.bars} bars. Stages: {listed([stage['title'] for stage in stages])}. "
        + " ".join(
            f"Group {part.group}, {part.name}: {listed([bars_text(*run) for run in playing(part, score)])}."
            for part in score.group_parts
        ),
    }


def _row(part: Part, score: Score) -> dict[str, Any]:
    corners = loudness.corners(part, score)
    return {
        "name": part.name,
        "runs": [
            {"bar": first, "bars": bars, "levels": loudness.levels(corners, first, first + bars)}
            for first, bars in playing(part, score)
        ],
        "marks": [{"bar": mark.bar, "mark": mark.mark} for mark in part.dynamics],
        "cues": sorted({cue.bar for cue in score.cues if cue.part == part.name}),
        "blanks": [{"bar": blank.bar, "bars": blank.bars} for blank in part.blanks],
    }


# The cue sheet: one row a moment, a line for each that is cued then.


def moments(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """The cue sheet's rows in order: the count-in, each stage's heading, each moment with its cues."""
    score = lesson.score
    rows: list[dict[str, Any]] = [_count_in(score)]
    stages = {stage["bar"]: stage for stage in stage_rows(lesson)}
    headed: set[int] = set()
    ordered = sorted(score.cues, key=lambda cue: (cue.bar, cue.beat, bool(cue.part)))  # everybody first
    for (bar, beat), cues in groupby(ordered, key=lambda cue: (cue.bar, cue.beat)):
        for stage_bar in sorted(stages):
            if stage_bar <= bar and stage_bar not in headed:
                rows.append({"kind": "stage", **stages[stage_bar]})
                headed.add(stage_bar)
        rows.append(
            {
                "kind": "cue",
                "time": bar_time(score, bar, beat),
                "bar": _bar_and_beat(bar, beat),
                "lines": [_line(cue, score, settings) for cue in cues],
            }
        )
    rows += [{"kind": "stage", **stages[bar]} for bar in sorted(stages) if bar not in headed]
    return rows


def _count_in(score: Score) -> dict[str, Any]:
    bpm = score.tempi[0].bpm
    beats = " ".join(str(beat) for beat in range(1, score.metre.beats + 1))
    return {
        "kind": "cue",
        "time": clock_text(0),
        "bar": "count-in",
        "lines": [
            {
                "who": "Everybody listens",
                "badge": None,
                "action": "Count in",
                "gesture": ", ".join([beats] * score.count_in_bars),
                "loud": f"{number_text(bpm)} bpm, {tempo_word(bpm)[1]}",
                "why": "",
            }
        ],
    }


def _bar_and_beat(bar: int, beat: Fraction) -> str:
    place = str(bar) if bar >= 1 else "count-in"
    return place if beat == 1 else f"{place}, beat {number_text(float(beat))}"


def _line(cue: Cue, score: Score, settings: PaperSettings) -> dict[str, Any]:
    part = next((part for part in score.group_parts if part.name == cue.part), None)
    return {
        "who": cue.part or "Everybody",
        "badge": badge(part.group, settings) if part else None,
        "action": ACTIONS.get(cue.action, cue.action.capitalize()),
        "gesture": cue.gesture,
        "loud": _detail(cue, part),
        "why": cue.why,
    }


def _detail(cue: Cue, part: Part | None) -> str:
    """The cue's figure with its words; for an entry without one, the loudness marked there."""
    if cue.detail in DYNAMICS:
        return dynamic_text(cue.detail)
    found = _BPM.fullmatch(cue.detail)
    if found:
        return f"{cue.detail}, {tempo_word(float(found[1]))[1]}"
    if not cue.detail and cue.action == "enter" and part:
        marks = [mark for mark in part.dynamics if mark.bar >= cue.bar]
        return dynamic_text(marks[0].mark) if marks else ""
    return cue.detail
