"""What stands on the pupils' sheets. Words are for readers of about nine; the science words come from the scene."""

from __future__ import annotations

from typing import Any

import numpy as np

from sonify.facts.sheet import by_size
from sonify.paper.cards import NO_PICTURES, Pictures, cards
from sonify.paper.frames import sound_sheets, ticket
from sonify.paper.listening import listening
from sonify.paper.settings import PaperSettings
from sonify.paper.shortcards import short_cards
from sonify.paper.thinking import stretch
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.words import without_title
from sonify.say import say

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
    }


def flow(lesson: Lesson) -> dict[str, Any]:
    """The stages to cut out, mixed up, and the chart to fill in. How much is given follows the scaffold.

    What comes in no order of time is put in order of size; then no arrows lead from one to the next.
    """
    quantity, ranked = by_size(lesson)
    sections = ranked or lesson.score.sections
    mixed = [sections[i] for i in shuffled(len(sections), lesson.seed, _FLOW)]
    bank = [say(sections[i].title) for i in shuffled(len(sections), lesson.seed, _BANK)]
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
            {
                "title": say(section.title),
                "caption": "" if quantity else without_title(say(section.title), say(section.caption)),
            }
            for section in mixed
        ],
        "count": len(sections),
        "cycle": _closes(lesson),
        "given": say(sections[0].title) if lesson.scaffold == "full" and sections else "",
        "bank": [] if lesson.scaffold == "open" else bank,
    }


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
