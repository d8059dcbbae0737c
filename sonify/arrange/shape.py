"""The texture plan: which part sounds in which block of bars, where the climax is, and the way home.

A block is a phrase of a stage, as a rule four bars. Everybody enters and leaves on a block's first bar line, so that
the conductor has something to do every few bars and not more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from math import ceil, cos, pi

import numpy as np

from sonify.arrange.groups import Line
from sonify.arrange.piece import Piece
from sonify.records.findings import Finding
from sonify.records.scene import PartPlan
from sonify.records.timeline import FloatArray

#: Outside the climax at most this share of the parts sounds at once (our own choice).
_MOST_AT_ONCE = 0.7
#: A phrase, where there is room for one.
_PHRASE_BARS = 4
#: The climax lasts at most so many bars.
_CLIMAX_BARS = 8


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """blocks in order; sounding: for each line's name the blocks it plays (indices); climax and home: blocks."""

    blocks: tuple[Block, ...]
    sounding: dict[str, tuple[int, ...]]
    climax: tuple[int, ...]
    opening: tuple[int, ...]
    home: tuple[int, ...]

    def blocks_of(self, name: str) -> tuple[Block, ...]:
        return tuple(self.blocks[i] for i in self.sounding[name])

    def is_climax(self, bar: int) -> bool:
        return any(self.blocks[i].bar <= bar < self.blocks[i].end for i in self.climax)

    def is_home(self, bar: int) -> bool:
        return any(self.blocks[i].bar <= bar < self.blocks[i].end for i in self.home)

    def arc(self, bar: float) -> float:
        """How near the climax: 0 at the beginning and at the end, 1 from its first bar to its last, smooth between."""
        first, last = self.blocks[self.climax[0]].bar, self.blocks[self.climax[-1]].end - 1
        end = self.blocks[-1].end - 1
        if first <= bar <= last:
            return 1.0
        share = (bar - 1) / max(first - 1, 1) if bar < first else (end - bar) / max(end - last, 1)
        return 0.5 - 0.5 * cos(pi * min(max(share, 0.0), 1.0))


def stretches(blocks: Sequence[Block]) -> list[list[Block]]:
    """Blocks that follow each other without a gap, together."""
    if not blocks:
        return []
    starts = [0, *(i for i, (a, b) in enumerate(pairwise(blocks), 1) if a.end != b.bar)]
    return [list(blocks[a:b]) for a, b in pairwise([*starts, len(blocks)])]


def shape(piece: Piece, lines: Sequence[Line]) -> tuple[Shape, tuple[Finding, ...]]:
    """The texture plan for these lines."""
    blocks = _blocks(piece)
    plans = list(dict.fromkeys(line.plan for line in lines))
    stages = {line.plan.name: line.stages for line in lines}
    first, last = _outer(plans, stages, len(piece.stages))
    opening, home = _edges(blocks, bool(first), bool(last))
    climax = _climax(piece, lines, blocks, {*opening, *home})
    on = {plan.name: _planned(plan, plans, stages, blocks, opening, home, first, last) for plan in plans}
    for plan in plans:
        on[plan.name] |= {i for i in climax if blocks[i].stage in stages[plan.name]}
        if plan.texture == "drone":
            on[plan.name] |= {i for i, b in enumerate(blocks) if b.stage in stages[plan.name]} - _silenced(
                plan, opening, home, first, last
            )
    _thin(on, lines, blocks, {*climax, *opening, *home})
    _without_scraps(on, plans, blocks, {*climax, *opening, *home})
    findings = _change_over(piece, on, lines, blocks)
    sounding = {line.name: tuple(sorted(on[line.plan.name])) for line in lines}
    found = Shape(blocks=blocks, sounding=sounding, climax=climax, opening=opening, home=home)
    return found, tuple(findings)


