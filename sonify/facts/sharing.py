"""Who shares an instrument: said wherever a part has fewer instruments than players."""

from __future__ import annotations

from sonify.records.fact import Fact, fact
from sonify.records.score import Part, Score, Seat


def shared(seat: Seat, score: Score) -> Fact | None:
    """How the players of a seat share: "3 players at 2 ocean drums: take turns"; None where each has an instrument."""
    row = score.instrument(seat.instrument)
    if row.bodily or seat.players <= seat.count:
        return None
    what = row.of(seat.count)
    job = seat.job or fact("part-take-turns")
    return fact("part-shared", players=seat.players, count=seat.count, what=what, job=job)


def sharing(part: Part, score: Score) -> tuple[Fact, ...]:
    """All who share in a part."""
    return tuple(found for seat in part.seats if (found := shared(seat, score)))
