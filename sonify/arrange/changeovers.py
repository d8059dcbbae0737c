"""Can a group that plays two parts put one instrument down and take up the other in time? Limits are our own."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from sonify.records.fact import fact
from sonify.records.findings import Finding
from sonify.records.score import Entry, Part, Score

#: Laying one instrument down and taking up another, on the floor in front of a group.
CHANGE_S = 3.0


def changeovers(score: Score) -> Iterator[Finding]:
    """For each group with two parts: parts that overlap (a fault), and changes with too little time (a note)."""
    desks: dict[tuple[int, int], list[Part]] = {}
    for part in score.group_parts:
        if part.pulse:  # on knees: nothing to lay down or take up
            continue
        desks.setdefault((part.group, part.team), []).append(part)
    for parts in desks.values():
        stretches = sorted(
            ((entry, part) for part in parts for entry in part.entries), key=lambda stretch: stretch[0].bar
        )
        for (before, first), (after, second) in pairwise(stretches):
            if first.name != second.name and (finding := _change(score, (before, first), (after, second))):
                yield finding


def _change(score: Score, one: tuple[Entry, Part], other: tuple[Entry, Part]) -> Finding | None:
    (before, first), (after, second) = one, other
    bar = after.bar
    if before.bar + before.bars > bar:
        return Finding(
            kind="playability",
            part=second.name,
            where=fact("play-bar", bar=bar),
            message=fact("play-still-plays", group=second.group, first=first.name, second=second.name),
            fix=fact("play-begin-later"),
        )
    if {seat.instrument for seat in first.seats} == {seat.instrument for seat in second.seats}:
        return None
    clock = score.clock
    gap = clock.seconds(clock.beat_of_bar(bar)) - clock.seconds(clock.beat_of_bar(before.bar + before.bars))
    if gap >= CHANGE_S:
        return None
    return Finding(
        kind="playability",
        part=second.name,
        where=fact("play-bar", bar=bar),
        message=fact(
            "play-little-time", group=second.group, seconds=round(gap), first=first.name, second=second.name, bar=bar
        ),
        fix=fact("play-lay-out"),
        serious=False,
    )
