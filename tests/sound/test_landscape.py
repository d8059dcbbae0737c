from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import numpy as np
import pytest
from scipy.integrate import quad

from sonify.errors import UnknownName
from sonify.records.scene import BACKGROUNDS
from sonify.records.score import Bed
from sonify.sound.beds import JOIN, Beds, layers_of, walk
from sonify.sound.landscape import (
    DROPS_MM,
    KINDS,
    LISTENED_M2,
    bubble,
    drops_per_s,
    fall_speed_m_per_s,
    rain_rate_mm_per_h,
    rainfall,
    scattered,
)
from sonify.sound.rate import BLOCK
from sonify.sound.weighting import weighted_energy
from tests.sample import sample_score
from tests.sound.recording import record

SIZE = 1 << 18


def bed(kind: str, *levels: tuple[int, float], seed: int = 1) -> Bed:
    return Bed(kind=kind, levels=tuple((F(beat), level) for beat, level in levels), seed=seed)


def rng(seed: int = 1) -> np.random.Generator:
    return np.random.default_rng(seed)


def test_every_background_a_scene_may_ask_for_is_there() -> None:
    assert set(BACKGROUNDS) <= set(KINDS)


def test_an_unknown_background_is_named() -> None:
    with pytest.raises(UnknownName, match='unknown background "see"; did you mean "sea"'):
        layers_of(bed("see", (0, 0.3)), SIZE)


@pytest.mark.parametrize("kind", KINDS)
def test_loops_join_without_a_seam(kind: str) -> None:
    """The step from the last sample to the first is no larger than those within."""
    for layer in layers_of(bed(kind, (0, 0.3)), SIZE):
        within = np.abs(np.diff(layer.loop, axis=1))
        seam = np.abs(layer.loop[:, 0] - layer.loop[:, -1])
        assert np.all(seam <= np.quantile(within, 0.9999))


@pytest.mark.parametrize("kind", KINDS)
def test_no_background_has_direct_current(kind: str) -> None:
    """Under 1e-4 of full scale in a loop as loud as a mix (-18 LUFS; loops have a K-weighted mean square of 1)."""
    for layer in layers_of(bed(kind, (0, 0.55)), SIZE):
        assert np.abs(layer.loop.mean(axis=1, dtype=np.float64)).max() * 10 ** (-18 / 20) < 1e-4


@pytest.mark.parametrize("kind", KINDS)
def test_a_background_comes_and_goes_without_a_step(kind: str) -> None:
    """From nothing to its level within a beat and back: no step between samples is larger than where it just sounds."""
    score = replace(sample_score(), beds=(bed(kind, (0, 0.0), (1, 0.5), (20, 0.5), (21, 0.0)),))
    beds, blocks = Beds(score), []
    for block in range(28):
        out = np.zeros((2, BLOCK), dtype=np.float32)
        beds.add(block, out)
        blocks.append(out)
    steps = np.abs(np.diff(np.concatenate(blocks, axis=1), axis=1))
    first, last = (round(float(score.clock.seconds(F(beat))) * 44_100) for beat in (1, 20))
    assert steps[:, :first].max() <= steps[:, first:last].max()
    assert steps[:, last:].max() <= steps[:, first:last].max()
    assert not steps[:, : round(float(score.clock.seconds(F(0))) * 44_100) - 700].any()


def test_a_grain_that_rings_past_the_end_goes_on_at_the_start() -> None:
    class AtTheEnd:
        """Draws the last place of the loop, the first grain and the middle."""

        def integers(self, low: int, high: int, count: int) -> np.ndarray:
            return np.full(count, high - 1 if high > 1 else 0)

        def random(self, count: int) -> np.ndarray:
            return np.full(count, 0.5)

    grain = np.linspace(1.0, 0.1, 10, dtype=np.float32)[None]
    loop = scattered(grain, np.array([1.0]), 64, AtTheEnd())  # type: ignore[arg-type]
    np.testing.assert_allclose(np.roll(loop[0], 1)[:10] / loop[0, -1], grain[0], rtol=1e-5)
    assert not loop[:, 9:63].any()


