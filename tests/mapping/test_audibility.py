"""Can it be heard? Neighbouring stages, problems and notes, and advice that works when it is taken."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.kinds.controls import CONTROLS
from sonify.kinds.marks import DYNAMICS
from sonify.mapping.thresholds import THRESHOLDS, can_be_told_apart
from sonify.records.controls import Key
from sonify.records.findings import Finding
from sonify.records.scene import Music, Rule
from sonify.records.telling_apart import difference
from sonify.records.timeline import Timeline
from tests.mapping.making import map_scene, process, quantity, rule, scene, stepped, timeline
from tests.mapping.reading import taken


def warm(levels_c: list[float]) -> Timeline:
    return timeline(quantity("warmth", [273.15 + level for level in stepped(levels_c)]))


def judged(written: Rule, found: Timeline, music: Music | None = None) -> tuple[Key, list[Finding]]:
    controls, findings = map_scene(scene(written, music=music), found, process(found))
    return controls.keys[0], [finding for finding in findings if finding.kind == "audibility"]


def problems(findings: list[Finding]) -> list[Finding]:
    return [finding for finding in findings if finding.serious]


def test_there_is_one_row_for_every_control() -> None:
    assert sorted(row.control for row in THRESHOLDS) == sorted(CONTROLS)
    assert all(row.status and row.source and row.published for row in THRESHOLDS)


@pytest.mark.parametrize("control", CONTROLS)
@given(one=st.floats(1.0, 100.0), other=st.floats(1.0, 100.0))
def test_a_difference_is_the_same_both_ways_and_none_from_itself(control: str, one: float, other: float) -> None:
    assert difference(control, one, other) == difference(control, other, one) >= 0.0
    assert difference(control, one, one) == 0.0


def test_a_few_taps_are_heard_against_silence() -> None:
    assert can_be_told_apart("density", 0.0, 0.25)
    assert not can_be_told_apart("density", 0.0, 0.1)
    assert not can_be_told_apart("density", 0.0, 0.0)


def test_stages_that_differ_are_heard_and_nothing_is_found() -> None:
    key, findings = judged(rule(), warm([10, 20, 15, 5, 15]))
    assert key.audible and not findings
    # the nearest neighbours are 100 and 89 beats a minute: 12 % apart
    assert "differ by 12 % or more; we ask for 12 %" in key.verdict


def test_what_is_compared_is_the_rounded_tempo() -> None:
    # unrounded: 61.4 and 68.6 beats a minute are 11.7 % apart; as set, 61 and 69, they are 13 %
    key, _ = judged(rule(ends=("0 degC", "100 degC"), to=(60.0, 80.0)), warm([7, 43.5, 7, 43.5, 7]))
    assert key.audible and "13 %" in key.verdict


def test_neighbours_that_differ_in_the_science_but_not_in_sound_are_a_problem() -> None:
    key, findings = judged(rule(), warm([5, 25, 18, 17, 12]))
    assert key.audible  # 18 to 17 degC is a twentieth of the day's swing: a note
    key, findings = judged(rule(to=(66.0, 74.0)), warm([5, 25, 18, 6, 25]))
    assert not key.audible
    (problem,) = problems(findings)
    assert "from “Evaporation” to “Condensation”" in problem.message  # 25 to 18 degC is 74 to 71 beats a minute
    assert "from “Sun warms” to “Evaporation”" not in problem.message
    assert "25 °C to 18 °C" in problem.message


def test_stages_of_one_average_are_said_to_be_so_and_a_gliding_tempo_is_offered() -> None:
    key, findings = judged(rule(), warm([5, 25, 24.5, 5, 15]))
    assert key.audible
    (note,) = findings
    assert not note.serious and note.fix.startswith("Where the curve moves") and "gliding" in note.fix
    assert "average nearly the same" in note.message and "from “Evaporation” to “Condensation”" in note.message
    assert "The averages hardly change from “Evaporation” to “Condensation”" in key.verdict
    assert "science hardly changes" not in key.verdict, "only the averages are known to be the same"


def test_a_rise_and_a_fall_of_one_average_are_heard_within_the_stages() -> None:
    each = len(stepped([0.0]))
    rise = np.linspace(5.0, 25.0, each)
    day = np.concatenate([rise if stage % 2 == 0 else rise[::-1] for stage in range(5)])
    key, findings = judged(rule(), timeline(quantity("warmth", list(273.15 + day))), Music(gliding=True))
    assert key.audible
    assert "The averages are alike from “Sun warms” to “Evaporation”" in key.verdict
    assert "science hardly changes" not in key.verdict
    assert findings and all("Only the averages are alike" in note.message for note in findings)


def test_a_small_change_that_is_lost_is_a_note_with_an_offer() -> None:
    written = rule(to=(66.0, 90.0))
    key, findings = judged(written, warm([5, 25, 20.9, 5, 15]))  # 20 % of the swing, 90 and 85 beats a minute
    assert key.audible
    (note,) = findings
    assert not note.serious and "too small to hear" in note.message
    key, findings = judged(taken(written, note.fix), warm([5, 25, 20.9, 5, 15]))
    assert key.audible and not findings


def test_a_rule_that_cannot_be_told_apart_anywhere_is_a_problem() -> None:
    written = rule(to=(80.0, 82.0))
    key, findings = judged(written, warm([5, 25, 15, 5, 15]))
    (problem,) = findings
    assert problem.serious and not key.audible
    assert "Nothing can be told apart" in key.verdict
    key, findings = judged(taken(written, problem.fix), warm([5, 25, 15, 5, 15]))
    assert key.audible and not problems(findings)


def test_a_range_far_wider_than_the_day_is_offered_a_narrower_one() -> None:
    written = rule(ends=("-50 degC", "150 degC"))
    _, findings = judged(written, warm([5, 25, 15, 5, 15]))
    assert "from = [" in problems(findings)[0].fix and "to = [" not in problems(findings)[0].fix


def test_a_quantity_that_never_changes_is_a_problem_without_an_offer() -> None:
    key, findings = judged(rule(), warm([15, 15, 15, 15, 15]))
    (problem,) = findings
    assert problem.serious and not key.audible
    assert "averaged over each stage, stays at 15 °C" in problem.message
    assert "Hear a quantity that changes" in problem.fix


def test_what_is_held_at_the_end_is_heard_as_alike() -> None:
    key, findings = judged(rule(ends=("5 degC", "15 degC")), warm([5, 25, 16, 5, 10]))
    assert not key.audible  # 25 and 16 degC are both held at 112
    assert "from “Evaporation” to “Condensation”" in problems(findings)[0].message


def test_one_stage_is_judged_by_what_moves_within_it() -> None:
    moving = timeline(quantity("rain rate", list(np.linspace(0, 1e-6, 100)), unit="mm/h", si_unit="m/s"), stages=("a",))
    key, findings = judged(rule("rain rate", "density", ("0 mm/h", "3.6 mm/h"), (0.25, 2.0)), moving)
    assert key.audible and not findings and key.verdict.startswith("Within A it changes by")
    key, findings = judged(rule("rain rate", "density", ("0 mm/h", "3.6 mm/h"), (1.0, 1.2)), moving)
    assert not key.audible and findings[0].serious


def test_the_tempo_of_a_single_stage_is_offered_to_glide() -> None:
    warming = timeline(quantity("warmth", list(np.linspace(278.15, 298.15, 50))), stages=("sun warms",))
    key, findings = judged(rule(), warming)
    assert not key.audible and "gliding = true" in problems(findings)[0].fix
    key, findings = judged(rule(), warming, Music(gliding=True))
    assert key.audible and not findings


def test_pitches_that_fall_on_the_same_note_are_alike() -> None:
    # 61.1 and 62.9 are 1.8 semitones apart, but in C pentatonic both are D4
    written = rule(control="pitch", ends=("0 degC", "10 degC"), to=(60.0, 70.0))
    key, findings = judged(written, warm([1.1, 2.9, 1.1, 2.9, 1.1]))
    assert not key.audible
    assert problems(findings)


def test_part_of_a_finding_is_the_part_of_the_rule() -> None:
    written = rule(control="dynamics", to=(57.0, 60.0), part="The sea", key="hear.5")
    _, findings = judged(written, warm([5, 25, 15, 5, 15]))
    assert findings[0].part == "The sea" and findings[0].where.startswith("hear.5, warmth as dynamics for The sea")


ENDS = {
    "tempo": st.tuples(st.integers(60, 132), st.integers(60, 132)),
    "pitch": st.tuples(st.integers(48, 84), st.integers(48, 84)),
    "density": st.tuples(st.floats(0.25, 3.0), st.floats(0.25, 3.0)),
    "dynamics": st.tuples(st.sampled_from(sorted(DYNAMICS.values())), st.sampled_from(sorted(DYNAMICS.values()))),
    "brightness": st.tuples(st.floats(0.0, 1.0), st.floats(0.0, 1.0)),
}


@pytest.mark.parametrize("control", CONTROLS)
@given(data=st.data())
def test_advice_works_when_it_is_taken(control: str, data: st.DataObject) -> None:
    """Whatever a problem says to write makes the problem go away, or it says plainly that nothing written would."""
    to = data.draw(ENDS[control].filter(lambda ends: abs(ends[0] - ends[1]) > 1e-3))
    levels = data.draw(st.lists(st.floats(2.0, 30.0), min_size=5, max_size=5).filter(lambda c: max(c) - min(c) > 1.0))
    written = rule(control=control, ends=("5 degC", "25 degC"), to=(float(to[0]), float(to[1])))
    found = warm(levels)
    key, findings = judged(written, found)
    assert key.audible == (not problems(findings))
    for problem in problems(findings):
        if problem.fix.startswith("No ends"):
            assert problem.change is None
            continue
        # what a program takes is what the sentence says
        assert problem.change is not None and problem.change.rule == 0
        pairs = [pair for pair in (problem.change.low_high, problem.change.to) if pair]
        assert pairs and all(f'["{low}", "{high}"]' in problem.fix for low, high in pairs)
        changed = taken(written, problem.fix)
        assert (changed.to_high > changed.to_low) == (to[1] > to[0])  # never the other way round
        better, left = judged(changed, found)
        assert better.audible and not problems(left)
