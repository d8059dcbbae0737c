"""How far apart quiet and loud lie: near enough that a classroom hears the quiet stages, and in the order they had.

Worked out from the Score alone. Where no rule sets the loudness, the decibels between one dynamic mark and another are
narrowed by one factor for the whole piece. Then each stage is lifted or lowered by a constant, so that a louder stage
stays louder; a part whose loudness tells of the science follows only as far as its own stages keep what is to be heard
of their steps. Where all of that is not enough, the marks that tell of the science are drawn together as well, all by
one factor.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

import numpy as np

from sonify.frozen import dataclass
from sonify.records.score import Score
from sonify.sound.loudness import loudness_range_lu
from sonify.sound.rate import HOP, RATE_HZ, Floats

#: What is aimed at, guessed from the notes; the recording is to stay under 10 LU.
AIM_LU = 8.0
#: For more than this alone marks that tell of the science are drawn together, and no further than to this.
ENOUGH_LU = 9.2
#: Tried in turn until the aim is met: what is left of the decibels between marks that no rule sets, and between those
#: that tell of the science, which come last; and of those between stages.
NARROWED = (
    (1.0, 1.0),
    (0.85, 1.0),
    (0.7, 1.0),
    (0.6, 1.0),
    (0.5, 1.0),
    (0.4, 1.0),
    (0.3, 1.0),
    (0.3, 0.85),
    (0.3, 0.75),
)
STAGES = (1.0, 0.75, 0.55, 0.4, 0.25)
#: Of a difference between two stages of a part, at least so much stays: 4 dB and a little, as the young are to have,
#: and a quarter of what is above that. What is smaller than LEAST_DB is none.
KEPT_DB, KEPT_SHARE, LEAST_DB = 4.4, 0.25, 0.3
STEP_DB, MOST_LIFT_DB = 0.8, 6.0
ROUNDS = 200
#: What lifts covered parts may take the range further than AIM_LU; shares of such lifts that are tried.
SPARE_LU, SHARES = 1.0, (1.0, 0.9, 0.75, 0.5, 0.25)
MADE_UP = 4  # rounds in which stages are brought back to how loud they were
RAMP_S = 2.0  # from one stage's lift to the next


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Levels:
    """narrowed: factor of the decibels between marks; ruled: of those in parts with a rule for them. times_s: corners
    at which the lifts are given, in dB: a row a part, and the last for the natural sounds."""

    narrowed: float
    ruled: float
    times_s: Floats
    lifts_db: Floats

    def lift(self, row: int, times_s: Floats) -> Floats:
        """The gain of a part (-1: the natural sounds) at some times of the file."""
        return np.asarray(10.0 ** (np.interp(times_s, self.times_s, self.lifts_db[row]) / 20.0))

    def all_lifts(self, times_s: Floats) -> Floats:
        """The gains of all parts, a row each: many are lifted alike."""
        known: dict[bytes, Floats] = {}
        for row, lifts in enumerate(self.lifts_db):
            if lifts.tobytes() not in known:
                known[lifts.tobytes()] = self.lift(row, times_s)
        return np.array([known[lifts.tobytes()] for lifts in self.lifts_db])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Heard:
    """What is known of a Score before it is rendered.

    hops: for each of NARROWED, a row a part and a last one for the natural sounds: guessed energies of each 100 ms.
    own_db: for each of these rows the levels of its stages that its lift must keep in order (nan: silent there); none
    for a part whose loudness no rule sets. The last row's are not narrowed.
    """

    hops: Sequence[Floats]
    own_db: Sequence[Sequence[Floats]]


def as_written(parts: int) -> Levels:
    return Levels(narrowed=1.0, ruled=1.0, times_s=np.zeros(1), lifts_db=np.zeros((parts + 1, 1)))


def levels_for(score: Score, heard: Heard) -> Levels:
    """The least change with which the piece is guessed to keep to AIM_LU, or else the one that comes nearest."""
    best = as_written(len(score.parts))
    if score.loudness_range == "wide" or not score.sections:
        return best
    edges, least = stage_edges_s(score), math.inf
    at_s = np.arange(heard.hops[0].shape[1]) * HOP / RATE_HZ
    plain_db: list[Floats] = []
    for narrowed, kept in _least_first():
        if NARROWED[narrowed][1] < 1.0 and least <= ENOUGH_LU:
            break
        for hops in heard.hops[len(plain_db) : narrowed + 1]:
            plain_db.append(stage_levels_db(hops.sum(axis=0), edges))
        found = _drawn(heard, edges, at_s, plain_db, narrowed, kept)
        if found is None:
            continue
        levels, range_lu = found
        if range_lu < least - 0.05:
            best, least = levels, range_lu
        if range_lu <= (AIM_LU if levels.ruled == 1.0 else ENOUGH_LU):
            break
    return best


def _drawn(
    heard: Heard, edges: Floats, at_s: Floats, plain_db: Sequence[Floats], narrowed: int, kept: int
) -> tuple[Levels, float] | None:
    """Levels for a step in NARROWED and one in STAGES, and the range they come to; None where stages turn round."""
    wish = drawn_together(plain_db[0], plain_db[narrowed], STAGES[kept])
    aimed_db = plain_db[narrowed] + wish
    for _ in range(MADE_UP):
        levels = _levels(edges, wish, heard, narrowed)
        energies = _energies(heard.hops[narrowed], levels, at_s)
        reached_db = stage_levels_db(energies, edges)
        if in_order(plain_db[0], reached_db):
            return levels, loudness_range_lu(energies)
        # parts that a rule holds did not follow: the others go further
        wish = (wish + np.nan_to_num(aimed_db - reached_db)).clip(-MOST_LIFT_DB, MOST_LIFT_DB)
    return None


def lifted(score: Score, heard: Heard, levels: Levels, more_db: Floats) -> Levels:
    """The levels with more for each part and stage, each stage as loud as it was; or with as large a share of it as
    leaves the stages in their order and the range where it is aimed at.

    more_db: a row a part, and one for the natural sounds.
    """
    if not score.sections or not more_db.any():
        return levels
    hops = heard.hops[NARROWED.index((levels.narrowed, levels.ruled))]
    at_s, edges = np.arange(hops.shape[1]) * HOP / RATE_HZ, stage_edges_s(score)
    before = _energies(hops, levels, at_s)
    was_db = stage_levels_db(before, edges)
    written_db = stage_levels_db(heard.hops[0].sum(axis=0), edges)
    most_lu = max(AIM_LU + SPARE_LU, loudness_range_lu(before))
    for share in SHARES:
        more = share * more_db
        for _ in range(MADE_UP):
            now_db = stage_levels_db(_energies(hops, _with(levels, edges, more), at_s), edges)
            more = _ordered(heard, levels, edges, more + np.nan_to_num(was_db - now_db))
        found = _with(levels, edges, more)
        energies = _energies(hops, found, at_s)
        in_range = score.loudness_range == "wide" or loudness_range_lu(energies) <= most_lu
        if in_range and in_order(written_db, stage_levels_db(energies, edges)):
            return found
    return levels


def _with(levels: Levels, edges_s: Floats, more_db: Floats) -> Levels:
    corners = [_corners(edges_s, row) for row in more_db]
    times = corners[0][0]
    now = np.array([np.interp(times, levels.times_s, row) for row in levels.lifts_db])
    return replace(levels, times_s=times, lifts_db=now + np.array([lifts for _, lifts in corners]))


def _ordered(heard: Heard, levels: Levels, edges_s: Floats, more_db: Floats) -> Floats:
    return np.array([in_order_of_part(heard, levels, edges_s, row, one) for row, one in enumerate(more_db)])


def in_order_of_part(heard: Heard, levels: Levels, edges_s: Floats, row: int, more_db: Floats) -> Floats:
    """What can be added to a row's stages without turning its own order round."""
    lift = np.interp(0.5 * (edges_s[1:] + edges_s[:-1]), levels.times_s, levels.lifts_db[row])
    return in_own_order(more_db, [own + lift for own in _own_db(heard, row, levels.ruled)])


