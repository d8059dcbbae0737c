"""The lesson in minutes: steps that add up to the minutes the class has, in one lesson, two, or four short ones.

How long each step takes is assumed and stated (common practice in class music lessons; no published figure). What does
not fit is left out, and the plan says what.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil

from sonify.frozen import dataclass
from sonify.records.classroom import LESSONS
from sonify.records.fact import Fact, Words, fact
from sonify.say import say
from sonify.say.parts import counted

#: Exploring in groups: the least that is of use, and what an ordinary lesson gives it.
LEAST_EXPLORING_MIN, EXPLORING_MIN = 8, 15
#: Four lessons are short ones: half of the class's minutes where these are more than so many.
SHORT_MIN = 40
#: Minutes of steps that last alike for every class and piece.
FIXED = {"question": 3, "story": 3, "rules": 3, "remember": 3, "talk": 4, "words": 6, "cards": 4, "exit": 6, "more": 5}


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of a lesson."""

    minutes: int
    title: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OneLesson:
    """A lesson's steps in order, which add up to its minutes, and what was left out of it."""

    minutes: int
    steps: tuple[Step, ...]
    left_out: tuple[str, ...] = ()
    short: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable:
    """The lessons of a piece. warning: says when the minutes do not hold what has to be there."""

    lessons: tuple[OneLesson, ...]
    warning: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Things:
    """What the steps use.

    order, chart, words, ...: what a teacher finds it under. compare: how two stages are compared by ear. given: how
    much of the groups' parts sounds in the recording: "full", "part" or, where the pupils invent it all, "open".
    fetched: whether any group has instruments to fetch. ordered: whether the stages come one after the other in the
    science. story: whether the scene tells one. practical_min: how long the practical takes, 0 without one. clips: how
    many the listening check has.
    """

    order: Words = fact("minutes-order")
    chart: Words = fact("minutes-chart")
    cards: Words = fact("minutes-cards")
    words: Words = fact("minutes-words")
    sound: Words = fact("minutes-sound")
    ticket: Words = fact("minutes-ticket")
    check: Words = fact("minutes-check")
    compare: Words = fact("minutes-one-stage")
    given: str = "full"
    fetched: bool = True
    ordered: bool = True
    story: bool = True
    measured: bool = True
    stages: int = 5
    groups: int = 5
    piece_s: float = 180.0
    practical_min: int = 0
    vocabulary: bool = True
    clips: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Outline:
    """A lesson before its minutes are dealt out: its steps in order, those that must be there, and wishes in order of
    their worth, each a step with so many minutes more; `parted` wishes are met in part where there is no more."""

    order: tuple[str, ...]
    must: tuple[tuple[str, int], ...]
    wishes: tuple[tuple[str, int], ...] = ()
    parted: tuple[str, ...] = ("explore", "rehearse", "talk")


def assumed(things: Things) -> dict[str, int]:
    """The minutes of every step: a minute a group to fetch instruments, half a minute to bring them back, a minute a
    stage to rehearse, half a minute a stage to put it in order on the board and two to cut it out and talk about it."""
    listening = ceil(things.piece_s / 60)
    return FIXED | {
        "board": 3 + ceil(things.stages / 2),
        "cut": 4 + 2 * things.stages,
        "practical": things.practical_min,
        "fetch": 2 + things.groups if things.fetched else 3,
        "explore": LEAST_EXPLORING_MIN,
        "rehearse": 2 + things.stages,
        "perform": listening + 1,  # a minute to settle before it
        "again": listening + 1,
        "listen": listening + 1,
        "clear": 1 + ceil(things.groups / 2) if things.fetched else 1,
        "check": ceil(1.5 * things.clips),
    }


def lesson_minutes(minutes: int, lessons: int) -> int:
    """How long each lesson is: the class's minutes, and in four lessons half of them where they are many."""
    return ceil(minutes / 2) if lessons == 4 and minutes > SHORT_MIN else minutes


def minute_plan(minutes: int, lessons: int, things: Things) -> Timetable:
    """The lessons, each with steps that add up to its minutes."""
    took = assumed(things)
    each = lesson_minutes(minutes, lessons)
    found = tuple(_dealt(each, outline, took, things) for outline in _outlines(lessons, took, things))
    short = next((one for one in found if one.short), None)
    if short is None:
        return Timetable(lessons=found)
    warning = fact("minutes-too-few", minutes=each, once=took["perform"], listening=took["listen"])
    return Timetable(lessons=found, warning=say(warning))


