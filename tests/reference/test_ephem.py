"""The library ephem (its Moon is computed from a full theory): phases and the lit part over a hundred years."""

from __future__ import annotations

from collections.abc import Callable

import ephem
import numpy as np
import pytest

from sonify.science.moon import SYNODIC_MONTH_D, elongation, lit_share, when_round

NOON_2000 = ephem.Date("2000/1/1 12:00:00")
PHASES: list[tuple[float, Callable[[float], float]]] = [
    (0.0, ephem.next_new_moon),
    (0.25, ephem.next_first_quarter_moon),
    (0.5, ephem.next_full_moon),
    (0.75, ephem.next_last_quarter_moon),
]
AN_HOUR = 1.0 / 24.0


@pytest.mark.parametrize(("quarter", "after"), PHASES)
def test_new_half_and_full_moons_come_within_an_hour(quarter: float, after: Callable[[float], float]) -> None:
    for turns in range(-600, 620, 37):
        ours = float(when_round(turns + quarter))
        assert ours == pytest.approx(after(NOON_2000 + ours - 3.0) - NOON_2000, abs=AN_HOUR)


def test_the_lit_part_at_random_moments() -> None:
    moon = ephem.Moon()
    for days in np.random.default_rng(3).uniform(-17_900.0, 17_900.0, 100):
        moon.compute(NOON_2000 + days)
        assert float(lit_share(elongation(float(days)))) == pytest.approx(moon.phase / 100.0, abs=0.004)


def test_the_mean_month() -> None:
    """Meeus, chapter 49, from memory: 29.530588861 days; ours over 1,200 months."""
    months = (float(when_round(600.0)) - float(when_round(-600.0))) / 1200.0
    assert months == pytest.approx(SYNODIC_MONTH_D, abs=2e-4)
