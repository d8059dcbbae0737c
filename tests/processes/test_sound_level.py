"""A walk away from a drum: in the open, between walls, and in noise."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given

from sonify.processes import conditions_si, find
from sonify.records.timeline import Timeline
from tests.processes.stories import any_conditions, check_story
from tests.processes.truth import check_told

SPEC = find("sound-level")
USUAL = conditions_si(SPEC, ())


def run(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def heard(found: Timeline, distance_m: float) -> float:
    return float(np.interp(distance_m, found.quantity("distance").values, found.quantity("loudness").values))


def test_in_the_open_each_doubling_takes_off_6_02_decibels() -> None:
    found = run(noise=20.0)
    for distance in (1.0, 2.0, 4.0, 8.0):
        assert heard(found, distance) - heard(found, 2.0 * distance) == pytest.approx(6.02, abs=0.01)


def test_between_walls_it_levels_off_at_the_echoes() -> None:
    """Where echoes are as loud as the drum, together they are 3.01 dB above either."""
    found = run(room_distance=3.0, noise=20.0)
    assert heard(found, 3.0) == pytest.approx(85.0 - 20.0 * np.log10(3.0) + 3.01, abs=0.01)
    assert heard(found, 16.0) - heard(found, 32.0) < 0.3


@given(any_conditions(SPEC))
def test_any_conditions(conditions: dict[str, float]) -> None:
    found = SPEC.run(conditions)
    check_story(SPEC, found, conditions)
    check_told(found, conditions)
