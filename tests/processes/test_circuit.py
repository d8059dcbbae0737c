"""A circuit: one thing changed in each trial, by Kirchhoff's laws, and what a class can find out itself."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given

from sonify.processes import conditions_si, find
from sonify.processes.circuit import ACROSS, CURRENT, HEAT, OPEN, POWER, THROUGH
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.processes.stories import any_conditions, check_advice
from tests.processes.truth import check_told

SPEC = find("circuit")
USUAL = conditions_si(SPEC, ())
STAGES = [stage.name for stage in SPEC.stages]
NO_INNER = {"cell_resistance": 0.05, "resistance": 200.0}


def run(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def first(found: Timeline, name: str, trial: str) -> float:
    """In SI, at the beginning of a trial."""
    (stage,) = (each for each in found.stages if each.name == trial)
    return float(found.at(name, np.array([stage.start_s]))[0])


def test_nothing_flows_where_there_is_a_gap_and_the_cells_keep_their_voltage() -> None:
    found = run(cells=3.0)
    assert [stage.name for stage in found.stages] == STAGES
    assert all(first(found, name, "break") == 0.0 for name in (POWER, CURRENT, THROUGH, ACROSS, HEAT))
    assert first(found, OPEN, "break") == pytest.approx(3 * 1.5, rel=1e-12)


@pytest.mark.parametrize("count", [2, 3, 4])
def test_by_ohms_law_alone(count: int) -> None:
    """One loop each: in a row the ring has all components, side by side the cells see a count-th of one."""
    found, inner, ohm = run(components=float(count)), 0.3, 12.0
    assert first(found, CURRENT, "whole circuit") == pytest.approx(1.5 / (inner + ohm), rel=1e-12)
    assert first(found, CURRENT, "in a row") == pytest.approx(1.5 / (inner + count * ohm), rel=1e-12)
    side = 1.5 / (inner + ohm / count)
    assert first(found, CURRENT, "side by side") == pytest.approx(side, rel=1e-12)
    assert first(found, THROUGH, "side by side") == pytest.approx(side / count, rel=1e-12)
    assert first(found, HEAT, "side by side") == pytest.approx(side**2 * inner, rel=1e-12)
    assert first(found, OPEN, "side by side") == pytest.approx(first(found, ACROSS, "side by side"), rel=1e-12)


def test_two_cells_give_four_times_the_power_where_they_hold_nothing_back() -> None:
    found = run(**NO_INNER)
    whole = first(found, POWER, "whole circuit")
    assert first(found, POWER, "other cells") == pytest.approx(4.0 * whole, rel=1e-3)
    assert first(found, POWER, "in a row") == pytest.approx(whole / 4.0, rel=1e-3)
    assert first(found, POWER, "side by side") == pytest.approx(whole, rel=1e-3)


@pytest.mark.parametrize(("component", "word"), [(0.0, "brighter"), (1.0, "louder"), (2.0, "quicker")])
def test_more_cells_in_the_words_of_the_component(component: float, word: str) -> None:
    (told,) = (stage.science for stage in run(component=component).stages if stage.name == "other cells")
    assert say(told).endswith(f"It is {word}.")


@given(any_conditions(SPEC))
def test_any_conditions(conditions: dict[str, float]) -> None:
    found = SPEC.run(conditions)
    names = [stage.name for stage in found.stages]
    assert sorted(names + [lacking.stage for lacking in found.missing]) == sorted(STAGES)
    assert all(kept.relative_drift < 1e-12 for kept in found.conserved)
    assert first(found, POWER, "side by side") > first(found, POWER, "in a row")
    check_advice(SPEC, conditions, found)
    check_told(found, conditions)
