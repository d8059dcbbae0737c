"""Straight lines, turning points, running medians and means: against trying everything, and by what must be true."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import OutOfRange
from sonify.science.series import equal_means, running_median, straight_lines, turning_points

FEW = st.lists(st.floats(-50.0, 50.0), min_size=4, max_size=9).filter(lambda v: max(v) - min(v) > 1.0).map(np.array)
MANY = st.lists(st.floats(-50.0, 50.0), min_size=4, max_size=60).filter(lambda v: max(v) - min(v) > 1.0).map(np.array)


def misses(values: np.ndarray, starts: tuple[int, ...]) -> float:
    """The sum of squared distances from the best line through each part, by numpy's own fit."""
    total = 0.0
    for first, last in zip(starts, [*starts[1:], values.size], strict=True):
        steps = np.arange(last - first, dtype=float)
        line = np.polyfit(steps, values[first:last], 1)
        total += float(np.sum((values[first:last] - np.polyval(line, steps)) ** 2))
    return total


@given(FEW, st.integers(2, 3))
def test_no_other_cuts_come_nearer(values: np.ndarray, most: int) -> None:
    """Every way of cutting a short series into as many lines of two readings or more is tried."""
    starts, _ = straight_lines(values, most, 1e-9)
    lines = len(starts)
    tried = [
        (0, *cuts)
        for cuts in combinations(range(1, values.size), lines - 1)
        if all(b - a >= 2 for a, b in zip((0, *cuts), (*cuts, values.size), strict=True))
    ]
    best = min(misses(values, each) for each in tried)
    assert misses(values, tuple(starts.tolist())) <= best + 1e-6


def test_the_fewest_lines_that_come_near_enough_are_taken() -> None:
    bent = np.concatenate([np.arange(50.0), np.full(50, 49.0)])
    starts, near = straight_lines(bent, 6, 0.01)
    assert near and starts[0] == 0 and abs(int(starts[1]) - 50) <= 1  # the corner itself lies on both lines
    assert len(straight_lines(np.arange(40.0), 6, 0.01)[0]) == 1
    saw = np.tile([0.0, 0.0, 1.0, 1.0], 20)
    assert straight_lines(saw, 3, 0.05)[1] is False  # three lines do not follow twenty teeth


@given(MANY, st.integers(1, 6))
def test_turns_alternate_and_are_the_largest(values: np.ndarray, most: int) -> None:
    turns = turning_points(values, 0.1, most)
    assert turns[0] == 0 and turns[-1] == values.size - 1 and np.all(np.diff(turns) > 0)
    swings = np.diff(values[turns])
    assert len(swings) <= most
    assert np.all(swings[1:] * swings[:-1] <= 0.0)
    if len(swings) > 1:
        assert np.abs(swings).min() >= 0.1 * np.ptp(values)


def test_a_series_upside_down_turns_at_the_same_places() -> None:
    values = np.array([0.0, 4.0, 3.5, 9.0, 2.0, 5.0, 1.0])
    np.testing.assert_array_equal(turning_points(values, 0.1, 9), turning_points(-values, 0.1, 9))


def test_a_running_median_forgets_single_wild_readings_and_keeps_a_step() -> None:
    step = np.concatenate([np.zeros(20), np.ones(20)])
    wild = step.copy()
    wild[[7, 30]] = 99.0
    np.testing.assert_array_equal(running_median(wild, 5), step)


@given(MANY, st.integers(1, 12))
def test_means_over_equal_stretches_keep_the_whole(values: np.ndarray, parts: int) -> None:
    """The means of all stretches average to the mean of the whole line."""
    time_s = np.cumsum(1.0 + np.arange(values.size) % 3)
    edges = np.linspace(time_s[0], time_s[-1], parts + 1)
    means = equal_means(time_s, values, edges)
    whole = np.trapezoid(values, time_s) / (time_s[-1] - time_s[0])
    assert means.mean() == pytest.approx(whole, abs=1e-9)
    assert values.min() - 1e-9 <= means.min() and means.max() <= values.max() + 1e-9


@pytest.mark.parametrize(("most", "within"), [(0, 0.1), (13, 0.1), (3, 0.0), (3, 1.5)])
def test_what_is_not_covered_is_refused(most: int, within: float) -> None:
    with pytest.raises(OutOfRange):
        straight_lines(np.arange(10.0), most, within)


def test_edges_outside_the_readings_are_refused() -> None:
    with pytest.raises(OutOfRange, match="edges_s"):
        equal_means(np.array([0.0, 4.0]), np.array([0.0, 4.0]), np.array([0.0, 5.0]))
