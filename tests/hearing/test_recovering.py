"""Whole rules recovered: from sines laid by hand, and from the pack's MIDI as FluidSynth plays it."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from sonify import lesson
from sonify.hearing import Recording, heard_findings, recovered, told_of
from sonify.hearing.judging import over_fan_db
from sonify.hearing.spectra import frames
from sonify.hearing.told import Strokes, Told, goes_on
from sonify.notation.midi import midi_bytes
from sonify.records.heard import PrintedKey
from sonify.records.score import Part
from sonify.say import say
from tests.catalogue import catalogue
from tests.hearing.signals import RATE_HZ, click, fluidsynth, hz, laid, ring
from tests.sample import sample_score


def key(
    control: str, to: tuple[float, float], truth: np.ndarray, *, curve: str = "linear", part: str = "A"
) -> PrintedKey:
    ends = {"low": 1.0, "high": 9.0, "to_low": to[0], "to_high": to[1]}
    return PrintedKey(quantity="depth", unit="m", control=control, part=part, curve=curve, truth=truth, **ends)


def told(onsets_s: np.ndarray, *keys: PrintedKey) -> Told:
    one = Strokes(name="A", onsets_s=onsets_s, ruled_s=onsets_s, going_on=False, octaves=1)
    stages = tuple((name, 4 * n, 4 * n + 4, 120.0) for n, name in enumerate(("low", "middle", "high")))
    return Told(bars_s=np.arange(13) * 2.0, beats_a_bar=4, stages=stages, strokes=(one,), keys=keys)


def test_a_key_is_read_backwards() -> None:
    line = key("pitch", (60.0, 76.0), np.ones(12))
    np.testing.assert_allclose(line.value(np.array([60.0, 68.0, 76.0])), [1.0, 5.0, 9.0])
    ratios = key("pitch", (76.0, 60.0), np.ones(12), curve="logarithmic")
    np.testing.assert_allclose(ratios.value(np.array([76.0, 68.0, 60.0])), [1.0, 3.0, 9.0])


def test_a_depth_played_as_pitch_comes_back_in_metres_in_spite_of_another_part() -> None:
    onsets = np.arange(24) * 1.0 + 0.001
    truth = np.linspace(1.0, 9.0, 12)
    notes = 60.0 + 2.0 * (truth - 1.0)
    own = laid(25.0, [(t, ring(hz(notes[n // 2] + 12.0))) for n, t in enumerate(onsets)])
    rest = laid(25.0, [(t + 0.5, click(-6.0)) for t in onsets])
    rows = recovered(told(onsets, key("pitch", (60.0, 76.0), truth)), Recording(own + rest, {"A": own}, RATE_HZ))
    assert [row.source for row in rows] == ["stem", "mix"]
    for row in rows:
        assert row.rank_stages == pytest.approx(1.0) and row.rank_bars > 0.99
        assert row.error < 0.1
        assert [title for title, _, _ in row.stages] == ["low", "middle", "high"]


def test_a_density_comes_back_as_a_quantity_and_a_turned_one_is_a_problem() -> None:
    count = np.array([1, 1, 1, 1, 3, 3, 3, 3, 6, 6, 6, 6])
    onsets = np.array([2.0 * bar + 2.0 * k / n + 0.01 for bar, n in enumerate(count) for k in range(n)])
    own = laid(25.0, [(t, click(seed=n)) for n, t in enumerate(onsets)])
    truth = 1.0 + 8.0 * (count / 4.0 - 0.25) / 1.25
    right = told(onsets, key("density", (0.25, 1.5), truth))
    rows = recovered(right, Recording(own, {"A": own}, RATE_HZ))
    assert all(row.rank_stages == pytest.approx(1.0) and row.error < 0.4 for row in rows)
    assert not heard_findings(right, rows, Recording(own, {"A": own}, RATE_HZ))
    wrong = told(onsets, key("density", (0.25, 1.5), truth[::-1]))
    rows = recovered(wrong, Recording(own, {"A": own}, RATE_HZ))
    (finding,) = heard_findings(wrong, rows, Recording(own, {"A": own}, RATE_HZ))
    assert finding.serious and finding.kind == "audibility" and "depth" in say(finding.message)


def test_a_part_under_another_and_a_stage_under_the_fan_are_problems() -> None:
    onsets = np.arange(24) * 1.0 + 0.001
    truth = np.repeat([1.0, 5.0, 9.0], 4)
    own = laid(25.0, [(t, ring(1000.0, level_db=-60.0 + 2.0 * (n // 8))) for n, t in enumerate(onsets)])
    loud = laid(25.0, [(8.0 + 0.25 * n, ring(1020.0, level_db=-6.0)) for n in range(64)])
    score = told(onsets, key("dynamics", (44.0, 89.0), truth))
    findings = heard_findings(score, (), Recording(own + loud, {"A": own}, RATE_HZ))
    masked = {f.where for f in findings if f.part == "A"}
    assert masked == {"middle", "high"}
    assert {f.where for f in findings if not f.part} == {"low"}  # 50 dB under the rest
    over = over_fan_db(score, frames(own + loud, RATE_HZ))
    assert over[0] < 0.0 < 20.0 < over[1]


def test_the_printed_key_and_the_bars_are_the_scores(tmp_path: Path) -> None:
    studied = lesson.study("harbour-water-cycle")
    facts = told_of(studied)
    assert facts.bars_s.size == studied.score.bars + 1
    tempo = next(k for k in facts.keys if k.control == "tempo")
    rule = next(rule for rule in studied.scene.rules if rule.control == "tempo")
    assert (tempo.unit, tempo.low, tempo.high, tempo.part) == (rule.low.unit, rule.low.value, rule.high.value, "")
    temperature = lesson.study("two-cups")
    cup = next(k for k in told_of(temperature).keys if k.control == "pitch")
    rule = next(rule for rule in temperature.scene.rules if rule.quantity == cup.quantity)
    assert cup.unit == "degC" and (cup.low, cup.high) == pytest.approx((rule.low.value, rule.high.value))
    assert not any("Count" in one.name for one in facts.strokes)


def test_another_synthesiser_playing_our_midi_tells_the_same_science(tmp_path: Path) -> None:
    """Tempo from the whole, pitch from the melody alone: FluidSynth's sounds, and not one of ours."""
    studied = lesson.study("two-cups")
    facts = told_of(studied)
    sound = fluidsynth(midi_bytes(studied.score), tmp_path)
    if sound is None:
        pytest.skip("FluidSynth and TimGM6mb.sf2 are not here: apt-get install fluidsynth timgm6mb-soundfont")
    names = {k.part for k in facts.keys if k.control == "pitch"}
    stems = {}
    for name in names:
        parts = tuple(part for part in studied.score.parts if part.name == name or part is studied.score.parts[0])
        alone = fluidsynth(midi_bytes(replace(studied.score, parts=parts)), tmp_path)
        assert alone is not None
        stems[name] = alone
    rows = recovered(facts, Recording(sound, stems, RATE_HZ))
    (tempo,) = [row for row in rows if row.key.control == "tempo"]
    assert tempo.rank_stages == pytest.approx(1.0) or math.isnan(tempo.rank_stages)
    pitches = [row.rank_bars for row in rows if row.key.control == "pitch" and row.source == "stem"]
    assert pitches and min(pitches) > 0.8, pitches


