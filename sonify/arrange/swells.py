"""Louder and softer: where a part is told to grow or fade, to which mark, by which bar, and why.

The marks on cards and score are those that are cued, and no others.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import pairwise
from math import nan

from sonify.arrange.piece import Piece
from sonify.arrange.reasons import moved, moves
from sonify.arrange.shape import Shape
from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS, on_marks
from sonify.records.fact import Claim, Reading, fact, facts_in
from sonify.records.score import FOR_THE_MUSIC, Cue, Part, Reason

#: With so many things to do at one moment, louder and softer are left to the printed marks.
BUSY = 2
#: A teacher who reads and listens manages one moment in so many bars (our own limit).
BARS_A_CUE = 2
#: A part grows towards a moment if it is louder there by more of a step from mark to mark than this (our own limit).
LOUDER = 0.55


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A part that grows or fades from a bar on, to a mark reached at `reached` (the same bar: at once)."""

    bar: int
    part: str
    action: str
    mark: str
    reached: int


def mark_at(part: Part, bar: int) -> str:
    return next((mark.mark for mark in reversed(part.dynamics) if mark.bar <= bar), "")


def own_idea(part: Part, bar: int) -> bool:
    return any(blank.bar <= bar < blank.bar + blank.bars for blank in part.blanks)


def changes_cued(piece: Piece, shape: Shape, parts: Sequence[Part], others: Sequence[Cue]) -> list[Cue]:
    """Louder and softer where hands are free: not for who comes in just then (that cue says its mark), nor where much
    else is to be done, nor close to another moment. What has to wait is caught up at the next free moment."""
    load = Counter(cue.bar for cue in others)
    taken = {*load, piece.bars}
    stated: dict[str, str] = {}
    found: list[Cue] = []
    for bar in range(1, piece.bars):
        starting = [part for part in parts if any(entry.bar == bar for entry in part.entries)]
        stated |= {part.name: "" if own_idea(part, bar) else mark_at(part, bar) for part in starting}
        if load[bar] >= BUSY or (bar not in taken and any(abs(bar - other) < BARS_A_CUE for other in taken)):
            continue
        playing = [part for part in parts if part.plays_in(bar)]
        able = [part for part in playing if part not in starting]
        here = [change for part in able if (change := _change(part, bar, stated[part.name]))]
        if not here:
            continue
        stated |= {change.part: change.mark for change in here}
        found += _dynamic_cues(piece, shape, here, playing)
        taken.add(bar)
    return found


def _change(part: Part, bar: int, stated: str) -> Change | None:
    """Where a part goes from a bar on, if that is not what it was last told."""
    mark, reached = mark_at(part, bar), bar
    for here, after in pairwise(part.dynamics):
        if here.hairpin and here.bar <= bar < after.bar:
            mark, reached = after.mark, after.bar
    if mark == stated or not stated or not mark:
        return None
    action = "louder" if DYNAMICS[mark] > DYNAMICS[stated] else "softer"
    return Change(bar=bar, part=part.name, action=action, mark=mark, reached=reached)


def _dynamic_cues(piece: Piece, shape: Shape, here: Sequence[Change], playing: Sequence[Part]) -> list[Cue]:
    """One cue a change; one to everybody where all who play do the same."""
    same = len({(change.action, change.mark, change.reached) for change in here}) == 1
    everybody = same and len(here) == len(playing) > 1
    whys = [_dynamic_reason(piece, shape, change, playing) for change in here]
    if everybody:
        return [_dynamic_cue(here[0], "", _one_reason(whys))]
    return [_dynamic_cue(change, change.part, why) for change, why in zip(here, whys, strict=True)]


def _one_reason(reasons: Sequence[Reason]) -> Reason:
    """The reasons of several parts as one: what moved in the science goes before the music."""
    science = [reason.words for reason in dict.fromkeys(reasons) if not reason.music]
    if not science:
        return max(reasons, key=lambda reason: len(list(facts_in(reason.words))))
    return Reason(words=science[0] if len(science) == 1 else tuple(science))


def _dynamic_reason(piece: Piece, shape: Shape, change: Change, playing: Iterable[Part]) -> Reason:
    """The quantity's own move, where it goes the way of the loudness; without a rule, the way to the climax."""
    curve = piece.curve("dynamics", change.part)
    louder = change.action == "louder"
    if curve is not None:
        way = moves(piece, curve, change.bar, change.reached)
        direct = curve.rule.to_high >= curve.rule.to_low
        if way and (way > 0) != (louder == direct):
            return FOR_THE_MUSIC  # its level at the last cue, or a class's need for calm, is the cause: not this move
        return moved(piece, curve, change.bar, change.reached)
    climax = shape.blocks[shape.climax[0]]
    part = next(part for part in playing if part.name == change.part)
    spans = (max(1, change.bar - BARS_A_CUE), change.bar), (climax.bar, climax.end)
    before, there = (Reading(how="velocity", of=part.name, start=float(a), end=float(b)) for a, b in spans)
    if louder and change.bar < climax.bar and _mean(part, piece, there) - _mean(part, piece, before) > LOUDER:
        claim = Claim(kind="louder", left=there, right=before)
        return Reason(words=fact("cue-towards-fullest", claim, stage=piece.stages[climax.stage].title), music=True)
    return FOR_THE_MUSIC


def _mean(part: Part, piece: Piece, reading: Reading) -> float:
    """How hard a part is played in some bars, on the scale of the marks; nothing where it rests."""
    strokes = [note.velocity for note in part.notes if reading.start <= note.beat // piece.beats + 1 < reading.end]
    return on_marks(sum(strokes) / len(strokes)) if strokes else nan


def _dynamic_cue(change: Change, part: str, reason: Reason) -> Cue:
    return Cue(
        bar=change.bar,
        beat=Fraction(1),
        part=part,
        action=change.action,
        gesture=change.action,
        reason=reason,
        mark=change.mark,
        by_bar=0 if change.reached == change.bar else change.reached,
    )