def _outlines(lessons: int, took: Mapping[str, int], things: Things) -> tuple[_Outline, ...]:
    def taking(*names: str) -> tuple[tuple[str, int], ...]:
        return tuple((name, took[name]) for name in names if took[name] and there[name])

    there = dict.fromkeys(took, True) | {"story": things.story, "words": things.vocabulary}
    longer = ("explore", EXPLORING_MIN - LEAST_EXPLORING_MIN)
    making = (*taking("listen", "again"), ("rehearse", things.stages), ("explore", 10))
    playing = ("fetch", "explore", "rehearse", "perform", "again", "listen", "clear", "exit", "check")
    if lessons == 1:
        return (
            _Outline(
                order=("question", "story", "board", "rules", *playing, "more"),
                must=taking("question", "story", "board", "rules", "fetch", "explore", "rehearse", "perform", "clear")
                + taking("exit"),
                wishes=(longer, *making, *taking("check")),
            ),
        )
    science = _Outline(
        order=("question", "story", "practical", "cut", "rules", "cards", "words", "talk"),
        must=taking("question", "story", "practical", "cut", "rules"),
        wishes=(*taking("cards", "talk", "words"), ("talk", 10)),
    )
    if lessons == 2:
        return (
            science,
            _Outline(
                order=("remember", *playing),
                must=taking("remember", "fetch", "explore", "rehearse", "perform", "clear", "exit"),
                wishes=(longer, *making, *taking("check")),
            ),
        )
    return (
        _Outline(
            order=("question", "story", "practical", "talk"),
            must=taking("question", "story", "practical"),
            wishes=(*taking("talk"), ("talk", 10)),
        ),
        _Outline(
            order=("remember", "cut", "rules", "cards", "words"),
            must=taking("remember", "cut", "rules"),
            wishes=taking("cards", "words"),
        ),
        _Outline(
            order=("remember", "fetch", "explore", "rehearse", "clear"),
            must=(*taking("fetch", "explore"), ("rehearse", 2), *taking("clear")),
            wishes=(longer, ("rehearse", things.stages), ("explore", 10)),
        ),
        _Outline(
            order=("remember", "fetch", "rehearse", "perform", "again", "listen", "clear", "exit", "check"),
            must=(*taking("fetch"), ("rehearse", 3), *taking("perform", "clear", "exit")),
            wishes=(*taking("listen", "again"), ("rehearse", things.stages), *taking("check")),
        ),
    )


#: What a lesson does without first, where it is too short for all that has to be there.
_GIVEN_UP = ("rules", "story", "board", "cards", "practical", "remember", "question")


def _dealt(minutes: int, outline: _Outline, took: Mapping[str, int], things: Things) -> OneLesson:
    given = dict(outline.must)
    without: list[str] = []
    for name in (name for name in _GIVEN_UP if name in given):
        if sum(given.values()) > minutes:
            del given[name]
            without.append(name)
    short = sum(given.values()) > minutes
    if short:
        return OneLesson(minutes=minutes, steps=_emergency(minutes, took, things), short=True)
    for name, wish in outline.wishes:
        room = minutes - sum(given.values())
        most = min(wish, room) if name in outline.parted and name in given else wish
        if 0 < most <= room:
            given[name] = given.get(name, 0) + most
        elif name not in given:
            without.append(name)
    spare = minutes - sum(given.values())
    names = [name for name in outline.order if name in given]
    steps = [Step(minutes=given[name], title=_title(name, things), what=_what(name, things)) for name in names]
    if spare:
        steps.append(Step(minutes=spare, title=_title("hand", things), what=_what("hand", things)))
    return OneLesson(minutes=minutes, steps=tuple(steps), left_out=tuple(_title(name, things) for name in without))


def _emergency(minutes: int, took: Mapping[str, int], things: Things) -> tuple[Step, ...]:
    """What a lesson too short for all steps can hold: the performance, and talk before and after."""
    playing = min(took["perform"], minutes)
    before = (minutes - playing) // 2
    rows = (("remember", before), ("perform", playing), ("exit", minutes - playing - before))
    return tuple(
        Step(minutes=each, title=_title(name, things), what=_what(name, things)) for name, each in rows if each
    )


def not_in(lessons: int, plan: Timetable, things: Things) -> list[str]:
    """What a plan of one lesson leaves to others, besides what it had no room for."""
    others = ["practical"] if things.practical_min else []
    others += ["cut", *(["words"] if things.vocabulary else [])]
    told = [_title(name, things) for name in others] if lessons == 1 else []
    told += [title for one in plan.lessons for title in one.left_out]
    done = {step.title for one in plan.lessons for step in one.steps}
    return [title for title in dict.fromkeys(told) if title not in done]


def offered(minutes: int, lessons: int) -> list[str]:
    """The other numbers of lessons, each in a line: what the class file is to say, and what each lesson is for."""
    return [
        say(fact("minutes-offered", lessons=other, minutes=lesson_minutes(minutes, other)))
        for other in LESSONS
        if other != lessons
    ]


def assumptions(things: Things) -> str:
    """What the minutes rest on, in words."""
    took = assumed(things)
    return say(
        fact(
            "minutes-assumed",
            fetched="yes" if things.fetched else "no",
            fetch=took["fetch"],
            clear=took["clear"],
            perform=took["perform"],
            exit=took["exit"],
        )
    )


#: Steps that are called otherwise than what they use.
_TITLES = {"words": "know-words", "check": "hear-check", "cards": "read-cards"}


def _title(name: str, things: Things) -> str:
    name = _TITLES.get(name, name)
    if name == "rules" and not things.measured:
        name = "sounds"
    if name == "fetch" and not things.fetched:
        name = "places"
    return say(fact(f"minutes-{name}"))


def _what(name: str, things: Things) -> str:
    """What happens in a step."""
    if name == "rules":
        return say(things.compare)
    places = {
        "given": things.given,
        "fetched": "yes" if things.fetched else "no",
        "ordered": "yes" if things.ordered else "no",
        "measured": "yes" if things.measured else "no",
        "listening": counted("minute", ceil(things.piece_s / 60)),
        "groups": things.groups,
    } | {each: say(getattr(things, each)) for each in ("order", "chart", "cards", "words", "sound", "ticket", "check")}
    return say(Fact(f"minutes-{name}-what", tuple(places.items())))


def in_lines(steps: Sequence[Step]) -> list[dict[str, object]]:
    """Steps as a template takes them."""
    return [{"minutes": step.minutes, "title": step.title, "what": step.what} for step in steps]
