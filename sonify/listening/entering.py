"""When each part came in: the bar from which its own strokes, those that no other part has, are there.

How every part sounds in this recording is learnt from it, band by band, all parts together; those bars that lie a while
after an entry teach what to look for around it.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.listening.aligning import Singles
from sonify.listening.expected import blurred_bars, line_onsets
from sonify.listening.labelling import Labelled, pieces_of
from sonify.listening.plan import Line, Plan
from sonify.records.fact import Words, fact
from sonify.records.listened import EntryHeard, Span

Floats = NDArray[np.float64]

#: An entry is looked for so many bars before and after where it is written; a bar may be taken to sound as the first
#: so many in which the part plays.
AROUND, LIKE = 20, 4
#: An entry is told where what lies outside its interval has this chance at most and the interval is no longer than so
#: many bars.
OUTSIDE, LONGEST = 0.01, 8
#: Bars about an entry do not teach, for it may have been early or late.
CLEAR = 4
#: Strengths are drawn towards what all parts have in the mean, as if by this share of the strokes.
DRAWN = 0.1
#: How much more a loud stroke of a part stands out than a soft one: this power of its velocity, against a middling one.
BY_VELOCITY, MIDDLING = 0.75, 80.0
#: Textures of which no first stroke stands out, and why.
NO_FIRST = {"scatter": "recorded-free-taps", "tremolo": "recorded-shaken"}
#: Bars in a row err alike.
WEIGHT = 0.7
#: How far a part's strength lies about what the recording taught of it, and what is heard of it while it rests about
#: nothing.
STRENGTH, LEAK = 0.4, 0.25
#: How likely it is beforehand that a part stayed away, or played from the first.
NEVER = 0.05


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Entered:
    """chances: of every bar of the plan, that the part came in there, and first of all that it was there before any;
    they lack of 1 that it never came. never: no recording could tell it."""

    heard: EntryHeard
    chances: Floats | None
    never: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Parts:
    """What the take's bars are made of. own: parts by bars by places by bands, as written; heard: what was heard;
    strength: parts by bands; noise, by band; left: what is heard besides."""

    own: Singles
    heard: Singles
    strength: Floats
    noise: Floats
    left: Floats


def entered(plan: Plan, take: Labelled, onsets: Singles, doubt: Words = "") -> tuple[Entered, ...]:
    """A row for every part that comes in after the piece has begun. doubt: why none can be told, "" where they can."""
    later = [number for number, line in enumerate(plan.lines) if _entry(plan, line) > 0]
    if not later or not take.bars:
        return ()
    each = np.stack([_strokes(plan, line) for line in plan.lines])
    whole = each.sum(axis=0)
    labels = np.array([bar.bar for bar in take.bars])
    heard = pieces_of(onsets, take.bars, whole.shape[1])
    parts = _parts(plan, each, whole, labels, heard)
    rows = (_entered(plan, number, labels, each[number], whole, parts) for number in later)
    return (
        tuple(replace(row, heard=replace(row.heard, heard=None, why=doubt), chances=None) for row in rows)
        if doubt
        else tuple(rows)
    )


def _strokes(plan: Plan, line: Line) -> Singles:
    """A part's strokes by bars, places and bands, by their velocity: what comes in softly is hardly heard at first.
    Free taps lie anywhere in their bar: they are spread over it."""
    by_velocity = replace(line, velocity=MIDDLING * (line.velocity / MIDDLING) ** (2.0 * BY_VELOCITY))
    if line.texture != "scatter":
        return blurred_bars(plan, line_onsets(plan, by_velocity))
    each = blurred_bars(plan, line_onsets(plan, replace(by_velocity, texture="ostinato")))
    return np.asarray(np.broadcast_to(each.mean(axis=1, keepdims=True), each.shape))


def _entry(plan: Plan, line: Line) -> int:
    return int(line.beats[0] // plan.beats_a_bar)


def _adds(own: Singles, others: Singles) -> Singles:
    """What a part adds to the others: strokes that sound together hide each other."""
    return np.asarray(np.log1p(others + own) - np.log1p(others), dtype=np.float32)


def _parts(plan: Plan, each: Singles, whole: Singles, labels: NDArray[np.intp], heard: Singles) -> _Parts:
    own = np.stack([_adds(line[labels], (whole - line)[labels]) for line in each])
    # bars about an entry do not teach, for it may have been late
    teaches = np.ones((len(plan.lines), len(labels)), dtype=bool)
    for number, line in enumerate(plan.lines):
        entry = _entry(plan, line)
        if entry > 0:
            teaches[number] = (labels < entry - CLEAR) | (labels >= entry + CLEAR)
    rows = teaches.all(axis=0) if teaches.all(axis=0).sum() >= len(labels) // 3 else np.ones(len(labels), dtype=bool)
    a = own[:, rows].reshape(len(own), -1, own.shape[-1])  # parts, strokes, bands
    b = (heard[rows] - heard[rows].mean(axis=(0, 1))).reshape(-1, own.shape[-1])
    a = a - a.mean(axis=1, keepdims=True)
    square = np.einsum("ipb,jpb->bij", a, a, optimize=True)
    cross = np.einsum("ipb,pb->bi", a, b, optimize=True)
    size = np.einsum("bii->bi", square)
    usual = float(np.maximum(cross, 0.0).sum() / max(1e-6, size.sum()))
    drawn = DRAWN * size.mean(axis=0)[None, :] + 1e-3
    square = square + np.eye(len(own))[None] * drawn[:, :, None]
    strength = np.maximum(np.linalg.solve(square, (cross + drawn * usual)[:, :, None])[:, :, 0], 0.0).T
    left = heard - np.einsum("inpb,ib->npb", own, strength, optimize=True)
    left = left - left.mean(axis=(0, 1))
    return _Parts(own=own, heard=heard, strength=strength, noise=np.square(left).mean(axis=(0, 1)) + 1e-3, left=left)


def _entered(
    plan: Plan, number: int, labels: NDArray[np.intp], written: Singles, whole: Singles, parts: _Parts
) -> Entered:
    line = plan.lines[number]
    entry = _entry(plan, line)
    planned = EntryHeard(part=line.name, group=line.group, planned_bar=entry + 1)

    def untold(message: str, *, never: bool = False) -> Entered:
        return Entered(heard=replace(planned, why=fact(message)), chances=None, never=never)

    if line.texture in NO_FIRST:
        return untold(NO_FIRST[line.texture], never=True)
    if any(_confusable(plan, line, other) for other in plan.lines if other.name != line.name):
        return untold("recorded-same-sound", never=True)
    last = int((line.beats[-1]) // plan.beats_a_bar)
    first, end = max(0, entry - AROUND), min(plan.bars, entry + AROUND + 1, last + 1)
    order = _once_through(labels, first, end, entry)
    bars = labels[order]
    if bars.size < 3 or entry not in bars:
        return untold("recorded-not-there")
    sounds = np.flatnonzero(written[entry : last + 1].sum(axis=(1, 2)) > 0.0) + entry
    likes = sounds[:LIKE]
    early = bars < entry
    like = np.where(early, likes[(bars - entry) % likes.size], bars)
    adds = _adds(written[like], np.where(early[:, None, None], whole[bars], whole[bars] - written[bars]))
    strength = parts.strength[number]
    meant = adds * strength
    without = parts.left[order] + np.where(early[:, None, None], 0.0, parts.own[number][order] * strength)
    weight = meant / parts.noise
    size = (meant * weight).sum(axis=(1, 2))
    alike = (without * weight).sum(axis=(1, 2))
    weights = _came_in(alike, size, _over(parts, weight, size))
    chances = np.zeros(plan.bars + 1)
    chances[bars + 1], chances[0] = weights[:-2], weights[-1]
    return _told(planned, chances)


def _told(planned: EntryHeard, chances: Floats) -> Entered:
    """The entry where the chances leave no more than a few bars; else why they leave more."""
    total = np.cumsum(chances)
    low, high = int(np.searchsorted(total, OUTSIDE / 2)), int(np.searchsorted(total, 1.0 - OUTSIDE / 2))
    throughout, never = low == 0, high == chances.size
    if throughout or never or high - low > LONGEST:
        message = "recorded-covered"
        if throughout != never:
            message = "recorded-throughout" if throughout else "recorded-never"
        return Entered(heard=replace(planned, why=fact(message)), chances=chances)
    span = Span(value=float(np.argmax(chances)), low=float(low), high=float(high))
    return Entered(heard=replace(planned, heard=span), chances=chances)


def _came_in(alike: Floats, size: Floats, over: float) -> Floats:
    """The chance that a part came in at each bar; at last that it never did, and that it was there throughout.

    A bar's `alike` lies about `size` times a leak, and its strength where the part plays, and errs by the root of
    `size`. None of the three is known: what each may be is weighed by how far it lies from what is usual.
    """
    bars, tells = alike.size, size > 1e-9
    squares = float((np.square(alike[tells]) / size[tells]).sum())
    prior = np.log(np.array([*np.full(bars, (1.0 - 2.0 * NEVER) / bars), NEVER, NEVER]))
    errs = over * 2.0 ** np.arange(-5.0, 1.5, 0.5)
    rows = np.array([_log_chances(WEIGHT * alike / err, WEIGHT * size / err) for err in errs])
    rows -= WEIGHT * (np.count_nonzero(tells) * np.log(errs) + squares / errs)[:, None] / 2.0
    chances = np.exp(rows + prior - (rows + prior).max()).sum(axis=0)
    return np.asarray(chances / chances.sum())


def _log_chances(alike: Floats, size: Floats) -> Floats:
    """The same for one size of error, up to a constant, each bar as likely as any before it was heard."""
    after = np.concatenate([np.cumsum(alike[::-1])[::-1], [0.0]])
    both = np.concatenate([np.cumsum(size[::-1])[::-1], [0.0]])
    # a normal law of (leak, strength): its exponent's matrix and vector, and the integral over both
    leak, own = 1.0 / LEAK**2 + size.sum(), 1.0 / STRENGTH**2 + both
    b_leak, b_own = alike.sum(), 1.0 / STRENGTH**2 + after
    det = leak * own - both * both
    gains = (own * b_leak**2 - 2.0 * both * b_leak * b_own + leak * b_own**2) / det / 2.0 - np.log(det) / 2.0
    return np.concatenate([gains, gains[:1]])


def _over(parts: _Parts, weight: Singles, size: Floats) -> float:
    """How many places and bands err together: what all bars' left-overs have of the part's shape, against chance."""
    shapes = weight.reshape(len(weight), -1)
    errors = parts.left.reshape(len(parts.left), -1) @ shapes.T
    return float(max(1.0, np.square(errors - errors.mean(axis=0)).mean() / max(1e-9, size.mean())))


def _confusable(plan: Plan, line: Line, other: Line) -> bool:
    """Whether two parts have a sound in common that has no pitch, and the other begins or ends in these bars, too: no
    listener tells whose it was."""
    if not set(line.midi[~line.pitched]) & set(other.midi[~other.pitched]):
        return False
    entry, last = _entry(plan, line), int(other.beats[-1] // plan.beats_a_bar)
    return abs(_entry(plan, other) - entry) <= AROUND or abs(last - entry) <= AROUND


def _once_through(labels: NDArray[np.intp], first: int, end: int, entry: int) -> NDArray[np.intp]:
    """Places in the take of those of the bars first..end-1 that were played, in the longest go that has the entry."""
    places = np.flatnonzero((labels >= first) & (labels < end))
    falls = np.flatnonzero(np.diff(labels[places]) <= 0) + 1
    goes = [go for go in np.split(places, falls) if entry in labels[go]]
    return max(goes, key=len, default=places[:0])
