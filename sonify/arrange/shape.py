"""The texture plan: which part sounds in which block of bars, where the climax is, and the way home."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, cos, pi

from sonify.arrange.blocks import PHRASE_BARS, Block, blocks_of
from sonify.arrange.climax import climax
from sonify.arrange.groups import Line
from sonify.arrange.piece import Piece
from sonify.records.scene import PartPlan

#: Outside the climax at most this share of the parts sounds at once (our own choice).
_MOST_AT_ONCE = 0.7
#: Groups that share a part answer each other after so many bars.
ANSWER_BARS = 2

#: For each part's name the blocks (indices) in which it sounds.
Plan = dict[str, set[int]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """blocks in order; sounding: for each line's name the blocks it plays (indices); opening, climax, home: blocks.

    turns: for a line that shares its part with other groups, the bars that are its own.
    """

    blocks: tuple[Block, ...]
    sounding: dict[str, tuple[int, ...]]
    turns: dict[str, frozenset[int]]
    climax: tuple[int, ...]
    opening: tuple[int, ...]
    home: tuple[int, ...]

    def blocks_of(self, name: str) -> tuple[Block, ...]:
        return tuple(self.blocks[i] for i in self.sounding[name])

    def plays(self, name: str, bar: int) -> bool:
        """Whether a line plays in a bar of its blocks, or leaves it to a group that shares its part."""
        return name not in self.turns or bar in self.turns[name]

    def is_climax(self, bar: int) -> bool:
        return any(self.blocks[i].bar <= bar < self.blocks[i].end for i in self.climax)

    def arc(self, bar: float) -> float:
        """How near the climax: 0 at the beginning and at the end, 1 from its first bar to its last, smooth between."""
        first, last = self.blocks[self.climax[0]].bar, self.blocks[self.climax[-1]].end - 1
        end = self.blocks[-1].end - 1
        if first <= bar <= last:
            return 1.0
        share = (bar - 1) / max(first - 1, 1) if bar < first else (end - bar) / max(end - last, 1)
        return 0.5 - 0.5 * cos(pi * min(max(share, 0.0), 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ends:
    """The opening and the way home, and who alone plays there."""

    opening: tuple[int, ...]
    home: tuple[int, ...]
    opens: frozenset[str]
    closes: frozenset[str]

    def silences(self, name: str) -> set[int]:
        """Blocks at the two ends in which a part leaves others alone."""
        return {
            *(i for i in self.opening if name not in self.opens),
            *(i for i in self.home if name not in self.closes),
        }

    def plays(self, name: str) -> set[int]:
        return {
            *(i for i in self.opening if name in self.opens),
            *(i for i in self.home if name in self.closes),
        }


def shape(piece: Piece, lines: Sequence[Line]) -> Shape:
    """The texture plan for these lines."""
    blocks = blocks_of(piece)
    firsts = list({line.plan.name: line for line in reversed(lines)}.values())[::-1]
    ends = _ends(piece, firsts, blocks)
    fixed = {*ends.opening, *ends.home}
    peak = climax(piece, lines, blocks, fixed)
    leads = _leads(firsts)
    on = {line.plan.name: _planned(line, firsts, blocks, ends) for line in leads}
    # Who rests at the top of the very thing it stands for hides what pupils are to hear.
    tops: Plan = {line.plan.name: set() for line in leads}
    for line in firsts:
        lead = line.plan.name if line in leads else line.plan.partner
        tops[lead] |= _top(piece, line, blocks, fixed)
    for line in leads:
        on[line.plan.name] |= {i for i in peak if blocks[i].stage in line.stages} | tops[line.plan.name]
    kept = {name: {*peak, *fixed, *top} for name, top in tops.items()}
    _thin(on, lines, blocks, kept)
    _without_scraps(on, blocks, kept)
    for line in firsts:
        if line not in leads:
            own = {i for i in on[line.plan.partner] if blocks[i].stage in line.stages}
            on[line.plan.name] = own or _planned(line, firsts, blocks, ends)
    _change_over(on, lines, blocks)
    _everybody_plays(on, lines, blocks)
    sounding, turns = _voices(lines, on, blocks, peak)
    return Shape(blocks=blocks, sounding=sounding, turns=turns, climax=peak, opening=ends.opening, home=ends.home)


def _ends(piece: Piece, lines: Sequence[Line], blocks: Sequence[Block]) -> _Ends:
    """The first and the last block, where there are blocks enough for something between; drones alone play there.

    The same parts close the piece as open it, where the scene allows.
    """
    opens = [line.plan for line in lines if 0 in line.stages]
    closes = [line.plan for line in lines if len(piece.stages) - 1 in line.stages]
    both = [plan for plan in opens if plan in closes]
    same = [plan for plan in both if _steady(plan)] or both[:1]
    last = len(blocks) - 1
    return _Ends(
        opening=(0,) if last > 1 else (),
        home=(last,) if last > 0 else (),
        opens=frozenset(plan.name for plan in [*(same or _steadiest(opens)), *_restless(opens)]),
        closes=frozenset(plan.name for plan in [*(same or _steadiest(closes)), *_restless(closes)]),
    )


def _steadiest(plans: Sequence[PartPlan]) -> list[PartPlan]:
    return [next((plan for plan in plans if _steady(plan)), plans[0])]


def _restless(plans: Sequence[PartPlan]) -> list[PartPlan]:
    return [plan for plan in plans if not plan.rests]


def _steady(plan: PartPlan) -> bool:
    """Whether a part goes on through all its stages."""
    return plan.texture == "drone" or not plan.rests


def _leads(lines: Sequence[Line]) -> list[Line]:
    """The lines that go their own way: those with a partner in the piece come and go with it."""
    here = {line.plan.name for line in lines}
    return [line for line in lines if line.plan.partner not in here]


def _top(piece: Piece, line: Line, blocks: Sequence[Block], fixed: set[int]) -> set[int]:
    """The block in which the part's own rule asks for most, by the control that is plainest to hear; a short block and
    its stronger neighbour."""
    able = [i for i, block in enumerate(blocks) if block.stage in line.stages and i not in fixed]
    for control in ("density", "dynamics", "pitch"):
        curve = piece.curve(control, line.plan.name, own=True)
        if curve is not None and able:
            means = piece.bar_means(curve.results)
            strength = {i: float(means[blocks[i].bar - 1 : blocks[i].end - 1].mean()) for i in able}
            top = max(able, key=lambda i: round(strength[i], 6))
            beside = [i for i in (top - 1, top + 1) if i in strength and blocks[top].bars < PHRASE_BARS]
            return {top, *sorted(beside, key=lambda i: -strength[i])[:1]} if strength[top] > 0.0 else set()
    return set()


def _planned(line: Line, lines: Sequence[Line], blocks: Sequence[Block], ends: _Ends) -> set[int]:
    """A part's blocks before the climax and the limits: a new part enters and stays, an older one comes and goes."""
    silent = ends.silences(line.plan.name)
    on = ends.plays(line.plan.name)
    for stage in line.stages:
        usable = [i for i, block in enumerate(blocks) if block.stage == stage and i not in silent]
        here = [other for other in _leads(lines) if stage in other.stages and not _steady(other.plan)]
        new = [other for other in here if stage - 1 not in other.stages]
        if _steady(line.plan) or here == [line]:
            on.update(usable)
        elif line in new:
            # One after the other, a block apart where there are blocks enough, so that each is heard to come in.
            on.update(usable[new.index(line) * len(usable) // max(len(new), len(usable), 1) :])
        else:
            place = [other for other in here if other not in new].index(line) if line in here else 0
            on.update({i for j, i in enumerate(usable) if (j + place) % 2 == 1} or usable)
    return on


def _thin(on: Plan, lines: Sequence[Line], blocks: Sequence[Block], kept: Plan) -> None:
    """Rest parts where too many sound at once: whoever has played longest, no drone, nobody for a whole stage.

    kept: for each part the blocks that are not for thinning. A part counts with those that come and go with it.
    """
    weights = dict.fromkeys(on, 0)
    for line in {line.plan.name: line for line in lines}.values():
        weights[line.plan.name if line.plan.name in on else line.plan.partner] += line.voices
    steady = {line.plan.name for line in lines if _steady(line.plan)}
    total = sum(weights.values())
    most = total if total <= 2 else min(max(2, ceil(_MOST_AT_ONCE * total)), total - 1)
    for i, block in enumerate(blocks):
        while sum(weights[name] for name in on if i in on[name]) > most:
            others = [j for j, other in enumerate(blocks) if other.stage == block.stage and j != i]
            able = [n for n in on if i in on[n] and n not in steady and any(j in on[n] for j in others)]
            able = [name for name in able if i not in kept[name]]
            if not able:
                break
            # Whoever comes in here is not the one to rest.
            old = [name for name in able if i - 1 in on[name]] or able
            on[max(old, key=lambda name: len(on[name]))].discard(i)


def _without_scraps(on: Plan, blocks: Sequence[Block], kept: Plan) -> None:
    """No part comes back for less than a phrase in a stage in which it has been heard already."""
    for name, own in on.items():
        for i in sorted(own - kept[name]):
            alone = i - 1 not in own and i + 1 not in own
            heard = any(blocks[j].stage == blocks[i].stage for j in own if j != i)
            others = any(i in there for other, there in on.items() if other != name)
            if alone and heard and others and blocks[i].bars < PHRASE_BARS:
                own.discard(i)


def _change_over(on: Plan, lines: Sequence[Line], blocks: Sequence[Block]) -> None:
    """Give a desk that goes from one part to another a block without either, to change instruments, where there is one.

    Where there is none, `changeovers` tells the teacher.
    """
    desks: dict[int, list[str]] = {}
    for line in lines:
        desks.setdefault(line.desk, []).append(line.plan.name)
    pairs = [(a, b) for names in desks.values() for a in names for b in names if a != b]
    for i in range(len(blocks) - 1):
        for before, after in pairs:
            if i not in on[before] or i + 1 not in on[after] or i + 1 in on[before]:
                continue
            if i - 1 in on[before]:
                on[before].discard(i)
            elif i + 2 in on[after]:
                on[after].discard(i + 1)


def _everybody_plays(on: Plan, lines: Sequence[Line], blocks: Sequence[Block]) -> None:
    """A part that the plan above left without a block gets those of its stages back.

    In a very short piece the way home or a change of instruments may be all that its stages have.
    """
    for line in lines:
        if not on[line.plan.name]:
            on[line.plan.name] = {i for i, block in enumerate(blocks) if block.stage in line.stages}


def _voices(
    lines: Sequence[Line], on: Plan, blocks: Sequence[Block], peak: tuple[int, ...]
) -> tuple[dict[str, tuple[int, ...]], dict[str, frozenset[int]]]:
    """Each line's blocks, and for lines that share a part whose bars are whose: call and answer, all at the climax."""
    sounding = {line.name: tuple(sorted(on[line.plan.name])) for line in lines}
    turns: dict[str, frozenset[int]] = {}
    for line in lines:
        if line.voices == 1 or not line.plan.rests or line.plan.texture in ("drone", "scatter"):
            continue
        units = [
            (i, range(bar, min(bar + ANSWER_BARS, blocks[i].end)))
            for i in sounding[line.name]
            for bar in range(blocks[i].bar, blocks[i].end, ANSWER_BARS)
        ]
        if len(units) < line.voices:
            continue  # too short to answer each other: they play together
        own = {bar for n, (i, bars) in enumerate(units) if i in peak or n % line.voices == line.voice for bar in bars}
        turns[line.name] = frozenset(own)
        sounding[line.name] = tuple(
            i for i in sounding[line.name] if any(b in own for b in range(blocks[i].bar, blocks[i].end))
        )
    return sounding, turns
