"""How to adapt the lesson to those in the class, said with this lesson's own groups and instruments.

Common practice in class music and in teaching pupils with special needs; the pupil, the family and whoever knows the
pupil come before it.
"""

from __future__ import annotations

from sonify.facts.places import places, struck_with_beaters
from sonify.kinds.needs import NEW_TO_ENGLISH
from sonify.paper.facts import groups
from sonify.paper.own_cards import picture_copies
from sonify.paper.printlist import Marks, pages_text
from sonify.paper.room import fetched
from sonify.records.fact import Arg, Fact, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part
from sonify.say import say
from sonify.say.parts import listed

#: For whom, in the sheet's order: messages of `adapt`.
WHOM = ("untuned", "calm", "hearing", "seeing", "grip", "english")


def kept_places(lesson: Lesson, marks: Marks) -> list[dict[str, str]]:
    """Where each pupil sits of whom the class file tells, and with what: for the teacher alone."""
    score, found = lesson.score, []
    where = say(fact("own-place-card", where=pages_text(marks.of("own")))) if marks.of("own") else ""
    loud = max(groups(score), key=lambda group: _loudest(group, lesson))
    for place in places(lesson):
        row = score.instrument(place.seat.instrument)
        told = fact(
            f"own-place-{place.need.replace(' ', '-')}",
            group=place.part.group,
            part=place.part.name,
            what=row.called,
            beaters="own" if row.bodily else "yes" if struck_with_beaters(place, score) else "no",
            own="yes" if row.bodily else "no",
            loud=loud,
        )
        found.append({"who": say(fact("own-who", need=place.need)), "what": f"{say(told)} {where}".strip()})
    for group, _ in picture_copies(lesson):
        who, what = fact("own-who", need=NEW_TO_ENGLISH), fact("own-place-pictures", group=group)
        found.append({"who": say(who), "what": say(what)})
    return found


def _loudest(group: int, lesson: Lesson) -> int:
    score = lesson.score
    seats = [seat for part in groups(score)[group] for seat in part.seats]
    return max((score.instrument(seat.instrument).loud for seat in seats), default=0)


def adaptations(lesson: Lesson) -> list[dict[str, str]]:
    """For whom, and what to do."""
    here = _places(lesson)
    untuned = "untuned-what" if _tuned(lesson) else "untuned-none"
    messages = {name: untuned if name == "untuned" else f"{name}-what" for name in WHOM}
    return [
        {
            "who": say(fact(f"adapt-{name}")),
            "what": say(Fact(f"adapt-{message}", tuple((here | _who_has_notes(lesson, name)).items()))),
        }
        for name, message in messages.items()
    ]


def _places(lesson: Lesson) -> dict[str, Arg]:
    """What this lesson has of all that the advice speaks of."""
    score = lesson.score
    rows = {part: score.instrument(part.instrument) for part in score.group_parts}
    loud = sorted(
        {part.group for part in score.group_parts for seat in part.seats if score.instrument(seat.instrument).loud >= 3}
    )
    low = [part for part, row in rows.items() if row.register == "low" and not row.bodily]
    return {
        "gentle": "yes" if score.gentle else "no",
        "loud": "some" if loud else "none",
        "groups": listed([say(fact("adapt-group", group=group)) for group in loud]),
        "given": lesson.scaffold,
        "low": "some" if low else "none",
        "parts": _named(low),
        "bars": "yes" if any(row.family == "bars" for row in rows.values()) else "no",
        "fetched": "yes" if fetched(score) else "no",
        "plots": "yes" if lesson.timeline.quantities else "no",
    }


def _who_has_notes(lesson: Lesson, name: str) -> dict[str, Arg]:
    tuned = _tuned(lesson)
    return {"parts": _named(tuned), "n": len(tuned)} if name == "untuned" else {}


def _named(parts: list[Part]) -> str:
    return listed([say(fact("adapt-part", name=part.name)) for part in parts])


def _tuned(lesson: Lesson) -> list[Part]:
    """The parts whose notes are on bars, strings or keys: voices need no instrument."""
    rows = {part: lesson.score.instrument(part.instrument) for part in lesson.score.group_parts}
    return [part for part, row in rows.items() if row.pitched and not row.bodily]
