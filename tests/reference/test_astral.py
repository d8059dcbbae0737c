"""Length of the day by the library astral 3.2, at Greenwich and at random."""

from __future__ import annotations

from datetime import date, timedelta
from math import radians

import numpy as np
import pytest
from astral import Observer
from astral.sun import sun

from sonify.science.sun import day_length_h, days_since_2000, declination

TWO_MINUTES_H = 2.0 / 60.0
# day of 2025, hours and minutes from sunrise to sunset
GREENWICH = [(79, 12, 10.5), (172, 16, 37.4), (355, 7, 49.2)]


def ours_h(latitude: float, day: int) -> float:
    return float(day_length_h(radians(latitude), declination(days_since_2000(2025, day))))


@pytest.mark.parametrize(("day", "hours", "minutes"), GREENWICH)
def test_greenwich(day: int, hours: int, minutes: float) -> None:
    assert ours_h(51.4779, day) == pytest.approx(hours + minutes / 60.0, abs=TWO_MINUTES_H)


def test_random_days() -> None:
    rng = np.random.default_rng(9)
    for _ in range(60):
        latitude, day = float(rng.uniform(-60.0, 60.0)), int(rng.integers(1, 366))
        found = sun(Observer(latitude, 0.0), date=date(2025, 1, 1) + timedelta(days=day - 1))
        theirs = (found["sunset"] - found["sunrise"]).total_seconds() / 3600.0
        assert ours_h(latitude, day) == pytest.approx(theirs, abs=TWO_MINUTES_H)


def test_polar_day_and_night() -> None:
    assert ours_h(75.0, 172) == 24.0
    assert ours_h(75.0, 355) == 0.0
