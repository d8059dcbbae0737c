"""The estimator against sounds of known tempo, pitch, number, level and brightness, made by other means."""

from __future__ import annotations

import ast
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import sonify.hearing
from sonify.hearing.judging import a_weighting
from sonify.hearing.recovering import beat_bpm, rank, stroke_note
from sonify.hearing.spectra import BANDS_HZ, Ears, frames
from sonify.hearing.strokes import centroids, counts, lengths_s, levels_db, like_with_like, profile, profiles, shown
from sonify.hearing.told import Strokes
from tests.hearing.signals import RATE_HZ, click, hz, laid, ring

ALL = np.ones(BANDS_HZ.size)


def test_it_shares_no_code_with_the_rooms_it_judges() -> None:
    folder = Path(sonify.hearing.__file__).parent
    for path in folder.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            names += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            for name in names:
                room = name.split(".")[1] if name.startswith("sonify.") else ""
                assert room in ("", "hearing", "records", "units", "kinds", "frozen"), f"{path.name} imports {name}"


def strokes(onsets_s: list[float], *, going_on: bool = False) -> Strokes:
    at = np.array(onsets_s)
    return Strokes(name="x", onsets_s=at, ruled_s=at, going_on=going_on, octaves=0)


@pytest.mark.parametrize("bpm", [66.0, 83.0, 97.5, 120.0, 131.0])
@pytest.mark.parametrize("expected", [0.8, 1.0, 1.25])
def test_the_beat_of_clicks_is_found_within_half_a_beat_a_minute(bpm: float, expected: float) -> None:
    """Quavers with stronger clicks on the beat and some left out, over noise; looked for from a wrong tempo, too."""
    rng = np.random.default_rng(3)
    beat = 60 / bpm
    sounds = [
        (k * beat / 2, click(-12.0 if k % 2 == 0 else -22.0, seed=k))
        for k in range(64)
        if k % 2 == 0 or rng.random() < 0.6
    ]
    sound = laid(34 * beat, sounds) + 0.002 * rng.standard_normal(round(34 * beat * RATE_HZ)).astype(np.float32)
    assert beat_bpm(frames(sound, RATE_HZ), 0.0, 32 * beat, bpm * expected) == pytest.approx(bpm, abs=0.5)


def test_silence_has_no_beat() -> None:
    assert np.isnan(beat_bpm(frames(np.zeros(RATE_HZ * 10, dtype=np.float32), RATE_HZ), 0.0, 10.0, 100.0))


@pytest.mark.parametrize("midi", [55, 60, 67, 74, 81, 88])
def test_the_note_of_a_stroke_is_found_to_a_tenth_of_a_semitone(midi: int) -> None:
    """Over the ring of the note before, and with a line that is no harmonic."""
    sound = laid(2.0, [(0.4, ring(hz(midi + 5), t60_s=3.0, seconds=1.5)), (1.0, ring(hz(midi)))])
    assert stroke_note(sound, RATE_HZ, 1.0, 0.4, 55, 90) == pytest.approx(midi, abs=0.1)


@pytest.mark.parametrize(("place", "midi"), [(0.3, 64), (1.2, 69)])
def test_two_ears_tell_which_of_two_notes_at_once_is_whose(place: float, midi: int) -> None:
    """One sits to the left, one to the right, on like instruments; with one ear the lower note is taken for both."""
    apart = {0.3: ring(hz(64)), 1.2: ring(hz(69))}
    left, right = (
        laid(2.0, [(1.0, np.float32(gain(at)) * sound) for at, sound in apart.items()]) for gain in (np.cos, np.sin)
    )
    both = 0.5 * (left + right)
    assert stroke_note(both, RATE_HZ, 1.0, 0.4, 60, 76) == pytest.approx(64, abs=0.1)
    found = stroke_note(both, RATE_HZ, 1.0, 0.4, 60, 76, ears=Ears(left, right, place))
    assert found == pytest.approx(midi, abs=0.1)


def test_no_note_is_found_in_silence() -> None:
    assert np.isnan(stroke_note(np.zeros(RATE_HZ, dtype=np.float32), RATE_HZ, 0.5, 0.3, 60, 72))


