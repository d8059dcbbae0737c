"""The cue sheet: a row for each moment, in it a line for each thing to do, with a figure of the gesture."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from itertools import groupby
from typing import Any

from sonify.paper.facts import (
    badge,
    bar_time,
    dynamic_text,
    playing,
    section_bpms,
    sentence_start,
    stage_rows,
    steady,
    tempo_at,
)
from sonify.paper.settings import PaperSettings
from sonify.records.lesson import Lesson
from sonify.records.score import Cue, Part, Score
from sonify.records.words import clock_text, number_text, tempo_word, without_title
from sonify.say import say

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
#: Each gesture's figure (gestures.typ), its name and how it is done, in the order of the legend. Common practice.
LEGEND = {
    "ready": ("Get ready", "A bar ahead: hands up, eyes on those who are next, breathe in with them."),
    "start": ("Start", "Both hands up on the last click, down on one."),
    "come-in": ("Come in", "Look at them and lower an open hand on beat 1."),
    "change": ("Change", "An open hand: now it is different. One, two or three fingers: Pattern A, B or C."),
    "rest": ("Stop and rest", "Draw a slow circle towards them and close the hand on beat 1."),
    "louder": ("Louder", "Palms up, raise your hands slowly to them."),
    "softer": ("Softer", "Palms down, lower your hands slowly."),
    "quicker": ("Quicker beat", "In the bar before, beat smaller and already as fast as the new beat."),
    "slower": ("Slower beat", "In the bar before, beat larger and already as slow as the new beat."),
    "keep-going": ("Keep going", "A hand that goes round and round: nobody stops yet."),
    "hold": ("Hold", "Both arms level and still: let the sound last until you move."),
    "stop": ("Stop", "Let the sound sink, then close both fists: silence for a breath."),
}
#: The legend's figure of each action that has one of its own.
_FIGURES = {"start": "start", "enter": "come-in", "change": "change", "rest": "rest", "stop": "stop"}
_FIGURES |= {action: action for action in FINER}
_FINGERS = {"Pattern A": "one-finger", "Pattern B": "two-fingers", "Pattern C": "three-fingers"}
#: Fingers are drawn, and what they mean stands beside them: no need to say it in words as well.
_SHOW_FINGERS = re.compile(r"\s*Show (one finger|two fingers|three fingers)(: Pattern [A-C])?\.")
#: Reasons that tell a conductor nothing that the action does not.
_IDLE = re.compile(r"(?i)^(others are heard now|its work is done)\.?$")
#: A gesture described so often is described once for all, in the legend.
COMES_BACK = 3
#: What is done once in a piece, and is in the legend all the same.
ONCE = ("start", "stop")
_BPM = re.compile(r"([\d.]+) bpm")
_MARK = re.compile(r"\b(?:pp|p|mp|mf|f|ff)\b")


def moments(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """The cue sheet's rows in order: the count-in, each stage's heading, each moment with its lines."""
    score = lesson.score
    rows: list[dict[str, Any]] = [_count_in(score)]
    waiting = stage_rows(lesson)
    shown = gestures(score)
    told: set[str] = set()
    ordered = sorted(score.cues, key=lambda cue: (cue.bar, cue.beat, bool(cue.part)))  # everybody first
    for (bar, beat), cues in groupby(ordered, key=lambda cue: (cue.bar, cue.beat)):
        while waiting and waiting[0]["bar"] <= bar:
            told.add(waiting[0]["caption"])
            rows.append(_stage(waiting.pop(0)))
        lines = [_line(cue, score, settings, shown, told) for cue in cues]
        rows.append(
            {
                "kind": "cue",
                "time": bar_time(score, bar, beat),
                "bar": _bar_and_beat(bar, beat),
                "lines": _side_by_side(_one_after_another(lines)),
            }
        )
    return rows + [_stage(stage) for stage in waiting]


def _stage(row: dict[str, Any]) -> dict[str, Any]:
    return {"kind": "stage", **row, "caption": without_title(row["title"], row["caption"])}


def legend(score: Score) -> list[dict[str, str]]:
    """Every gesture with its figure. What the arranger says of a gesture that comes back goes before our own words."""
    own = {_FIGURES[action]: words for action, words in gestures(score).items() if action in _FIGURES}
    return [
        {"figure": figure, "action": name, "gesture": own.get(figure, words)}
        for figure, (name, words) in LEGEND.items()
    ]


def gestures(score: Score) -> dict[str, str]:
    """Gestures that come back, by action: they are described once, in the legend, and only named in the cues.

    A new beat always is one: how it is shown is in the legend whichever way it goes.
    """
    counts = Counter((action_of(cue, score), _bare(cue)) for cue in score.cues if _bare(cue))
    found: dict[str, str] = {}
    for (action, gesture), count in counts.most_common():
        if action in ONCE or count >= COMES_BACK and action not in ("tempo", "change"):
            found.setdefault(action, gesture)  # a second way of showing it stays on its own line
    return found


def _bare(cue: Cue) -> str:
    """The gesture without the fingers, which are drawn."""
    return _SHOW_FINGERS.sub("", cue.gesture).strip()


def _count_in(score: Score) -> dict[str, Any]:
    bpm = score.tempi[0].bpm
    beats = " ".join(str(beat) for beat in range(1, score.metre.beats + 1))
    person = {
        "name": "Everybody listens",
        "badge": None,
        "loud": f"{number_text(bpm)} bpm, {tempo_word(bpm)[1]}",
        "gesture": ", ".join([beats] * score.count_in_bars) + ".",
    }
    line = {"figure": "ready", "action": "Count in", "main": True, "who": [person], "why": ""}
    return {"kind": "cue", "time": clock_text(0), "bar": "count-in", "lines": [line]}


def _bar_and_beat(bar: int, beat: Fraction) -> str:
    place = str(bar) if bar >= 1 else "count-in"
    return place if beat == 1 else f"{place}, beat {number_text(float(beat))}"


def _line(cue: Cue, score: Score, settings: PaperSettings, shown: dict[str, str], told: set[str]) -> dict[str, Any]:
    """One cue. A gesture that is described in the legend, and a reason that was already given, are not said again."""
    part = next((part for part in score.group_parts if part.name == cue.part), None)
    section = score.section_at(cue.bar)
    text = say(cue.why)
    why = sentence_start(text.removeprefix(f"{say(section.title)}: ") if section else text)
    new = "" if why in told or _IDLE.match(why) else why
    told.add(why)
    action = action_of(cue, score)
    figure, word = _figure(cue, action, score)
    person = {
        "name": cue.part or "Everybody",
        "badge": badge(part.group, settings) if part else None,
        "loud": _glide(cue, score) or _detail(cue, part),
        "gesture": "" if action == "tempo" else _bare(cue).removeprefix(shown.get(action, "")).strip(),
    }
    return {"figure": figure, "action": word, "main": action not in FINER, "who": [person], "why": new}


def _figure(cue: Cue, action: str, score: Score) -> tuple[str, str]:
    """The figure of a cue and the word for it: a new beat is drawn the way it goes, a change by its fingers."""
    if action == "tempo":
        quicker = tempo_at(score, cue.bar) >= tempo_at(score, cue.bar - 1)
        return ("quicker", "Quicker beat") if quicker else ("slower", "Slower beat")
    if action == "change":
        pattern = next((name for name in _FINGERS if name in cue.detail), "")
        return _FINGERS.get(pattern, "change"), ACTIONS[action]
    return _FIGURES.get(action, "change"), ACTIONS.get(action, action.capitalize())


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
        person = line["who"][0]
        if person["name"] not in found:
            found[person["name"]] = line
            continue
        first = found[person["name"]]
        before = first["who"][0]
        then = _joined(", ", f"then {line['action'].lower()}", person["loud"])
        both = before | {
            "loud": _joined(", ", before["loud"], then),
            "gesture": _joined(" ", before["gesture"], person["gesture"]),
        }
        found[person["name"]] = first | {
            "who": [both],
            "main": first["main"] or line["main"],
            "why": _joined(" ", first["why"], line["why"]),
        }
    return list(found.values())


def _side_by_side(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Parts that are shown the same figure in one moment, on one line, each with what is its own."""
    found: list[dict[str, Any]] = []
    for line in lines:
        same = next((f for f in found if all(f[k] == line[k] for k in ("figure", "action", "main"))), None)
        if same is None:
            found.append(dict(line))
        else:
            same["who"] = same["who"] + line["who"]
            same["why"] = _joined(" ", same["why"], line["why"])
    return found


