"""The assessment grid: science and music aims, each at three levels, in plain words of our own.

The levels are those that primary schools in England commonly use (common practice); the wording is ours and no official
one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sonify.paper.facts import listed
from sonify.paper.rules import RISES, rises, subject_of
from sonify.records.lesson import Lesson

LEVELS = ("Working towards it", "At it", "In greater depth")
HOW_TO = (
    "Write only the names of those who are not there yet and of those who go further: all others are at it. Listen "
    "while groups explore, at the rehearsal, and when you play the recording back."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """One aim: what it is, and what a pupil does at each of the three levels."""

    aim: str
    towards: str
    at: str
    depth: str


_MUSIC = (
    Aim(
        aim="Playing together",
        towards="Joins in, and finds the beat again with a neighbour's help.",
        at="Starts and stops at the cue, and keeps to the beat of the group.",
        depth="Holds an own part steady against the others, and is with a new beat at once.",
    ),
    Aim(
        aim="Playing with expression",
        towards="Plays softer or louder when told to.",
        at="Grows and fades with the conductor's hands, and plays with care for the sound.",
        depth="Shapes a phrase unasked, and says which change in the science it follows.",
    ),
    Aim(
        aim="Making and choosing sounds",
        towards="Tries several sounds and takes one.",
        at="Chooses tempo, pitch, dynamics or timbre for a purpose and gives a reason.",
        depth="Compares two ideas, improves one, and speaks of texture or structure as well.",
    ),
    Aim(
        aim="Listening",
        towards="Notices that something in the music has changed.",
        at="Says what has changed, with the words for it.",
        depth="Knows a stage or a group by ear, and backs it with what was heard.",
    ),
)


def grid(lesson: Lesson) -> list[dict[str, Any]]:
    """The aims by subject, as the sheet prints them."""
    return [
        {"subject": subject, "aims": [[aim.aim, aim.towards, aim.at, aim.depth] for aim in aims]}
        for subject, aims in (("Science", _science(lesson)), ("Music", _MUSIC))
    ]


def _science(lesson: Lesson) -> tuple[Aim, ...]:
    """What is known, why it happens, and what a model is, with this lesson's own stages, words and rules."""
    count = len(lesson.score.sections)
    words = [word.word for word in lesson.scene.vocabulary[1:3]]
    with_words = f", using words such as {listed(words)}" if words else ""
    key = next(iter(lesson.controls.keys), None)
    quantity = subject_of(key, lesson).name if key else "what we heard"
    rule = f" (more {quantity}: {RISES[key.rule.control][0 if rises(key, lesson) else 1]})" if key else ""
    return (
        Aim(
            aim="Knowing what happens",
            towards="Names some of the stages with the cards in view.",
            at=f"{'Puts all ' + str(count) + ' stages in order' if count > 1 else 'Tells the stage'} and says what "
            f"happens{with_words}.",
            depth="Explains how one stage brings on the next, also in another place than this one.",
        ),
        Aim(
            aim="Explaining why",
            towards=f"Says that something changes, the {quantity} for example.",
            at="Says what makes it change, with a reason from the science.",
            depth="Uses a figure or a curve as evidence, and foretells what another start would bring.",
        ),
        Aim(
            aim="Seeing the music as a model",
            towards="Matches one sound with what it stands for.",
            at=f"Explains two rules of the key{rule}.",
            depth="Says what the music exaggerates or leaves out, and why it has to.",
        ),
    )
