"""The lesson in minutes: steps that add up to the minutes the class has, with time to explore in groups.

The shares are ours (common practice in class music lessons), not a published figure.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

EXPLORING_MIN = 15
#: From so long a lesson on, exploring gets its full quarter of an hour; a shorter lesson gives it a third.
FULL_LESSON_MIN = 45


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the lesson."""

    minutes: int
    title: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The steps in order; `warning` says when the minutes do not hold them."""

    steps: tuple[Step, ...]
    warning: str = ""


#: Title, what happens, and its share of the time that exploring and performing leave.
_BEFORE = (
    ("Start", "Tell the story. Ask what the class already thinks, and keep the answers for the end.", 4),
    (
        "The science",
        "Put the stages in order (pupils' sheet). Talk about each with the plots and questions.",
        7,
    ),
    (
        "Hear the rules",
        "Tap the slowest and the fastest beat. Which belongs to which end of the scale? Why?",
        4,
    ),
)
_EXPLORE = (
    "Explore in groups",
    "Each group with its card: try its sounds, learn its pattern, agree who plays what. Go round, ask why.",
)
_REHEARSE = ("Rehearse", "Stage by stage from the cue sheet: only that stage's groups, then joined up.", 8)
_PERFORM = "Perform and listen"
_AFTER = (
    "Did we make the link?",
    "Fill in “Our sound, and why”. Come back to the first answers. Put things away.",
    7,
)


def minute_plan(minutes: int, piece_s: float) -> Plan:
    """The lesson's steps, which add up to `minutes`. piece_s: how long one playing of the piece takes."""
    once = ceil(piece_s / 60) + 1  # a minute to settle before it
    exploring = EXPLORING_MIN if minutes >= FULL_LESSON_MIN else minutes // 3
    shared = [*_BEFORE, _REHEARSE, _AFTER]
    left = minutes - exploring - once
    if left < len(shared):
        return Plan(
            steps=_split(minutes, once),
            warning=(
                f"One playing takes {once} minutes, so {minutes} minutes hold no whole lesson: "
                "explore and rehearse in lessons of their own before this one."
            ),
        )
    twice = left - once >= 4 * len(shared)
    performing = 2 * once if twice else once
    given = apportioned(minutes - exploring - performing, [share for *_, share in shared])
    middle = Step(minutes=exploring, title=_EXPLORE[0], what=_EXPLORE[1])
    playing = "Play it through twice and record the second time." if twice else "Play it through once and record it."
    performed = Step(minutes=performing, title=_PERFORM, what=f"{playing} What changed at each stage?")
    steps = [Step(minutes=m, title=row[0], what=row[1]) for row, m in zip(shared, given, strict=True)]
    return Plan(steps=(*steps[:3], middle, steps[3], performed, steps[4]))


def _split(minutes: int, once: int) -> tuple[Step, ...]:
    """What a lesson too short for all steps can hold: the performance, and talk before and after."""
    playing = min(once, minutes)
    before = (minutes - playing) // 2
    steps = (
        Step(minutes=before, title="Remember", what="The stages in order, and who plays in each."),
        Step(minutes=playing, title=_PERFORM, what="Play it through once and record it."),
        Step(minutes=minutes - playing - before, title=_AFTER[0], what=_AFTER[1]),
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
