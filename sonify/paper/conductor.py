"""What stands on the conductor's sheets: the map of the piece, the cue sheet moment by moment, the score's pages."""

from __future__ import annotations

import re
from typing import Any

from sonify.paper import loudness
from sonify.paper.cuesheet import legend, moments
from sonify.paper.facts import badge, groups, playing, stage_rows
from sonify.paper.settings import PaperSettings
from sonify.paper.stand import stand
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Score
from sonify.say import say
from sonify.say.parts import bars, elapsed, listed

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
        "name": part.name,
        "runs": [
            {"bar": first, "bars": bars, "levels": loudness.levels(corners, first, first + bars)}
            for first, bars in playing(part, score)
        ],
        "marks": [{"bar": mark.bar, "mark": mark.mark} for mark in part.dynamics],
        "cues": sorted({cue.bar for cue in score.cues if cue.part == part.name}),
        "blanks": [{"bar": blank.bar, "bars": blank.bars} for blank in part.blanks],
    }
