"""The Moon's month: cut at what is seen, with the dates of a library of astronomy."""

from __future__ import annotations

from math import cos, pi

import ephem
import numpy as np
import pytest

from sonify.processes import conditions_si, find
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.processes.stories import at, check_story, stage_of
from tests.processes.truth import check_told

SPEC = find("moon")
USUAL = conditions_si(SPEC, ())
DAY_S = 86_400.0


def run(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def test_a_month_has_four_stages_and_comes_back_to_new_moon() -> None:
    found = run()
    assert [stage.name for stage in found.stages] == [stage.name for stage in SPEC.stages]
    lit = found.quantity("lit part").values
    assert lit[0] == pytest.approx(0.0, abs=1e-9) and lit[-1] == pytest.approx(0.0, abs=1e-9)
    assert lit.max() == pytest.approx(1.0, abs=1e-9)


def test_half_way_round_to_full_is_half_lit_and_a_quarter_of_the_way_15_hundredths() -> None:
    """(1 - cos 90°) / 2 and (1 - cos 45°) / 2."""
    found = run()
    way, lit = found.quantity("way round").values, found.quantity("lit part").values
    assert np.interp(pi / 2.0, way, lit) == pytest.approx(0.5, abs=1e-6)
    assert np.interp(pi / 4.0, way, lit) == pytest.approx((1.0 - cos(pi / 4.0)) / 2.0, abs=1e-4)
    start, end = stage_of(found, "crescent grows")
    assert at(found, "lit part", end) == pytest.approx(50.0, abs=0.01) and start == 0.0


@pytest.mark.parametrize(("year", "month"), [(2026, 9), (2027, 2), (1960, 3), (2048, 12)])
def test_the_first_new_moon_of_the_month_by_ephem(year: int, month: int) -> None:
    found = run(year=float(year), month=float(month))
    theirs = ephem.next_new_moon(f"{year}/{month}/1").datetime()
    assert say(found.events[0].text).startswith(f"{theirs.day} {theirs:%B}:")
    after = ephem.next_new_moon(ephem.next_new_moon(f"{year}/{month}/1") + 1.0) - ephem.next_new_moon(
        f"{year}/{month}/1"
    )
    assert found.time_s[-1] / DAY_S == pytest.approx(after, abs=0.06)


@pytest.mark.parametrize("year", [1951.0, 1999.0, 2024.0, 2048.0])
def test_every_month_of_a_year(year: float) -> None:
    for month in range(1, 13):
        conditions = {"year": year, "month": float(month)}
        found = SPEC.run(conditions)
        check_story(SPEC, found, conditions)
        check_told(found, conditions)
