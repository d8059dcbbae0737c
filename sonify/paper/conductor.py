"""What stands on the conductor's sheets: the map of the piece, the cue sheet moment by moment, the score's pages."""

from __future__ import annotations

import re
from itertools import groupby
from typing import Any

from sonify.paper import loudness
from sonify.paper.cuesheet import action_of, legend, moments
from sonify.paper.facts import badge, groups, playing, section_bpms, stage_rows
from sonify.paper.own_cards import notes_for_conductor
from sonify.paper.settings import PaperSettings
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.score import Cue, Part, Score
from sonify.say import say
from sonify.say.parts import bars, elapsed, listed, number, own_name

# The cue page for a music stand: entries, stops and tempo alone, in numbers that are read at arm's length.

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
        (cue for sign in score.cues for cue in sign.apart if cue.part in parts and kind(cue)),
        key=lambda cue: (cue.bar, kind(cue), cue.part),
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


_SVG = re.compile(r"<svg\b[^>]*>")
_SIDE = re.compile(r"""\s(width|height)=["']([\d.]+)(?:px|mm|cm|in|pt)?["']""")
_VIEW_BOX = re.compile(r"""\sviewBox=["']\s*[-\d.]+[\s,]+[-\d.]+[\s,]+([\d.]+)[\s,]+([\d.]+)""")


def sheet(
    lesson: Lesson, pages: tuple[str, ...], settings: PaperSettings, graphic: tuple[str, ...] = (), told: str = ""
) -> dict[str, Any]:
    """Everything that conductor.typ places."""
    score = lesson.score
    return {
        "title": score.title,
        "facts": _facts(score),
        "map": map_data(lesson, settings),
        "stand": stand(lesson, settings),
        "moments": moments(lesson, settings),
        "gestures": legend(),
        "besides": notes_for_conductor(lesson),
        "pages": [*_pages("graphic", graphic, told), *_pages("score", pages)],
    }


def _pages(name: str, pages: tuple[str, ...], told: str = "") -> list[dict[str, Any]]:
    """Drawn pages as the template places them; the first carries the heading, and what is drawn in words (`told`)."""
    title, elsewhere = say(fact(f"map-{name}")), say(fact("map-elsewhere"))
    return [
        {
            "file": f"{name}-{number}.svg",
            "wide": _is_wide(page),
            "head": title if number == 1 else "",
            "alt": say(
                fact(
                    "map-page-of",
                    title=title,
                    number=number,
                    pages=len(pages),
                    told=told if told and number == 1 else elsewhere,
                )
            ),
        }
        for number, page in enumerate(pages, start=1)
    ]


def _facts(score: Score) -> str:
    length = elapsed(float(score.clock.seconds(score.end_beat)))
    return say(fact("map-facts", metre=score.metre.text, bars=score.bars, length=length))


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
        "alt": say(
            fact(
                "map-alt",
                bars=score.bars,
                stages=listed([stage["title"] for stage in stages]),
                parts=" ".join(_told(part, score) for part in score.group_parts),
            )
        ),
    }


def _told(part: Part, score: Score) -> str:
    runs = listed([bars(*run) for run in playing(part, score)])
    return say(fact("map-part", group=part.group, part=part.name, bars=runs))


def _row(part: Part, score: Score) -> dict[str, Any]:
    corners = loudness.corners(part, score)
    return {
        "name": own_name(part),
        "runs": [
            {"bar": first, "bars": bars, "levels": loudness.levels(corners, first, first + bars)}
            for first, bars in playing(part, score)
        ],
        "marks": [{"bar": mark.bar, "mark": mark.mark} for mark in part.dynamics],
        "cues": sorted({cue.bar for cue in score.cues if part.name in cue.parts}),
        "blanks": [{"bar": blank.bar, "bars": blank.bars} for blank in part.blanks],
    }
