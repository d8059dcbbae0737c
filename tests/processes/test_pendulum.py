"""The pendulum as a fair test: one thing changed in each trial, and what it does to the time of a swing."""

from __future__ import annotations

from math import radians

import pytest
from hypothesis import given

from sonify import lesson
from sonify.processes import conditions_si, find
from sonify.records.timeline import Timeline
from tests.processes.stories import any_conditions, at, check_advice
from tests.processes.truth import check_told

SPEC = find("pendulum")
USUAL = conditions_si(SPEC, ())
STAGES = [stage.name for stage in SPEC.stages]


def run(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def first(found: Timeline, name: str, trial: str) -> float:
    (stage,) = (each for each in found.stages if each.name == trial)
    return at(found, name, stage.start_s)


def test_each_trial_changes_one_thing_and_goes_back_in_all_others() -> None:
    found = run()
    assert [stage.name for stage in found.stages] == STAGES and not found.missing
    for trial, changed in zip(STAGES[1:], ("mass", "release angle", "length"), strict=True):
        other = {
            name
            for name in ("mass", "release angle", "length")
            if first(found, name, trial) != first(found, name, STAGES[0])
        }
        assert other == {changed}


def test_mass_changes_nothing_and_four_times_the_length_halves_the_beat() -> None:
    found = run()
    start = first(found, "time of a swing", "first swing")
    assert first(found, "time of a swing", "other mass") == start
    assert first(found, "time of a swing", "other length") == pytest.approx(2.0 * start, rel=1e-12)
    assert first(found, "crossing rate", "other length") == pytest.approx(60.0 / start, rel=1e-12)


def test_let_go_level_with_the_hook_it_takes_18_03_per_cent_longer() -> None:
    """The figure of the elliptic integral, known to every table of it; beside a swing of 2°."""
    found = run(release=radians(2.0), other_release=radians(90.0))
    longer = first(found, "time of a swing", "other release") / first(found, "time of a swing", "first swing")
    assert longer == pytest.approx(1.1803 / 1.00008, abs=5e-5)


def test_on_the_moon_every_swing_takes_the_same_share_longer() -> None:
    """1.62 m/s² (from memory, a rounded figure of every atlas): the root of 9.80665 / 1.62."""
    here, there = run(), run(gravity=1.62)
    for trial in STAGES:
        shares = first(there, "time of a swing", trial) / first(here, "time of a swing", trial)
        assert shares == pytest.approx((9.80665 / 1.62) ** 0.5, rel=1e-12)


@given(any_conditions(SPEC))
def test_any_conditions(conditions: dict[str, float]) -> None:
    found = SPEC.run(conditions)
    names = [stage.name for stage in found.stages]
    assert sorted(names + [lacking.stage for lacking in found.missing]) == sorted(STAGES)
    assert all(kept.relative_drift < 1e-9 for kept in found.conserved)
    check_advice(SPEC, conditions, found)
    check_told(found, conditions)


def test_the_beat_is_the_pendulum_with_no_exaggeration() -> None:
    studied = lesson.study("one-swing-one-bar")
    (key,) = (key for key in studied.controls.keys if key.rule.control == "tempo")
    assert key.exaggeration == 1.0
    beats = [tempo.bpm for tempo in studied.controls.time_map.stages]
    assert beats[0] == pytest.approx(119.4, abs=0.5) and beats[3] == pytest.approx(beats[0] / 2.0, rel=0.01)
