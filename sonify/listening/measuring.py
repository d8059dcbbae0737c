"""Tempo, steadiness and level of every stage in one take, each with its interval or with why it cannot be told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.listening.aligning import FoundBar, Singles
from sonify.listening.frames import HOP_S, Heard
from sonify.listening.labelling import Labelled
from sonify.listening.plan import Plan, Stage
from sonify.records.fact import Words, fact
from sonify.records.listened import BarHeard, Span, StageHeard

Floats = NDArray[np.float64]

#: A stage is told where its bars are so sure, and fit so well in the mean, at least (set on simulated performances).
SURE, FITS_WELL = 0.97, 1.0
#: A tempo that stands apart from the other stages' by more than this, against the score, needs the better fit.
APART, FITS_BETTER = 0.16, 0.8
#: One that fits so much worse than the others is not told at all.
FITS_ALONE = 0.5
#: Nothing holds a take's first and last stage from outside: where the beat was lost on the way the bars go to and fro
#: by more than this share, and begin so many seconds off a smooth course (set on simulated performances).
LOST, LOST_S = 0.0195, 0.05
#: Half an interval: so many deviations (of where a bar begins, of how loud the bars are), and of a tempo at least this
#: share (the frames' own grain).
WIDE, LEAST = 2.6, 0.004
#: A level lies so far over what is heard between strokes, in decibels, or it is not told; and what any phone adds.
OVER_NOISE_DB, PHONE_DB, TINY = 3.0, 1.0, 1e-13


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Run:
    """A stage as it was played, whole: places of its bars in the take; where it began and ended, smoothed."""

    stage: Stage
    places: range
    start_s: float
    end_s: float
    error_s: float
    wander: float


def runs_of(plan: Plan, take: Labelled) -> dict[int, list[Run]]:
    """By stage: every time that it was played from its first bar to its last without a stop."""
    out: dict[int, list[Run]] = {}
    bars = take.bars
    for number, stage in enumerate(plan.stages):
        for first, bar in enumerate(bars):
            run = bars[first : first + stage.bars]
            if bar.bar == stage.bar and len(run) == stage.bars and _unbroken(run):
                out.setdefault(number, []).append(_run(plan, stage, run, first))
    return out


def _unbroken(run: Sequence[FoundBar]) -> bool:
    return all(
        after.bar == before.bar + 1 and abs(after.start_s - before.end_s) < 0.01
        for before, after in zip(run, run[1:], strict=False)
    )


def _run(plan: Plan, stage: Stage, run: Sequence[FoundBar], first: int) -> Run:
    """Bars found one by one lie a little off: the beat between is smooth, so a smooth curve is laid through them."""
    found = np.array([*[bar.start_s for bar in run], run[-1].end_s])
    written = np.concatenate([[0.0], np.cumsum(plan.bar_s[stage.bar : stage.end])])
    degree = 3 if len(found) >= 8 else 2 if len(found) >= 5 else 1
    curve = np.polynomial.Polynomial.fit(written, found, degree)
    smooth = curve(written)
    left = found - smooth
    free = max(1, len(found) - degree - 1)
    error = float(np.sqrt(np.sum(np.square(left)) / free))
    lasts = np.diff(found)
    return Run(
        stage=stage,
        places=range(first, first + stage.bars),
        start_s=float(smooth[0]),
        end_s=float(smooth[-1]),
        error_s=max(error, HOP_S),
        wander=float(np.std(np.log(lasts / np.diff(smooth)))),
    )


def stages_heard(
    plan: Plan, take: Labelled, heard: Heard, doubt: Words = "", guessed: frozenset[int] = frozenset()
) -> tuple[tuple[StageHeard, ...], tuple[BarHeard, ...]]:
    """doubt: why no stage can be told at all, "" where they can. guessed: bars' places that tell of no stage."""
    runs = runs_of(plan, take)
    fits = {n: float(np.mean([take.bars[k].fit for k in rows[0].places])) for n, rows in runs.items()}
    ratios = {n: np.log(_bpm(plan, rows[0]) / rows[0].stage.bpm) for n, rows in runs.items()}
    levels = _bar_levels(take, heard)
    over_all = float(np.mean(levels))
    floor = _floor_db(heard, take)
    rows = []
    for number, stage in enumerate(plan.stages):
        row = StageHeard(
            name=stage.name,
            title=stage.title,
            letter=stage.letter,
            bar=stage.bar + 1,
            bars=stage.bars,
            planned_bpm=stage.bpm,
        )
        why = doubt or _why_not(plan, number, take, runs, fits, ratios)
        if not why and guessed & set(runs[number][0].places):
            why = fact("recorded-alike")
        rows.append(replace(row, why=why) if why else _told(plan, row, runs[number][0], levels, over_all, floor))
    bars = tuple(
        BarHeard(
            bar=bar.bar + 1,
            start_s=bar.start_s,
            bpm=60.0 * plan.beats_a_bar / (bar.end_s - bar.start_s),
            level_db=db - over_all,
        )
        for bar, db in zip(take.bars, levels, strict=True)
    )
    return tuple(rows), bars


