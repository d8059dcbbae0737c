"""Who of fewer players strikes what: the same strokes in fewer hands, within what hands can do."""

from __future__ import annotations

from collections.abc import Sequence

from sonify.arrange.hands import Hands
from sonify.records.clock import Clock
from sonify.records.instrument import Instrument
from sonify.records.score import Note


def in_hands(notes: Sequence[Note], row: Instrument, players: int, clock: Clock) -> list[int] | None:
    """Each stroke's player, from 0, for so many players; None where they are too few.

    Strokes that all make together need one player at least, and stay everybody's (-1).
    """
    if players < 1:
        return None
    hands, free_s = [Hands(row) for _ in range(players)], [float("-inf")] * players
    starts = [float(second) for second in clock.many_seconds([note.beat for note in notes])]
    ends = [float(second) for second in clock.many_seconds([note.beat + note.beats for note in notes])]
    found = []
    for note, start, end in zip(notes, starts, ends, strict=True):
        if note.player == 0:
            found.append(-1)
            continue
        # who struck it before strikes it still, where that can be
        own = (note.player - 1) % players
        order = sorted(range(players), key=lambda i: (i != own, len(hands[i].struck)))
        able = (i for i in order if free_s[i] <= start + 1e-6 and hands[i].can_strike(start))
        taker = next(able, None)
        if taker is None:
            return None
        hands[taker].strike(start)
        free_s[taker] = end if row.sustains else start
        found.append(taker)
    return found


def fewest(notes: Sequence[Note], row: Instrument, players: int, clock: Clock) -> int:
    """The fewest players who can play what so many play now."""
    return next((n for n in range(1, players) if in_hands(notes, row, n, clock) is not None), players)