@pytest.mark.parametrize("kind", KINDS)
def test_a_bed_is_about_as_loud_as_its_level_says_and_silent_at_none(kind: str) -> None:
    score = replace(sample_score(), beds=(bed(kind, (-8, 0.35), (48, 0.35)),))
    beds, total = Beds(score), 0.0
    for block in range(24):
        out = np.zeros((2, BLOCK), dtype=np.float32)
        assert beds.add(block, out)
        total += sum(weighted_energy(row) for row in out)
    level_db = 10 * np.log10(total / (24 * BLOCK)) - 40 * np.log10(0.35)
    assert -13.0 < level_db < 3.0, level_db
    silent = Beds(replace(score, beds=(bed(kind, (-8, 0.0), (48, 0.0)),)))
    out = np.zeros((2, BLOCK), dtype=np.float32)
    assert not silent.add(3, out) and not out.any()


@pytest.mark.parametrize("kind", KINDS)
def test_beds_come_again_with_their_seed_and_only_then(kind: str) -> None:
    def loop(seed: int) -> np.ndarray:
        return layers_of(bed(kind, (0, 0.3), seed=seed), 1 << 15)[0].loop

    np.testing.assert_array_equal(loop(3), loop(3))
    assert not np.array_equal(loop(3), loop(4))


def test_drops_are_marshall_and_palmers_falling_at_their_speed() -> None:
    """The classes' sum against the integral of N0 exp(-4.1 R^-0.21 D) v(D) (formula as reference.md 0.7 has it)."""
    for rate in (1.0, 8.0, 32.0):
        edges = (0.6, 5.8)

        def flux(d: float, rate: float = rate) -> float:
            return float(8000 * np.exp(-4.1 * rate**-0.21 * d) * fall_speed_m_per_s(np.array(d)))

        whole = quad(flux, *edges)[0] * LISTENED_M2
        assert drops_per_s(rate).sum() == pytest.approx(whole, rel=0.1)


def test_fall_speeds_are_gunn_and_kinzers() -> None:
    # Gunn & Kinzer 1949: 4.03 m/s at 1 mm, 6.49 at 2 mm, 8.06 at 3 mm, 8.83 at 4 mm (from memory, not verified)
    for diameter, printed in ((1.0, 4.03), (2.0, 6.49), (3.0, 8.06), (4.0, 8.83)):
        assert fall_speed_m_per_s(np.array(diameter)) == pytest.approx(printed, rel=0.03)


def test_heavier_rain_has_more_and_bigger_drops() -> None:
    light, heavy = drops_per_s(1.0), drops_per_s(30.0)
    assert heavy.sum() > 3 * light.sum()
    middle = [np.sum(np.array(DROPS_MM) * drops) / drops.sum() for drops in (light, heavy)]
    assert middle[1] > 1.2 * middle[0]
    assert rain_rate_mm_per_h(np.array(0.3465)) == pytest.approx(8.0)
    powers = [rain_rate_mm_per_h(np.array(v)) / v**4 for v in (0.2, 0.3, 0.4)]
    assert powers[0] == pytest.approx(powers[2])  # sound power, level to the fourth, goes with the rate