def _joined(mark: str, *words: str) -> str:
    return mark.join(word for word in words if word)


def _glide(cue: Cue, score: Score) -> str:
    """For a beat that glides through a stage: where to, and in which bar it is there; "" for one that steps."""
    section = score.section_at(cue.bar)
    if cue.action != "tempo" or section is None or len(set(section_bpms(score, section))) == 1:
        return ""
    first, last = section_bpms(score, section)
    if steady(first, last):
        return f"steady, {number_text(first)} to {number_text(last)} bpm"
    end = section.bar + section.bars - 1
    there = next(bar for bar in range(section.bar, end + 1) if tempo_at(score, bar) == last)
    return f"little by little from {number_text(first)} bpm, reaching {number_text(last)} bpm in bar {there}"


def _detail(cue: Cue, part: Part | None) -> str:
    """The cue's figures with their words; for an entry without any, the loudness marked there."""
    found = _BPM.fullmatch(cue.detail)
    if found:
        return f"{cue.detail}, {tempo_word(float(found[1]))[1]}"
    if not cue.detail and cue.action in ("enter", "change") and part:
        marks = [mark for mark in part.dynamics if mark.bar >= cue.bar]
        return dynamic_text(marks[0].mark) if marks else ""
    return _MARK.sub(lambda mark: dynamic_text(mark[0]), cue.detail)
