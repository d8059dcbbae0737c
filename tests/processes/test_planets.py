"""Planets that go once round: further is slower, by Kepler's laws and by the printed speeds."""

from __future__ import annotations

import numpy as np
import pytest

from sonify.processes import find
from sonify.processes.planets import DISTANCE, FOURS, ORDER, PACE, PULL, SPEED
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.processes.truth import check_told

SPEC = find("planets")
Run = tuple[Timeline, tuple[str, ...]]


@pytest.fixture(scope="module", params=range(len(FOURS)), ids=list(FOURS))
def run(request: pytest.FixtureRequest) -> Run:
    return SPEC.run({"planets": float(request.param)}), tuple(FOURS.values())[request.param]


def within(found: Timeline, number: int, name: str) -> np.ndarray:
    """A quantity's values in a stage, SI."""
    stage = found.stages[number]
    inside = (found.time_s >= stage.start_s) & (found.time_s <= stage.end_s)
    return found.quantity(name).values[inside]


def test_every_setting_tells_what_it_computed(run: Run) -> None:
    found, four = run
    assert [stage.name for stage in found.stages] == list(ORDER) and not found.missing
    assert [say(stage.title) for stage in found.stages] == [f"Once round with {name}" for name in four]
    assert all(kept.relative_drift < 1e-12 for kept in found.conserved)
    check_told(found, {"planets": float(tuple(FOURS.values()).index(four))})


def test_each_further_one_is_slower_and_pulled_less(run: Run) -> None:
    found, _ = run
    for number in (1, 2, 3):
        assert within(found, number, DISTANCE).min() > within(found, number - 1, DISTANCE).max()
        for name in (SPEED, PACE, PULL):
            assert within(found, number, name).max() < within(found, number - 1, name).min()


def test_a_turn_is_a_turn(run: Run) -> None:
    """The pace added up over a stage comes to 360 degrees, as fine as the looks are."""
    found, _ = run
    for number in range(4):
        pace = within(found, number, PACE)
        stage = found.stages[number]
        times = np.linspace(stage.start_s, stage.end_s, pace.size)
        assert np.degrees(np.trapezoid(pace, times)) == pytest.approx(360.0, rel=1e-3)


def test_the_pull_keeps_a_planet_on_a_circle() -> None:
    """On the roundest way, Venus's, the pull is the square of the speed over the distance (any textbook)."""
    found = SPEC.run({"planets": 0.0})
    speed, distance, pull = (within(found, 1, name).mean() for name in (SPEED, DISTANCE, PULL))
    assert pull == pytest.approx(speed**2 / distance, rel=1e-4)
