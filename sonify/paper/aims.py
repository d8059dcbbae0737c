"""The assessment grid: science and music aims, each at three levels, in plain words of our own.

The levels are those that primary schools in England commonly use (common practice); the wording is ours and no official
one.
"""

from __future__ import annotations

from typing import Any

from sonify.facts.sheet import by_size, subject_of, way_fact
from sonify.facts.sounding import unmeasured
from sonify.records.fact import Fact, fact
from sonify.records.lesson import Lesson
from sonify.say import say
from sonify.say.parts import listed

LEVELS = ("towards", "at", "depth")
#: Aims of music, messages of `aims`.
_MUSIC = ("together", "expression", "choosing", "listening")


def levels() -> list[str]:
    """The three levels as the grid heads them."""
    return [say(fact(f"aims-{level}")) for level in LEVELS]


def grid(lesson: Lesson) -> list[dict[str, Any]]:
    """The aims by subject, as the sheet prints them: what an aim is, and what a pupil does at each level."""
    rows = {"science": _science(lesson), "music": [_aim(name) for name in _MUSIC]}
    return [
        {"subject": say(fact(f"aims-{subject}")), "aims": [[say(each) for each in aim] for aim in aims]}
        for subject, aims in rows.items()
    ]


def _aim(name: str) -> list[Fact]:
    return [fact(f"aims-{name}"), *(fact(f"aims-{name}-{level}") for level in LEVELS)]


def _science(lesson: Lesson) -> list[list[Fact]]:
    """What is known, why it happens, and what a model is, with this lesson's own stages, words and rules."""
    words = [word.word for word in lesson.scene.vocabulary[1:3]]
    such = {"words": "some" if words else "none", "such": listed(words)}
    knowing, why, model = (_aim(name) for name in ("knowing", "why", "model"))
    _, ranked = by_size(lesson)
    knowing[2] = fact("aims-knowing-at", n=len(lesson.score.sections), **such)
    if ranked:
        knowing[2] = fact("aims-knowing-at-measured", n=len(ranked), **such)
        knowing[3] = fact("aims-knowing-depth-measured")
        if lesson.timeline.axis:  # its steps have an order of their own
            knowing[2] = fact("aims-knowing-at-walked", n=len(ranked), changed=lesson.timeline.axis, **such)
    if unmeasured(lesson.scene):
        why[1], why[3] = fact("aims-why-towards-heard"), fact("aims-why-depth-told")
        model[2], model[3] = fact("aims-model-at-told"), fact("aims-model-depth-told")
        return [knowing, why, model]
    key = next(iter(lesson.controls.keys), None)
    if key is None:
        why[1] = fact("aims-why-towards-heard")
        return [knowing, why, model]
    quantity = subject_of(key, lesson).name
    why[1] = fact("aims-why-towards", quantity=quantity)
    model[2] = fact("aims-model-at-such", quantity=quantity, heard=way_fact(key, lesson))
    return [knowing, why, model]
