"""How to adapt the lesson to those in the class, said with this lesson's own groups and instruments.

Common practice in class music and in teaching pupils with special needs; the pupil, the family and whoever knows the
pupil come before it.
"""

from __future__ import annotations

from sonify.paper.facts import listed
from sonify.paper.room import fetched
from sonify.records.lesson import Lesson
from sonify.records.score import Part

FIRST = "Ask the pupil, and whoever knows the pupil best, before anything else. What helps one disturbs another."

_GRIP = "Foam or tape makes a beater thick; a shaker can be strapped to the wrist, a drum stood within reach. "
#: How a part is learned by ear, by how much of it sounds.
_BY_EAR = {
    "full": "Learn the part by ear: page.html, Hear, that group alone.",
    "part": "Learn what is given of the part by ear (page.html, Hear, that group alone), the rest from the group.",
    "open": "Learn the part by ear from the group as it invents it.",
}


def adaptations(lesson: Lesson) -> list[dict[str, str]]:
    """For whom, and what to do."""
    return [
        {"who": "No tuned instruments", "what": _untuned(lesson)},
        {"who": "Pupils who bear noise badly", "what": _calm(lesson)},
        {"who": "Pupils who hear little or nothing", "what": _hearing(lesson)},
        {"who": "Pupils who see little or nothing", "what": _seeing(lesson)},
        {
            "who": "Pupils who find grip or movement hard",
            "what": (_GRIP if fetched(lesson.score) else "")
            + "One slow stroke a bar, in time, carries a part as well as many.",
        },
        {
            "who": "Pupils new to English",
            "what": "Cards, flow chart and poster say it in pictures; teach the gestures and “stop” first. Let them "
            "tell the stages in their own language, then in ours.",
        },
    ]


def _tuned(lesson: Lesson) -> list[Part]:
    """The parts whose notes are on bars, strings or keys: voices need no instrument."""
    rows = {part: lesson.score.instrument(part.instrument) for part in lesson.score.group_parts}
    return [part for part, row in rows.items() if row.pitched and not row.bodily]


def _untuned(lesson: Lesson) -> str:
    parts = _tuned(lesson)
    if not parts:
        return "This pack needs none: voices and untuned sounds carry every part. Show high and low with your hand."
    names = listed([f"“{part.name}”" for part in parts])
    return (
        f"{names} {'has' if len(parts) == 1 else 'have'} notes. Take these instruments out of the class file and make "
        "the pack again: what your cupboard has, voices and body sounds then take over. Or sing the notes as they lie, "
        "high or low, and show their height with your hand."
    )


def _calm(lesson: Lesson) -> str:
    score = lesson.score
    loud = sorted(
        {part.group for part in score.group_parts for seat in part.seats if score.instrument(seat.instrument).loud >= 3}
    )
    start = (
        "This pack has no sudden loud sounds: your class file asks for that."
        if score.gentle
        else 'needs = ["no sudden loud sounds"] in the class file makes the whole pack gentler.'
    )
    place = f" A seat far from {listed([f'group {group}' for group in loud])}." if loud else ""
    listen = "" if lesson.scaffold == "open" else ", “Listen” on page.html through headphones set low"
    return (
        f"{start}{place} Tell them a bar ahead what comes. Ear defenders, a way out and a signal for “too much” agreed "
        f"before. Jobs with less sound: beating time beside you, turning pages, recording{listen}."
    )


def _hearing(lesson: Lesson) -> str:
    score = lesson.score
    rows = {part: score.instrument(part.instrument) for part in score.group_parts}
    low = [part for part, row in rows.items() if row.register == "low" and not row.bodily]
    felt = (
        f" Low sounds can be felt: a hand on the instrument of {listed([f'“{part.name}”' for part in low])}, or bare "
        "feet on a wooden floor."
        if low
        else " A drum or a low bar can be felt with a hand on it."
    )
    return (
        "A seat where your hands, your face and a neighbour's beaters are seen, light on you and not behind you. Every "
        f"cue has a gesture; the graphic score and page.html, Conduct, show the piece as it runs.{felt} The stop "
        "signal must be one to see."
    )


def _seeing(lesson: Lesson) -> str:
    bars = any(lesson.score.instrument(part.instrument).family == "bars" for part in lesson.score.group_parts)
    tape = " Take off the bars that are not played, and put a dot of raised tape on those that are." if bars else ""
    return (
        f"--large-print sets every sheet at 18 points and up. {_BY_EAR[lesson.scaffold]} "
        f"A neighbour's touch on the shoulder, or a quiet word from you, one bar ahead and at the stop.{tape} Describe "
        "the curves: each plot has words that a screen reader speaks."
    )
