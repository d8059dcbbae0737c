"""What lies outside a rule or the scene's tempo is held, and never in silence."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.records.findings import Finding
from sonify.records.scene import Music, Rule
from sonify.records.timeline import Timeline
from tests.mapping.making import map_scene, measure, process, quantity, rule, scene, stepped, timeline


def warm(levels_c: list[float]) -> Timeline:
    return timeline(quantity("warmth", [273.15 + level for level in stepped(levels_c)]))


def raining(levels_mm_h: list[float]) -> Timeline:
    rates = [level / 3.6e6 for level in stepped(levels_mm_h)]
    return timeline(quantity("rain rate", rates, unit="mm/h", si_unit="m/s"))


def rule_findings(written: Rule, found: Timeline, music: Music | None = None) -> list[Finding]:
    findings = map_scene(scene(written, music=music), found, process(found))[1]
    return [finding for finding in findings if finding.kind == "rule"]


def test_inside_the_range_nothing_is_found() -> None:
    assert not rule_findings(rule(), warm([6, 20, 15, 7, 15]))


def test_a_finding_says_where_how_far_and_what_to_write() -> None:
    # stage means of 29 and 3 degC, but for the line from the stage before and to the one after
    (finding,) = rule_findings(rule(key="hear.2"), warm([10, 29, 15, 3, 15]))
    assert finding.serious
    assert "rises to 28.9 °C where the rule ends at 25 °C and stays at 112 a minute" in finding.message
    assert "falls to 3.07 °C where the rule ends at 5 °C and stays at 66 a minute" in finding.message
    assert "in Evaporation and Precipitation" in finding.message
    assert finding.where == "hear.2, warmth as tempo: Evaporation and Precipitation"
    assert re.search(r'from = \["3 degC", "29 degC"\] in the rule "warmth as tempo"', finding.fix)


def test_only_the_end_that_is_passed_is_moved() -> None:
    (finding,) = rule_findings(rule(), warm([10, 29, 15, 8, 15]))
    assert 'from = ["5 degC", "29 degC"]' in finding.fix


def test_the_range_is_offered_in_the_unit_it_was_written_in() -> None:
    (finding,) = rule_findings(rule(ends=("41 degF", "77 degF")), warm([10, 29, 15, 8, 15]))
    assert 'from = ["41 degF", "85 degF"]' in finding.fix  # 29 degC is 84.2 degF


def test_an_end_that_was_rounded_in_writing_is_a_note() -> None:
    (finding,) = rule_findings(rule(), warm([10, 25.3, 15, 5, 15]))
    assert not finding.serious
    finding = rule_findings(rule(control="dynamics", to=(44.0, 89.0)), warm([10, 25.02, 15, 5, 15]))[-1]
    assert "rises to 25.02 °C where the rule ends at 25 °C" in finding.message


def test_a_logarithm_that_meets_nothing_is_offered_a_line() -> None:
    written = rule("rain rate", "density", ("0.5 mm/h", "5 mm/h"), (0.25, 4.0), curve="logarithmic")
    (finding,) = rule_findings(written, raining([0.0, 0.6, 2.0, 5.0, 1.0]), None)[1:]
    assert 'curve = "linear"' in finding.fix and "nothing" in finding.fix


def test_a_tempo_beyond_the_scene_is_held_and_named() -> None:
    music = Music(slowest_bpm=70.0, fastest_bpm=100.0)
    (finding,) = rule_findings(rule(key="hear.1"), warm([6, 24, 15, 6, 15]), music)
    assert finding.serious
    # 24 degC asks for 66 + 19/20 x 46 = 109.7, 6 degC for 68.3
    assert "Evaporation would be at 110 and is held at 100" in finding.message
    assert "Precipitation would be at 68 and is held at 70" in finding.message
    low, high = (float(text) for text in re.findall(r'"(\d+) bpm"', finding.fix))
    assert not rule_findings(rule(), warm([6, 24, 15, 6, 15]), replace(music, slowest_bpm=low, fastest_bpm=high))


def test_other_controls_know_no_limits_of_tempo() -> None:
    music = Music(slowest_bpm=90.0, fastest_bpm=91.0)
    findings = rule_findings(rule(control="dynamics", to=(44.0, 89.0)), warm([6, 24, 15, 6, 15]), music)
    assert [finding.serious for finding in findings] == [False]  # only the note that no rule sets the tempo


@given(st.lists(st.floats(-20.0, 60.0), min_size=5, max_size=5), st.sampled_from(["degC", "K", "degF"]))
def test_what_is_held_is_always_told_and_the_offered_range_holds_it(levels_c: list[float], unit: str) -> None:
    ends = {"degC": ("5 degC", "25 degC"), "K": ("278.15 K", "298.15 K"), "degF": ("41 degF", "77 degF")}[unit]
    written = rule(control="dynamics", ends=ends, to=(32.0, 108.0))
    found = warm(levels_c)
    controls, findings = map_scene(scene(written), found, process(found))
    outside = any(not 5.0 <= level <= 25.0 for level in levels_c)
    about_rules = [finding for finding in findings if finding.kind == "rule" and "hear.0" in finding.where]
    assert bool(about_rules) == outside == (controls.curves[0].held > 0)
    for finding in about_rules:
        offered = re.search(r'from = \["([^"]+)", "([^"]+)"\]', finding.fix)
        if offered is None:
            assert finding.fix.startswith("No ends")
            continue
        better = replace(written, low=measure(offered[1]), high=measure(offered[2]))
        assert map_scene(scene(better), found, process(found))[0].curves[0].held == 0


@pytest.mark.parametrize("levels_c", [[5, 25, 5, 25, 5], [5, 5, 25, 25, 15]])
def test_ends_that_are_just_met_are_not_outside(levels_c: list[float]) -> None:
    assert not rule_findings(rule(), warm([float(level) for level in levels_c]))


def test_a_rule_that_is_met_in_a_small_part_only_is_a_note_with_an_offer() -> None:
    written = rule("rain rate", "dynamics", ("0 mm/h", "9 mm/h"), (32.0, 108.0))
    (note,) = rule_findings(written, raining([0.1, 4.0, 2.0, 4.0, 0.5]))[1:]
    assert not note.serious
    assert "goes from 0.1 mm/h to 4 mm/h" in note.message and "0 mm/h to 9 mm/h" in note.message
    assert 'from = ["0 mm/h", "4 mm/h"]' in note.fix  # nothing stays nothing
    better = replace(written, high=measure("4 mm/h"))
    assert not rule_findings(better, raining([0.1, 4.0, 2.0, 4.0, 0.5]))[1:]
