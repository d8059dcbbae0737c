"""Which bar it was that was played: the places are known, and every bar is tried at every place.

Stages that sound alike are where a search goes wrong unseen. Here each way of reading the take (a stage left out,
played again, stopped at) has its weight, so a stage is told only where the others hardly come into question.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sonify.listening.aligning import FITS, FoundBar, Singles
from sonify.listening.expected import Expected
from sonify.listening.frames import HOP_S
from sonify.listening.plan import Plan

Floats = NDArray[np.float64]

#: What it costs here to begin or to stop anywhere but at the piece's ends, in nats: at a stage's, within one.
AT_STAGE, WITHIN = 5.0, 12.0
#: No bar is expected to fit better than so.
MOST_USUAL = 4.0
#: At how many places of the recording a bar is tried to learn how it fits by chance.
ANYWHERE = 400
#: Bars alike err alike: their weight is not that of so many independent ones (ours).
WEIGHT = 0.6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Labelled:
    """bars: those that were played, relabelled. sure: how likely each is that bar. gains: how much better a bar's own
    sound fits than that of other stages' bars."""

    bars: tuple[FoundBar, ...]
    sure: Floats
    gains: Floats


def fits_of(plan: Plan, expected: Expected, onsets: Singles, bars: Sequence[FoundBar]) -> Floats:
    """Places by bars: how well every bar would fit at every place, in deviations of bars that lie there by chance.

    onsets: a row every frame.
    """
    places = expected.places
    flat = expected.onsets.reshape(plan.bars, -1)
    share = np.arange(places) / places
    pieces = np.stack([_piece(onsets, bar.start_s + share * (bar.end_s - bar.start_s)) for bar in bars])
    lasts = np.median([bar.end_s - bar.start_s for bar in bars])
    starts = np.linspace(0.0, max(0.0, len(onsets) * HOP_S - lasts), ANYWHERE)
    chance = np.stack([_piece(onsets, at + share * lasts) for at in starts])
    alike, by_chance = pieces @ flat.T, chance @ flat.T
    return np.asarray((alike - by_chance.mean(axis=0)) / np.maximum(by_chance.std(axis=0), 1e-3), dtype=float)


def _piece(onsets: Singles, at_s: Floats) -> Singles:
    return onsets[np.clip(np.rint(at_s / HOP_S).astype(np.intp), 0, len(onsets) - 1)].reshape(-1)


def labelled(plan: Plan, fits: Floats, bars: Sequence[FoundBar]) -> Labelled:
    """The take's bars by their likeliest labels, each with how sure it is."""
    # how well a bar that is there fits is this recording's own: bars found in the talk before fit worse than those
    usual = float(np.clip(np.median([fits[n, bar.bar] for n, bar in enumerate(bars)]), FITS, MOST_USUAL))
    gains = WEIGHT * (usual * np.clip(fits, -3.0, 2.0 * usual) - usual**2 / 2)
    count = plan.bars
    begin, stop = np.full(count, WITHIN), np.full(count, WITHIN)
    for stage in plan.stages:
        begin[stage.bar] = stop[stage.end - 1] = AT_STAGE
    begin[0] = stop[-1] = 0.0
    # one more state: nothing of the piece, before it, after it or between
    size = count + 1
    moves = np.full((size, size), -np.inf)
    moves[np.arange(count - 1), np.arange(1, count)] = 0.0
    jumps = -(stop[:, None] + begin[None, :])
    moves[:count, :count] = np.maximum(moves[:count, :count], jumps)
    moves[:count, count] = -stop
    moves[count, :count] = -begin
    moves[count, count] = 0.0
    emitted = np.concatenate([gains, np.zeros((len(gains), 1))], axis=1)
    first = np.append(-begin, 0.0)
    last = np.append(-stop, 0.0)
    best = _best(emitted, moves, first, last)
    chances = _chances(emitted, moves, first, last)
    kept = [n for n in range(len(bars)) if best[n] < count]
    found = [FoundBar(int(best[n]), bars[n].start_s, bars[n].end_s, float(fits[n, best[n]])) for n in kept]
    stages = np.array([plan.stage_of(bar) for bar in range(count)])
    own = np.array([_own_gain(fits[n], int(best[n]), stages) for n in kept])
    return Labelled(bars=tuple(found), sure=np.array([chances[n, best[n]] for n in kept]), gains=own)


def _own_gain(fits: Floats, bar: int, stages: NDArray[np.intp]) -> float:
    others = fits[stages != stages[bar]]
    return float(fits[bar] - (others.mean() if others.size else np.delete(fits, bar).mean() if fits.size > 1 else 0.0))


def _best(emitted: Floats, moves: Floats, first: Floats, last: Floats) -> NDArray[np.intp]:
    score, back = first + emitted[0], []
    for row in emitted[1:]:
        ways = score[:, None] + moves
        back.append(ways.argmax(axis=0))
        score = ways.max(axis=0) + row
    state = int(np.argmax(score + last))
    out = [state]
    for pointers in reversed(back):
        state = int(pointers[state])
        out.append(state)
    return np.array(out[::-1], dtype=np.intp)


def _chances(emitted: Floats, moves: Floats, first: Floats, last: Floats) -> Floats:
    """Of every state at every place, given all that was heard."""
    weights = np.exp(moves)
    forward, backward = np.empty_like(emitted), np.empty_like(emitted)
    forward[0] = first + emitted[0]
    for n in range(1, len(emitted)):
        top = forward[n - 1].max()
        forward[n] = top + np.log(np.exp(forward[n - 1] - top) @ weights + 1e-300) + emitted[n]
    backward[-1] = last
    for n in range(len(emitted) - 2, -1, -1):
        ahead = backward[n + 1] + emitted[n + 1]
        top = ahead.max()
        backward[n] = top + np.log(weights @ np.exp(ahead - top) + 1e-300)
    both = forward + backward
    both -= both.max(axis=1, keepdims=True)
    chances = np.exp(both)
    return np.asarray(chances / chances.sum(axis=1, keepdims=True))