def test_strokes_are_counted_bar_by_bar() -> None:
    wanted = [1, 4, 8, 12, 0, 3]
    sounds = [
        (2.0 * bar + 2.0 * k / count, click(-12.0 - k % 3, seed=k))
        for bar, count in enumerate(wanted)
        for k in range(count)
    ]
    found = counts(frames(laid(13.0, sounds), RATE_HZ), ALL, np.arange(0.0, 12.1, 2.0))
    assert np.abs(found - wanted).max() <= 1.0 and found[4] == 0


def test_levels_are_those_that_were_played() -> None:
    played = [-30.0, -24.0, -18.0, -12.0, -6.0]
    sound = laid(6.0, [(1.0 + k, ring(500.0, level_db=level)) for k, level in enumerate(played)])
    found = levels_db(frames(sound, RATE_HZ), ALL, strokes([1.0, 2.0, 3.0, 4.0, 5.0]), alone=True)
    np.testing.assert_allclose(np.diff(found), 6.0, atol=0.3)


def test_a_part_is_followed_in_a_mix_where_it_shows() -> None:
    """High strokes that grow, under low ones that sink: the mix's own level tells neither."""
    at = [1.0 + 0.5 * k for k in range(8)]
    high = laid(6.0, [(t, ring(3000.0, level_db=-30.0 + 2.0 * k)) for k, t in enumerate(at)])
    low = laid(6.0, [(t, ring(200.0, level_db=-6.0 - 2.0 * k)) for k, t in enumerate(at)])
    own, mix = frames(high, RATE_HZ), frames(high + low, RATE_HZ)
    one = strokes(at)
    found = levels_db(mix, profile(own, mix, one.onsets_s), one, alone=False)
    assert rank(np.arange(8.0), found, 0.0) > 0.95
    assert rank(np.arange(8.0), levels_db(mix, ALL, one, alone=False), 0.0) < 0.0


def test_levels_compare_from_note_to_note_though_other_bands_are_covered() -> None:
    """Three notes of 500 Hz that nothing covers, then three of 1.5 kHz, 6 dB louder, whose lowest line is covered."""
    free, covered = [1.0, 2.0, 3.0], [4.0, 5.0, 6.0]
    own = laid(
        7.5,
        [
            *((t, ring(500.0, level_db=-21.0)) for t in free),
            *((t, ring(1500.0, level_db=-15.0)) for t in covered),
        ],
    )
    beside = laid(7.5, [(t, ring(1560.0 / 2.76, level_db=3.0 - k)) for k, t in enumerate(covered)])
    beside += laid(7.5, [(t, ring(1500.0 * 2.76, level_db=-12.0)) for t in free])
    alone, mix = frames(own, RATE_HZ), frames(own + beside, RATE_HZ)
    one = replace(strokes([*free, *covered]), notes=np.array([71, 71, 71, 90, 90, 90]))

    def gained(weights: np.ndarray) -> float:
        found = levels_db(mix, weights, one, alone=False)
        return float(found[3:].mean() - found[:3].mean())

    assert gained(profiles(alone, mix, one)) == pytest.approx(6.0, abs=3.0)
    assert abs(gained(profile(alone, mix, one.onsets_s)) - 6.0) > 10.0, (
        "one profile for both notes tells something else"
    )


def test_brighter_strokes_have_a_higher_middle() -> None:
    sound = laid(4.0, [(at, ring(f)) for at, f in ((1.0, 250.0), (2.0, 1000.0), (3.0, 3000.0))])
    found = centroids(frames(sound, RATE_HZ), ALL, np.array([1.0, 2.0, 3.0]))
    assert np.all(np.diff(found) > 0.5)


def test_a_stroke_under_loud_noise_of_its_own_band_is_masked_and_under_another_band_is_not() -> None:
    t = np.arange(3 * RATE_HZ) / RATE_HZ
    swell = np.clip((t - 1.0) / 0.03, 0.0, 1.0) * np.exp(-3.0 * np.maximum(t - 1.0, 0.0))
    soft = (0.01 * swell * np.sin(2 * np.pi * 1000.0 * t)).astype(np.float32)
    near, far = (np.float32(0.3) * np.sin(2 * np.pi * f * t).astype(np.float32) for f in (1030.0, 120.0))
    own = frames(soft, RATE_HZ)
    assert shown(own, frames(soft + near, RATE_HZ), strokes([1.0]), 4.0)[0] == 0.0
    assert shown(own, frames(soft + far, RATE_HZ), strokes([1.0]), 4.0)[0] == 1.0


