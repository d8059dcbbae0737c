"""What stands on the conductor's sheets: the map of the piece, the cue sheet moment by moment, the score's pages."""

from __future__ import annotations

import re
from collections import Counter
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
    sentence_start,
    stage_rows,
)
from sonify.paper.settings import PaperSettings
from sonify.records.lesson import Lesson
from sonify.records.score import Cue, Part, Score
from sonify.records.words import clock_text, number_text, tempo_word

#: What the conductor does, as a heading for the gesture.
ACTIONS = {
    "start": "Start",
    "enter": "Come in",
    "change": "Change",
    "rest": "Stop and rest",
    "louder": "Louder",
    "softer": "Softer",
    "tempo": "New beat",
    "stop": "Stop",
}
#: What a beginner may leave to the players: all else is set in bold.
FINER = ("louder", "softer")
#: A new beat is shown one way whichever way it goes, so it is described once.
NEW_BEAT = (
    "In the bar before, beat already as fast as the new beat: smaller and quicker, or larger and slower. "
    "The new beat begins on beat 1 of that bar."
)
#: Reasons that tell a conductor nothing that the action does not.
_IDLE = re.compile(r"(?i)^(others are heard now|its work is done)\.?$")
#: A gesture described so often is described once for all.
COMES_BACK = 3
_BPM = re.compile(r"([\d.]+) bpm")
_MARK = re.compile(r"\b(?:pp|p|mp|mf|f|ff)\b")
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
        "gestures": [
            {"action": ACTIONS.get(action, action), "gesture": gesture} for action, gesture in gestures(score).items()
        ],
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


# The cue sheet: one row a moment, a line for each thing to show then.


def moments(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """The cue sheet's rows in order: the count-in, each stage's heading, each moment with its cues."""
    score = lesson.score
    rows: list[dict[str, Any]] = [_count_in(score)]
    waiting = stage_rows(lesson)
    shown = gestures(score)
    told: set[str] = set()
    ordered = sorted(score.cues, key=lambda cue: (cue.bar, cue.beat, bool(cue.part)))  # everybody first
    for (bar, beat), cues in groupby(ordered, key=lambda cue: (cue.bar, cue.beat)):
        while waiting and waiting[0]["bar"] <= bar:
            told.add(waiting[0]["caption"])
            rows.append({"kind": "stage", **waiting.pop(0)})
        lines = [_line(cue, score, settings, shown, told) for cue in cues]
        rows.append(
            {
                "kind": "cue",
                "time": bar_time(score, bar, beat),
                "bar": _bar_and_beat(bar, beat),
                "lines": _side_by_side(_one_after_another(lines)),
            }
        )
    return rows + [{"kind": "stage", **stage} for stage in waiting]


def gestures(score: Score) -> dict[str, str]:
    """Gestures that come back, by action: they are described once, below the cues, and named by their action there."""
    counts = Counter((action_of(cue, score), cue.gesture) for cue in score.cues if cue.gesture)
    found: dict[str, str] = {}
    for (action, gesture), count in counts.most_common():
        if action == "tempo":
            found["tempo"] = NEW_BEAT
        elif count >= COMES_BACK:
            found.setdefault(action, gesture)  # a second way of showing it stays on its own line
    return found


def _count_in(score: Score) -> dict[str, Any]:
    bpm = score.tempi[0].bpm
    beats = " ".join(str(beat) for beat in range(1, score.metre.beats + 1))
    line = {
        "who": [{"name": "Everybody listens", "badge": None}],
        "main": True,
        "action": "Count in",
        "loud": f"{number_text(bpm)} bpm, {tempo_word(bpm)[1]}",
        "gesture": ", ".join([beats] * score.count_in_bars) + ".",
        "why": "",
    }
    return {"kind": "cue", "time": clock_text(0), "bar": "count-in", "lines": [line]}


def _bar_and_beat(bar: int, beat: Fraction) -> str:
    place = str(bar) if bar >= 1 else "count-in"
    return place if beat == 1 else f"{place}, beat {number_text(float(beat))}"


def _line(cue: Cue, score: Score, settings: PaperSettings, shown: dict[str, str], told: set[str]) -> dict[str, Any]:
    """One cue. A gesture that is described below, and a reason that was already given, are not said again."""
    part = next((part for part in score.group_parts if part.name == cue.part), None)
    section = score.section_at(cue.bar)
    why = sentence_start(cue.why.removeprefix(f"{section.title}: ") if section else cue.why)
    new = "" if why in told or _IDLE.match(why) else why
    told.add(why)
    action = action_of(cue, score)
    return {
        "who": [{"name": cue.part or "Everybody", "badge": badge(part.group, settings) if part else None}],
        "main": action not in FINER,
        "action": ACTIONS.get(action, action.capitalize()),
        "loud": _detail(cue, part),
        "gesture": "" if action == "tempo" else cue.gesture.removeprefix(shown.get(action, "")).strip(),
        "why": new,
    }


def action_of(cue: Cue, score: Score) -> str:
    """The cue's action; an entry of a part that plays in the bar before already is a change of what it plays."""
    part = next((part for part in score.group_parts if part.name == cue.part), None)
    if cue.action != "enter" or part is None:
        return cue.action
    return "change" if any(first < cue.bar < first + bars for first, bars in playing(part, score)) else "enter"


def _one_after_another(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """What one part is shown in one moment, on one line: "Come in, soft (p), then louder, to fairly soft (mp)"."""
    found: dict[str, dict[str, Any]] = {}
    for line in lines:
        name = line["who"][0]["name"]
        if name not in found:
            found[name] = line
            continue
        first = found[name]
        then = ", ".join(word for word in (f"then {line['action'].lower()}", line["loud"]) if word)
        found[name] = {
            **first,
            "main": first["main"] or line["main"],
            "loud": ", ".join(word for word in (first["loud"], then) if word),
            "gesture": " ".join(word for word in (first["gesture"], line["gesture"]) if word),
            "why": " ".join(word for word in (first["why"], line["why"]) if word),
        }
    return list(found.values())


def _side_by_side(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Parts that are shown the same in one moment, on one line."""
    found: list[dict[str, Any]] = []
    for line in lines:
        same = next((f for f in found if all(f[k] == line[k] for k in ("action", "loud", "gesture"))), None)
        if same is None:
            found.append(dict(line))
        else:
            same["who"] = same["who"] + line["who"]
            same["why"] = " ".join(word for word in (same["why"], line["why"]) if word)
    return found


def _detail(cue: Cue, part: Part | None) -> str:
    """The cue's figures with their words; for an entry without any, the loudness marked there."""
    found = _BPM.fullmatch(cue.detail)
    if found:
        return f"{cue.detail}, {tempo_word(float(found[1]))[1]}"
    if not cue.detail and cue.action in ("enter", "change") and part:
        marks = [mark for mark in part.dynamics if mark.bar >= cue.bar]
        return dynamic_text(marks[0].mark) if marks else ""
    return _MARK.sub(lambda mark: dynamic_text(mark[0]), cue.detail)