def test_more_drops_are_heard_in_heavier_rain() -> None:
    """Counted in the sound: peaks well over their surroundings, in the same length."""

    def heard(rate: float) -> int:
        loop = np.abs(rainfall(rate, SIZE, rng())[0])
        frames = loop[: SIZE // 128 * 128].reshape(-1, 128).max(axis=1)
        peaks = (frames[1:-1] > frames[:-2]) & (frames[1:-1] >= frames[2:]) & (frames[1:-1] > 0.02 * loop.max())
        return int(peaks.sum())

    counts = [heard(rate) for rate in (0.5, 2.0, 8.0)]
    assert counts[0] < counts[1] < counts[2]


def test_heavier_rain_sounds_lower_for_its_drops_are_bigger() -> None:
    """Spectral centroid of the near drops, mean of three draws."""

    def centroid_hz(rate: float) -> float:
        power = np.mean([np.abs(np.fft.rfft(rainfall(rate, SIZE, rng(seed))[0])) ** 2 for seed in range(3)], axis=0)
        return float(np.sum(np.fft.rfftfreq(SIZE, 1 / 44_100) * power) / power.sum())

    light, middle, heavy = (centroid_hz(rate) for rate in (0.5, 4.0, 32.0))
    assert light > 1.05 * middle > 1.05 * 1.05 * heavy, (light, middle, heavy)


def test_bubbles_ring_at_minnaerts_frequency() -> None:
    # Minnaert 1933: a bubble of 1 mm radius in water rings at about 3.26 kHz
    spectrum = np.mean([np.abs(np.fft.rfft(row, 1 << 15)) ** 2 for row in bubble(1.0, 200, rng())], axis=0)
    hz = np.fft.rfftfreq(1 << 15, 1 / 44_100)
    assert np.exp(np.sum(np.log(hz[1:]) * spectrum[1:]) / spectrum[1:].sum()) == pytest.approx(3260, rel=0.15)


def test_waves_come_at_a_seas_pace() -> None:
    score = replace(sample_score(), parts=(), beds=(bed("sea", (-8, 0.3), (48, 0.3)),))
    mix = record(score, stems=False).mix.sum(axis=0)
    power = (mix[: mix.size // 11_025 * 11_025].reshape(-1, 11_025) ** 2).mean(axis=1)[:160]
    power = power - power.mean()
    spectrum = np.abs(np.fft.rfft(power * np.hanning(power.size), 4096))
    period_s = 1 / np.fft.rfftfreq(4096, 0.25)[np.argmax(spectrum[20:]) + 20]
    assert 6.0 < period_s < 10.5


@pytest.mark.parametrize("kind", KINDS)
def test_no_background_repeats_itself(kind: str) -> None:
    """The waveform has nothing in common with itself from 1 to 60 s later: normalised autocorrelation under 0.2."""
    score = replace(sample_score(), beds=(bed(kind, (-8, 0.35), (48, 0.35)),))
    beds, blocks = Beds(score), []
    for block in range(64):
        out = np.zeros((2, BLOCK), dtype=np.float32)
        beds.add(block, out)
        blocks.append(out[0])
    spectrum = np.fft.rfft(np.concatenate(blocks), 1 << 22)
    alike = np.fft.irfft(np.abs(spectrum) ** 2)
    assert np.abs(alike[44_100 : 60 * 44_100]).max() < 0.2 * alike[0]


def test_neighbouring_stretches_of_a_loop_have_nothing_in_common() -> None:
    size = 1 << 17
    way = walk(size, 40 * size, rng())
    for begins, over, at, after in zip(way.starts, way.starts[1:], way.places, way.places[1:], strict=False):
        used = np.arange(at, at + over - begins + JOIN) % size
        assert not np.isin(np.arange(after, after + 1000) % size, used).any()
        assert over - begins >= 0.28 * size


def test_a_strong_wind_howls_higher() -> None:
    def centroid_hz(level: float) -> float:
        beds, total = Beds(replace(sample_score(), beds=(bed("wind", (-8, level), (48, level)),))), 0.0
        for block in range(12):
            out = np.zeros((2, BLOCK), dtype=np.float32)
            beds.add(block, out)
            total = total + np.abs(np.fft.rfft(out[0])) ** 2
        hz = np.fft.rfftfreq(BLOCK, 1 / 44_100)
        return float(np.sum(hz * total) / np.sum(total))

    assert centroid_hz(0.5) > 1.1 * centroid_hz(0.2)
