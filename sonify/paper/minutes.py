"""The lesson in minutes: steps that add up to the minutes the class has, with time to explore in groups.

The shares are ours (common practice in class music lessons), not a published figure.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

from sonify.paper.facts import counted

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
    """The steps in order; `warning` says when the minutes do not hold them.

    short: what to leave out first. two: how to split it. words: where the words to learn are.
    """

    steps: tuple[Step, ...]
    warning: str = ""
    short: str = ""
    two: str = ""
    words: str = ""

    @property
    def advice(self) -> tuple[str, ...]:
        """What to leave out, and how to make two lessons of it; nothing where the plan is cut down already."""
        if not self.short:
            return ()
        return (
            f"If time is short, leave out {self.short}; {self.words} can be done at home or another day.",
            f"Or two lessons: {self.two}",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Things:
    """What the steps use, by the names a teacher finds it under: pages of pupils.pdf, and letters of stages.

    given: how much of the groups' parts sounds in the recording: "full", "part" or, where the pupils invent it all,
    "open". fetched: whether any group has instruments to fetch, and does not play on voices and bodies alone.
    """

    order: str = "“Put it in order”"
    chart: str = "the flow chart"
    cards: str = "the group cards"
    words: str = "“Words to know”"
    sound: str = "“Our sound, and why”"
    slowest: str = "the slowest"
    quickest: str = "the quickest"
    given: str = "full"
    fetched: bool = True


#: Putting instruments out is never hurried: most accidents and most noise happen there (common practice).
GIVING_OUT_MIN = 5
_PERFORM = "Perform and listen"
_LINK = "Did we make the link?"


_RULES = "Hear the rules"
#: What is heard before anything is played, how a stuck group is helped: by how much of the parts sounds.
_FIRST_HEARD = {
    "full": " Play a minute of the recording (soundscape.wav): what could it be?",
    "part": " Play a minute of the recording (soundscape.wav): what could it be? Tell the class that it has gaps: what "
    "belongs there, they will invent.",
    "open": " The recording holds no part of a group: the class will invent them all.",
}
_STUCK = {
    "full": "A group that is stuck hears its own part: page.html, Hear, “Everyone plays” off.",
    "part": "A group that is stuck hears what is given of its part (page.html, Hear, “Everyone plays” off); where the "
    "box is empty, it tries two ideas and keeps the one that fits the science.",
    "open": "A group that is stuck tries two ideas, and another group says which one fits the science.",
}


def _comparing(things: Things) -> str:
    """How the two ends of the beat are compared: from the page where the parts sound, else by clapping."""
    which = f"{things.slowest}, then {things.quickest}"
    if things.given == "open":
        return (
            f"Clap the beat of {which} (the cue sheet has both). What happens in the science there? What should be "
            "heard in each group's sound? “What your sound means” on the cards tells."
        )
    gaps = " Where it is silent, that is the class's own: clap on." if things.given == "part" else ""
    return f"page.html, Hear: play {which}, and tap the beat. Which belongs to which end of the scale? Why?{gaps}"


def _before(things: Things) -> tuple[tuple[str, str, int], ...]:
    """Title, what happens, and its share of the time that the fixed steps leave."""
    return (
        (
            "Start",
            "Tell the story. Ask what the class already thinks, and keep the answers for the end."
            + _FIRST_HEARD[things.given],
            4,
        ),
        (
            "The science",
            f"Pupils put the stages in order, with one of the two: {things.order}, or {things.chart}. Talk about each "
            f"stage with the questions of this file and one or two of its plots; {things.words} if minutes are left.",
            8,
        ),
        (
            _RULES,
            _comparing(things),
            4,
        ),
    )


def _rest(things: Things) -> tuple[tuple[str, str, int], ...]:
    return (
        (
            "Rehearse",
            "Stage by stage from the cue sheet (conductor.pdf, page 2), or page.html, Conduct: “Repeat stage”. Only "
            "that stage's groups, then joined up with “Next stage”.",
            8,
        ),
        (
            _LINK,
            f"Each pupil fills in {things.sound}. Come back to the first answers. Put things away.",
            7,
        ),
    )


def _fixed(things: Things) -> tuple[Step, Step]:
    learn = "invent" if things.given == "open" else "learn"
    exploring = (
        f"Each group with its own card ({things.cards}): try its sounds, {learn} its part, agree who plays what. Go "
        "round, "
        f"ask why. {_STUCK[things.given]}"
    )
    fetching = "One group at a time fetches its instruments and sits; beaters stay down."
    seating = "One group at a time goes to its place; hands rest, voices are silent."
    giving = f"{fetching if things.fetched else seating} Practise the stop signal until all are silent at once, twice."
    title = "Give out instruments, agree the stop signal" if things.fetched else "Take places, agree the stop signal"
    return (
        Step(minutes=GIVING_OUT_MIN, title=title, what=giving),
        Step(minutes=EXPLORING_MIN, title="Explore in groups", what=exploring),
    )


def minute_plan(minutes: int, piece_s: float, things: Things | None = None) -> Plan:
    """The lesson's steps, which add up to `minutes`. piece_s: how long one playing of the piece takes."""
    things = things or Things()
    listening = ceil(piece_s / 60)
    once = listening + 1  # a minute to settle before it
    exploring = EXPLORING_MIN if minutes >= FULL_LESSON_MIN else minutes // 3
    before, rest = _before(things), _rest(things)
    shared = [*before, *rest]
    left = minutes - exploring - once - listening - GIVING_OUT_MIN
    if left < len(shared):
        return Plan(
            steps=_split(minutes, once, rest[-1][1]),
            warning=(
                f"One playing takes {once} minutes and listening to it {listening}, so {minutes} minutes hold no whole "
                "lesson: explore and rehearse in lessons of their own before this one."
            ),
        )
    twice = left - once >= 4 * len(shared)
    performing = (2 * once if twice else once) + listening
    given = apportioned(minutes - exploring - performing - GIVING_OUT_MIN, [share for *_, share in shared])
    steps = [Step(minutes=m, title=row[0], what=row[1]) for row, m in zip(shared, given, strict=True)]
    playing = "Play it through twice and record the second time" if twice else "Play it through once and record it"
    what = (
        f"{playing}, conducting from the cue sheet or from page.html, Conduct. Listen to your recording "
        f"({counted(listening, 'minute')}). What changed at each stage?"
    )
    give_out, explore = _fixed(things)
    explore = replace(explore, minutes=exploring)
    performed = Step(minutes=performing, title=_PERFORM, what=what)
    return Plan(
        steps=(*steps[:3], give_out, explore, steps[3], performed, steps[4]),
        short=f"the second playing, then “{_RULES}”" if twice else f"“{_RULES}”",
        two=(
            f"first “{steps[0].title}”, “{steps[1].title}” and “{steps[2].title}”, and each group its card without "
            f"instruments; then from “{give_out.title}” on, with more time to explore and rehearse."
        ),
        words=things.words,
    )


def _split(minutes: int, once: int, linking: str) -> tuple[Step, ...]:
    """What a lesson too short for all steps can hold: the performance, and talk before and after."""
    playing = min(once, minutes)
    before = (minutes - playing) // 2
    steps = (
        Step(minutes=before, title="Remember", what="The stages in order, and who plays in each."),
        Step(minutes=playing, title=_PERFORM, what="Play it through once and record it."),
        Step(minutes=minutes - playing - before, title=_LINK, what=linking),
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
