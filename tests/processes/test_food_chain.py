"""Hunters and hunted: the kept sum, the averages of a round, and that the hunters come after."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from scipy.integrate import solve_ivp

from sonify import lesson
from sonify.constants import DAY_S
from sonify.processes import conditions_si, find
from sonify.processes.food_chain import HUNTED, HUNTERS, YEAR_S
from sonify.records.timeline import Timeline
from tests.processes.stories import any_conditions, check_story
from tests.processes.truth import check_told

SPEC = find("food-chain")
USUAL = conditions_si(SPEC, ())


def run(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def test_the_check_values_of_the_literature() -> None:
    """Alpha 1, beta 0.1, gamma 1.5, delta 0.075 from (10, 5), a much used example: period 5.480, averages 20 and 10."""
    found = run()
    hunted, hunters = (found.quantity(name).values for name in (HUNTED, HUNTERS))
    assert (hunted[0], hunters[0]) == pytest.approx((10.0, 5.0))
    assert found.time_s[-1] / (365.25 * DAY_S) == pytest.approx(5.480, abs=5e-4)
    assert (hunted[-1], hunters[-1]) == pytest.approx((10.0, 5.0), rel=1e-7)
    for values, mean in ((hunted, "20.00"), (hunters, "10.00")):
        average = np.trapezoid(values, found.time_s) / found.time_s[-1]
        assert average == pytest.approx(float(mean), rel=1e-3)  # as fine as the looks are


def test_against_another_method_in_plain_numbers() -> None:
    """The textbook's own form, not in logarithms, by an implicit method of scipy's."""
    found = run()
    years = found.time_s / YEAR_S
    other = solve_ivp(
        lambda _, n: [n[0] - 0.1 * n[0] * n[1], 0.075 * n[0] * n[1] - 1.5 * n[1]],
        (0.0, float(years[-1])),
        [10.0, 5.0],
        method="Radau",
        rtol=1e-9,
        atol=1e-9,
        t_eval=years,
    )
    np.testing.assert_allclose(found.quantity(HUNTED).values, other.y[0], rtol=1e-5)
    np.testing.assert_allclose(found.quantity(HUNTERS).values, other.y[1], rtol=1e-5)


def test_with_a_limit_the_swings_die_down() -> None:
    wide, narrow = run(), run(limit=1.0, room=10.0)
    assert np.ptp(narrow.quantity(HUNTED).values) < np.ptp(wide.quantity(HUNTED).values)


@settings(max_examples=4, deadline=None)
@given(any_conditions(SPEC))
def test_any_conditions(conditions: dict[str, float]) -> None:
    found = SPEC.run(conditions)
    check_story(SPEC, found, conditions)
    check_told(found, conditions)
    most = [float(found.time_s[int(found.quantity(name).values.argmax())]) for name in (HUNTED, HUNTERS)]
    assert most[0] < most[1]


def test_the_game_of_the_note_swings_as_the_note_says() -> None:
    """The teacher's rules, played out: whole counters, what is left over does not count."""
    hares, foxes, rounds = 20, 4, [(20, 4)]
    for _ in range(14):
        caught = hares * foxes // 20
        hares, foxes = min(40, hares + hares // 2 - caught), foxes + caught // 3 - foxes // 3
        rounds.append((hares, foxes))
    (note,) = [each for each in lesson.load("foxes-and-hares").teacher_notes if "For each round" in each]
    most, fewest = max(hunters for _, hunters in rounds), min(hunted for hunted, _ in rounds)
    full = [at for at, (hunted, _) in enumerate(rounds) if hunted == 40]
    assert f"stay at 40 from round {full[0]} to {full[-1]}" in note
    rare = [at for at, (hunted, _) in enumerate(rounds) if hunted == fewest]
    assert f"fewest, {fewest}, in rounds {rare[0]} and {rare[1]}" in note and len(rare) == 2
    assert f"most, {most}, in round {[hunters for _, hunters in rounds].index(most)}" in note
    assert "40 counters for hares, 24 for foxes" in note and most <= 24
