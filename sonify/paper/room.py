"""Who plays what, what to bring from the cupboard and what stays in it, where to sit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from sonify.paper.facts import badge, groups
from sonify.paper.settings import PaperSettings
from sonify.records.fact import Fact, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Score
from sonify.say import say
from sonify.say.parts import counted, listed, own_name


def group_rows(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """Each group with its parts, its instruments and players, and which of these are loud."""
    score = lesson.score
    rows = [
        {
            **badge(group, settings),
            "listed": listed([own_name(part) for part in parts]),
            "names": [own_name(part) for part in parts],
            "own": [own_name(part) for part in parts if not part.pulse],  # whoever waits keeps the pulse
            "players": max(part.players for part in parts),
            "seats": [line for part in parts for line in _seats(part, score, named=len(parts) > 1)],
            "loud": [
                score.instrument(i).called
                for i in dict.fromkeys(seat.instrument for part in parts for seat in part.seats)
                if score.instrument(i).loud >= 3
            ],
        }
        for group, parts in groups(score).items()
    ]
    for row in rows:
        names = ", ".join(row.pop("own") or row["names"])
        row["seated"] = say(fact("room-loud", part=names)) if row["loud"] else names
    return rows


def _seats(part: Part, score: Score, *, named: bool) -> list[str]:
    """A line for each of the part's instruments; a group with two parts has them named."""
    found = []
    for seat in part.seats:
        what, players = _instrument(seat.instrument, seat.count, score), counted("player", seat.players)
        told = fact("room-seat", what=what, players=players)
        if seat.job:
            told = fact("room-seat-job", what=what, players=players, job=say(seat.job))
        found.append(say(fact("room-seat-of", part=own_name(part), seat=told) if named else told))
    return found


def _instrument(instrument_id: str, count: int, score: Score) -> str:
    row = score.instrument(instrument_id)
    if row.bodily:
        return row.own or row.plural.lower()
    return f"{count} {row.of(count)}"


def fetched(score: Score) -> bool:
    """Whether anything comes out of the cupboard: voices and body sounds need nothing."""
    return any(not score.instrument(name).bodily for name in _needed(score))


def _needed(score: Score) -> dict[str, int]:
    """The most of each instrument that the groups need at once."""
    needed = Counter[str]()
    for parts in groups(score).values():
        in_group = Counter[str]()
        for bar in {entry.bar for part in parts for entry in part.entries}:
            in_group |= _at_once([part for part in parts if part.plays_in(bar)])
        needed += in_group
    return needed


def _at_once(parts: Sequence[Part]) -> Counter[str]:
    """What a group's parts of one bar need: a team plays in turn with the same instruments, two teams play at once."""
    teams: dict[int, Counter[str]] = {}
    for part in parts:
        own = teams.setdefault(part.team, Counter())
        for seat in part.seats:
            own |= Counter({seat.instrument: seat.count})
    return sum(teams.values(), Counter())


def shelf(lesson: Lesson) -> list[dict[str, Any]]:
    """What to take from the cupboard, and of how many."""
    score = lesson.score
    rows = [(score.instrument(name), count) for name, count in _needed(score).items()]
    found = []
    for row, count in sorted(rows, key=lambda pair: pair[0].name):
        if not row.bodily:
            what, have = _instrument(row.id, count, score), lesson.classroom.count(row.id)
            found.append({"what": what, "have": have, "told": say(fact("room-have", what=what, have=have))})
    return found


def left_over(lesson: Lesson) -> list[str]:
    """Instruments that a part asked for before the ones it has, and that stay in the cupboard with nobody using them.

    The one that a swap names is left to it.
    """
    score, taken = lesson.score, _needed(lesson.score)
    swapped = {(swap.part, swap.wanted.lower().replace(" ", "-")) for swap in score.swaps}
    found: list[str] = []
    for plan in lesson.scene.parts:
        part = next((part for part in score.group_parts if part.name == plan.name), None)
        if part is None:
            continue
        for sound in _before_its_own(plan.sounds, {seat.instrument for seat in part.seats}):
            have = lesson.classroom.count(sound)
            if have and sound not in taken and (plan.name, sound) not in swapped:
                found.append(say(_stays(part, sound.replace("-", " "), have)))
    return found


def _stays(part: Part, name: str, have: int) -> Fact:
    several = name if have == 1 or name.endswith("s") else f"{name}s"
    if have < part.players:
        return fact("room-too-few", have=have, name=several, part=part.name, n=have, players=part.players)
    return fact("room-left", have=have, name=several, part=part.name)


def _before_its_own(sounds: tuple[str, ...], own: set[str]) -> list[str]:
    """The instruments of a part's list that stand before the first one it plays, by their catalogue ids."""
    ids = [sound.lower().replace(" ", "-") for sound in sounds]
    first = next((place for place, sound in enumerate(ids) if sound in own), 0)
    return ids[:first]


def seating(rows: list[dict[str, Any]]) -> list[str]:
    """What to heed when the groups sit down."""
    loud = [row for row in rows if row["loud"]]
    told = [fact("room-loud-group", group=row["group"], what=listed(row["loud"])) for row in loud]
    return [say(each) for each in (fact("room-arc"), *told)]
