"""Series of readings: the fewest straight lines that follow them, and their means over equal stretches."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sonify.science.ranges import FloatArray, Range

_COUNT = Range("most", "", 1, 12, "the search for straight lines (12 at most)")
_WITHIN = Range("within", "", 0.0, 1.0, "a share of the range", above=True)


def straight_lines(values: FloatArray, most: int, within: float) -> tuple[NDArray[np.int64], bool]:
    """Return where the fewest straight lines begin that follow equally spaced values, and whether they come near.

        choose cuts that make sum (y - a_k - b_k i)^2 least, for 1, 2, ... lines;
        stop at sqrt(sum / n) <= within (max y - min y), or at `most` lines

    Args:
        values: readings y at equal steps, finite; each line covers at least a twentieth of them, and two.
        most: at most so many lines, 1 to 12.
        within: how near the lines must come on average, as a share of the range of the readings.

    Raises:
        OutOfRange: most or within outside what is allowed.

    Valid: 2 readings and more; the search is exact (dynamic programming), its cost grows as their number squared.
    Source: BELLMAN-1961, segments of least squared distance.
    Check: four readings that rise, then four that stay:
        >>> straight_lines(np.array([0.0, 1.0, 2.0, 3.0, 3.0, 3.0, 3.0, 3.0]), 4, 0.05)
        (array([0, 3]), True)
    """
    _COUNT.checked(most)
    _WITHIN.checked(within)
    costs = _line_costs(values)
    size = values.size
    shortest = max(2, size // 20)
    allowed = size * (within * float(np.ptp(values))) ** 2
    # best[j]: least sum over the first j readings with the lines so far; cut[k][j]: where the last of k lines begins
    best = np.full(size + 1, np.inf)
    best[shortest:] = costs[0, shortest:]
    cuts = [np.zeros(size + 1, dtype=np.int64)]
    while best[size] > allowed * (1.0 + 1e-9) and len(cuts) < most and (len(cuts) + 1) * shortest <= size:
        sums = best[:, None] + costs
        sums[_too_short(size, shortest)] = np.inf
        cuts.append(np.argmin(sums, axis=0))
        best = np.min(sums, axis=0)
    starts, end = [], size
    for cut in reversed(cuts):
        end = int(cut[end])
        starts.append(end)
    return np.array(starts[::-1], dtype=np.int64), bool(best[size] <= allowed * (1.0 + 1e-9))


def _too_short(size: int, shortest: int) -> NDArray[np.bool_]:
    at = np.arange(size + 1)
    return at[None, :] - at[:, None] < shortest


def _line_costs(values: FloatArray) -> FloatArray:
    """costs[i, j]: the squared distances of readings i to j - 1 from the best line through them, inf for none."""
    size = values.size
    centred = values - values.mean()  # sums of squares lose fewer digits
    steps = np.arange(size, dtype=np.float64)
    parts = (centred, centred**2, steps, steps**2, steps * centred)
    sums = [np.concatenate([[0.0], np.cumsum(part)]) for part in parts]
    y, yy, x, xx, xy = (each[None, :] - each[:, None] for each in sums)
    count = np.arange(size + 1)[None, :] - np.arange(size + 1)[:, None]
    n = np.where(count > 0, count, 1)
    spread = xx - x * x / n
    slope = np.divide(xy - x * y / n, spread, out=np.zeros_like(xy), where=count > 1)
    costs: FloatArray = np.maximum(yy - y * y / n - slope * (xy - x * y / n), 0.0)
    costs[count <= 0] = np.inf
    return costs


def turning_points(values: FloatArray, least: float, most: int) -> NDArray[np.int64]:
    """Return where a series turns: its first and last place, and between them the ends of its largest ups and downs.

        take all local ends; while the smallest swing |y_k - y_{k+1}| is below least (max y - min y),
        or there are more than `most` swings, take away the two ends of the smallest (one at an end of the series)

    Args:
        values: readings y at equal steps, finite, not all the same.
        least: a swing is at least this share of the range.
        most: at most so many swings, 1 to 12.

    Raises:
        OutOfRange: least or most outside what is allowed.

    Valid: 2 readings and more.
    Source: DOWNING-SOCIE-1982, swings closed from the smallest up, as in counting load cycles.
    Check: a small dip on the way up is passed over, the large one is kept:
        >>> turning_points(np.array([0.0, 4.0, 3.5, 9.0, 2.0, 5.0]), 0.1, 12)
        array([0, 3, 4, 5])
    """
    Range("least", "", 0.0, 1.0, "a share of the range").checked(least)
    _COUNT.checked(most)
    steps = np.sign(np.diff(values))
    moving = np.flatnonzero(steps)
    turns = moving[1:][steps[moving[1:]] != steps[moving[:-1]]] if moving.size else moving
    kept = [0, *turns.tolist(), values.size - 1]
    while len(kept) > 2:
        swings = np.abs(np.diff(values[kept]))
        smallest = int(np.argmin(swings))
        if swings[smallest] >= least * float(np.ptp(values)) and len(swings) <= most:
            break
        if 0 < smallest < len(swings) - 1:
            del kept[smallest : smallest + 2]
        else:
            del kept[1 if smallest == 0 else -2]
    return np.array(kept, dtype=np.int64)


def running_median(values: FloatArray, width: int) -> FloatArray:
    """Return each value replaced by the median of those around it, so that a single odd one does not count.

        m_i = median(y_{i-h} ... y_{i+h}), h = (width - 1)/2; the ends are mirrored

    Args:
        values: readings at equal steps.
        width: how many are looked at, an odd number, not above twice their number.

    Raises:
        OutOfRange: width is below 1 or above twice the number of readings less one.

    Valid: a run of at most (width - 1)/2 odd readings leaves no trace.
    Source: TUKEY-1977, chapter 7.
    Check: one wild reading in five:
        >>> running_median(np.array([1.0, 2.0, 90.0, 4.0, 5.0]), 3)
        array([2., 2., 4., 5., 4.])
    """
    Range("width", "", 1, 2 * values.size - 1, "a running median of these readings").checked(width)
    half = (width - 1) // 2
    windows = np.lib.stride_tricks.sliding_window_view(np.pad(values, half, mode="reflect"), 2 * half + 1)
    medians: FloatArray = np.median(windows, axis=1)
    return medians


def equal_means(time_s: FloatArray, values: FloatArray, edges_s: FloatArray) -> FloatArray:
    """Return the mean of a quantity over each stretch of time between edges, straight lines between its readings.

        mean_k = (1 / (t_{k+1} - t_k)) integral from t_k to t_{k+1} of y dt

    Args:
        time_s: times of the readings, rising.
        values: the readings y, finite.
        edges_s: edges t_k of the stretches, rising, within the times.

    Raises:
        OutOfRange: an edge lies outside the times of the readings.

    Valid: any readings; the integral of the straight lines is exact (trapezia).
    Source: OPENSTAX-CALC2, the trapezoidal rule, exact for straight lines.
    Check: a straight rise from 0 to 4 in four seconds, halves:
        >>> equal_means(np.array([0.0, 4.0]), np.array([0.0, 4.0]), np.array([0.0, 2.0, 4.0]))
        array([1., 3.])
    """
    Range("edges_s", "s", float(time_s[0]), float(time_s[-1]), "the times of the readings").checked(edges_s)
    whole = np.concatenate([[0.0], np.cumsum(0.5 * (values[1:] + values[:-1]) * np.diff(time_s))])
    at = np.clip(np.searchsorted(time_s, edges_s, side="right") - 1, 0, time_s.size - 2)
    ends = np.interp(edges_s, time_s, values)
    sums = whole[at] + 0.5 * (values[at] + ends) * (edges_s - time_s[at])
    means: FloatArray = np.diff(sums) / np.diff(edges_s)
    return means
