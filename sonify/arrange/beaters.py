"""Brightness as a class can play it: soft, medium or hard beaters (or palms and fingertips), changed seldom and cued.

Nobody turns a beater into a slightly harder one within a tune: a rule for brightness becomes at most three steps, and
a part changes where it comes in again, or at the start of a phrase if it never rests.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sonify.arrange.blocks import Block
from sonify.arrange.piece import Piece
from sonify.arrange.reasons import moved
from sonify.frozen import dataclass
from sonify.kinds.instruments import ONE_SOUND
from sonify.records.fact import Fact, Words, fact
from sonify.records.instrument import Instrument
from sonify.records.score import FOR_THE_MUSIC, Cue, Part

#: The brightness of each step, and where the next one begins (our own choices).
SHADES = (0.15, 0.5, 0.85)
_EDGES = (0.4, 0.6)  # as the key's words for brightness have them
_LEVELS = ("soft", "medium", "hard")


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """From a bar on: 0 soft, 1 medium, 2 hard; ways: what each of the part's instruments is struck with."""

    bar: int
    level: int
    ways: tuple[tuple[str, str], ...]  # (instruments, "beaters" or "hands")

    @property
    def with_what(self) -> Fact:
        """Hard beaters, or hard beaters or the fingertips where some of the group use their hands."""
        ways = {way for _, way in self.ways}
        return struck(self.level, "both" if len(ways) > 1 else ways.pop())


def struck(level: int, way: str) -> Fact:
    """What is softer and harder on an instrument, dark to bright: beaters, or the hand's parts."""
    return fact("cue-with", level=_LEVELS[level], used=way)


def brightens(row: Instrument) -> bool:
    """Whether an instrument sounds darker and brighter with what it is struck with."""
    return row.struck_with != ONE_SOUND


def steps(piece: Piece, name: str, rows: Sequence[Instrument], runs: Sequence[Block]) -> tuple[Step, ...]:
    """A part's beaters over the piece, the first where it comes in first; () without a rule or on one sound only.

    runs: the stretches at whose beginning beaters may change.
    """
    bright = piece.results("brightness", name)
    able = tuple((row.plural, row.struck_with) for row in rows if brightens(row))
    if bright is None or not able or not runs:
        return ()
    means, found = piece.bar_means(bright), list[Step]()
    for run in runs:
        level = sum(float(means[run.bar - 1 : run.end - 1].mean()) >= edge for edge in _EDGES)
        if not found or found[-1].level != level:
            found.append(Step(bar=run.bar, level=level, ways=able))
    return tuple(found)


def shade(found: Sequence[Step], bar: int) -> float | None:
    """The brightness of the beaters in use in a bar."""
    level = next((step.level for step in reversed(found) if step.bar <= bar), None)
    return None if level is None else SHADES[level]


def card_words(found: Sequence[Step]) -> tuple[Words, ...]:
    """For the card: what to play with, from which bar on; a line for each way of playing in the group."""
    if not found:
        return ()
    ways: dict[str, list[str]] = {}
    for plural, way in found[0].ways:
        ways.setdefault(way, []).append(plural)
    lines: list[Words] = []
    for way, plurals in ways.items():
        later = tuple(fact("part-with-later", bar=step.bar, what=struck(step.level, way)) for step in found[1:])
        first, *rest = plurals
        who = (first[:1].upper() + first[1:], *rest)
        start = fact("part-with" if len(ways) == 1 else "part-with-who", who=who, what=struck(found[0].level, way))
        lines.append((start, *later))
    return tuple(lines)


def change_cues(piece: Piece, parts: Sequence[Part], beaters: dict[str, tuple[Step, ...]]) -> list[Cue]:
    """A cue a bar ahead of where a part changes beaters; not where pupils choose for themselves."""
    found = []
    for part in parts:
        own = beaters.get(part.name, ())
        starts = {entry.bar for entry in part.entries} - {entry.bar + entry.bars for entry in part.entries}
        for before, step in zip(own, own[1:], strict=False):
            if step.bar in starts:
                continue  # who comes in with other beaters has them on the card
            if any(blank.bar <= step.bar < blank.bar + blank.bars for blank in part.blanks):
                continue
            curve = piece.curve("brightness", part.name)
            found.append(
                Cue(
                    bar=step.bar - 1,
                    beat=Fraction(1),
                    part=part.name,
                    action="change",
                    gesture="harder-beaters" if step.level > before.level else "softer-beaters",
                    reason=FOR_THE_MUSIC if curve is None else moved(piece, curve, before.bar, step.bar),
                    what=step.with_what,
                )
            )
    return found
