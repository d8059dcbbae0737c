"""What becomes of a piece on the morning when pupils are away or an instrument is broken."""

from __future__ import annotations

from sonify.frozen import dataclass
from sonify.records.fact import Fact
from sonify.records.score import Score


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """What a class has not got today. absent: pupils by their group, 0 where that is not said. broken: how many of each
    instrument, by its catalogue id."""

    absent: tuple[tuple[int, int], ...] = ()
    broken: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Dealt:
    """A piece dealt out again. score: the same music in today's hands. by_hand: what to write on each group's cards.

    told: what no card needs to say (a spare one is taken). anew: groups with more to write than a card bears.
    """

    score: Score
    told: tuple[Fact, ...]
    by_hand: tuple[tuple[int, tuple[Fact, ...]], ...]
    anew: tuple[int, ...]
