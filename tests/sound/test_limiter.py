from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import numpy as np
import pyloudnorm
import pytest
from scipy.signal import resample_poly

from sonify.records.score import Note, Part
from sonify.sound.limiter import curve_for, gentle_curve
from sonify.sound.rate import HOP, STEP
from tests.sample import sample_score
from tests.sound.recording import Recording, read, record


def loud_entry(*, gentle: bool) -> Recording:
    """Soft taps for four bars, then the whole class at once, as loud as can be."""
    score = sample_score()
    soft = Part(
        name="Soft",
        group=1,
        instrument="hand-drum",
        texture="ostinato",
        notes=tuple(Note(beat=F(b), beats=F(1), midi=64, velocity=40) for b in range(48)),
    )
    loud = Part(
        name="Loud",
        group=2,
        instrument="cowbell",
        texture="ostinato",
        notes=tuple(Note(beat=F(16) + F(b, 2), beats=F(1, 2), midi=56, velocity=127) for b in range(64)),
    )
    whole = replace(score, parts=(score.parts[0], soft, loud), beds=(), gentle=gentle, loudness_range="wide")
    return record(whole, stems=False)


def test_the_curve_is_under_what_every_peak_allows_and_back_soon() -> None:
    peaks = np.full(400, 0.2, dtype=np.float32)
    peaks[200] = 2.0
    curve = curve_for(peaks, 0.5)
    assert curve[200] <= 0.25 + 1e-6 and curve[201] <= 0.25 + 1e-6
    assert np.all(np.maximum(curve[:-1], curve[1:]) * peaks <= 0.5 + 1e-6)
    assert curve[150] == curve[250] == pytest.approx(1.0, abs=1e-6)
    assert np.abs(np.diff(curve)).max() < 0.1  # 1.4 ms apart: no click


def test_the_curve_holds_at_the_very_ends_too() -> None:
    peaks = np.random.default_rng(0).exponential(0.5, 3000).astype(np.float32)
    peaks[0] = peaks[-1] = 5.0
    curve = curve_for(peaks, 0.5)
    assert np.all(np.maximum(curve[:-1], curve[1:]) * peaks <= 0.5 + 1e-6)


def test_where_both_cannot_hold_the_limiter_keeps_the_peak_and_the_loudness() -> None:
    score = sample_score()
    claps = Part(
        name="Claps",
        group=1,
        instrument="claps",
        texture="ostinato",
        notes=tuple(Note(beat=F(b, 2), beats=F(1, 2), midi=39, velocity=100) for b in range(96)),
    )
    taken = record(replace(score, parts=(score.parts[0], claps), beds=()), stems=False)
    assert taken.rendering.reduction_db > 3.0 and taken.rendering.on_target
    samples = read(taken.wav)
    oracle = pyloudnorm.Meter(44_100, filter_class="DeMan").integrated_loudness(samples.T)
    assert oracle == pytest.approx(-18.0, abs=0.1)
    peak = max(np.abs(resample_poly(channel, 8, 1)).max() for channel in samples)
    assert 20 * np.log10(peak) <= -1.0 + 0.02


def test_the_price_of_making_one_snap_a_bar_as_loud_as_music_is_told() -> None:
    score = sample_score()
    snap = Part(
        name="Snap",
        group=1,
        instrument="finger-snaps",
        texture="ostinato",
        notes=tuple(Note(beat=F(4 * b), beats=F(1), midi=37, velocity=100) for b in range(12)),
    )
    taken = record(replace(score, parts=(score.parts[0], snap), beds=()), stems=False)
    assert taken.rendering.on_target and taken.rendering.reduction_db > 10.0
    peak = max(np.abs(resample_poly(channel, 8, 1)).max() for channel in read(taken.wav))
    assert 20 * np.log10(peak) <= -1.0 + 0.02


def level_db(recording: Recording) -> np.ndarray:
    power = (recording.mix**2).sum(axis=0)
    hops = power[: power.size // HOP * HOP].reshape(-1, HOP).mean(axis=1)
    return 10 * np.log10(hops + 1e-9)


def test_no_sudden_loud_sounds_holds_back_the_first_second_of_a_loud_entry() -> None:
    """Of the mix as it is written: levelled, the piece would grow into the room that the entry leaves."""
    plain, gentle = loud_entry(gentle=False), loud_entry(gentle=True)
    start = round(float(plain.score.clock.seconds(F(16))) * 10)
    jump = [level_db(r)[start : start + 3].max() - level_db(r)[start - 20 : start].max() for r in (plain, gentle)]
    assert jump[0] > jump[1] + 3.0, jump
    late = slice(start + 40, start + 60)
    assert level_db(gentle)[late].max() == pytest.approx(level_db(plain)[late].max(), abs=1.5)


def test_the_gentle_curve_rises_no_faster_than_it_says() -> None:
    steps_a_hop = HOP // STEP
    quiet, loud = 1e-4, 1.0
    hops = np.r_[np.full(50, quiet), np.full(80, loud)]
    energies = np.repeat(hops * STEP, steps_a_hop).astype(np.float32)
    curve = gentle_curve(energies, 1.0, 0.0)
    heard = 10 * np.log10(np.repeat(hops, steps_a_hop) * curve[1:] ** 2)
    second = heard[steps_a_hop * 10 :] - heard[: -steps_a_hop * 10]
    entry = heard[50 * steps_a_hop + 35]
    assert entry < -7.0  # held to QUIET_LU under the target at first
    assert second[51 * steps_a_hop :].max() < 12.5  # then RISE_DB_A_S
    assert heard[-1] == pytest.approx(0.0, abs=0.01)


def test_a_limiter_that_works_on_drums_leaves_no_direct_current() -> None:
    """Strokes pull back within 6 ms what they push, so that turning their beginning down leaves nothing over."""
    score = sample_score()
    drums = tuple(
        Part(
            name=name,
            group=group,
            instrument=name,
            texture="ostinato",
            notes=tuple(Note(beat=F(2 * b), beats=F(1), midi=60, velocity=110) for b in range(24)),
        )
        for group, name in enumerate(("bass-drum", "hand-drum", "stamps"), start=1)
    )
    taken = record(replace(score, parts=(score.parts[0], *drums), beds=()), stems=False)
    assert taken.rendering.reduction_db > 3.0
    assert np.abs(taken.mix.mean(axis=1)).max() < 1e-4
