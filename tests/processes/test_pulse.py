"""The pulse: what exponential approach demands, and that the beat is the heartbeat."""

from __future__ import annotations

import re
from dataclasses import replace
from math import log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify import lesson
from sonify.errors import BadCondition
from sonify.facts.truth import true_timeline
from sonify.processes import conditions_si, find
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.pulse import beats_on_the_way, pulse_on_the_way
from tests.processes.stories import any_conditions, at, check_advice, left_out, stage_of
from tests.processes.truth import check_told

SPEC = find("pulse")
USUAL = conditions_si(SPEC, ())
STAGES = [stage.name for stage in SPEC.stages]


def run(**changes: float) -> Timeline:
    return SPEC.run({**USUAL, **changes})


def test_the_usual_run_has_all_six_stages() -> None:
    found = run()
    assert [stage.name for stage in found.stages] == STAGES
    assert not found.missing
    assert [event.time_s for event in found.events] == [60.0, 240.0, 540.0]


def test_half_of_the_extra_beats_are_gone_after_the_half_time_however_hard_the_exercise_was() -> None:
    """Exponential decay has no memory of where it began: a scripted fall would take the same share a second."""
    for exercise_pulse in (110.0, 150.0, 190.0):
        found = run(exercise_pulse=exercise_pulse / 60.0)
        start, end = stage_of(found, "recovering")
        assert start == 240.0
        assert end - start == pytest.approx(USUAL["recovery_half_time"], abs=1.0)
        assert at(found, "extra pulse", 240.0 + 90.0) == pytest.approx(at(found, "extra pulse", 240.0) / 4.0)


def test_a_shorter_game_leaves_the_heart_short_of_its_fastest() -> None:
    peaks = [60.0 * run(exercise=seconds).quantity("pulse").values.max() for seconds in (20.0, 40.0, 80.0, 600.0)]
    resting, working = 60.0 * USUAL["resting_pulse"], 60.0 * USUAL["exercise_pulse"]
    half_times = np.array([20.0, 40.0, 80.0, 600.0]) / USUAL["rise_half_time"]
    np.testing.assert_allclose(peaks, working - (working - resting) * 0.5**half_times)
    assert [stage.stage for stage in run(exercise=20.0).missing] == ["working"]


def test_heartbeats_are_the_pulse_added_up() -> None:
    """The count is a formula of its own; a fine sum over the pulse comes to the same."""
    found = run()
    counted, pulse = found.quantity("heartbeats").values, found.quantity("pulse").values
    added = np.concatenate([[0.0], np.cumsum(0.5 * (pulse[1:] + pulse[:-1]) * np.diff(found.time_s))])
    np.testing.assert_allclose(counted, added, rtol=2e-4, atol=1e-9)
    assert np.all(np.diff(counted) > 0.0)


@given(st.floats(0.7, 3.5), st.floats(0.7, 3.5), st.floats(0.0, 900.0), st.floats(5.0, 600.0))
def test_the_way_obeys_its_own_equation(start: float, target: float, elapsed_s: float, constant_s: float) -> None:
    """dp/dt = (target - p) / tau, and dN/dt = p, by small differences."""
    step = 1e-4 * constant_s
    here, there = (float(pulse_on_the_way(start, target, t, constant_s)) for t in (elapsed_s, elapsed_s + step))
    assert (there - here) / step == pytest.approx((target - here) / constant_s, rel=1e-3, abs=1e-9)
    beats = [float(beats_on_the_way(start, target, t, constant_s)) for t in (elapsed_s, elapsed_s + step)]
    assert (beats[1] - beats[0]) / step == pytest.approx(here, rel=1e-3)


def test_exercise_that_does_not_raise_the_pulse_is_refused_with_its_range() -> None:
    with pytest.raises(BadCondition, match="allowed: 90.5 a minute to 220 a minute") as caught:
        run(exercise_pulse=85.0 / 60.0)
    assert caught.value.key == "exercise_pulse"


@given(any_conditions(SPEC))
def test_any_conditions(conditions: dict[str, float]) -> None:
    try:
        found = SPEC.run(conditions)
    except BadCondition as error:
        assert error.key == "exercise_pulse"
        return
    names = [stage.name for stage in found.stages]
    assert names == [name for name in STAGES if name in names] and names
    assert sorted(names + [lacking.stage for lacking in found.missing]) == sorted(STAGES)
    pulse = found.quantity("pulse").values
    low, high = conditions["resting_pulse"], conditions["exercise_pulse"]
    assert low - 1e-9 <= pulse.min() and pulse.max() <= high + 1e-9
    np.testing.assert_allclose(found.quantity("time between beats").values * pulse, 1.0)
    check_advice(SPEC, conditions, found)
    check_told(found, conditions)


@given(st.floats(600.0, 3600.0), st.floats(3.0, 30.0))
def test_recovery_begins_when_the_exercise_ends_however_long_the_pulse_has_been_at_its_height(
    exercise: float, rise_half_time: float
) -> None:
    """A long approach comes to rest at one machine number minutes before: its first maximum is not the end."""
    found = run(exercise=exercise, rise_half_time=rise_half_time)
    start, end = stage_of(found, "recovering")
    assert start == USUAL["rest"] + exercise
    assert end - start == pytest.approx(USUAL["recovery_half_time"], abs=1.0)
    told = say(next(stage.science for stage in found.stages if stage.name == "recovering"))
    assert re.search(r"In 4[56] seconds the pulse drops from 150 to 11[45] a minute", told)


def test_the_beat_is_the_heartbeat_with_no_exaggeration() -> None:
    studied = lesson.study("playground-pulse")
    (key,) = (key for key in studied.controls.keys if key.rule.control == "tempo")
    assert key.exaggeration == 1.0
    for tempo in studied.controls.time_map.stages:
        mean = np.mean(tempo.bar_bpms)
        inside = (studied.timeline.time_s >= tempo.start_s) & (studied.timeline.time_s <= tempo.end_s)
        assert mean == pytest.approx(60.0 * studied.timeline.quantity("pulse").values[inside].mean(), abs=2.0)


def test_the_scene_puts_heart_and_asthma_plans_first_and_tells_of_every_second_pulse() -> None:
    scene = lesson.load("playground-pulse")
    assert scene.cautions[0].startswith("Heart and asthma plans come first")
    assert any("120" in note and "every second pulse" in note for note in scene.teacher_notes)


def test_the_half_time_is_the_constant_times_ln_2() -> None:
    found = run(recovery_half_time=70.0)
    after = at(found, "extra pulse", 240.0 + 70.0 / log(2.0)) / at(found, "extra pulse", 240.0)
    assert after == pytest.approx(np.exp(-1.0), rel=1e-3)


def test_a_pulse_that_has_only_just_begun_to_rise_is_told_so() -> None:
    """Ten seconds at a half time of 126 s raise it by 5.4 %, more than is asleep, and yet there is no stage of it."""
    odd = {"resting_pulse": 40.0 / 60.0, "exercise_pulse": 1.0, "rise_half_time": 125.769, "recovery_half_time": 900.0}
    times = {"rest": 60.0, "exercise": 10.0, "recovery": 300.0}
    found = replace(run(**odd, **times), conditions=tuple({**USUAL, **odd, **times}.items()))
    assert 1.0 - 0.5 ** (10.0 / 125.769) > 0.05 and "quickening" in [each.stage for each in found.missing]
    left_out(found)  # every reason has a sentence left, and it holds
    reason = next(each.reason for each in true_timeline(found)[0].missing if each.stage == "quickening")
    assert "has only just begun to rise" in say(reason)
