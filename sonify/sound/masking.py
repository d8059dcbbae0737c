"""Who covers whom: parts that lie under others in every band are lifted, and those that cover them give way.

Worked out from the notes and from where each instrument sounds, before anything is rendered; by the stage, so that
within one a part's own dynamics stay as they are.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from sonify.frozen import dataclass
from sonify.records.score import COUNT_IN, Score
from sonify.sound.bands import BANDS_HZ, bands_of, even_bands
from sonify.sound.events import SoundEvent
from sonify.sound.loudness import quantile
from sonify.sound.rate import HOP, RATE_HZ, Floats
from sonify.sound.voices.bank import ring_of

#: A tone so far under the noise of its own band is masked by it (a common round value, from memory, not verified).
MASKED_UNDER_DB = 4.0
#: To spare, because all of this is a guess. So large a share of a part's strokes is to be heard in each stage (ours).
SPARE_DB, SHARE = 3.5, 0.7
#: Looked at in each stage: so many strokes of a part, evenly spread.
STROKES = 40
#: A part is moved by at most so much in one stage; each round takes a share of what is missing from either side (ours).
MOST_DB, ROUNDS, OWN_SHARE, OTHERS_SHARE = 9.0, 14, 0.4, 0.35
#: Bands this far under a part's strongest say nothing of it.
FAINT = 1e-3
LONGEST_HOPS = 40
EARLY_S = 0.02  # a stroke on the first beat of a stage belongs to it
#: Textures whose notes go on, as those that are held do: they are heard where they are highest, not where they begin.
GOING_ON = ("drone",)

Ordered = Callable[[int, Floats], Floats]


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """One part in one stage: the power of its own strokes and of every part (rows) at the same time, in bands."""

    part: int
    stage: int
    own: Floats
    all: Floats


def unmasked_db(
    score: Score, events: Sequence[Sequence[SoundEvent]], beds: Floats, edges_s: Floats, ordered: Ordered
) -> Floats:
    """What to lift each part by in each stage, a row a part, in dB. events: as they are levelled so far.

    beds: guessed energies of the natural sounds every 100 ms. ordered: draws a part's lifts onto those that keep its
    own stages in order.
    """
    lifts = np.zeros((len(score.parts), edges_s.size - 1))
    views = _views(score, events, beds, edges_s)
    for _ in range(ROUNDS):
        moved = _step(score, views, lifts)
        if moved is None:
            break
        lifts = np.array([ordered(row, one) for row, one in enumerate(np.clip(moved, -MOST_DB, MOST_DB))])
    return lifts


def _step(score: Score, views: Sequence[Seen], lifts: Floats) -> Floats | None:
    """Lifts a little nearer to where nothing is covered; None where nothing is."""
    wish, covered = lifts.copy(), False
    for view in views:
        gains = np.append(10.0 ** (lifts[:, view.stage] / 10.0), 1.0)
        own = view.own * gains[view.part]
        gains[view.part] = 0.0
        rest = (gains @ view.all.reshape(gains.size, -1)).reshape(own.shape)
        missing, at_band = _missing_db(own, rest)
        if missing <= 0.0:
            continue
        covered = True
        wish[view.part, view.stage] += OWN_SHARE * missing
        shares = gains * view.all[:, np.arange(at_band.size), at_band].sum(axis=1)
        for other in range(len(score.parts)):
            if score.parts[other].name != COUNT_IN:
                wish[other, view.stage] -= OTHERS_SHARE * missing * shares[other] / max(float(shares.sum()), 1e-30)
    return wish if covered else None


def _missing_db(own: Floats, rest: Floats) -> tuple[float, np.ndarray]:
    """By how much a part lies too low in its best bands; and those bands, stroke by stroke."""
    over = np.maximum(rest, 1e-30) / np.maximum(own, 1e-30)
    over[own <= FAINT * own.max(axis=1, keepdims=True)] = np.inf
    best = over.argmin(axis=1)
    least_db = 10.0 * np.log10(over[np.arange(best.size), best])
    return quantile(least_db, SHARE) - MASKED_UNDER_DB + SPARE_DB, best


def _views(score: Score, events: Sequence[Sequence[SoundEvent]], beds: Floats, edges_s: Floats) -> list[Seen]:
    edges = np.rint((edges_s - EARLY_S) * RATE_HZ)
    sums = [_sums(played, beds.size) for played in events]
    sums.append((np.concatenate([[0.0], beds.cumsum()])[None], even_bands()[None]))
    found = []
    for row, (part, played) in enumerate(zip(score.parts, events, strict=True)):
        if not any(control != "tempo" for control in part.ruled):
            continue
        begun = {frame // HOP: frame for frame in sorted((event.start for event in played), reverse=True)}  # the first
        starts, frames = (np.array(sorted(each), dtype=np.int64) for each in (begun, begun.values()))
        of_stage = np.searchsorted(edges, frames, side="right") - 1
        ends = _ends(starts, going_on=part.texture in GOING_ON or any(event.stroke.held for event in played))
        for stage in range(edges.size - 1):
            here = np.flatnonzero(of_stage == stage)
            if not here.size:
                continue
            here = here[sorted(set(np.linspace(0, here.size - 1, STROKES).astype(int).tolist()))]
            a, b = starts[here], np.minimum(ends[here], beds.size)
            seen = np.array([((total[:, b] - total[:, a]) / (b - a)).T @ bands for total, bands in sums])
            found.append(Seen(row, stage, seen[row].copy(), seen))
    return found


def _ends(starts: np.ndarray, *, going_on: bool) -> np.ndarray:
    """The hop after each stroke's own time."""
    if not going_on or not starts.size:
        return np.asarray(starts + 1)
    after = np.append(starts[1:], starts[-1] + LONGEST_HOPS)
    return np.asarray(np.minimum(after, starts + LONGEST_HOPS))


def _sums(played: Sequence[SoundEvent], hops: int) -> tuple[Floats, Floats]:
    """A part's power up to each 100 ms, sound by sound: where strokes begin, and what rings on after them; and how each
    sound is spread over the bands."""
    begun: dict[tuple[str, int], tuple[list[int], list[float]]] = {}
    for event in played:
        stroke = event.stroke
        at, power = begun.setdefault((stroke.instrument, stroke.midi), ([], []))
        first = event.start // HOP
        if stroke.held:
            held = range(first, event.stop // HOP + 1)
            at += held
            power += [event.gain**2] * len(held)
        else:
            at.append(first)
            power.append(event.gain**2)
    sums, bands = np.zeros((len(begun), hops + 1)), np.zeros((len(begun), BANDS_HZ.size))
    for row, ((instrument, midi), (at, power)) in enumerate(begun.items()):
        curve = np.bincount(at, power, hops)[:hops].astype(float)
        ring_s = ring_of(instrument)
        if ring_s > 0.3:
            curve = _ringing(curve, 10.0 ** (-6.0 * HOP / RATE_HZ / ring_s))
        np.cumsum(curve, out=sums[row, 1:])
        bands[row] = bands_of(instrument, midi)
    return sums, bands


def _ringing(curve: Floats, left: float) -> Floats:
    """Power that falls to `left` of itself from each 100 ms to the next, until it is 60 dB down."""
    tail = left ** np.arange(max(1, round(-6.0 / np.log10(left))))
    return np.asarray(np.convolve(curve, tail)[: curve.size])
