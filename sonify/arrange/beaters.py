"""Brightness as a class can play it: soft, medium or hard beaters (or palms and fingertips), changed seldom and cued.

Nobody turns a beater into a slightly harder one within a tune: a rule for brightness becomes at most three steps, and
a part changes where it comes in again, or at the start of a phrase if it never rests.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from sonify.arrange.blocks import Block, stretches
from sonify.arrange.piece import Piece
from sonify.arrange.reasons import moved
from sonify.records.instrument import Instrument
from sonify.records.score import Cue, Part

#: The brightness of each step, and where the next one begins (our own choices).
SHADES = (0.15, 0.5, 0.85)
_EDGES = (1.0 / 3.0, 2.0 / 3.0)
_MOST_RUNS = 3
_BEATERS = ("soft beaters", "medium beaters", "hard beaters")
_HANDS = ("the flat of the hand", "flat fingers", "the fingertips")
#: Families struck with beaters; what hands strike; and what has one sound however it is played.
_BEATEN = ("bars", "bells", "metal", "wood", "skin")
_BY_HAND = ("hand-drum", "goblet-drum", "bongos", "tambourine", "knee-taps")
_ONE_SOUND = ("claves", "triangle", "finger-cymbals", "hand-bells", "tuned-tubes")


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """From a bar on: 0 soft, 1 medium, 2 hard; words: what is played with."""

    bar: int
    level: int
    words: str


def words_for(row: Instrument) -> tuple[str, str, str] | None:
    """What softer and harder are on an instrument, dark to bright; None where it has one sound only."""
    if row.id in _BY_HAND:
        return _HANDS
    if row.id in _ONE_SOUND or row.family not in _BEATEN:
        return None
    return _BEATERS


def steps(piece: Piece, name: str, row: Instrument, blocks: Sequence[Block]) -> tuple[Step, ...]:
    """A part's beaters over the piece, the first where it comes in first; () without a rule or on one sound only."""
    bright, words = piece.results("brightness", name), words_for(row)
    if bright is None or words is None or not blocks:
        return ()
    found: list[Step] = []
    for bar, end in _runs(blocks):
        mean = float(np.mean(bright[(bar - 1) * piece.beats : (end - 1) * piece.beats]))
        level = sum(mean >= edge for edge in _EDGES)
        if not found or found[-1].level != level:
            found.append(Step(bar=bar, level=level, words=words[level]))
    return tuple(found)


def _runs(blocks: Sequence[Block]) -> list[tuple[int, int]]:
    """Where beaters may change: (bar, end) of each stretch, or a part that never rests in thirds, at phrase starts."""
    found = [(stretch[0].bar, stretch[-1].end) for stretch in stretches(blocks)]
    if len(found) > 1:
        return found
    runs = min(_MOST_RUNS, len(blocks))
    cuts = [round(i * len(blocks) / runs) for i in range(runs + 1)]
    return [(blocks[a].bar, blocks[b - 1].end) for a, b in zip(cuts, cuts[1:], strict=False)]


def shade(found: Sequence[Step], bar: int) -> float | None:
    """The brightness of the beaters in use in a bar."""
    level = next((step.level for step in reversed(found) if step.bar <= bar), None)
    return None if level is None else SHADES[level]


def card_words(found: Sequence[Step]) -> tuple[str, ...]:
    """One line for the card: what to play with, from which bar on."""
    if not found:
        return ()
    first, *later = found
    changes = "".join(f", from bar {step.bar} with {step.words}" for step in later)
    return (f"Play with {first.words}{changes}.",)


def change_cues(piece: Piece, parts: Sequence[Part], beaters: dict[str, tuple[Step, ...]]) -> list[Cue]:
    """A cue wherever a part changes beaters; not where pupils choose for themselves."""
    found = []
    for part in parts:
        own = beaters.get(part.name, ())
        for before, step in zip(own, own[1:], strict=False):
            if any(blank.bar <= step.bar < blank.bar + blank.bars for blank in part.blanks):
                continue
            curve = piece.curve("brightness", part.name)
            harder = step.level > before.level
            kind = ("harder beaters" if harder else "softer beaters") if "beaters" in step.words else step.words
            show = "Hold your hand up stiff and straight." if harder else "Let your hand hang loose and soft."
            found.append(
                Cue(
                    bar=step.bar,
                    beat=Fraction(1),
                    part=part.name,
                    action="change",
                    gesture=f"A bar ahead, show them: {step.words}. {show}",
                    why="" if curve is None else moved(piece, curve, before.bar, step.bar),
                    detail=kind,
                )
            )
    return found
