"""How many bars each stage gets: the length first, then four bars at least, then phrases of two, then the shares."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, inf

#: A tempo is held at least so long, that a non-musician can conduct it (our own design limit).
LEAST_BARS = 4
#: How near the asked length is met.
LENGTH_TOLERANCE = 0.10
#: Least bars and the unit that bars come in, the best first: length is kept before the wishes are.
_WISHES = ((LEAST_BARS, 2), (LEAST_BARS, 1), (3, 1), (2, 2), (2, 1), (1, 1))


def stage_bars(bar_seconds: Sequence[float], shares: Sequence[float], length_s: float) -> tuple[int, ...]:
    """Bars for each stage, given how long one bar of each lasts and its share of all bars.

    Meets length_s within LENGTH_TOLERANCE where any division into whole bars does, and comes as near as it can where
    none does. Keeps LEAST_BARS a stage and even numbers where the length allows.
    """
    tried = []
    for least, unit in _WISHES:
        bars = _nearest(bar_seconds, shares, length_s, least, unit)
        if abs(seconds(bars, bar_seconds) / length_s - 1.0) <= LENGTH_TOLERANCE:
            return bars
        tried.append(bars)
    return min(tried, key=lambda bars: abs(seconds(bars, bar_seconds) - length_s))


def seconds(bars: Sequence[int], bar_seconds: Sequence[float]) -> float:
    """How long so many bars of each stage last."""
    return sum(count * each for count, each in zip(bars, bar_seconds, strict=True))


def length_for_least_bars(bar_seconds: Sequence[float]) -> int:
    """The least length in whole seconds, rounded up to five, at which every stage has LEAST_BARS."""
    return 5 * ceil(LEAST_BARS * sum(bar_seconds) / 5.0)


def _nearest(
    bar_seconds: Sequence[float], shares: Sequence[float], length_s: float, least: int, unit: int
) -> tuple[int, ...]:
    """The division in steps of `unit` bars, at least `least` a stage, whose length is nearest."""
    total = least * len(shares)
    for _ in range(4):  # a few steps settle it: the mean bar changes little with the total
        now_s = seconds(_divided(total, shares, least, unit), bar_seconds)
        total = max(least * len(shares), unit * round(total * length_s / now_s / unit))
    totals = {max(least * len(shares), total + step * unit) for step in range(-2, 3)}
    divisions = [_divided(total, shares, least, unit) for total in sorted(totals)]
    return min(divisions, key=lambda bars: abs(seconds(bars, bar_seconds) - length_s))


def _divided(total: int, shares: Sequence[float], least: int, unit: int) -> tuple[int, ...]:
    """`total` bars (rounded up to whole units): whole units by share, the rest to whoever is furthest below it."""
    whole = sum(shares)
    ideal = [share / whole * total for share in shares]
    bars = [max(least, unit * floor(bars / unit)) for bars in ideal]
    while sum(bars) - unit >= total:  # some stages were lifted to the least: the others make room
        over = [have - want if have > least else -inf for want, have in zip(ideal, bars, strict=True)]
        bars[over.index(max(over))] -= unit
    while sum(bars) < total:
        short = [want - have for want, have in zip(ideal, bars, strict=True)]
        bars[short.index(max(short))] += unit
    return tuple(bars)
