"""The first page of the teacher's file: all that she must know to teach, on one page."""

from __future__ import annotations

from typing import Any

from sonify.facts.sheet import held
from sonify.facts.sounding import unmeasured
from sonify.paper.links import Link, main_links
from sonify.paper.minutes import Timetable
from sonify.paper.room import fetched, shelf
from sonify.records.fact import Named, fact
from sonify.records.lesson import Lesson
from sonify.say import say
from sonify.say.parts import counted, listed

#: Sentences that pupils will be able to say.
SENTENCES = 3
#: An instrument of so much or more is loud.
LOUD = 3


def brief(lesson: Lesson, plan: Timetable) -> dict[str, Any]:
    """Aim, sentences, kit, noise and timings; cautions and the print list are added by whoever has them."""
    return {
        "aim": say(_aim(lesson)),
        "sentences": sentences(lesson),
        "kit": _kit(lesson),
        "noise": _noise(lesson),
        "timings": [
            say(
                fact(
                    "brief-lesson",
                    number=number,
                    n=len(plan.lessons),
                    minutes=one.minutes,
                    steps=listed([f"{step.title} {step.minutes}" for step in one.steps]),
                )
            )
            for number, one in enumerate(plan.lessons, start=1)
        ],
    }


def _aim(lesson: Lesson) -> Any:
    if unmeasured(lesson.scene):
        return fact("brief-aim-order", n=len(lesson.score.sections))
    names = list(dict.fromkeys(link.quantity.name for link in main_links(lesson) if link.quantity is not None))
    if not names:
        return fact("brief-aim-played")
    told = listed([say(fact("brief-the", quantity=name)) for name in names[:SENTENCES]])
    return fact("brief-aim", quantities=told, one="yes" if len(names) == 1 else "no", first=Named("quantity", names[0]))


def sentences(lesson: Lesson) -> list[str]:
    """What pupils will be able to say, as a model answer each: two links, and what the music makes too much of; where
    there are fewer, questions of the scene with their answers, but for those that a remark stands on: they may not be
    so here."""
    found = [say(link.answer) for link in _apart(main_links(lesson))]
    keys = [key for key in lesson.controls.keys if key.for_pupils and key.audible]
    model = [say(fact("brief-model", told=say(held(key.for_pupils, lesson)))) for key in keys[:1]]
    remarked = lesson.scene.remarked
    asked = [
        say(fact("brief-asked", ask=say(q.ask), answer=say(q.answer)))
        for q in lesson.scene.questions
        if (say(remarked(q.ask)), say(remarked(q.answer))) == (say(q.ask), say(q.answer))
    ]
    kept = found[: SENTENCES - len(model)] + model
    return (kept + asked)[:SENTENCES]


def _apart(links: list[Link]) -> list[Link]:
    """Links of different quantities first."""
    names: set[str] = set()
    first: list[Link] = []
    later: list[Link] = []
    for link in links:
        name = link.quantity.name if link.quantity is not None else ""
        (later if name in names else first).append(link)
        names.add(name)
    return first + later


def _kit(lesson: Lesson) -> list[str]:
    """From the cupboard, for the practical, and for the room."""
    rows = [row["told"] for row in shelf(lesson)]
    practical = lesson.scene.practical
    found = [say(fact("brief-cupboard", things=", ".join(rows)) if rows else fact("brief-no-cupboard"))]
    if practical is not None:
        found.append(
            say(fact("brief-practical-kit", lessons=lesson.classroom.lessons, things=", ".join(practical.kit)))
        )
    return [*found, say(fact("brief-room-kit"))]


def _noise(lesson: Lesson) -> list[str]:
    """Who tries out when, so that a room bears it."""
    score = lesson.score
    loud = sorted(
        {p.group for p in score.group_parts for seat in p.seats if score.instrument(seat.instrument).loud >= LOUD}
    )
    told = fact(
        "brief-noise",
        groups=len({part.group for part in score.group_parts}),
        loud="some" if loud else "none",
        which=listed([str(group) for group in loud]),
        n=len(loud),
        fetched="yes" if fetched(score) else "no",
    )
    gentle = [say(fact("brief-gentle"))] if score.gentle else []
    return [say(told), *gentle]


def numbers(lesson: Lesson) -> str:
    """The class in a line."""
    room = lesson.classroom
    return say(
        fact(
            "brief-class",
            year=room.year,
            pupils=counted("pupil", room.pupils),
            groups=counted("group", len({part.group for part in lesson.score.group_parts})),
        )
    )
