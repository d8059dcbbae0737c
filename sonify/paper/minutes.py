"""The lesson in minutes: steps that add up to the minutes the class has, with time to explore in groups.

The shares are ours (common practice in class music lessons), not a published figure.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from sonify.records.fact import Arg, Fact, Words, fact
from sonify.say import say
from sonify.say.parts import counted

EXPLORING_MIN = 15
#: From so long a lesson on, exploring gets its full quarter of an hour; a shorter lesson gives it a third.
FULL_LESSON_MIN = 45
#: Putting instruments out is never hurried: most accidents and most noise happen there (common practice).
GIVING_OUT_MIN = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the lesson."""

    minutes: int
    title: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The steps in order; `warning` says when the minutes do not hold them.

    advice: what to leave out first, and how to make two lessons of it; none where the plan is cut down already.
    """

    steps: tuple[Step, ...]
    warning: str = ""
    advice: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Things:
    """What the steps use, by the names a teacher finds it under: pages of pupils.pdf, and letters of stages.

    compare: how two stages are compared by ear. given: how much of the groups' parts sounds in the recording: "full",
    "part" or, where the pupils invent it all, "open". fetched: whether any group has instruments to fetch, and does not
    play on voices and bodies alone. ordered: whether the stages come one after the other in the science.
    story: whether the scene tells one.
    """

    order: Words = fact("minutes-order")
    chart: Words = fact("minutes-chart")
    cards: Words = fact("minutes-cards")
    words: Words = fact("minutes-words")
    sound: Words = fact("minutes-sound")
    compare: Words = fact("minutes-one-stage")
    given: str = "full"
    fetched: bool = True
    ordered: bool = True
    story: bool = True
    measured: bool = True


#: Titles of the steps, messages of `minutes`, with the share of the time that the fixed steps leave.
_BEFORE = (("start", 4), ("science", 8), ("rules", 4))
_REST = (("rehearse", 8), ("link", 7))


def _title(name: str) -> str:
    return say(fact(f"minutes-{name}"))


def _hear(things: Things) -> str:
    """What the step is called in which two stages are compared by ear."""
    return _title("rules" if things.measured else "sounds")


def _what(name: str, things: Things) -> str:
    """What happens in a step."""
    if name == "rules":
        return say(things.compare)
    places: dict[str, Arg] = {
        "given": things.given,
        "fetched": "yes" if things.fetched else "no",
        "story": "told" if things.story else "none",
        "order": say(things.order),
        "chart": say(things.chart),
        "cards": say(things.cards),
        "words": say(things.words),
        "sound": say(things.sound),
    }
    message = f"minutes-{name}-what"
    if name == "science" and not (things.ordered and things.measured):
        message = "minutes-science-unordered" if not things.ordered else "minutes-science-told"
    return say(Fact(message, tuple(places.items())))


def minute_plan(minutes: int, piece_s: float, things: Things | None = None) -> Plan:
    """The lesson's steps, which add up to `minutes`. piece_s: how long one playing of the piece takes."""
    things = things or Things()
    listening = ceil(piece_s / 60)
    once = listening + 1  # a minute to settle before it
    exploring = EXPLORING_MIN if minutes >= FULL_LESSON_MIN else minutes // 3
    shared = (*_BEFORE, *_REST)
    left = minutes - exploring - once - listening - GIVING_OUT_MIN
    if left < len(shared):
        warning = fact("minutes-too-few", once=once, listening=listening, minutes=minutes)
        return Plan(steps=_split(minutes, once, things), warning=say(warning))
    twice = left - once >= 4 * len(shared)
    performing = (2 * once if twice else once) + listening
    given = apportioned(minutes - exploring - performing - GIVING_OUT_MIN, [share for _, share in shared])
    steps = [
        Step(minutes=m, title=_hear(things) if name == "rules" else _title(name), what=_what(name, things))
        for (name, _), m in zip(shared, given, strict=True)
    ]
    flag = "yes" if twice else "no"
    places = "give-out" if things.fetched else "take-places"
    performed = fact("minutes-perform-what", twice=flag, lasts=counted("minute", listening))
    return Plan(
        steps=(
            *steps[:3],
            Step(minutes=GIVING_OUT_MIN, title=_title(places), what=_what("give-out", things)),
            Step(minutes=exploring, title=_title("explore"), what=_what("explore", things)),
            steps[3],
            Step(minutes=performing, title=_title("perform"), what=say(performed)),
            steps[4],
        ),
        advice=(
            say(fact("minutes-short-of", second=flag, words=say(things.words), rules=_hear(things))),
            say(fact("minutes-two", **{"from": _title(places)}, rules=_hear(things))),
        ),
    )


def _split(minutes: int, once: int, things: Things) -> tuple[Step, ...]:
    """What a lesson too short for all steps can hold: the performance, and talk before and after."""
    playing = min(once, minutes)
    before = (minutes - playing) // 2
    steps = (
        Step(minutes=before, title=_title("remember"), what=say(fact("minutes-remember-what"))),
        Step(minutes=playing, title=_title("perform"), what=say(fact("minutes-perform-once"))),
        Step(minutes=minutes - playing - before, title=_title("link"), what=_what("link", things)),
    )
    return tuple(step for step in steps if step.minutes)


def apportioned(total: int, shares: list[int]) -> list[int]:
    """Whole numbers near the shares that add up to `total`, each at least 1 (largest remainders; total >= count).

    >>> apportioned(10, [4, 4, 2]), apportioned(5, [10, 1, 1])
    ([4, 4, 2], [3, 1, 1])
    """
    spare = total - len(shares)
    exact = [spare * share / sum(shares) for share in shares]
    found = [int(part) for part in exact]
    by_remainder = sorted(range(len(shares)), key=lambda i: (found[i] - exact[i], i))
    for i in by_remainder[: spare - sum(found)]:
        found[i] += 1
    return [part + 1 for part in found]
