"""The teacher's pages after the brief, in the order of need, in few words: what does not fit goes to the appendix."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any, TypeVar

from sonify.paper.brief import brief, sentences
from sonify.paper.frames import links_of, ticket
from sonify.paper.links import Link
from sonify.paper.minutes import Things, Timetable, assumptions, in_lines, not_in, offered
from sonify.paper.printlist import PrintRow, sides, told
from sonify.paper.rules import rule_rows, rules_for
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.say import say
from sonify.say.parts import listed

#: Words of the guide before its appendix, and how many of them its headings and feet take.
MOST_WORDS, FURNITURE = 1_800, 240
#: Beliefs that stand in the guide before anything that can stand elsewhere.
FIRST_BELIEFS = 3
#: What templates are given and do not print as words.
UNPRINTED = ("colour", "hatching", "names", "seated", "loud", "players", "group")
Row = TypeVar("Row")


def brief_page(lesson: Lesson, plan: Timetable, rows: Sequence[PrintRow], care: list[str]) -> dict[str, Any]:
    """The first page."""
    return brief(lesson, plan) | {
        "print": told(rows),
        "sides": say(fact("brief-sides", sides=sides(rows))),
        "cautions": care,
    }


def plan_pages(lesson: Lesson, plan: Timetable, things: Things) -> dict[str, Any]:
    """The lessons step by step, what they leave out, the other numbers of lessons, and the practical."""
    room = lesson.classroom
    left = not_in(room.lessons, plan, things)
    return {
        "lessons": [
            {
                "head": say(fact("guide-lesson", number=number, n=len(plan.lessons), minutes=one.minutes)),
                "steps": in_lines(one.steps),
                "minutes": one.minutes,
            }
            for number, one in enumerate(plan.lessons, start=1)
        ],
        "left_out": say(fact("minutes-left-out", steps=listed(left)) if left else fact("minutes-whole")),
        "assumed": assumptions(things),
        "warning": plan.warning,
        "offered": offered(room.minutes, room.lessons),
        "practical": practical_box(lesson) if room.lessons > 1 else None,
    }


def practical_box(lesson: Lesson) -> dict[str, Any] | None:
    """What the class does with its own hands, with what, and how to take care; None where the scene has nothing."""
    practical = lesson.scene.practical
    if practical is None:
        return None
    return {
        "do": say(lesson.scene.remarked(practical.do)),
        "kit": say(fact("guide-kit", things=", ".join(practical.kit), minutes=practical.minutes)),
        "cautions": list(practical.cautions),
    }


def model_answers(lesson: Lesson, groups: Sequence[int]) -> list[dict[str, Any]]:
    """What each group's players can say, and the numbers that show it. What several groups share stands once, first;
    a sentence of the brief is named by its number."""
    told = {group: links_of(group, lesson) for group in groups}
    sorts = Counter(_sort(link) for links in told.values() for link in links)
    shared = {_sort(link): link for links in told.values() for link in links if sorts[_sort(link)] > 1}
    rows = [(say(fact("guide-all-groups")), list(shared.values()))]
    for group, links in told.items():
        rows.append((str(group), [link for link in links if _sort(link) not in shared]))
    before = sentences(lesson)

    def in_short(answer: str) -> str:
        return say(fact("guide-as-before", number=before.index(answer) + 1)) if answer in before else answer

    return [
        {"who": who, "says": [in_short(say(link.answer)) for link in links], "numbers": list(_numbers(links, lesson))}
        for who, links in rows
        if links
    ]


def _sort(link: Link) -> object:
    """Links alike: the same change of the science, and the same of the sound."""
    if link.quantity is None:
        return say(link.answer)
    return link.quantity.name, link.control, link.up, link.more


def _numbers(links: list[Link], lesson: Lesson) -> Iterator[str]:
    """Both ends of what changed, as the card has them."""
    for link in links:
        part = next(part for part in lesson.score.group_parts if part.name == link.part)
        ends = [span.letter for span in (link.first, link.last) if span is not None]
        for key in rules_for(part, lesson):
            if key.rule.control == link.control:
                rows = [row for row in rule_rows(key, part, lesson)["rows"] if row["letter"] in ends]
                steps = [say(fact("guide-step", **{k: row[k] for k in ("letter", "science", "sound")})) for row in rows]
                if len(steps) == len(set(ends)) == 2:
                    yield "; ".join(steps)


def answer_of_ticket(lesson: Lesson) -> str:
    asked = ticket(lesson)
    if not asked["choices"]:
        return ""
    return say(fact("guide-ticket", ask=asked["ask"], answer=asked["answer"]))


def room_for_words(taken: object) -> int:
    """How many words the guide may still have."""
    return MOST_WORDS - FURNITURE - words_in(taken)


def without_numbers(answers: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Model answers in fewer words: the numbers stand on the groups' cards."""
    return [row | {"numbers": []} for row in answers]


def within_words(taken: object, wishes: Sequence[list[Row]]) -> list[tuple[list[Row], list[Row]]]:
    """Of each list the first rows that still fit the guide's words, and the rest; the first list comes first."""
    room = room_for_words(taken)
    found = []
    for rows in wishes:
        kept: list[Row] = []
        for row in rows:
            if words_in(row) > room:
                break
            kept.append(row)
            room -= words_in(row)
        found.append((kept, rows[len(kept) :]))
    return found


def words_in(data: object) -> int:
    """How many words a template will print of some data, near enough."""
    if isinstance(data, str):
        return len(data.split())
    if isinstance(data, dict):
        return sum(words_in(each) for key, each in data.items() if key not in UNPRINTED)
    if isinstance(data, list | tuple):
        return sum(map(words_in, data))
    return 1 if isinstance(data, int | float) and not isinstance(data, bool) else 0