def _own_db(heard: Heard, row: int, ruled: float) -> list[Floats]:
    """A row's own levels as they are played; the natural sounds have no marks."""
    return [own if row == len(heard.own_db) - 1 else ruled * own for own in heard.own_db[row]]


def _energies(hops: Floats, levels: Levels, at_s: Floats) -> Floats:
    lifts = levels.all_lifts(at_s)
    return np.asarray(np.einsum("ph,ph,ph->h", hops, lifts, lifts))


def _least_first() -> list[tuple[int, int]]:
    """Pairs of steps in NARROWED and STAGES: both a little, then both more; marks that tell of the science last."""
    pairs = product(range(len(NARROWED)), range(len(STAGES)))
    return sorted(pairs, key=lambda pair: (NARROWED[pair[0]][1] < 1.0, sum(pair), abs(pair[0] - pair[1])))


def _levels(edges: Floats, wish: Floats, heard: Heard, step: int) -> Levels:
    narrowed, ruled = NARROWED[step]
    lifts = [in_own_order(wish, _own_db(heard, row, ruled)) for row in range(len(heard.own_db))]
    times, _ = _corners(edges, wish)
    lifts_db = np.array([_corners(edges, lift)[1] for lift in lifts])
    return Levels(narrowed=narrowed, ruled=ruled, times_s=times, lifts_db=lifts_db)