def _why_not(
    plan: Plan,
    number: int,
    take: Labelled,
    runs: dict[int, list[Run]],
    fits: dict[int, float],
    ratios: dict[int, float],
) -> Words:
    if number not in runs:
        return _missing(plan.stages[number], take)
    if len(runs[number]) > 1 and _spread(plan, runs[number]) > 0.03:
        return fact("recorded-twice")
    if min(float(take.sure[place]) for place in runs[number][0].places) < SURE:
        return fact("recorded-alike")
    if fits[number] < FITS_WELL:
        return fact("recorded-faint")
    run = runs[number][0]
    at_an_end = run.places[0] == 0 or run.places[-1] == len(take.bars) - 1
    if at_an_end and run.wander > LOST and run.error_s > LOST_S:
        return fact("recorded-beat-lost")
    others = [n for n in runs if n != number]
    if others:
        if fits[number] < FITS_ALONE * float(np.median([fits[n] for n in others])):
            return fact("recorded-faint")
        apart = abs(ratios[number] - float(np.median([ratios[n] for n in others])))
        if apart > APART and fits[number] < FITS_BETTER * float(np.mean([fits[n] for n in others])):
            return fact("recorded-faint")
    return ""


def _missing(stage: Stage, take: Labelled) -> Words:
    """What was found of a stage that was not played whole: some of it, or nothing."""
    bars = [bar.bar for bar in take.bars]
    if any(stage.bar <= bar < stage.end for bar in bars):
        return fact("recorded-not-whole")
    if stage.end <= min(bars):
        return fact("recorded-begins-later")
    return fact("recorded-ends-sooner") if stage.bar > max(bars) else fact("recorded-left-out")


def _spread(plan: Plan, runs: list[Run]) -> float:
    bpm = [_bpm(plan, run) for run in runs]
    return float(np.log(max(bpm) / min(bpm)))


def _bpm(plan: Plan, run: Run) -> float:
    return 60.0 * plan.beats_a_bar * run.stage.bars / (run.end_s - run.start_s)


def _told(
    plan: Plan,
    row: StageHeard,
    run: Run,
    levels: list[float],
    over_all: float,
    floor: float,
) -> StageHeard:
    bpm = _bpm(plan, run)
    half = LEAST + WIDE * run.error_s * np.sqrt(2.0) * 0.7 / (run.end_s - run.start_s)
    dbs = np.array([levels[place] for place in run.places])
    level = None
    if float(dbs.mean()) > floor + OVER_NOISE_DB:
        error = PHONE_DB + WIDE * float(dbs.std(ddof=1) if dbs.size > 1 else 3.0) / np.sqrt(dbs.size)
        middle = float(dbs.mean()) - over_all
        level = Span(value=middle, low=middle - error, high=middle + error)
    return replace(
        row,
        start_s=run.start_s,
        bpm=Span(value=bpm, low=bpm * (1.0 - half), high=bpm * (1.0 + half)),
        wander=run.wander,
        level_db=level,
    )


def _bar_levels(take: Labelled, heard: Heard) -> list[float]:
    """Decibels of every bar's mean power."""
    out = []
    for bar in take.bars:
        first = round(bar.start_s / HOP_S)
        piece = _power(heard, first, max(round(bar.end_s / HOP_S), first + 1))
        out.append(10.0 * float(np.log10(piece.mean() + TINY)) if piece.size else 10.0 * np.log10(TINY))
    return out


def _power(heard: Heard, first: int, last: int) -> Singles:
    return np.asarray((10.0 ** (heard.levels_db[first:last].astype(np.float32) / 10.0)).sum(axis=1))


def _floor_db(heard: Heard, take: Labelled) -> float:
    """What is heard where nobody strikes: the softest hundredth of the frames of the take."""
    power = _power(heard, round(take.bars[0].start_s / HOP_S), round(take.bars[-1].end_s / HOP_S))
    return 10.0 * float(np.log10(np.percentile(power, 1) + TINY)) if power.size else 0.0
