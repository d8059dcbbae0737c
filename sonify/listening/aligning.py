"""Which bar is played when: the likeliest way through the bars, at tempi within -30 and +40 % of the score's.

A way begins at a stage, goes on bar by bar while the tempo drifts, may change pace where a stage does, may stop
anywhere and begin again; while nobody plays it rests. Blind trackers land on another metrical level in most pieces;
this one only asks where the known bars fit, so it cannot.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from sonify.errors import SonifyError
from sonify.frozen import dataclass
from sonify.listening.expected import Expected
from sonify.listening.frames import HOP_S, Heard
from sonify.listening.plan import Plan
from sonify.records.fact import wrong

Singles = NDArray[np.float32]
Progress = Callable[[float], None]

#: Tempo against the score's, slowest and fastest, and the finest step in which it is looked for.
SLOWEST, FASTEST, STEP = 0.7, 1.4, 0.025
#: How far the bars' tempo wanders from one bar to the next, and at most; how far it may leap where a stage begins.
WANDERS, MOST_STEPS, LEAPS = 0.025, 2, 0.12
#: How well a bar fits where it is played, in deviations of how it fits anywhere: what is expected (and what counts).
FITS, MOST_FITS = 2.0, 6.0
#: What it costs, in nats: to begin the piece, to begin at a later stage, to stop where a stage ends, within one.
BEGINS, BEGINS_LATER, STOPS, STOPS_WITHIN = 8.0, 25.0, 15.0, 25.0
#: At how many places of the recording a bar is tried to learn how it fits anywhere.
ANYWHERE = 500
#: A recording is gone through in windows of so many pieces, each overlapping the next by the longest that one lasts.
WINDOW_PIECES = 2.2
#: Between takes that may be one there are fewer than so many bars; how long a bar lasts so many before it tell.
HARDLY_BARS, NEIGHBOURS = 3.0, 8
#: What is gone back through, in bytes, at most. Bars shorter than this are looked at in finer steps, a piece longer
#: than that in coarser ones.
MOST_STATES, QUICK_S, LONG_S = 100_000_000, 1.7, 300.0


@dataclass(frozen=True, slots=True)
class FoundBar:
    """A bar that was played: seconds in the recording; fit: how well its onsets fit, in deviations of how they fit
    anywhere in the recording."""

    bar: int
    start_s: float
    end_s: float
    fit: float


def prepared(heard: Heard, hop_frames: int) -> Singles:
    """Onsets with their surroundings' mean taken off, in their surroundings' deviation, a row every `hop_frames`."""
    from scipy.ndimage import gaussian_filter1d, uniform_filter1d

    onsets = heard.onsets.astype(np.float32)
    mean = uniform_filter1d(onsets, round(4.0 / HOP_S), axis=0)
    spread = uniform_filter1d(np.square(onsets), round(12.0 / HOP_S), axis=0)
    onsets -= mean
    onsets /= np.sqrt(spread + np.float32(1e-3))
    np.minimum(onsets, 3.0, out=onsets)
    return np.asarray(gaussian_filter1d(onsets, 2.0, axis=0)[::hop_frames])


def played_bars(plan: Plan, expected: Expected, heard: Heard, progress: Progress | None = None) -> list[FoundBar]:
    """Every bar that was played, in order of time. Raises SonifyError for a piece too long to be looked for."""
    total_s = float(plan.bar_s.sum())
    hop = 1 if plan.bar_s.min() < QUICK_S else 4 if total_s > LONG_S else 2
    hop_s = hop * HOP_S
    way = _Way(plan, expected, hop_s)
    longest = total_s / SLOWEST
    size, step = round(WINDOW_PIECES * longest / hop_s), round((WINDOW_PIECES - 1.1) * longest / hop_s)
    total = -(-len(heard.onsets) // hop)
    if min(size, total) * way.lasts.size > MOST_STATES:
        most = MOST_STATES * hop_s / way.lasts.size / 60.0
        raise SonifyError(
            wrong("error_listen-long-piece", bars=plan.bars, minutes=f"{total_s / 60:.0f}", most=f"{most:.0f}")
        )
    found: list[list[FoundBar]] = []
    for start in range(0, max(1, total - round(longest / hop_s) // 2 if total > size else 1), step):
        first, last = start * hop, (start + size) * hop
        piece = replace(heard, onsets=heard.onsets[first:last], levels_db=heard.levels_db[:0])
        if len(piece.onsets) * HOP_S < 2.0 * plan.bar_s.max():
            continue

        def done(share: float, at: int = start) -> None:
            if progress:
                progress(min(1.0, (at + share * min(size, total)) / total))

        bars = way.through(prepared(piece, hop), done)
        away_s = start * hop_s
        found.append([replace(bar, start_s=bar.start_s + away_s, end_s=bar.end_s + away_s) for bar in bars])
    return _joined(found)


def _joined(windows: list[list[FoundBar]]) -> list[FoundBar]:
    """Takes found in overlapping windows: of two that lie over each other the likelier."""
    takes = sorted((take for bars in windows for take in takes_of(bars)), key=lambda take: -sum(b.fit for b in take))
    kept: list[list[FoundBar]] = []
    for take in takes:
        if all(take[-1].end_s <= other[0].start_s or take[0].start_s >= other[-1].end_s for other in kept):
            kept.append(take)
    return [bar for take in sorted(kept, key=lambda take: take[0].start_s) for bar in take]


def takes_of(bars: list[FoundBar]) -> list[list[FoundBar]]:
    """Bars in order of time, cut where the piece begins anew."""
    takes: list[list[FoundBar]] = []
    for bar in bars:
        if not takes or (bar.bar == 0 and takes[-1][-1].bar != 0):
            takes.append([])
        takes[-1].append(bar)
    return takes


def joined_takes(plan: Plan, takes: Sequence[list[FoundBar]]) -> list[list[FoundBar]]:
    """Takes with hardly a rest between them, as one: a class that leaves a stage out or plays one again may be taken
    for one that begins anew. What lies between them is cut into bars that last as those before it. None is longer than
    a window, or two hours of another piece would be one."""
    out: list[list[FoundBar]] = []
    joins: list[int] = []
    for take in takes:
        lasts = float(np.median([bar.end_s - bar.start_s for bar in out[-1][-NEIGHBOURS:]])) if out else 0.0
        gap = take[0].start_s - out[-1][-1].end_s if out else np.inf
        if gap >= HARDLY_BARS * lasts:
            out.append(list(take))
            joins.append(0)
            continue
        last, count = out[-1][-1], round(gap / lasts)
        out[-1] += [
            FoundBar(
                min(last.bar + 1 + n, plan.bars - 1),
                last.end_s + n * gap / count,
                last.end_s + (n + 1) * gap / count,
                0.0,
            )
            for n in range(count)
        ]
        out[-1] += take
        joins[-1] += 1
    most_s = WINDOW_PIECES * float(plan.bar_s.sum()) / SLOWEST
    return [
        bars for bars, joined in zip(out, joins, strict=True) if joined and bars[-1].end_s - bars[0].start_s <= most_s
    ]


class _Way:
    """The search itself: states are (bar about to begin, tempo) at a time in hops, and resting."""

    def __init__(self, plan: Plan, expected: Expected, hop_s: float) -> None:
        self.hop_s = hop_s
        self.expected = expected.onsets.reshape(plan.bars, expected.places, -1)
        steps = np.arange(np.log(1.0 / FASTEST), np.log(1.0 / SLOWEST) + STEP / 2, STEP)
        self.lasts = np.maximum(1, np.rint(plan.bar_s[:, None] * np.exp(steps)[None, :] / hop_s)).astype(np.intp)
        # by the second, not by the bar: else a pulse that quick bars fit twice over is taken for twice as many of them
        self.counts = (plan.bar_s / plan.bar_s.mean()).astype(np.float32)[:, None, None]
        self.firsts = np.array([stage.bar for stage in plan.stages])
        self.ends = np.array([stage.end for stage in plan.stages])
        away = np.abs(np.arange(steps.size)[:, None] - np.arange(steps.size)[None, :]) * STEP
        self.leap = (0.5 * np.square(away / LEAPS)).astype(np.float32)
        self.shifts = [
            (shift, np.float32(0.5 * np.square(steps_away * STEP / WANDERS)))
            for steps_away in range(1, MOST_STEPS + 1)
            for shift in (-steps_away, steps_away)
        ]
        self.tempi = np.arange(steps.size, dtype=np.int8)
        begins = np.full(self.firsts.size, BEGINS_LATER, dtype=np.float32)
        begins[0] = BEGINS
        self.begins = begins
        stops = np.full(plan.bars + 1, STOPS_WITHIN, dtype=np.float32)
        stops[self.ends] = STOPS
        stops[-1] = 0.0
        self.stops = stops

    def fits(self, onsets: Singles) -> Iterator[tuple[int, Singles]]:
        """(first hop, hops by bars by tempi): how much likelier each bar is to begin here than not."""
        bars, tempi = self.lasts.shape
        places = self.expected.shape[1]
        longest = int(self.lasts.max())
        padded = np.concatenate([onsets, np.zeros((longest + 1, onsets.shape[1]), dtype=np.float32)])
        flat = self.expected.reshape(bars * places, -1)
        at = np.rint(np.arange(places)[None, None, :] / places * self.lasts[:, :, None]).astype(np.intp)
        self.centre, self.spread = centre, spread = self._anywhere(onsets)
        block = 600
        for first in range(0, len(onsets), block):
            size = min(block, len(onsets) - first)
            alike = flat @ padded[first : first + size + longest].T  # bars x places, hops
            out = np.empty((bars, tempi, size), dtype=np.float32)
            for bar in range(bars):
                rows = alike[bar * places : (bar + 1) * places]
                for tempo in range(tempi):
                    line = out[bar, tempo]
                    line[:] = rows[0, :size]
                    for place, offset in enumerate(at[bar, tempo, 1:], 1):
                        line += rows[place, offset : offset + size]
            fit = np.minimum((out - centre[:, None, None]) / spread[:, None, None], MOST_FITS)
            likelier = self.counts * (FITS * fit - FITS**2 / 2)
            yield first, np.ascontiguousarray(likelier.transpose(2, 0, 1))

    def _anywhere(self, onsets: Singles) -> tuple[Singles, Singles]:
        """How each bar fits at places all over the recording: mean and deviation."""
        places = self.expected.shape[1]
        lasts = float(np.median(self.lasts))
        starts = np.linspace(0.0, max(0.0, len(onsets) - 1 - lasts), min(len(onsets), ANYWHERE))
        at = np.rint(starts[:, None] + np.arange(places) / places * lasts).astype(np.intp)
        pieces = onsets[np.minimum(at, len(onsets) - 1)].reshape(len(at), -1)
        fits = pieces @ self.expected.reshape(len(self.expected), -1).T
        return fits.mean(axis=0), np.maximum(fits.std(axis=0), 1e-3)

    def through(self, onsets: Singles, progress: Callable[[float], object]) -> list[FoundBar]:
        hops, (bars, tempi) = len(onsets), self.lasts.shape
        ring = int(self.lasts.max()) + 1
        low = np.float32(-1e9)
        arrived = np.full((ring, bars + 1, tempi), low, dtype=np.float32)
        came = np.full((hops + 1, bars, tempi), -1, dtype=np.int8)  # the tempo before; -1: from rest
        stopped = np.full((hops + 1, 2), -1, dtype=np.int16)  # the bar that would come, its tempo; -1: rested on
        rest = np.float32(0.0)
        row, column = np.meshgrid(np.arange(bars), np.arange(tempi), indexing="ij")
        inner = np.ones(bars, dtype=bool)
        inner[self.firsts] = False
        for first, fits in self.fits(onsets):
            for now in range(first, first + len(fits)):
                here = arrived[now % ring]
                best, source = self._go_on(here, inner)
                ends = here.max(axis=1) - self.stops
                stop = int(np.argmax(ends))
                if ends[stop] > rest:
                    rest = ends[stop]
                    stopped[now] = stop, int(np.argmax(here[stop]))
                fresh = (rest - self.begins)[:, None]
                begun = best[self.firsts]
                from_rest = fresh > begun
                best[self.firsts] = np.where(from_rest, fresh, begun)
                source[self.firsts] = np.where(from_rest, -1, source[self.firsts])
                came[now] = source
                here[:] = low
                arrived[(now + self.lasts) % ring, row + 1, column] = best + fits[now - first]
            progress((first + len(fits)) / hops)
        return self._back(came, stopped, arrived[hops % ring], rest, onsets)

    def _go_on(self, here: Singles, inner: NDArray[np.bool_]) -> tuple[Singles, NDArray[np.int8]]:
        """The best way into every bar at every tempo from the bar before."""
        bars, tempi = self.lasts.shape
        before = here[:bars]
        best = before.copy()
        source = np.repeat(np.arange(tempi, dtype=np.int8)[None, :], bars, axis=0)
        for shift, cost in self.shifts:
            into, out = slice(max(0, shift), tempi + min(0, shift)), slice(max(0, -shift), tempi + min(0, -shift))
            other = before[:, out] - cost
            better = other > best[:, into]
            np.copyto(best[:, into], other, where=better)
            np.copyto(source[:, into], self.tempi[out], where=better)
        leaps = before[self.firsts][:, None, :] - self.leap[None, :, :]
        source[self.firsts] = leaps.argmax(axis=2)
        best[self.firsts] = leaps.max(axis=2)
        return best, source

    def _back(
        self, came: NDArray[np.int8], stopped: NDArray[np.int16], last: Singles, rest: np.float32, onsets: Singles
    ) -> list[FoundBar]:
        now = len(came) - 1
        ends = last.max(axis=1) - self.stops
        bar, tempo = -1, -1
        if ends.max() > rest:
            bar = int(np.argmax(ends))
            tempo = int(np.argmax(last[bar]))
        out: list[tuple[int, int, int, int]] = []
        while now > 0 or bar >= 0:
            if bar < 0:  # resting: back to where it was stopped
                where = np.flatnonzero(stopped[: now + 1, 0] >= 0)
                if not where.size:
                    break
                now = int(where[-1])
                bar, tempo = int(stopped[now, 0]), int(stopped[now, 1])
                continue
            bar -= 1
            start = now - int(self.lasts[bar, tempo])
            out.append((bar, start, now, tempo))
            now, before = start, int(came[start, bar, tempo])
            if before < 0:
                bar = -1
            tempo = before
        return [self._found(row, onsets) for row in reversed(out)]

    def _found(self, row: tuple[int, int, int, int], onsets: Singles) -> FoundBar:
        bar, start, end, tempo = row
        places = self.expected.shape[1]
        at = start + np.rint(np.arange(places) / places * self.lasts[bar, tempo]).astype(np.intp)
        alike = float(np.sum(self.expected[bar] * onsets[np.minimum(at, len(onsets) - 1)]))
        fit = (alike - float(self.centre[bar])) / float(self.spread[bar])
        return FoundBar(bar, start * self.hop_s, end * self.hop_s, fit)
