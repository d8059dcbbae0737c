"""The listening check as the page asks it: the very questions of the pupils' sheet, with clips to play."""

from __future__ import annotations

from typing import Any

from sonify.facts.listening import Choice, ListeningItem, listening_items
from sonify.records.fact import Named, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Score
from sonify.say import say

#: A choice's small curve is drawn in so wide and high a picture, a line's width away from the rim.
WIDTH, HEIGHT, RIM = 120, 60, 5


def listening_rows(lesson: Lesson) -> list[dict[str, Any]]:
    """One row a question, in the order of the pupils' sheet; none where there is little to be heard."""
    return [_row(item, lesson.score) for item in listening_items(lesson)]


def _row(item: ListeningItem, score: Score) -> dict[str, Any]:
    letters = "ab" if len(item.clips) > 1 else [""]
    return {
        "question": say(item.question),
        "clips": [
            {"bar": clip.bar, "after": clip.bar + clip.bars, "name": say(fact("listening-clip", letter=letter)).strip()}
            for clip, letter in zip(item.clips, letters, strict=True)
        ],
        "choices": [_choice(choice) for choice in item.choices],
        "answer": item.answer,
        "why": say(item.why),
        "curve": curve_told(item),
        "group": next((part.group for part in score.parts if part.name == item.part), 0),
    }


def _choice(choice: Choice) -> dict[str, Any]:
    return {
        "words": say(choice.words),
        "group": choice.group,
        "path": path(choice),
        "shade": shade(choice),
    }


def curve_told(item: ListeningItem) -> str:
    """What the small curves show; "" where there are none."""
    if not item.quantity or not any(choice.points for choice in item.choices):
        return ""
    whole = any(choice.shaded for choice in item.choices)
    return say(fact("listening-curve", quantity=Named("quantity", item.quantity), whole="yes" if whole else "no"))


def path(choice: Choice) -> str:
    """The choice's curve as an SVG path; "" where it has none."""
    places = (
        f"{RIM + x * (WIDTH - 2 * RIM):.1f} {HEIGHT - RIM - y * (HEIGHT - 2 * RIM):.1f}" for x, y in choice.points
    )
    return f"M{'L'.join(places)}" if choice.points else ""


def shade(choice: Choice) -> tuple[float, float] | None:
    """Where the meant stretch of the curve begins, and how wide it is."""
    if choice.shaded is None:
        return None
    low, high = choice.shaded
    return round(RIM + low * (WIDTH - 2 * RIM), 1), round((high - low) * (WIDTH - 2 * RIM), 1)
