"""A small card for each part, two on a page: who you are, how your sound changes, what you play, when you come in."""

from __future__ import annotations

from typing import Any

from sonify.paper.cards import entry_rows, pattern_rows, seat_row
from sonify.paper.facts import badge, groups
from sonify.paper.rules import rule_rows, rules_for
from sonify.paper.settings import PaperSettings
from sonify.paper.steps import fewest
from sonify.paper.strips import strips
from sonify.records.controls import Key
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part
from sonify.say import say

#: Rules that a small card has room for: the part's own before the piece's.
MOST_RULES = 2
#: Entries that it writes out; a part with more has them on its long card.
MOST_ENTRIES = 5
#: Boxes in a row of its rhythm.
BOXES_IN_ROW = 16


def short_cards(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """A card for each part that is not the quiet beat of those who wait."""
    return [
        _card(part, lesson, settings) for parts in groups(lesson.score).values() for part in parts if not part.pulse
    ]


def _card(part: Part, lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    score = lesson.score
    entries = entry_rows(part, lesson)
    tune = bool(strips(part, score))
    patterns = pattern_rows(part, score, BOXES_IN_ROW)[:1]
    return {
        **badge(part.group, settings),
        "id": f"{part.group} {score.group_parts.index(part)}",
        "group_name": say(fact("sheet-group", group=part.group)),
        "name": part.name,
        "meaning": part.meaning,
        "seats": [seat_row(seat, score) for seat in part.seats],
        "changes": [_change(key, part, lesson) for key in rules_for(part, lesson)[:MOST_RULES]],
        "patterns": patterns,
        "entries": entries[:MOST_ENTRIES],
        "more": [
            *([say(fact("card-notes-on-long"))] if tune else []),
            *([say(fact("card-entries-on-long"))] if len(entries) > MOST_ENTRIES else []),
        ],
    }


def _change(key: Key, part: Part, lesson: Lesson) -> dict[str, Any]:
    """A rule in the fewest steps that tell its change; its two ends where the part plays in one stage alone."""
    told = rule_rows(key, part, lesson)
    return {
        "head": told["head"],
        "of": told["of"],
        "steps": [
            {"letter": row["letter"], "science": row["science"], "sound": row["sound"]}
            for row in fewest(key, part, told["rows"], lesson)
        ],
    }