def drawn_together(written_db: Floats, now_db: Floats, kept: float) -> Floats:
    """What to add to each stage's level as it is now, so that of every step from one level as written to the next the
    share `kept` is left, but of small steps all up to STEP_DB. About the mean; 0 for silent stages."""
    out = np.zeros(len(written_db))
    order = [int(n) for n in np.argsort(written_db, kind="stable") if np.isfinite(written_db[n])]
    if order:
        steps = np.diff(written_db[order])
        near = np.cumsum(np.concatenate([[0.0], np.maximum(kept * steps, np.minimum(steps, STEP_DB))]))
        out[order] = near - near.mean() - (now_db[order] - now_db[order].mean())
    return out.clip(-MOST_LIFT_DB, MOST_LIFT_DB)


def in_order(before_db: Floats, after_db: Floats) -> bool:
    """Whether stages that differed still do, the same way round."""
    return all(
        not before_db[high] - before_db[low] > LEAST_DB
        or after_db[high] - after_db[low] >= 0.5 * min(STEP_DB, before_db[high] - before_db[low])
        for high, low in product(range(len(before_db)), repeat=2)
    )


def stage_edges_s(score: Score) -> Floats:
    """Where the stages begin, and the last one ends, in seconds of the file."""
    clock = score.clock
    bars = [*(section.bar for section in score.sections), score.sections[-1].bar + score.sections[-1].bars]
    return np.array([float(clock.seconds(clock.beat_of_bar(bar))) for bar in bars])


def stage_levels_db(energies: Floats, edges_s: Floats) -> Floats:
    """Mean level of each stage; nan where it is silent."""
    at = np.rint(edges_s * RATE_HZ / HOP).astype(int)
    means = [energies[first:last].mean() if last > first else 0.0 for first, last in zip(at, at[1:], strict=False)]
    return np.array([10.0 * math.log10(mean) if mean > 0.0 else math.nan for mean in means])


def in_own_order(wish_db: Floats, own_db: Sequence[Floats]) -> Floats:
    """The lift of each stage nearest to the wish that turns no order of a part's own stages round.

    The limits form a convex set that holds "no lift at all": the wish is drawn onto it pair by pair, and what is still
    over is taken back on the straight way to no lift. Rounded to a tenth of a decibel.
    """
    lift = wish_db.copy()
    if not own_db:
        return np.asarray(np.round(lift, 1))
    pairs = list(_limits(own_db))
    for _ in range(ROUNDS):
        over = 0.0
        for high, low, least in pairs:
            missing = least - (lift[high] - lift[low])
            if missing > 0.0:
                lift[high] += 0.5 * missing
                lift[low] -= 0.5 * missing
                over = max(over, missing)
        if over < 0.01:
            break
    apart = [(lift[high] - lift[low], least) for high, low, least in pairs]
    back = min([1.0, *(least / has for has, least in apart if has < least)])
    return np.asarray(np.round(lift * max(back, 0.0), 1))


def _limits(own_db: Sequence[Floats]) -> Iterator[tuple[int, int, float]]:
    """(louder stage, softer stage, the least that the first's lift may be over the second's): none is above 0."""
    for levels in own_db:
        for high, low in product(range(len(levels)), repeat=2):
            apart = levels[high] - levels[low]
            if apart > LEAST_DB:  # not so for nan
                yield high, low, min(0.0, KEPT_DB + KEPT_SHARE * (apart - KEPT_DB) - apart)


def _corners(edges_s: Floats, lift_db: Floats) -> tuple[Floats, Floats]:
    """A stage's lift over the whole of it, drawn straight to the next one's about their border."""
    times, lifts = [], []
    for first, last, lift in zip(edges_s, edges_s[1:], lift_db, strict=False):
        ramp = min(0.5 * RAMP_S, 0.5 * (last - first))
        times += [first + ramp, last - ramp]
        lifts += [lift, lift]
    return np.array(times), np.array(lifts)
