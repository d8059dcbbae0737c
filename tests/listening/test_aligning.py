"""Takes that are read as one. Bars of two seconds, by hand: four beats at 120 a minute."""

from __future__ import annotations

import json
from functools import lru_cache

import pytest

from sonify.data.exports import score_json
from sonify.listening.aligning import FoundBar, joined_takes
from sonify.listening.plan import Plan, plan_of
from tests.studies import studied


@lru_cache(maxsize=1)
def plan() -> Plan:
    """Of thirty bars and a minute and a half."""
    return plan_of(json.loads(score_json(studied("the-stalk-on-the-sill").score)))


def take(start_s: float, bars: int) -> list[FoundBar]:
    return [FoundBar(n, start_s + 2.0 * n, start_s + 2.0 * n + 2.0, 3.0) for n in range(bars)]


@pytest.mark.parametrize(("gap_s", "between"), [(0.0, 0), (0.6, 0), (2.2, 1), (4.4, 2), (5.9, 3)])
def test_takes_with_hardly_a_rest_are_one_and_what_lies_between_is_bars(gap_s: float, between: int) -> None:
    (found,) = joined_takes(plan(), [take(10.0, 8), take(26.0 + gap_s, 5)])
    assert [bar.bar for bar in found] == [*range(8), *range(8, 8 + between), *range(5)]
    edges = [bar.end_s for bar in found[:-1]], [bar.start_s for bar in found[1:]]
    if between:
        assert edges[0] == pytest.approx(edges[1])


def test_takes_with_a_rest_of_three_bars_stay_apart_and_a_single_one_is_not_joined() -> None:
    assert joined_takes(plan(), [take(10.0, 8), take(32.1, 5)]) == []
    assert joined_takes(plan(), [take(10.0, 8)]) == joined_takes(plan(), []) == []


def test_what_is_longer_than_any_class_plays_is_not_joined() -> None:
    """Thirty takes of eight bars are eight minutes; two pieces and a fifth at their slowest are under five."""
    long = [take(16.0 * n, 8) for n in range(30)]
    assert joined_takes(plan(), long) == []
    assert len(joined_takes(plan(), long[:10])) == 1
