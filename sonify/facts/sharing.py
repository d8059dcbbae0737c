"""Who shares an instrument: said wherever a part has fewer instruments than players."""

from __future__ import annotations

from sonify.records.score import Part, Score, Seat


def shared(seat: Seat, score: Score) -> str:
    """How the players of a seat share: "3 players at 2 ocean drums: take turns"; "" where each has an instrument."""
    row = score.instrument(seat.instrument)
    if row.bodily or seat.players <= seat.count:
        return ""
    what = row.name.lower() if seat.count == 1 else row.plural.lower()
    return f"{seat.players} players at {seat.count} {what}: {seat.job or 'take turns'}"


def sharing(part: Part, score: Score) -> str:
    """All who share in a part, "" where nobody does."""
    return "; ".join(filter(None, (shared(seat, score) for seat in part.seats)))
