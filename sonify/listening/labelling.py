"""Which bar it was that was played: the places are known, and every bar is tried at every place.

Stages that sound alike are where a search goes wrong unseen: what all bars share (a pulse, a ground) finds the places
and tells no bar from another. So here only what differs from bar to bar counts, weighed band by band by how well this
recording has it. Each way of reading the take (a stage left out, played again, stopped at) has its weight, and a stage
is told only where the others hardly come into question.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.listening.aligning import FASTEST, SLOWEST, FoundBar, Singles
from sonify.listening.expected import Expected
from sonify.listening.frames import HOP_S
from sonify.listening.plan import Plan

Floats = NDArray[np.float64]

#: What it costs here to begin or to stop anywhere but at the piece's ends, in nats: at a stage's, within one.
AT_STAGE, WITHIN = 7.0, 16.0
#: What it costs that a recorder was started when the piece had begun, at any of its bars (round figures of ours: one
#: class in twenty, and any of fifty bars). A take is cut off so where it was found with less than a bar before it.
CUT_OFF = 7.0
#: So many bars before the first that was found and after the last are tried, too.
BEYOND_ENDS = 4
#: At how many places of the recording a bar is tried to learn how it fits by chance.
ANYWHERE = 400
#: How often labels and what is learnt from them are gone through.
ROUNDS = 3
#: Bars that anything is learnt from, at least.
FEWEST = 4
#: A take does not begin or end with so few bars that lie apart from the others.
SCRAP = 2
#: How far stages' tempi lie about the take's own, against the score, and how much a single bar of it counts; how far a
#: bar's tempo may lie outside what is looked for.
TEMPO_SPREAD, TEMPO_COUNTS, EDGE = 0.2, 0.125, 0.05
#: Places and bands that err together, where ways of labelling are compared (the middle of what recordings have).
OVER = 8.0
#: That a bar keeps the piece's beat speaks for it so much at most, in nats, for a count-in does, too; that it does not
#: speaks so much against it, for its place may be a little off.
PRESENT, ABSENT = 3.0, 6.0
#: A way of reading the take that is less likely by so little, in nats, still comes into question.
RIVAL = 6.0
#: A band in which the notes hardly differ is not learnt from: this share of the mean band is added.
RIDGE = 0.05


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Labelled:
    """bars: those that were played, relabelled. sure: how likely each is that bar. stands_out: how much likelier all
    are than any bar of the piece, in deviations of what labels drawn by lot get.
    """

    bars: tuple[FoundBar, ...]
    sure: Floats
    stands_out: float


def pieces_of(onsets: Singles, bars: Sequence[FoundBar], places: int) -> Singles:
    """Bars of the recording as places by bands. onsets: a row every frame."""
    share = np.arange(places) / places
    return np.stack([_piece(onsets, bar.start_s + share * (bar.end_s - bar.start_s)) for bar in bars])


def _piece(onsets: Singles, at_s: Floats) -> Singles:
    return onsets[np.clip(np.rint(at_s / HOP_S).astype(np.intp), 0, len(onsets) - 1)]


def fits_of(plan: Plan, expected: Expected, onsets: Singles, bars: Sequence[FoundBar]) -> Floats:
    """Places by bars: how well every bar would fit at every place, in deviations of bars that lie there by chance."""
    flat = expected.onsets.reshape(plan.bars, -1)
    lasts = np.median([bar.end_s - bar.start_s for bar in bars])
    starts = np.linspace(0.0, max(0.0, len(onsets) * HOP_S - lasts), ANYWHERE)
    anywhere = [FoundBar(0, float(at), float(at + lasts), 0.0) for at in starts]
    alike = pieces_of(onsets, bars, expected.places).reshape(len(bars), -1) @ flat.T
    by_chance = pieces_of(onsets, anywhere, expected.places).reshape(ANYWHERE, -1) @ flat.T
    return np.asarray((alike - by_chance.mean(axis=0)) / np.maximum(by_chance.std(axis=0), 1e-3), dtype=float)


def with_ends(plan: Plan, bars: Sequence[FoundBar], seconds: float) -> list[FoundBar]:
    """The bars, and some before and after where there is room: a search begins late rather than in the talk."""
    out = list(bars)
    for _ in range(BEYOND_ENDS):
        first, last = out[0], out[-1]
        before, after = first.bar - 1, last.bar + 1
        lasts = (first.end_s - first.start_s) * (plan.bar_s[before] / plan.bar_s[first.bar] if before >= 0 else 1.0)
        if first.start_s >= lasts:
            out.insert(0, FoundBar(max(before, 0), first.start_s - lasts, first.start_s, 0.0))
        lasts = (last.end_s - last.start_s) * (plan.bar_s[after] / plan.bar_s[last.bar] if after < plan.bars else 1.0)
        if last.end_s + lasts <= seconds:
            out.append(FoundBar(min(after, plan.bars - 1), last.end_s, last.end_s + lasts, 0.0))
    return out


def labelled(
    plan: Plan, expected: Expected, onsets: Singles, found: Sequence[FoundBar], *, from_the_start: bool
) -> Labelled:
    """The take's bars by their likeliest labels, each with how sure it is. from_the_start: onsets begin where the
    recording does."""
    bars = with_ends(plan, found, len(onsets) * HOP_S)
    heard = pieces_of(onsets, bars, expected.places)
    moves, first, last = _moves(plan)
    if from_the_start and found[0].start_s < found[0].end_s - found[0].start_s:
        first[1:-1] = np.maximum(first[1:-1], -CUT_OFF)
    costs = moves, first, last
    lasts = _lasts(plan, bars)
    seen: dict[bytes, Floats] = {}
    ways = [_settled(expected.strokes, heard, start, costs, lasts, seen) for start in _starts(plan, bars, found)]
    likeliest, best, emitted = max(ways, key=lambda way: way[0])
    rivals = [labels for likely, labels, _ in ways if likely > likeliest - RIVAL]
    agreed = np.all([labels == best for labels in rivals], axis=0)
    count = plan.bars
    chances = _chances(emitted, *costs)
    kept = _without_scraps(best, count)
    if not kept.size:
        return Labelled(bars=(), sure=np.array([]), stands_out=0.0)
    placed = [replace(bars[n], bar=int(best[n])) for n in kept]
    fits = fits_of(plan, expected, onsets, placed)
    apart = emitted[kept, :count] + lasts[kept]  # what is heard alone: any piece can be played in time
    own = apart[np.arange(kept.size), best[kept]] - apart.mean(axis=1)
    return Labelled(
        bars=tuple(replace(bar, fit=float(fits[n, bar.bar])) for n, bar in enumerate(placed)),
        sure=np.array([chances[n, best[n]] * agreed[n] for n in kept]),
        stands_out=float(own.sum() / np.sqrt(max(1e-9, float(apart.var(axis=1).sum())))),
    )


def _starts(plan: Plan, bars: Sequence[FoundBar], found: Sequence[FoundBar]) -> list[NDArray[np.intp]]:
    """Labels to begin from: as they were found; as if the piece was begun at the first place that was found or a bar or
    some before it, or ended at the last or after it, with nothing left out. What is learnt from wrong labels bears
    them out, so one start is not enough."""
    count, size = plan.bars, len(bars)
    first = next(n for n, bar in enumerate(bars) if bar.start_s >= found[0].start_s - 1e-6)
    end = first + len(found)
    each = np.full(size, count, dtype=np.intp)
    each[first:end] = [bar.bar for bar in found]
    places = np.arange(size)
    ahead = [np.where((places >= at) & (places < end), places - at, count) for at in range(first + 1)]
    back = [np.where((places >= first) & (places < at), places - at + count, count) for at in range(end, size + 1)]
    out = [each]
    for labels in (*ahead, *back, *_left_out(plan, each, first, end)):
        labels = np.where(labels < 0, count, np.minimum(labels, count))
        if not any(np.array_equal(labels, other) for other in out):
            out.append(labels)
    return out


def _left_out(plan: Plan, found: NDArray[np.intp], first: int, end: int) -> list[NDArray[np.intp]]:
    """Labels as if any one stage had been left out: a take that begins where one was found and is as long, or nearly;
    or that ends there or nearly, for talk may have been taken for the bars before it."""
    out = []
    for stage in plan.stages[1:]:
        played = np.delete(np.arange(plan.bars), np.arange(stage.bar, stage.end))
        begins = {first, *(end - played.size + away for away in range(-SCRAP, SCRAP + 1))}
        for begin in sorted(begins):
            if begin >= 0 and abs(begin + played.size - end) <= SCRAP:
                labels = np.full_like(found, plan.bars)
                size = min(played.size, found.size - begin)
                labels[begin : begin + size] = played[:size]
                out.append(labels)
    return out


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Learnt:
    """What one half of the bars teaches of how this recording has the notes, band by band: usual, the bar that all
    bars share; strength, of what is written besides; noise, what is heard besides, squared."""

    common: Singles
    usual: Singles
    strength: Singles
    noise: Singles
    over: float

    def gains(self, strokes: Singles, heard: Singles) -> Floats:
        """Places by bars: the log likelihood of every bar against none of the piece."""
        told = strokes - self.common
        shape = (told * (self.strength / self.noise)).reshape(len(told), -1)
        size = (told * self.strength * shape.reshape(told.shape)).sum(axis=(1, 2))
        alike = (heard - self.usual).reshape(len(heard), -1) @ shape.T - 0.5 * size
        weight = self.usual / self.noise
        present = (heard * weight).sum(axis=(1, 2)) - 0.5 * float((self.usual * weight).sum())
        there = np.clip(present / self.over, -ABSENT, PRESENT)
        return np.asarray(alike / self.over + there[:, None], dtype=float)


def _heard_in(alike: Floats, present: Floats) -> Floats:
    """How much likelier a bar is than the usual one, where the usual one is so much likelier than nothing. Bars of few
    strokes are much like none at all: where nothing is heard that speaks for no bar."""
    return np.asarray(np.where(alike > 0.0, np.clip(alike + present, 0.0, alike), alike), dtype=float)


def _learnt(strokes: Singles, heard: Singles, common: Singles, usual: Singles) -> _Learnt:
    """From bars as they are written and as they are heard."""
    told, rest = strokes - common, heard - usual
    size = np.square(told).sum(axis=(0, 1))
    strength = np.maximum((told * rest).sum(axis=(0, 1)), 0.0) / (size + RIDGE * size.mean() + 1e-6)
    left = rest - strength * told
    noise = np.square(left).mean(axis=(0, 1)) + 1e-3
    # a stroke lasts several places and sounds in several bands, so errors are fewer than places times bands
    shape = (told * (strength / noise)).reshape(len(told), -1)
    errors = np.square(left.reshape(len(left), -1) @ shape.T).mean()
    meant = float((np.square(told) * (strength * strength / noise)).sum(axis=(1, 2)).mean())
    return _Learnt(
        common=common, usual=usual, strength=strength, noise=noise, over=max(1.0, float(errors) / max(1e-9, meant))
    )


def _halves(strokes: Singles, heard: Singles, labels: NDArray[np.intp]) -> list[tuple[NDArray[np.intp], _Learnt]]:
    """Places, and what is learnt from the others: those of even bars from those of odd ones and the other way round,
    so that nothing is judged by what it taught."""
    turn, out = np.arange(len(heard)) % 2, []
    played = np.flatnonzero(labels < len(strokes))
    common, usual = strokes[labels[played]].mean(axis=0), heard[played].mean(axis=0)
    for half in (0, 1):
        learn = played[turn[played] != half]
        if learn.size >= 2:
            out.append((np.flatnonzero(turn == half), _learnt(strokes[labels[learn]], heard[learn], common, usual)))
    return out


def _lasts(plan: Plan, bars: Sequence[FoundBar]) -> Floats:
    """Places by bars: what it costs that a bar lasts otherwise than written, against the take's own tempo. Little, for
    a class may take any stage as it likes, but not at half its speed."""
    away = np.log(np.array([bar.end_s - bar.start_s for bar in bars]))[:, None] - np.log(plan.bar_s)[None, :]
    usual = float(np.median([away[n, bar.bar] for n, bar in enumerate(bars)]))
    outside = (away > -np.log(SLOWEST) + EDGE) | (away < -np.log(FASTEST) - EDGE)
    return np.asarray(TEMPO_COUNTS * np.square((away - usual) / TEMPO_SPREAD) / 2.0 + np.where(outside, WITHIN, 0.0))


def _settled(
    strokes: Singles,
    heard: Singles,
    labels: NDArray[np.intp],
    costs: tuple[Floats, Floats, Floats],
    lasts: Floats,
    seen: dict[bytes, Floats],
) -> tuple[float, NDArray[np.intp], Floats]:
    """Labels and what is learnt from them, until neither changes: how well they explain what is heard, the labels,
    every bar's gains. seen: gains by labels, of other ways, too."""
    count = len(strokes)
    emitted = np.zeros((len(heard), count + 1))
    for _ in range(ROUNDS):
        if np.count_nonzero(labels < count) < FEWEST:
            break
        key = labels.tobytes()
        if key not in seen:
            seen[key] = np.zeros_like(emitted)
            for mine, learnt in _halves(strokes, heard, labels):
                seen[key][mine, :count] = learnt.gains(strokes, heard[mine]) - lasts[mine]
        emitted = seen[key]
        before, labels = labels, _best(emitted, *costs)
        if np.array_equal(before, labels):
            break
    return _explained(strokes, heard, labels) + _cost(labels, *costs), labels, emitted


