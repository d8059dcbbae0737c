"""Blocks: the phrases of a stage, as a rule four bars, and the longer stretches in which the same parts play."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from sonify.arrange.piece import Piece
from sonify.frozen import dataclass

#: A phrase, where there is room for one.
PHRASE_BARS = 4
#: Who plays changes with the stage, and within one after so many bars (our own limit, for who leads and who follows).
LEAST_STAY_BARS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A phrase: from `bar` for `bars` bars in stage number `stage`."""

    bar: int
    bars: int
    stage: int

    @property
    def end(self) -> int:
        """The bar after it."""
        return self.bar + self.bars


def blocks_of(piece: Piece) -> tuple[Block, ...]:
    """The piece as blocks; none goes over the end of a stage."""
    blocks: list[Block] = []
    for number, stage in enumerate(piece.stages):
        bar = stage.bar
        for size in block_sizes(stage.bars):
            blocks.append(Block(bar=bar, bars=size, stage=number))
            bar += size
    return tuple(blocks)


def units_of(blocks: Sequence[Block]) -> tuple[Block, ...]:
    """The stretches in which the same parts play: eight bars or a little more, or what a stage has left after them."""
    found: list[Block] = []
    for block in blocks:
        last = found[-1] if found else None
        left = sum(other.bars for other in blocks if other.stage == block.stage and other.bar >= block.bar)
        if last and last.stage == block.stage and (last.bars < LEAST_STAY_BARS or left < PHRASE_BARS):
            found[-1] = joined((last, block))
        else:
            found.append(block)
    return tuple(found)


def joined(blocks: Sequence[Block]) -> Block:
    """Blocks that follow each other as one, in the stage of the first."""
    return Block(bar=blocks[0].bar, bars=blocks[-1].end - blocks[0].bar, stage=blocks[0].stage)


def block_sizes(bars: int) -> list[int]:
    """A stage's bars as phrases: of two in a short stage, of four, of eight in a very long one.

    >>> block_sizes(3), block_sizes(6), block_sizes(7), block_sizes(14), block_sizes(13)
    ([3], [2, 2, 2], [2, 2, 3], [4, 4, 4, 2], [4, 4, 5])
    """
    if bars < PHRASE_BARS:
        return [bars]
    unit = PHRASE_BARS // 2 if bars < 2 * PHRASE_BARS else PHRASE_BARS if bars < 48 else 2 * PHRASE_BARS
    sizes = [unit] * (bars // unit)
    rest = bars % unit
    if rest == 1 or (unit > PHRASE_BARS and rest):
        sizes[-1] += rest
    elif rest:
        sizes.append(rest)
    return sizes


def stretches(blocks: Sequence[Block]) -> list[list[Block]]:
    """Blocks that follow each other without a gap, together."""
    if not blocks:
        return []
    starts = [0, *(i for i, (a, b) in enumerate(pairwise(blocks), 1) if a.end != b.bar)]
    return [list(blocks[a:b]) for a, b in pairwise([*starts, len(blocks)])]
