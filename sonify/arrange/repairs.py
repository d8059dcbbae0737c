"""The last look: strokes that the playability checker would refuse are taken out, and said."""

from __future__ import annotations

from dataclasses import replace

from sonify.arrange.hands import within_reach
from sonify.arrange.playability import seat_spans, strokes_of_players
from sonify.records.fact import fact
from sonify.records.findings import Finding
from sonify.records.score import Note, Part, Score


def repaired(score: Score) -> tuple[Score, tuple[Finding, ...]]:
    """The Score without strokes that some pupil could not reach in time."""
    parts, findings = [], []
    for part in score.parts:
        kept = _reachable(score, part) if part.seats else part.notes
        lost = len(part.notes) - len(kept)
        if lost:
            findings.append(
                Finding(
                    kind="playability",
                    message=fact("play-strokes-left-out", lost=lost, all=len(part.notes)),
                    fix=fact("play-would-keep-them"),
                    part=part.name,
                    where=fact("play-bar", bar=score.clock.bar_and_beat(_first_lost(part, kept).beat)[0]),
                    serious=False,
                )
            )
        parts.append(replace(part, notes=kept) if lost else part)
    return replace(score, parts=tuple(parts)), tuple(findings)


def _first_lost(part: Part, kept: tuple[Note, ...]) -> Note:
    left = set(map(id, kept))
    return next(note for note in part.notes if id(note) not in left)


def _reachable(score: Score, part: Part) -> tuple[Note, ...]:
    """The notes that every player who has them can play."""
    rows = {
        first + place: score.instrument(seat.instrument)
        for seat, first in seat_spans(part)
        for place in range(seat.players)
    }
    lost: set[int] = set()
    done: set[tuple[int, ...]] = set()
    for player, played in sorted(strokes_of_players(score, part).items()):
        same = tuple(map(id, played))
        if same in done:
            continue
        done.add(same)
        beats = sorted({note.beat for note in played})
        reach = dict(zip(beats, within_reach(score.clock.float_seconds(beats), rows[player]), strict=True))
        lost |= {id(note) for note in played if not reach[note.beat]}
    return tuple(note for note in part.notes if id(note) not in lost)
