"""The plan of the piece: which part plays in which phrases, where it may change, who keeps the pulse, the climax.

A part plays where its quantity has something to say. It rests where its stage is over, where there is none of what it
stands for, by the scene's wish, or because more would be said at once than the class can follow; never for texture.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi

from sonify.arrange.blocks import Block, blocks_of, joined, units_of
from sonify.arrange.climax import climax
from sonify.arrange.groups import Line
from sonify.arrange.piece import Piece
from sonify.arrange.pulse import Desk, desks_of, kept_by
from sonify.arrange.streams import Changes, Choice, changes, chosen

#: Groups that share a part answer each other after so many bars.
ANSWER_BARS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """blocks in order; sounding: for each line's name the blocks it plays (indices); climax: blocks.

    turns: for a line that shares its part with other groups, the bars that are its own. changes: where a part of the
    scene may change what it plays while it goes on. units: the stretches in which the same parts play; desks, and the
    stretches in which each keeps the pulse. breath: the bar at whose end everybody holds their breath, 0: none.
    damped: whether the last gesture is stopped at once: the piece ends in its fullest part.
    """

    blocks: tuple[Block, ...]
    sounding: dict[str, tuple[int, ...]]
    turns: dict[str, frozenset[int]]
    climax: tuple[int, ...]
    changes: Changes
    units: tuple[Block, ...]
    desks: tuple[Desk, ...]
    pulse: dict[int, set[int]]
    breath: int = 0
    damped: bool = False

    def blocks_of(self, name: str) -> tuple[Block, ...]:
        return tuple(self.blocks[i] for i in self.sounding[name])

    def runs_of(self, name: str, starts: frozenset[int]) -> tuple[Block, ...]:
        """A line's blocks joined where it plays one thing: a new run where it comes in, or in one of `starts`."""
        found: list[list[Block]] = []
        for block in self.blocks_of(name):
            if found and found[-1][-1].end == block.bar and block.bar not in starts:
                found[-1].append(block)
            else:
                found.append([block])
        return tuple(joined(run) for run in found)

    def plays(self, name: str, bar: int) -> bool:
        """Whether a line plays in a bar of its blocks, or leaves it to a group that shares its part."""
        return name not in self.turns or bar in self.turns[name]

    def arc(self, bar: float) -> float:
        """How near the climax: 0 at the beginning and at the end, 1 from its first bar to its last, smooth between."""
        first, last = self.blocks[self.climax[0]].bar, self.blocks[self.climax[-1]].end - 1
        end = self.blocks[-1].end - 1
        if first <= bar <= last:
            return 1.0
        share = (bar - 1) / max(first - 1, 1) if bar < first else (end - bar) / max(end - last, 1)
        return 0.5 - 0.5 * cos(pi * min(max(share, 0.0), 1.0))


def shape(piece: Piece, lines: Sequence[Line]) -> Shape:
    """The plan for these lines."""
    blocks = blocks_of(piece)
    units = units_of(blocks)
    choice = Choice(piece=piece, lines=tuple(lines), units=units)
    playing = chosen(piece, lines, units)
    room = {unit: choice.room(unit) - _entering(choice, playing, unit) for unit in range(len(units))}
    desks = desks_of(lines, playing)
    steady = [any(choice.keeps_beat(name, unit) for name in here) for unit, here in enumerate(playing)]
    pulse = kept_by(desks, units, steady)
    peak = climax(piece, lines, blocks, {0, len(blocks) - 1})
    on = {
        name: tuple(i for i, block in enumerate(blocks) if name in playing[_unit_at(units, block.bar)])
        for name in choice.plans
    }
    sounding, turns = _voices(lines, on, blocks)
    return Shape(
        blocks=blocks,
        sounding=sounding,
        turns=turns,
        climax=peak,
        changes=changes(choice, playing, room),
        units=units,
        desks=desks,
        pulse=pulse,
        breath=_breath(piece, blocks, peak, lines, on),
        damped=peak[-1] == len(blocks) - 1,
    )


def _breath(
    piece: Piece, blocks: Sequence[Block], peak: Sequence[int], lines: Sequence[Line], on: dict[str, tuple[int, ...]]
) -> int:
    """The bar before the fullest moment, where a stage of the science begins with it; 0 for none.

    Not where a part is the beat (a heart does not stop), nor where two groups are shown to stop at that moment anyway.
    """
    first, before = peak[0], peak[0] - 1
    if before < 1 or blocks[first].stage == blocks[before].stage:
        return 0
    here = {name for name, own in on.items() if before in own}
    stopping = {name for name in here if first not in on[name]}
    if any(line.plan.on_beat and line.plan.name in here for line in lines):
        return 0
    if sum(line.plan.name in stopping for line in lines) > 1:
        return 0
    return blocks[before].end - 1


def _unit_at(units: Sequence[Block], bar: int) -> int:
    return next(i for i, unit in enumerate(units) if unit.bar <= bar < unit.end)


def _entering(choice: Choice, playing: Sequence[frozenset[str]], unit: int) -> int:
    """Groups that are brought in where a stretch begins; at the start of the piece the start is for all of them."""
    entering = sum(choice.cost[name] for name in playing[unit] - playing[unit - 1]) if unit else 0
    return 1 if entering > 1 and choice.tutti(playing[unit]) else entering


def _voices(
    lines: Sequence[Line], on: dict[str, tuple[int, ...]], blocks: Sequence[Block]
) -> tuple[dict[str, tuple[int, ...]], dict[str, frozenset[int]]]:
    """Each line's blocks, and for lines that share a part whose bars are whose: call and answer."""
    sounding = {line.name: on[line.plan.name] for line in lines}
    turns: dict[str, frozenset[int]] = {}
    for line in lines:
        if not line.answers:
            continue
        units = [
            (i, range(bar, min(bar + ANSWER_BARS, blocks[i].end)))
            for i in sounding[line.name]
            for bar in range(blocks[i].bar, blocks[i].end, ANSWER_BARS)
        ]
        if len(units) < line.voices:
            continue  # too short to answer each other: they play together
        own = {bar for n, (_, bars) in enumerate(units) if n % line.voices == line.voice for bar in bars}
        turns[line.name] = frozenset(own)
    return sounding, turns