def _explained(strokes: Singles, heard: Singles, labels: NDArray[np.intp]) -> float:
    """How much of what sets bars apart the labels foretell, in nats that are the same for all labels."""
    if np.count_nonzero(labels < len(strokes)) < FEWEST:
        return 0.0
    noise, total = np.square(heard).mean(axis=(0, 1)) + 1e-3, 0.0
    for mine, learnt in _halves(strokes, heard, labels):
        played = mine[labels[mine] < len(strokes)]
        rest = heard[played] - learnt.usual
        left = rest - learnt.strength * (strokes[labels[played]] - learnt.common)
        alike = ((np.square(rest) - np.square(left)) / noise).sum(axis=(1, 2)) / (2.0 * OVER)
        present = ((np.square(heard[played]) - np.square(rest)) / noise).sum(axis=(1, 2)) / (2.0 * OVER)
        total += float(_heard_in(alike, present).sum())
    return total


def _cost(labels: NDArray[np.intp], moves: Floats, first: Floats, last: Floats) -> float:
    return float(first[labels[0]] + moves[labels[:-1], labels[1:]].sum() + last[labels[-1]])


def _without_scraps(labels: NDArray[np.intp], count: int) -> NDArray[np.intp]:
    """Places of the take's bars, without the bar or two of a count-in or of talk before and after it."""
    kept = np.flatnonzero(labels < count)
    falls = np.flatnonzero((np.diff(labels[kept]) != 1) | (np.diff(kept) != 1)) + 1
    runs = np.split(kept, falls)
    while len(runs) > 1 and len(runs[0]) <= SCRAP:
        runs.pop(0)
    while len(runs) > 1 and len(runs[-1]) <= SCRAP:
        runs.pop()
    return np.concatenate(runs)


def _moves(plan: Plan) -> tuple[Floats, Floats, Floats]:
    """What it costs to go from bar to bar, to begin and to stop; the last state is nothing of the piece."""
    count = plan.bars
    begin, stop = np.full(count, WITHIN), np.full(count, WITHIN)
    for stage in plan.stages:
        begin[stage.bar] = stop[stage.end - 1] = AT_STAGE
    begin[0] = stop[-1] = 0.0
    moves = np.full((count + 1, count + 1), -np.inf)
    moves[np.arange(count - 1), np.arange(1, count)] = 0.0
    moves[:count, :count] = np.maximum(moves[:count, :count], -(stop[:, None] + begin[None, :]))
    moves[:count, count], moves[count, :count], moves[count, count] = -stop, -2.0 * begin, 0.0
    # a class that leaves a stage out leaves out its first no sooner than another
    return moves, np.append(-2.0 * begin, 0.0), np.append(-stop, 0.0)


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
