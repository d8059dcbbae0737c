"""What stands on the pupils' sheets. Words are for readers of about nine; the science words come from the scene."""

from __future__ import annotations

from typing import Any

import numpy as np

from sonify.facts.listening import listening_items
from sonify.facts.sheet import by_size
from sonify.kinds.pupil_sheets import PICTURES
from sonify.paper.cards import NO_PICTURES, Pictures, cards, entry_rows, pattern_rows, seat_row
from sonify.paper.facts import badge, groups
from sonify.paper.frames import sound_sheets, ticket
from sonify.paper.own_cards import felt, own_cards, picture_copies
from sonify.paper.picture_cards import picture_cards
from sonify.paper.pictures import stage_picture
from sonify.paper.poster import drawn_on_poster
from sonify.paper.rules import rule_rows, rules_for
from sonify.paper.settings import PaperSettings
from sonify.paper.steps import fewest
from sonify.paper.strips import strips
from sonify.paper.thinking import stretch
from sonify.records.controls import Key
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Section
from sonify.records.words import without_title
from sonify.say import say

# A small card for each part, two on a page: who you are, how your sound changes, what you play, when you come in.

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


# The listening check on paper: questions about clips for pupils to tick -----------------------------------------------


def listening(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """Each question with its choices, for pupils."""
    return [
        {
            "question": say(fact("pupils-clip", number=number, question=say(item.question))),
            "about": say(fact("pupils-about", quantity=item.quantity))
            if item.kind == "stage" and item.quantity and any(len(choice.points) for choice in item.choices)
            else "",
            "choices": [
                {
                    "words": say(choice.words),
                    "alt": say(fact("pupils-picture-for", words=say(choice.words))),
                    "points": [list(point) for point in choice.points],
                    "shaded": list(choice.shaded) if choice.shaded else [],
                    "badge": badge(choice.group, settings) if choice.group else None,
                }
                for choice in item.choices
            ],
        }
        for number, item in enumerate(listening_items(lesson), start=1)
    ]


#: One number a shuffle, so that no two lists of one lesson are shuffled alike.
_FLOW, _BANK, _WORDS, _MATCH = 1, 2, 3, 4
#: Words to match with help.
FEW_WORDS = 5


def shuffled(count: int, seed: int, which: int) -> list[int]:
    """Places 0 to count - 1 in a mixed order: the same for the same seed, and never the right order (if two or more).

    >>> sorted(shuffled(5, seed=0, which=1)), shuffled(1, 0, 1)
    ([0, 1, 2, 3, 4], [0])
    """
    rng = np.random.default_rng([seed, which])
    order = list(range(count))
    while count > 1 and order == list(range(count)):
        order = [int(place) for place in rng.permutation(count)]
    return order


def sheet(lesson: Lesson, settings: PaperSettings, pictures: Pictures = NO_PICTURES) -> dict[str, Any]:
    """Everything that pupils.typ places."""
    return {
        "title": lesson.score.title,
        "flow": flow(lesson),
        "shorts": short_cards(lesson, settings),
        "cards": cards(lesson, settings, pictures),
        "sounds": sound_sheets(lesson, settings),
        "ticket": ticket(lesson),
        "words": vocabulary(lesson),
        "match": few_words(lesson),
        "stretch": stretch(lesson),
        "listening": listening(lesson, settings),
        # a third of the sheet's drawing: made for who asks
        "pictures": picture_cards(lesson, settings) if PICTURES in settings.also or picture_copies(lesson) else [],
        "own": own_cards(lesson, settings),
        "felt": felt(lesson, drawn_on_poster(lesson, settings) if lesson.classroom.pupils_need else None),
    }


def flow(lesson: Lesson) -> dict[str, Any]:
    """The stages to cut out, mixed up, and the chart to fill in. How much is given follows the scaffold.

    What comes in no order of time is put in order of size; then no arrows lead from one to the next.
    """
    quantity, ranked = by_size(lesson)
    sections = ranked or lesson.score.sections
    mixed = [sections[i] for i in shuffled(len(sections), lesson.seed, _FLOW)]
    bank = [_shown(sections[i], lesson) for i in shuffled(len(sections), lesson.seed, _BANK)]
    if quantity:
        chart = {"head": "chart-by-size", "told": "line-by-size", "alt": "boxes-of"}
    elif _closes(lesson):
        chart = {"head": "circle", "told": "ring", "alt": "ring-of"}
    else:
        chart = {"head": "chart", "told": "line", "alt": "column-of"}
    words = {
        name: say(fact(f"pupils-{message}", quantity=quantity, n=len(sections))) for name, message in chart.items()
    }
    return words | {
        "cut": say(fact("pupils-cut-by-size", quantity=quantity) if quantity else fact("pupils-cut")),
        "arrows": not quantity,
        "pieces": [
            _shown(section, lesson)
            | {
                "caption": "" if quantity else without_title(say(section.title), say(section.caption)),
            }
            for section in mixed
        ],
        "count": len(sections),
        "cycle": _closes(lesson),
        "given": say(sections[0].title) if lesson.scaffold == "full" and sections else "",
        "bank": [] if lesson.scaffold == "open" else bank,
    }


def _shown(section: Section, lesson: Lesson) -> dict[str, Any]:
    return {"title": say(section.title), "picture": stage_picture(section, lesson).for_sheet()}


def _closes(lesson: Lesson) -> bool:
    return lesson.process.cycle and len(lesson.score.sections) > 1


def vocabulary(lesson: Lesson) -> dict[str, Any]:
    """Words in the order of the alphabet, and their meanings mixed up, each with the word that belongs to it."""
    words = sorted(lesson.scene.vocabulary, key=lambda word: word.word.lower())
    order = shuffled(len(words), lesson.seed, _WORDS)
    return {
        "bank": [] if lesson.scaffold == "open" else [word.word for word in words],
        "rows": [{"word": words[i].word, "meaning": words[i].meaning} for i in order],
    }


def few_words(lesson: Lesson) -> list[dict[str, str]]:
    """With help: the first few words, each beside a meaning that is not its own."""
    words = lesson.scene.vocabulary[:FEW_WORDS]
    order = shuffled(len(words), lesson.seed, _MATCH)
    return [{"word": word.word, "meaning": words[i].meaning} for word, i in zip(words, order, strict=True)]
