"""Sentences to end: "Our sound, and why" at three levels for each group, and the one question of the lesson.

The question is asked before the lesson, after it and three weeks later, word for word the same; its answer is computed.
"""

from __future__ import annotations

from typing import Any

from sonify.facts.sheet import by_size, stage_mean
from sonify.facts.sounding import unmeasured
from sonify.kinds.ideas import IDEAS
from sonify.paper.facts import badge, groups
from sonify.paper.links import WAYS, Link, all_links, answers, main_links
from sonify.paper.settings import PaperSettings
from sonify.records.fact import Fact, fact
from sonify.records.lesson import Lesson
from sonify.say import say
from sonify.say.parts import own_name

#: With help, for everyone, with more to think about.
LEVELS = ("help", "all", "more")
#: Sentences that a group ends.
MOST = 2
#: Answers to tick.
CHOICES = 3


def sound_sheets(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """For each group its half sheet at each level."""
    return [
        {
            **badge(group, settings),
            "names": ", ".join(own_name(part) for part in parts if not part.pulse) or own_name(parts[0]),
            "group_name": say(fact("sheet-group", group=group)),
            "levels": [_sheet(level, group, links_of(group, lesson), lesson) for level in LEVELS],
        }
        for group, parts in groups(lesson.score).items()
    ]


def links_of(group: int, lesson: Lesson) -> list[Link]:
    """What a group tells of: the first link of each of its parts, then their second ones."""
    mine = [all_links(lesson)[part.name] for part in groups(lesson.score)[group] if not part.pulse]
    found = [links[place] for place in range(MOST) for links in mine if place < len(links)]
    distinct = {say(link.answer): link for link in found}
    return list(distinct.values())[:MOST]


def _sheet(level: str, group: int, links: list[Link], lesson: Lesson) -> dict[str, Any]:
    changes = all(link.kind == "change" for link in links)
    bank = _sounds() if level != "more" and any(link.kind == "stage" for link in links) else []
    bank = _bank(links) if level == "all" and changes else bank
    head = level if changes and level != "all" else "all" if bank else "plain"
    return {
        "level": level,
        "head": say(fact(f"frame-head-{head}")),
        "bank": bank,
        "frames": [_frame(level, link, lesson) for link in links],
        "more": [say(fact("frame-model"))] if level == "more" else [],
    }


def _frame(level: str, link: Link, lesson: Lesson) -> dict[str, str]:
    told = {
        "level": level,
        "quantity": link.quantity.name if link.quantity else "",
        "way": "up" if link.up else "down",
        "control": link.control or "none",
        "order": "size" if by_size(lesson)[0] else "time",
        "stage": say(link.stage),
    }
    where = ""
    if link.kind == "change" and link.first is not None and link.last is not None:
        where = say(fact("frame-from", first=link.first.name, last=link.last.name))
    numbers = fact("frame-numbers") if level == "more" and link.kind == "change" else None
    return {
        "where": where,
        "words": say(fact(f"frame-{link.kind}", **told)),
        "numbers": say(numbers) if numbers else "",
    }


def _sounds() -> list[str]:
    """Words for a sound, where its author chose some of them."""
    return [say(fact("order-sound", word=word)) for word in IDEAS]


def _bank(links: list[Link]) -> list[str]:
    """Words that the sentences need, with the contrary of each."""
    found: list[str] = []
    for link in links:
        if link.kind == "change" and link.quantity is not None:
            found += [link.quantity.name, *(say(fact(f"frame-{way}")) for way in WAYS[link.control])]
    return list(dict.fromkeys(found))


# The question.


def ticket(lesson: Lesson) -> dict[str, Any]:
    """The question with its answers to tick, and which is right."""
    asked, choices, right = _question(lesson)
    return {
        "ask": say(asked),
        "choices": [say(choice) for choice in choices],
        "right": right,
        "answer": say(choices[right]) if choices else "",
        "when": [say(fact(f"frame-{when}")) for when in ("before", "after", "later")],
        "because": say(fact("frame-because")),
        "ends": [say(fact("frame-can-say")), say(fact("frame-still-ask"))],
    }


def _question(lesson: Lesson) -> tuple[Fact, list[Fact], int]:
    if by_size(lesson)[0]:
        return _greatest(lesson)
    links = [] if unmeasured(lesson.scene) else main_links(lesson)
    spans = [link for link in links if link.first is not None and link.last is not None]
    if not spans:
        return _next(lesson)
    link = spans[0]
    assert link.quantity is not None and link.first is not None and link.last is not None
    sections = {section.bar: section for section in lesson.score.sections}
    ends = [sections.get(span.bar) for span in (link.first, link.last)]
    if None in ends:
        return _next(lesson)
    first, last = (say(section.title) for section in ends if section is not None)
    asked = fact("frame-what-does", first=first, last=last, quantity=link.quantity.name)
    choices = [fact("frame-goes", way=way) for way in ("up", "down", "same")]
    return asked, choices, 0 if link.up else 1


def _greatest(lesson: Lesson) -> tuple[Fact, list[Fact], int]:
    name, ranked = by_size(lesson)
    quantity = lesson.timeline.quantity(name)
    top = ranked[-1]
    means = [stage_mean(quantity, section, lesson) for section in ranked]
    others = [section for section, mean in zip(ranked, means, strict=True) if mean < means[-1]]
    shown = sorted([top, *others[:1], *others[1:][-1:]], key=lambda section: section.bar)[:CHOICES]
    return (
        fact("frame-which-most", quantity=name, answer=answers(quantity, means)),
        [fact("frame-choice", title=say(section.title)) for section in shown],
        shown.index(top),
    )


def _next(lesson: Lesson) -> tuple[Fact, list[Fact], int]:
    """What comes next, where the link is the author's own; where there is one stage alone, what the sound is like."""
    sections = lesson.score.sections
    if len(sections) < 2:
        return fact("frame-what-heard", title=say(sections[0].title) if sections else lesson.score.title), [], 0
    place = max(0, len(sections) // 2 - 1)
    right = sections[place + 1]
    others = [section for section in sections if section not in (sections[place], right)]
    shown = sorted([right, *others[-2:]], key=lambda section: say(section.title))
    return (
        fact("frame-what-next", title=say(sections[place].title)),
        [fact("frame-choice", title=say(section.title)) for section in shown],
        shown.index(right),
    )