def test_a_wave_that_is_covered_where_it_begins_is_heard_where_it_is_highest() -> None:
    t = np.arange(6 * RATE_HZ) / RATE_HZ
    wave = (0.05 * np.sin(np.pi * np.clip((t - 1.0) / 4.0, 0.0, 1.0)) ** 2 * np.sin(2 * np.pi * 1000.0 * t)).astype(
        np.float32
    )
    over = laid(6.0, [(1.0, ring(1010.0, level_db=-12.0))])
    own, mix = frames(wave, RATE_HZ), frames(wave + over, RATE_HZ)
    assert shown(own, mix, strokes([1.0]), 4.0)[0] == 0.0
    assert shown(own, mix, strokes([1.0], going_on=True), 4.0)[0] == 1.0


def test_ranks_count_values_alike_as_one() -> None:
    science, heard = np.array([1.0, 1.001, 2.0, 3.0]), np.array([5.0, 4.0, 6.0, 7.0])
    assert rank(science, heard, 0.01) == pytest.approx(1.0)
    assert rank(science, heard, 0.0) == pytest.approx(0.8)
    assert rank(science, -heard, 0.01) == pytest.approx(-1.0)
    assert np.isnan(rank(np.array([1.0, 1.0]), np.array([1.0, 2.0]), 0.01))


def test_the_weighting_is_a() -> None:
    # IEC 61672-1, table of A-weights (from memory): 100 Hz -19.1, 1 kHz 0.0, 4 kHz +1.0, 10 kHz -2.5 dB
    weights = 10 * np.log10(a_weighting(np.array([100.0, 1000.0, 4000.0, 10_000.0])))
    np.testing.assert_allclose(weights, [-19.1, 0.0, 1.0, -2.5], atol=0.1)


def test_levels_of_several_instruments_are_compared_like_with_like() -> None:
    """A quiet triangle in one stage, and a loud drum besides in the next, which is 3 dB softer in both."""
    stages, kinds = np.repeat([0, 1], 4), np.array([0, 0, 0, 0, 0, 1, 0, 1])
    levels = np.where(stages == 0, -20.0, -23.0) + np.where(kinds == 1, 10.0, 0.0)
    found = like_with_like(levels, kinds, stages)
    assert levels[stages == 1].mean() > levels[stages == 0].mean()
    assert found[stages == 0].mean() - found[stages == 1].mean() == pytest.approx(3.0)
    np.testing.assert_allclose(like_with_like(levels, np.zeros(8), stages), levels)


def test_a_long_note_is_heard_between_the_strokes_that_cover_it() -> None:
    t = np.arange(5 * RATE_HZ) / RATE_HZ
    note = (0.01 * ((t > 1.0) & (t < 4.9)) * np.sin(2 * np.pi * 1000.0 * t)).astype(np.float32)
    seldom, always = (
        laid(5.0, [(1.0 + k * step, ring(1010.0, level_db=-12.0, t60_s=0.2)) for k in range(round(3.5 / step))])
        for step in (0.7, 0.05)
    )
    own, one = frames(note, RATE_HZ), strokes([1.0], going_on=True)
    assert shown(own, frames(note + seldom, RATE_HZ), one, 4.0)[0] == 1.0
    assert shown(own, frames(note + always, RATE_HZ), one, 4.0)[0] == 0.0


def test_a_held_note_is_listened_to_while_it_is_held() -> None:
    """A short shake with four seconds of others after it is heard by its own time."""
    note, others = ring(1000.0, level_db=-20.0), ring(1010.0, level_db=-8.0)
    mine, later = laid(6.0, [(1.0, note)]), laid(6.0, [(1.5 + 0.05 * k, others) for k in range(70)])
    own, mix = frames(mine, RATE_HZ), frames(mine + later, RATE_HZ)
    until_next = strokes([1.0], going_on=True)
    short = replace(until_next, lasts_s=np.array([0.3]))
    assert shown(own, mix, short, 4.0)[0] == 1.0
    assert shown(own, mix, until_next, 4.0)[0] == 0.0
    assert lengths_s(short)[0] == pytest.approx(0.3)
    assert lengths_s(until_next)[0] == pytest.approx(4.0)