def _blocks(piece: Piece) -> tuple[Block, ...]:
    blocks: list[Block] = []
    for number, stage in enumerate(piece.stages):
        sizes = _sizes(stage.bars)
        # The first and the last stage each give up some bars to the opening and to the way home.
        wanted = 1 + (number == 0) + (number == len(piece.stages) - 1)
        while len(sizes) < wanted and max(sizes) >= 2:
            longest = sizes.index(max(sizes))
            sizes[longest : longest + 1] = [sizes[longest] // 2, sizes[longest] - sizes[longest] // 2]
        bar = stage.bar
        for size in sizes:
            blocks.append(Block(bar=bar, bars=size, stage=number))
            bar += size
    return tuple(blocks)


def _sizes(bars: int) -> list[int]:
    """A stage's bars as phrases: of two in a short stage, of four, of eight in a very long one.

    >>> _sizes(3), _sizes(6), _sizes(7), _sizes(14), _sizes(13)
    ([3], [2, 2, 2], [2, 2, 3], [4, 4, 4, 2], [4, 4, 5])
    """
    if bars < 4:
        return [bars]
    unit = 2 if bars < 8 else 4 if bars < 48 else 8
    sizes = [unit] * (bars // unit)
    rest = bars % unit
    if rest == 1 or (unit == 8 and rest):
        sizes[-1] += rest
    elif rest:
        sizes.append(rest)
    return sizes


def _outer(plans: Sequence[PartPlan], stages: dict[str, tuple[int, ...]], count: int) -> tuple[set[str], set[str]]:
    """Names of the parts that open the piece alone and of those that close it: the same, where the scene allows."""
    opens = [plan for plan in plans if 0 in stages[plan.name]]
    closes = [plan for plan in plans if count - 1 in stages[plan.name]]
    both = [plan for plan in opens if plan in closes]
    for candidates in ([p for p in both if p.texture == "drone"], both[:1]):
        if candidates:
            names = {plan.name for plan in candidates}
            return names, names
    return {_steadiest(opens)}, {_steadiest(closes)}


def _steadiest(plans: Sequence[PartPlan]) -> str:
    return next((plan for plan in plans if plan.texture == "drone"), plans[0]).name


def _edges(blocks: Sequence[Block], opens: bool, closes: bool) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The blocks of the opening and of the way home, where there are blocks enough for something between."""
    last = len(blocks) - 1
    if last < 1:
        return (), ()
    home = (last,) if closes and blocks[last].bars >= 1 else ()
    return ((0,) if opens and last > 1 else ()), home


def _silenced(
    plan: PartPlan, opening: tuple[int, ...], home: tuple[int, ...], first: set[str], last: set[str]
) -> set[int]:
    """Blocks at the two ends in which the part leaves others alone."""
    return {i for i in opening if plan.name not in first} | {i for i in home if plan.name not in last}


def _climax(piece: Piece, lines: Sequence[Line], blocks: Sequence[Block], edges: set[int]) -> tuple[int, ...]:
    """The block in which the rules ask for most, with its neighbour of the same stage if it is short."""
    strength = _strength(piece, lines)
    means = [float(strength[b.bar - 1 : b.end - 1].mean()) for b in blocks]
    candidates = [i for i in range(len(blocks)) if i not in edges] or list(range(len(blocks)))
    peak = max(candidates, key=lambda i: (round(means[i], 6), -abs(i / len(blocks) - 2 / 3)))
    beside = [
        i
        for i in (peak - 1, peak + 1)
        if i in candidates
        and blocks[i].stage == blocks[peak].stage
        and blocks[i].bars + blocks[peak].bars <= _CLIMAX_BARS
    ]
    beside = [i for i in beside if means[i] >= 0.6 * means[peak]]
    return tuple(sorted([peak, *([max(beside, key=lambda i: means[i])] if beside else [])]))


def _strength(piece: Piece, lines: Sequence[Line]) -> FloatArray:
    """How much the density and dynamics rules ask for in each bar, each rule from 0 to 1, in the stages of its part.

    With no such rule: how many parts the scene has there, and a gentle hill two thirds of the way through.
    """
    total = np.zeros(piece.bars)
    by_name = {line.plan.name: line for line in lines}
    for curve in piece.controls.curves:
        if curve.rule.control not in ("density", "dynamics") or (curve.part and curve.part not in by_name):
            continue
        means = piece.bar_means(curve.results)
        span = means.max() - means.min()
        share = (means - means.min()) / span if span > 1e-9 else np.zeros(piece.bars)
        if curve.part:
            share = share * _present(piece, by_name[curve.part])
        total += share
    if total.max() <= 1e-9:
        total = sum((_present(piece, line) for line in lines), np.zeros(piece.bars))
        total = total + 0.9 * np.exp(-(((np.arange(piece.bars) / piece.bars - 2 / 3) / 0.2) ** 2))
    return total


def _present(piece: Piece, line: Line) -> FloatArray:
    here = np.zeros(piece.bars)
    for number in line.stages:
        stage = piece.stages[number]
        here[stage.bar - 1 : stage.bar - 1 + stage.bars] = 1.0
    return here


def _planned(
    plan: PartPlan,
    plans: Sequence[PartPlan],
    stages: dict[str, tuple[int, ...]],
    blocks: Sequence[Block],
    opening: tuple[int, ...],
    home: tuple[int, ...],
    first: set[str],
    last: set[str],
) -> set[int]:
    """A part's blocks before the climax and the limits: a new part enters and stays, an older one comes and goes."""
    on: set[int] = set()
    silent = _silenced(plan, opening, home, first, last)
    for stage in stages[plan.name]:
        usable = [i for i, block in enumerate(blocks) if block.stage == stage and i not in silent]
        here = [p for p in plans if stage in stages[p.name] and p.texture != "drone"]
        new = [p for p in here if stage - 1 not in stages[p.name]]
        if plan.texture == "drone" or (len(here) == 1 and plan in here):
            on.update(usable)
        elif plan in new:
            # One after the other, a block apart, so that each is heard to come in.
            on.update(usable[min(new.index(plan), max(len(usable) - 1, 0)) :])
        else:
            place = [p for p in here if p not in new].index(plan)
            turn = {i for j, i in enumerate(usable) if (j + place) % 2 == 1}
            on.update(turn or usable)
    on.update(i for i in opening if plan.name in first)
    on.update(i for i in home if plan.name in last)
    return on


def _thin(on: dict[str, set[int]], lines: Sequence[Line], blocks: Sequence[Block], free: set[int]) -> None:
    """Rest parts where too many sound at once: whoever has played longest, no drone, nobody for a whole stage."""
    weights = {line.plan.name: line.voices for line in lines}
    steady = {line.plan.name for line in lines if line.plan.texture == "drone"}
    total = sum(weights.values())
    most = total if total <= 2 else min(max(2, ceil(_MOST_AT_ONCE * total)), total - 1)
    for i, block in enumerate(blocks):
        while i not in free and sum(weights[name] for name in on if i in on[name]) > most:
            others = [j for j, other in enumerate(blocks) if other.stage == block.stage and j != i]
            able = [n for n in on if i in on[n] and n not in steady and any(j in on[n] for j in others)]
            if not able:
                break
            # Whoever comes in here is not the one to rest.
            old = [name for name in able if i - 1 in on[name]] or able
            on[max(old, key=lambda name: len(on[name]))].discard(i)


def _without_scraps(
    on: dict[str, set[int]], plans: Sequence[PartPlan], blocks: Sequence[Block], free: set[int]
) -> None:
    """No part comes back for less than a phrase in a stage in which it has been heard already."""
    for plan in plans:
        own = on[plan.name]
        for i in sorted(own - free):
            alone = i - 1 not in own and i + 1 not in own
            heard = any(blocks[j].stage == blocks[i].stage for j in own if j != i)
            others = any(i in on[other.name] for other in plans if other is not plan)
            if alone and heard and others and blocks[i].bars < _PHRASE_BARS:
                own.discard(i)


def _change_over(
    piece: Piece, on: dict[str, set[int]], lines: Sequence[Line], blocks: Sequence[Block]
) -> list[Finding]:
    """Give a desk that goes from one part to another a block without either, to change instruments."""
    findings = []
    for _, at_desk in groupby(sorted(lines, key=lambda line: line.desk), key=lambda line: line.desk):
        names = [line.plan.name for line in at_desk]
        for i in range(len(blocks) - 1):
            for before in names:
                for after in names:
                    if before == after or i not in on[before] or i + 1 not in on[after] or i + 1 in on[before]:
                        continue
                    if i - 1 in on[before]:
                        on[before].discard(i)
                    elif i + 2 in on[after]:
                        on[after].discard(i + 1)
                    else:
                        findings.append(_hurried(piece, before, after, blocks[i + 1].bar))
    return findings


def _hurried(piece: Piece, before: str, after: str, bar: int) -> Finding:
    return Finding(
        kind="playability",
        message=f"The group that plays {before} goes straight on to {after} at bar {bar}: instruments for both must "
        "lie ready.",
        fix="Lay both sets out before the lesson, or make one more group.",
        part=after,
        where=f"bar {bar}",
        serious=False,
    )
