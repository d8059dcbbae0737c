"""Where the piece is fullest: the block in which the density and dynamics rules ask for most."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from sonify.arrange.blocks import Block
from sonify.arrange.groups import Line
from sonify.arrange.piece import Piece
from sonify.kinds.marks import DYNAMICS
from sonify.records.timeline import FloatArray

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
