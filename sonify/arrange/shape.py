"""The plan of the piece: which part plays in which phrases, where it may change, who keeps the pulse, the climax.

A part plays where its quantity has something to say. It rests where its stage is over, where there is none of what it
stands for, by the scene's wish, or because more would be said at once than the class can follow; never for texture.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import cos, pi

import numpy as np

from sonify.arrange.blocks import Block, blocks_of, joined, units_of
from sonify.arrange.groups import Line
from sonify.arrange.piece import Piece
from sonify.arrange.pulse import PulseDesk, desks_of, kept_by
from sonify.arrange.streams import Changes, StreamChoice, changes, chosen
from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.records.timeline import FloatArray

# Where the piece is fullest: the block in which the density and dynamics rules ask for most ---------------------------

#: The climax lasts at most so many bars.
_MOST_BARS = 8
#: A neighbour belongs to it if it is at least so strong.
_NEARLY = 0.6
#: Without density and dynamics rules it is about here in the piece.
_USUAL_PLACE = 2 / 3


def climax(piece: Piece, lines: Sequence[Line], blocks: Sequence[Block], edges: set[int]) -> tuple[int, ...]:
    """Indices of the strongest block that is not at the piece's edges, and of its like neighbour in the same stage."""
    strength = _strength(piece, lines)
    means = [float(strength[b.bar - 1 : b.end - 1].mean()) for b in blocks]
    able = [i for i in range(len(blocks)) if i not in edges] or list(range(len(blocks)))
    peak = max(able, key=lambda i: (round(means[i], 6), -abs(i / len(blocks) - _USUAL_PLACE)))
    beside = [i for i in (peak - 1, peak + 1) if i in able and _belongs(blocks[i], blocks[peak])]
    beside = [i for i in beside if means[i] >= _NEARLY * means[peak]]
    return tuple(sorted([peak, *([max(beside, key=lambda i: means[i])] if beside else [])]))


def _belongs(block: Block, peak: Block) -> bool:
    return block.stage == peak.stage and block.bars + peak.bars <= _MOST_BARS


def _strength(piece: Piece, lines: Sequence[Line]) -> FloatArray:
    """How much the density and dynamics rules ask for in each bar, summed over the parts that have the bar's stage.

    Strokes count as a share of the most that any rule asks for, velocities from very soft (0) to very loud (1). With no
    such rule: how many parts the scene has there, and a gentle hill two thirds of the way through.
    """
    by_name = {line.plan.name: line for line in lines}
    curves = [curve for curve in piece.controls.curves if curve.part is None or curve.part in by_name]
    densest = max((float(curve.results.max()) for curve in curves if curve.rule.control == "density"), default=0.0)
    total = np.zeros(piece.bars)
    for curve in curves:
        means = piece.bar_means(curve.results)
        here = np.ones(piece.bars) if curve.part is None else _present(piece, [by_name[curve.part]])
        if curve.rule.control == "density" and densest > 0.0:
            total += here * means / densest
        elif curve.rule.control == "dynamics":
            total += here * (means - DYNAMICS["pp"]) / (DYNAMICS["ff"] - DYNAMICS["pp"])
    if np.ptp(total) <= 1e-9:
        place = np.arange(piece.bars) / piece.bars
        total = _present(piece, lines) + 0.9 * np.exp(-(((place - _USUAL_PLACE) / 0.2) ** 2))
    return total


def _present(piece: Piece, lines: Iterable[Line]) -> FloatArray:
    """How many of these lines each bar belongs to, by their stages."""
    here = np.zeros(piece.bars)
    for line in lines:
        for number in line.stages:
            stage = piece.stages[number]
            here[stage.bar - 1 : stage.bar - 1 + stage.bars] += 1.0
    return here


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
    desks: tuple[PulseDesk, ...]
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
    choice = StreamChoice(piece=piece, lines=tuple(lines), units=units)
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

    Not where a part is the beat (a heart does not stop), nor where two parts are shown to stop at that moment anyway.
    """
    first, before = peak[0], peak[0] - 1
    if before < 1 or blocks[first].stage == blocks[before].stage:
        return 0
    here = {name for name, own in on.items() if before in own}
    stopping = {name for name in here if first not in on[name]}
    if any(line.plan.on_beat and line.plan.name in here for line in lines):
        return 0
    if len(stopping) > 1:
        return 0
    return blocks[before].end - 1


def _unit_at(units: Sequence[Block], bar: int) -> int:
    return next(i for i, unit in enumerate(units) if unit.bar <= bar < unit.end)


def _entering(choice: StreamChoice, playing: Sequence[frozenset[str]], unit: int) -> int:
    """Parts that are brought in where a stretch begins; at the start of the piece the start is for all of them."""
    entering = len(playing[unit] - playing[unit - 1]) if unit else 0
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