def test_stages_nearer_than_is_asked_for_count_as_one() -> None:
    """Notes half a semitone apart by the key, heard the wrong way round by a hair: no order to be wrong about."""
    onsets = np.arange(24) * 1.0 + 0.001
    truth = np.repeat([1.0, 1.2, 9.0], 4)
    notes = np.repeat([61.0, 60.9, 76.0], 8)
    own = laid(25.0, [(t, ring(hz(note + 12.0))) for t, note in zip(onsets, notes, strict=True)])
    for asked, ranked in ((1.0, 1.0), (0.1, 0.5)):
        one = replace(key("pitch", (60.0, 76.0), truth), asked=asked)
        rows = recovered(told(onsets, one), Recording(own, {"A": own}, RATE_HZ))
        assert all(row.rank_stages == pytest.approx(ranked) for row in rows)


def test_a_tune_with_its_lower_octave_is_read_at_its_own_height() -> None:
    onsets = np.arange(24) * 1.0 + 0.001
    truth = np.linspace(1.0, 9.0, 12)
    notes = np.repeat(60.0 + 2.0 * (truth - 1.0), 2)
    own = laid(25.0, [(t, ring(hz(n + 12.0)) + ring(hz(n))) for t, n in zip(onsets, notes, strict=True)])
    facts = told(onsets, key("pitch", (60.0, 76.0), truth))
    low = replace(facts, strokes=(replace(facts.strokes[0], lowest=np.full(24, -12)),))
    errors = [recovered(one, Recording(own, {"A": own}, RATE_HZ))[0].error for one in (facts, low)]
    assert errors[1] < 0.1 < errors[0]


@pytest.mark.parametrize(
    ("instrument", "texture", "expected"),
    [("tambourine", "ostinato", False), ("tambourine", "tremolo", True), ("recorder", "melody", True)],
)
def test_what_is_tapped_is_over_at_once_and_what_is_shaken_on_or_blown_goes_on(
    instrument: str, texture: str, expected: bool
) -> None:
    """A tap was sought all through its beat, and told as covered by others for lack of anything to hear there."""
    part = Part(name="x", group=1, instrument=instrument, texture=texture, notes=())
    score = replace(sample_score(), instruments=catalogue().instruments, parts=(part,))
    assert goes_on(score, part) is expected
