"""What stands on the pupils' sheets. Words are for readers of about nine; the science words come from the scene."""

from __future__ import annotations

from typing import Any

import numpy as np

from sonify.paper.cards import NO_PICTURES, Pictures, cards
from sonify.paper.rules import rules_for
from sonify.paper.settings import PaperSettings
from sonify.records.lesson import Lesson

#: "Our sound, and why": each dimension of music, what it means, how sentences about it may start, and the control
#: that calls for it ("": always).
STARTERS = (
    ("Tempo", "how fast or slow the beat is", ("Ours was", "This shows that"), ""),
    ("Pitch", "how high or low the notes are", ("Ours was", "This shows that"), "pitch"),
    ("Dynamics", "how loud or soft the sound is", ("Ours was", "This shows that"), "dynamics"),
    ("How many taps", "few or many sounds", ("Ours was", "This shows that"), "density"),
    ("Brightness", "a soft, dark or a hard, bright sound", ("Ours was", "This shows that"), "brightness"),
    ("Timbre", "what kind of sound it is", ("Our instrument suits this part because", "It sounds like"), ""),
)
#: One number a shuffle, so that no two lists of one lesson are shuffled alike.
_FLOW, _BANK, _WORDS = 1, 2, 3


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
        "cards": cards(lesson, settings, pictures),
        "words": vocabulary(lesson),
        "starters": starters(lesson),
    }


def starters(lesson: Lesson) -> list[dict[str, Any]]:
    """Tempo and timbre for everyone, and what the rules of this lesson's groups use."""
    used = {key.rule.control for part in lesson.score.group_parts for key in rules_for(part, lesson)} | {""}
    return [
        {"name": n, "meaning": m, "starts": list(s), "all": not control}
        for n, m, s, control in STARTERS
        if control in used
    ]


def flow(lesson: Lesson) -> dict[str, Any]:
    """The stages to cut out, mixed up, and the chart to fill in. How much is given follows the scaffold."""
    sections = lesson.score.sections
    return {
        "pieces": [
            {"title": sections[i].title, "caption": sections[i].caption}
            for i in shuffled(len(sections), lesson.seed, _FLOW)
        ],
        "count": len(sections),
        "cycle": lesson.process.cycle and len(sections) > 1,
        "given": sections[0].title if lesson.scaffold == "full" else "",
        "bank": []
        if lesson.scaffold == "open"
        else [sections[i].title for i in shuffled(len(sections), lesson.seed, _BANK)],
    }


def vocabulary(lesson: Lesson) -> dict[str, Any]:
    """Words in the order of the alphabet, and their meanings mixed up, each with the word that belongs to it."""
    words = sorted(lesson.scene.vocabulary, key=lambda word: word.word.lower())
    order = shuffled(len(words), lesson.seed, _WORDS)
    return {
        "bank": [] if lesson.scaffold == "open" else [word.word for word in words],
        "rows": [{"word": words[i].word, "meaning": words[i].meaning} for i in order],
    }
