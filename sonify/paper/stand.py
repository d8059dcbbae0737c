"""The cue page for a music stand: entries, stops and tempo alone, in numbers that are read at arm's length."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from sonify.paper.cuesheet import action_of
from sonify.paper.facts import badge, playing, section_bpms
from sonify.paper.settings import PaperSettings
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.score import Cue, Score
from sonify.say import say
from sonify.say.parts import listed, number

#: Groups in a row.
IN_A_ROW = 2
#: What is on the page, by its sign in stand.typ: who comes in, whose playing changes, who stops.
SIGNS = {"enter": "in", "change": "other", "rest": "out"}


def stand(lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    """The page's rows in order: a stage with its beat, or the groups that do the same in one bar."""
    score = lesson.score
    rows = [_stage(section.letter, section.bar, section_bpms(score, section)[0]) for section in score.sections]
    rows += list(_moments(score, settings))
    order = {"stage": 0, "out": 1, "in": 2, "other": 3, "end": 4}
    rows.append({"kind": "end", "bar": score.bars, "groups": [], "told": say(fact("stand-end", bar=score.bars))})
    return {
        "head": say(fact("stand-head")),
        "how": [[kind, say(fact(f"stand-sign-{kind}"))] for kind in SIGNS.values()],
        "rows": sorted(rows, key=lambda row: (row["bar"], order[row["kind"]])),
    }


def _stage(letter: str, bar: int, bpm: float) -> dict[str, Any]:
    return {
        "kind": "stage",
        "bar": bar,
        "letter": letter,
        "bpm": number(round(bpm)),
        "groups": [],
        "told": say(fact("stand-stage", letter=letter, bar=bar, bpm=number(round(bpm)))),
    }


def _moments(score: Score, settings: PaperSettings) -> list[dict[str, Any]]:
    def kind(cue: Cue) -> str:
        return SIGNS.get(action_of(cue, score), "")

    parts = {part.name: part for part in score.group_parts}
    told = sorted(
        (cue for cue in score.cues if cue.part in parts and kind(cue)), key=lambda cue: (cue.bar, kind(cue), cue.part)
    )
    first = sorted({part.group for part in score.group_parts for bar, _ in playing(part, score) if bar == 1})
    found = _rows("in", 1, first, settings)
    for (bar, sign), cues in groupby(told, key=lambda cue: (cue.bar, kind(cue))):
        numbers = sorted({parts[cue.part].group for cue in cues})
        if (sign, bar) != ("in", 1):  # who plays from bar 1 is on the page already
            found += _rows(sign, bar, numbers, settings)
    return found


def _rows(sign: str, bar: int, numbers: list[int], settings: PaperSettings) -> list[dict[str, Any]]:
    """What some groups do in a bar, as few of them in a row as the large numbers leave room for."""
    found = []
    for first in range(0, len(numbers), IN_A_ROW):
        row = numbers[first : first + IN_A_ROW]
        named = listed([str(group) for group in row])
        found.append(
            {
                "kind": sign,
                "bar": bar,
                "groups": [badge(group, settings) for group in row],
                "told": say(fact(f"stand-{sign}", bar=bar, groups=named, n=len(row))),
            }
        )
    return found
