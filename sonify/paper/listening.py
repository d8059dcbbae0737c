"""The listening check on paper: questions about clips for pupils to tick."""

from __future__ import annotations

from typing import Any

from sonify.facts.listening import listening_items
from sonify.paper.facts import badge
from sonify.paper.settings import PaperSettings
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.say import say


def listening(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """Each question with its choices, for pupils."""
    return [
        {
            "question": say(fact("pupils-clip", number=number, question=say(item.question))),
            "about": say(fact("pupils-about", quantity=item.quantity))
            if item.kind == "stage" and item.quantity
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
