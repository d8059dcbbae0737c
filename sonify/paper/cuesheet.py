"""The cue sheet: a row for each moment, in it a line for each thing to do, with a figure of the gesture."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby
from typing import Any

from sonify.kinds.cues import ACTIONS
from sonify.paper.facts import badge, bar_time, playing, stage_rows
from sonify.paper.settings import PaperSettings
from sonify.records.fact import Amount, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Cue, Part, Score
from sonify.records.words import without_title
from sonify.say import say, sentence
from sonify.say.cues import action_words as action_text
from sonify.say.cues import (
    beat_words,
    mark_words,
    pattern_words,
    reason_words,
    show_words,
    shown_words,
    who_words,
)
from sonify.say.parts import dynamic_with_mark, elapsed, tempo_words

#: The gestures of the legend in its order, each with a figure of its own in gestures.typ.
LEGEND = (
    "ready",
    "start",
    "come-in",
    "change",
    "rest",
    "louder",
    "softer",
    "quicker",
    "slower",
    "keep-going",
    "hold",
    "stop",
)
#: Which figure shows a gesture that has none of its own.
_LIKE = {
    "quicker-by-and-by": "quicker",
    "slower-by-and-by": "slower",
    "own-idea": "change",
    "harder-beaters": "change",
    "softer-beaters": "change",
    "letter": "change",
    "breath": "hold",
}
#: Gestures that the legend does not describe, or not so: they are described where they come.
_OWN_LINE = ("own-idea", "harder-beaters", "softer-beaters", "letter", "breath")


def moments(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """The cue sheet's rows in order: the count-in, each stage's heading, each moment with its lines."""
    score = lesson.score
    rows: list[dict[str, Any]] = [_count_in(score)]
    waiting = stage_rows(lesson)
    told: set[str] = set()
    ordered = sorted(score.cues, key=lambda cue: (cue.bar, cue.beat, bool(cue.part)))  # everybody first
    for (bar, beat), cues in groupby(ordered, key=lambda cue: (cue.bar, cue.beat)):
        while waiting and waiting[0]["bar"] <= bar:
            told.add(waiting[0]["caption"])
            rows.append(_stage(waiting.pop(0)))
        lines = [_line(own, score, settings, told) for cue in cues for own in cue.apart]
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
    caption = without_title(row["title"], row["caption"])
    head = say(fact("map-stage-head", where=row["where"], bpm=row["with_bpm"], pace=row["pace"]))
    told = say(fact("map-stage-time", caption=caption, squeezed=row["squeezed"])) if row["squeezed"] else caption
    return {"kind": "stage", **row, "caption": caption, "head": head, "told": told}


def legend() -> list[dict[str, str]]:
    """Every gesture with its figure, its name, and how it is shown."""
    rows = [{"figure": name, "action": shown_words(name), "gesture": show_words(name)} for name in LEGEND]
    for row in rows:
        row["head"] = say(fact("map-gesture", action=row["action"]))
        if row["figure"] == "change":
            row["gesture"] += " " + say(fact("cue-show-fingers-besides"))
    return rows


def _count_in(score: Score) -> dict[str, Any]:
    bpm = score.tempi[0].bpm
    beats = " ".join(str(beat) for beat in range(1, score.metre.beats + 1))
    person = {
        "name": say(fact("cue-everybody-listens")),
        "badge": None,
        "loud": _beat_in_words(bpm),
        "gesture": ", ".join([beats] * score.count_in_bars) + ".",
    }
    line = {
        "figure": "ready",
        "action": say(fact("cue-count-in")),
        "main": True,
        "music": False,
        "who": [person],
        "why": "",
    }
    return {"kind": "cue", "time": elapsed(0), "bar": say(fact("cue-at-count-in")), "lines": [line]}


def _beat_in_words(bpm: float) -> str:
    told = say(fact("cue-bpm", bpm=Amount(value=bpm)))
    return say(fact("cue-bpm-in-words", bpm=told, words=tempo_words(bpm)))


def _bar_and_beat(bar: int, beat: Fraction) -> str:
    place = str(bar) if bar >= 1 else say(fact("cue-at-count-in"))
    return place if beat == 1 else say(fact("cue-bar-and-beat", bar=place, beat=Amount(value=float(beat))))


def _line(cue: Cue, score: Score, settings: PaperSettings, told: set[str]) -> dict[str, Any]:
    """One cue. A reason that was already given, or that the stage's heading gives, is not said again."""
    part = next((part for part in score.group_parts if part.name == cue.part), None)
    action = action_of(cue, score)
    gesture = cue.gesture if action == cue.action else "change"
    person = {
        "name": who_words(cue),
        "badge": badge(part.group, settings) if part else None,
        "loud": _detail(cue, part),
        "gesture": show_words(gesture, say(cue.what)) if gesture in _OWN_LINE else "",
    }
    return {
        "figure": _LIKE.get(gesture, gesture),
        "action": shown_words(_LIKE.get(gesture, gesture)) if action == "tempo" else sentence(action_text(action)),
        "main": not ACTIONS[action].fine,
        "music": cue.reason.music,
        "who": [person],
        "why": _why(cue, told),
    }


def _why(cue: Cue, told: set[str]) -> str:
    reason = say(cue.reason.words)
    if reason and reason in told and not cue.reason.music:
        return ""
    told.add(reason)
    return reason_words(cue)


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
        then = _joined(", ", say(fact("cue-then", action=line["action"].lower())), person["loud"])
        both = before | {
            "loud": _joined(", ", before["loud"], then),
            "gesture": _joined(" ", before["gesture"], person["gesture"]),
        }
        found[person["name"]] = first | {
            "who": [both],
            "main": first["main"] or line["main"],
            "why": _both(first["why"], line["why"]),
        }
    return list(found.values())


def _side_by_side(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Parts that are shown the same figure in one moment, on one line, each with what is its own."""
    found: list[dict[str, Any]] = []
    for line in lines:
        same = next((f for f in found if all(f[k] == line[k] for k in ("figure", "action", "main", "music"))), None)
        if same is None:
            found.append(dict(line))
        else:
            same["who"] = same["who"] + line["who"]
            same["why"] = _both(same["why"], line["why"])
    return found


def _both(one: str, other: str) -> str:
    """Two reasons, but not what the other says already: "For the music" says nothing beside what it is for."""
    shorter, longer = sorted((one, other), key=len)
    label = say(fact("cue-for-the-music"))
    known = label.rstrip(".") if shorter == label else shorter
    return longer if known in longer else _joined(" ", one, other)


def _joined(mark: str, *words: str) -> str:
    return mark.join(word for word in words if word)


def _detail(cue: Cue, part: Part | None) -> str:
    """How loud or how fast, in words; for an entry without any, the loudness marked there."""
    if cue.bpm:
        told = beat_words(cue)
        return told if cue.from_bpm else _beat_in_words(cue.bpm)
    mark = cue.mark
    if not mark and not cue.what and cue.action in ("enter", "change") and part:
        mark = next((each.mark for each in part.dynamics if each.bar >= cue.bar), "")
    what = "" if cue.gesture in _OWN_LINE else say(cue.what)
    return _joined(", ", mark_words(cue, dynamic_with_mark(mark)) if mark else "", pattern_words(cue), what)
