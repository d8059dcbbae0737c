"""Blocks: the phrases of a stage, as a rule four bars.

Everybody enters and leaves on a block's first bar line, so that the conductor has something to do every few bars and
not more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from sonify.arrange.piece import Piece

#: A phrase, where there is room for one.
PHRASE_BARS = 4


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
        sizes = block_sizes(stage.bars)
        # The first and the last stage each give up some bars to the opening and to the way home.
        wanted = 1 + (number == 0) + (number == len(piece.stages) - 1)
        while len(sizes) < wanted and max(sizes) >= 2:
            longest = sizes.index(max(sizes))
            sizes[longest : longest + 1] = [sizes[longest] // 2, sizes[longest] - sizes[longest] // 2]
        if number == len(piece.stages) - 1 and len(sizes) > 1 and sizes[-1] < sizes[-2]:
            sizes[-2:] = sizes[:-3:-1]  # the way home is a whole phrase: the short one comes before it
        bar = stage.bar
        for size in sizes:
            blocks.append(Block(bar=bar, bars=size, stage=number))
            bar += size
    return tuple(blocks)


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
