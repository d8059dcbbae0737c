"""When each part came in: the bar from which its own strokes, those that no other part has, are there."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from sonify.listening.aligning import Singles
from sonify.listening.expected import CONTRAST, PLACES, blurred_bars, line_onsets
from sonify.listening.frames import HOP_S
from sonify.listening.labelling import Labelled
from sonify.listening.plan import Line, Plan
from sonify.records.fact import fact
from sonify.records.listened import EntryHeard, Span

Floats = NDArray[np.float64]

#: An entry is looked for so many bars before and after where it is written, and told where what lies outside the
#: interval has this chance at most and the strokes stand out so far (set on simulated performances).
AROUND, OUTSIDE, STANDS_OUT = 16, 0.01, 1.0
#: Bars in a row err alike.
WEIGHT = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Entered:
    """chances: of every bar of the plan, that the part came in there."""

    heard: EntryHeard
    chances: Floats | None


def entered(plan: Plan, take: Labelled, onsets: Singles) -> tuple[Entered, ...]:
    """A row for every part that comes in after the piece has begun."""
    later = [line for line in plan.lines if _entry(plan, line) > 0]
    if not later or not take.bars:
        return ()
    each = {line.name: blurred_bars(plan, line_onsets(plan, line)) for line in plan.lines}
    whole = np.sum(list(each.values()), axis=0)
    pieces = _pieces(plan, take, onsets)
    return tuple(_entered(plan, take, line, each[line.name], whole, pieces) for line in later)


def _entry(plan: Plan, line: Line) -> int:
    return int(line.beats[0] // plan.beats_a_bar)


def _pieces(plan: Plan, take: Labelled, onsets: Singles) -> Singles:
    """Bars of the take, each in the score's places, with the sixteenths of a bar by which it may be shifted."""
    places = plan.beats_a_bar * PLACES
    share = np.arange(places) / places
    out = []
    for bar in take.bars:
        at = np.rint((bar.start_s + share * (bar.end_s - bar.start_s)) / HOP_S).astype(np.intp)
        piece = onsets[np.clip(at, 0, len(onsets) - 1)]
        out.append(_contrasted(piece))
    return np.stack(out)


def _contrasted(rows: Singles) -> Singles:
    alike = rows.mean(axis=-1, keepdims=True)
    return np.asarray(alike + CONTRAST * (rows - alike), dtype=np.float32)


def _entered(plan: Plan, take: Labelled, line: Line, own: Singles, whole: Singles, pieces: Singles) -> Entered:
    entry = _entry(plan, line)
    planned = EntryHeard(part=line.name, group=line.group, planned_bar=entry + 1)

    def untold(message: str) -> Entered:
        return Entered(heard=replace(planned, why=fact(message)), chances=None)

    if line.texture == "scatter":
        return untold("recorded-free-taps")
    if any(_sounds_like(line, other) for other in plan.lines if other.name != line.name):
        return untold("recorded-same-sound")
    labels = np.array([bar.bar for bar in take.bars])
    last = int((line.beats[-1]) // plan.beats_a_bar)
    first, end = max(0, entry - AROUND), min(plan.bars, entry + AROUND + 1, last + 1)
    order = _first_pass(labels, first, end)
    if order is None or end - entry < 3:
        return untold("recorded-not-there")
    sounds = np.flatnonzero(np.abs(own[entry : last + 1]).sum(axis=(1, 2)) > 0.0) + entry
    likes = sounds[: min(4, sounds.size)]
    values = np.full(end - first, np.nan)
    chance = []
    for n, bar in enumerate(range(first, end)):
        like = bar if bar >= entry else int(likes[(bar - entry) % likes.size])
        if not np.abs(own[like]).sum():
            continue
        shape = _apart(own[like], whole[bar] - own[bar])
        norm = float(np.sum(np.square(shape)))
        if norm < 1e-6:
            continue
        values[n] = float(np.sum(shape * pieces[order[n]])) / np.sqrt(norm)
        # the same strokes at other places of the bar are what chance gives
        chance += [
            float(np.sum(np.roll(shape, move, axis=0) * pieces[order[n]])) / np.sqrt(norm)
            for move in (3, 5, len(shape) // 2 + 3, len(shape) - 5)
        ]
    playing = values[np.arange(first, end) >= entry + 3]
    playing = playing[np.isfinite(playing)]
    if playing.size < 2 or len(chance) < 8:
        return untold("recorded-not-there")
    base, spread = float(np.median(chance)), max(float(np.std(chance)), 1e-6)
    strong = (float(np.median(playing)) - base) / spread
    if strong < STANDS_OUT:
        return untold("recorded-covered")
    z = np.where(np.isfinite(values), (values - base) / spread, strong / 2)
    gains = WEIGHT * (strong * np.clip(z, -3.0, 2.0 * strong) - strong**2 / 2)
    # coming in at bar k: all from k on is its sound, all before is chance
    after = np.cumsum(gains[::-1])[::-1]
    weights = np.exp(after - after.max())
    chances = np.zeros(plan.bars)
    chances[first:end] = weights / weights.sum()
    total = np.cumsum(chances)
    low, high = int(np.searchsorted(total, OUTSIDE / 2)), int(np.searchsorted(total, 1.0 - OUTSIDE / 2))
    best = int(np.argmax(chances))
    span = Span(value=best + 1.0, low=low + 1.0, high=high + 1.0)
    if high - low > 6:
        return Entered(heard=replace(planned, why=fact("recorded-covered")), chances=chances)
    return Entered(heard=replace(planned, heard=span), chances=chances)


def _sounds_like(line: Line, other: Line) -> bool:
    """Whether two parts have a sound in common that has no pitch: no listener tells whose it was."""
    return bool(set(line.midi[~line.pitched]) & set(other.midi[~other.pitched]))


def _first_pass(labels: NDArray[np.intp], first: int, end: int) -> NDArray[np.intp] | None:
    """Places in the take of the bars first..end-1, in one go."""
    for place in np.flatnonzero(labels == first):
        run = labels[place : place + end - first]
        if run.size == end - first and np.array_equal(run, np.arange(first, end)):
            return np.arange(place, place + end - first)
    return None


def _apart(own: Singles, others: Singles) -> Singles:
    """Of a part's strokes what the other parts do not have in the same place."""
    own, others = _contrasted(own - own.mean(axis=0)), _contrasted(others - others.mean(axis=0))
    size = float(np.sum(np.square(others)))
    return np.asarray(own - (float(np.sum(own * others)) / size if size > 1e-9 else 0.0) * others, dtype=np.float32)
