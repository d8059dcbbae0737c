"""No sudden loud sounds, a need of some classes, measured in the finished recording: how fast its level rises."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from functools import lru_cache

import numpy as np

from sonify.records.score import Note, Part
from sonify.sound.limiter import QUIET_LU, RISE_DB_A_S, gentle_curve
from sonify.sound.loudness import TARGET_LUFS
from sonify.sound.rate import HOP
from sonify.sound.survey import STEPS_A_HOP
from tests.sample import sample_score
from tests.sound.metering import squares_of
from tests.sound.recording import record

QUIET_LUFS = TARGET_LUFS + QUIET_LU
#: What 100 ms may pass the rule by: the curve is drawn straight between tenths of a second.
TOLERANCE_LU = 2.0


@lru_cache(maxsize=2)
def hops_lufs(gentle: bool) -> np.ndarray:
    """Loudness of every 100 ms of a piece where drums, claves and cymbals come out of silence again and again."""
    score = sample_score()
    beats = [F(16 * k) + F(step, 2) for k in range(3) for step in range(10)]
    parts = tuple(
        Part(
            name=name,
            group=group,
            instrument=name,
            texture="ostinato",
            notes=tuple(Note(beat=beat, beats=F(1, 2), midi=60, velocity=110) for beat in beats),
        )
        for group, name in enumerate(("hand-drum", "claves", "suspended-cymbal"), start=1)
    )
    mix = record(replace(score, parts=(score.parts[0], *parts), beds=(), gentle=gentle), stems=False).mix
    return -0.691 + 10 * np.log10(np.maximum(squares_of(mix), 1e-9))


def largest_excess(levels: np.ndarray) -> float:
    """By how much 100 ms are louder than the loudest of the three seconds before (or than quiet) may let them be."""
    return max(
        level - max(QUIET_LUFS, levels[max(0, k - 30) : k].max(initial=-99.0)) - RISE_DB_A_S / 10
        for k, level in enumerate(levels)
    )


def test_level_rises_no_faster_than_the_need_allows() -> None:
    assert largest_excess(hops_lufs(gentle=True)) < TOLERANCE_LU


def test_without_the_need_it_rises_faster() -> None:
    assert largest_excess(hops_lufs(gentle=False)) > 3 * TOLERANCE_LU


def test_the_piece_is_as_loud_as_any_in_the_end() -> None:
    assert hops_lufs(gentle=True).max() > hops_lufs(gentle=False).max() - 3.0


def test_a_steady_tap_once_a_second_is_let_through_though_each_is_a_little_softer() -> None:
    """What was heard a second ago is no surprise: a pulse that fades from -13 to -18 LUFS, near silence between."""
    hops = np.full(200, 1e-6)
    hops[::10] = 10.0 ** ((np.linspace(-13.0, -18.0, 20) + 0.691) / 10.0)
    energies = np.repeat(hops / STEPS_A_HOP, STEPS_A_HOP).astype(np.float32) * HOP
    curve = gentle_curve(energies, 1.0, TARGET_LUFS)
    taps = curve[np.arange(20) * 10 * STEPS_A_HOP + STEPS_A_HOP // 2]
    assert 20.0 * np.log10(taps[1]) < -6.0, "the first ones come out of silence"
    assert 20.0 * np.log10(taps[12:].min()) > -0.5
