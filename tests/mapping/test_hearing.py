"""A rule over the piece: the trace of every number, and what the ear gets of it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import UnknownName
from sonify.mapping.hearing import as_said, nearest_tones
from sonify.records.controls import ControlCurve, Controls
from sonify.records.scene import Music, Rule, Scale
from tests.mapping.making import map_scene, process, quantity, rule, scene, stepped, timeline

LEVELS_K = [283.15, 293.15, 288.15, 278.15, 288.15]
PENTATONIC = Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9))
DORIAN = Scale(name="D dorian", tonic=2, pitch_classes=(2, 4, 5, 7, 9, 11, 0))


def mapped(*rules: Rule, music: Music | None = None) -> Controls:
    found = timeline(
        quantity("warmth", stepped(LEVELS_K)),
        quantity("rain rate", list(np.linspace(0.0, 1e-6, 200)), unit="mm/h", si_unit="m/s"),
    )
    return map_scene(scene(*rules, music=music), found, process(found))[0]


def only(controls: Controls) -> ControlCurve:
    (curve,) = controls.curves
    return curve


def test_a_stepping_tempo_traces_to_the_mean_of_each_stage() -> None:
    controls = mapped(rule())
    curve = only(controls)
    assert curve.results.shape == (controls.time_map.beats,)
    for stage in controls.time_map.stages:
        beats = slice((stage.bar - 1) * 4, (stage.bar - 1 + stage.bars) * 4)
        assert set(curve.results[beats]) == {stage.bpm}
        mean = set(curve.quantity_values[beats])
        assert len(mean) == 1
        # the rule by hand: 66 + (T - 278.15) / 20 * 46, rounded
        assert round(66.0 + (mean.pop() - 278.15) / 20.0 * 46.0) == stage.bpm


def test_a_gliding_tempo_traces_bar_by_bar() -> None:
    controls = mapped(rule("rain rate", ends=("0 mm/h", "3.6 mm/h")), music=Music(gliding=True))
    curve = only(controls)
    bars = [bpm for stage in controls.time_map.stages for bpm in stage.bar_bpms]
    assert list(curve.results) == [bpm for bpm in bars for _ in range(4)]
    np.testing.assert_allclose(curve.results, 66.0 + curve.quantity_values / 1e-6 * 46.0, atol=0.5)


@pytest.mark.parametrize(
    ("control", "to", "curve"),
    [
        ("pitch", (60.0, 84.0), "linear"),
        ("pitch", (84.0, 60.0), "logarithmic"),
        ("density", (0.0, 2.0), "linear"),
        ("dynamics", (44.0, 89.0), "linear"),
        ("brightness", (0.9, 0.1), "logarithmic"),
    ],
)
def test_every_number_follows_from_its_quantity_by_the_rule(control: str, to: tuple[float, float], curve: str) -> None:
    written = rule("rain rate", control, ("0.036 mm/h", "3.6 mm/h"), to, curve=curve)
    controls = mapped(written)
    found = only(controls)
    times = controls.time_map.model_time_s(np.arange(controls.time_map.beats, dtype=float))
    x = np.interp(times, (np.arange(200) + 0.5) * 360.0, np.linspace(0.0, 1e-6, 200))
    np.testing.assert_allclose(found.quantity_values, x, atol=1e-18)
    kept = np.clip(x, 1e-8, 1e-6)
    share = np.log(kept / 1e-8) / np.log(100.0) if curve == "logarithmic" else (kept - 1e-8) / (1e-6 - 1e-8)
    np.testing.assert_allclose(found.results, to[0] + share * (to[1] - to[0]), rtol=1e-9)


def test_a_value_that_was_held_is_counted_and_reported() -> None:
    found = timeline(quantity("warmth", stepped(LEVELS_K)))
    controls, findings = map_scene(scene(rule(ends=("7 degC", "18 degC"))), found, process(found))
    held = [stage for stage in controls.time_map.stages if stage.stage in ("evaporation", "precipitation")]
    assert only(controls).held == 4 * sum(stage.bars for stage in held)
    assert any("Evaporation and Precipitation" in finding.message for finding in findings if finding.kind == "rule")


def test_for_a_part_only_its_own_stages_count() -> None:
    found = timeline(quantity("rain rate", stepped([9e-7, 0, 0, 3e-7, 9e-7]), unit="mm/h", si_unit="m/s"))
    written = rule("rain rate", "density", ("0 mm/h", "1.5 mm/h"), (0.25, 2.0), part="The rain")
    controls, findings = map_scene(scene(written), found, process(found))
    whole, _ = map_scene(
        scene(rule("rain rate", "density", ("0 mm/h", "1.5 mm/h"), (0.25, 2.0), part="The sea")), found, process(found)
    )
    assert only(controls).held < only(whole).held
    assert [row[0] for row in controls.keys[0].stages] == ["Precipitation"]
    assert all(finding.part == "The rain" for finding in findings if finding.kind == "audibility")
    np.testing.assert_array_equal(only(controls).results, only(whole).results)


def test_a_part_in_a_stage_that_is_none_is_named() -> None:
    found = timeline(quantity("warmth", stepped(LEVELS_K)))
    piece = scene(rule(control="pitch", to=(60.0, 72.0), part="Mist"), parts={"Mist": ("condensaton",)})
    with pytest.raises(UnknownName, match=r'part\.0\.stages "condensaton"; did you mean "condensation"'):
        map_scene(piece, found, process(found))


def test_a_part_whose_only_stage_never_came_has_nothing_to_be_heard() -> None:
    found = timeline(quantity("warmth", stepped([283.15, 293.15])), stages=("sun warms", "evaporation"))
    piece = scene(rule(control="density", to=(0.5, 2.0), part="The rain"))
    controls, findings = map_scene(piece, found, process(found))
    assert not controls.keys[0].audible
    assert "does not play" in controls.keys[0].verdict
    assert [finding.serious for finding in findings if finding.part == "The rain"] == [False]


@given(st.floats(21.0, 108.0), st.sampled_from([PENTATONIC, DORIAN]))
def test_a_pitch_is_heard_as_the_nearest_note_of_the_scale(pitch: float, scale: Scale) -> None:
    (tone,) = nearest_tones(np.array([pitch]), scale)
    assert tone % 12 in scale.pitch_classes
    others = [midi for midi in range(0, 128) if midi % 12 in scale.pitch_classes]
    assert abs(tone - pitch) == min(abs(midi - pitch) for midi in others)


def test_values_are_said_as_they_are_played() -> None:
    music = Music(scale=PENTATONIC)
    assert as_said("tempo", 88.5, music) == 89.0
    assert as_said("pitch", 65.2, music) == 64.0  # E, for there is no F
    assert as_said("dynamics", 75.0, music) == 70.0  # mf
    assert as_said("density", 1.3, music) == 1.3
