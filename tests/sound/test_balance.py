from __future__ import annotations

from dataclasses import replace

import numpy as np
import pyloudnorm

from sonify.records.score import COUNT_IN, Score
from sonify.sound.balance import balance
from sonify.sound.ducking import is_noise
from sonify.sound.events import events_of
from sonify.sound.levelling import stage_edges_s
from sonify.sound.rate import RATE_HZ
from tests.sample import sample_score
from tests.sound.recording import read, record, without_beds


def all_mezzo_forte() -> Score:
    score = without_beds(sample_score())
    parts = tuple(replace(p, notes=tuple(replace(n, velocity=70) for n in p.notes)) for p in score.parts)
    return replace(score, parts=parts)


def test_groups_that_play_equally_strongly_are_equally_loud_but_for_noise_which_lies_under_them() -> None:
    """A drone of beads, single bars, a scatter and a roll, measured in the stems by another meter."""
    meter = pyloudnorm.Meter(44_100, filter_class="DeMan")
    score = all_mezzo_forte()
    stems = record(score).stems
    noise = {part.name for part in score.parts if is_noise(part)}
    loudness = {name: meter.integrated_loudness(read(wav).T) for name, wav in stems.items() if name != COUNT_IN}
    tones = [level for name, level in loudness.items() if name not in noise]
    assert max(tones) - min(tones) < 4.5, loudness
    assert noise, "the sample has a part of noise"
    for name in noise:
        assert np.median(tones) - 10.0 < loudness[name] < np.median(tones) - 1.0, loudness


def test_within_a_stage_dynamics_keep_their_order_and_are_narrowed_by_one_factor_or_by_none_under_a_rule() -> None:
    score = sample_score()
    balanced = balance(score)
    edges = stage_edges_s(score) * RATE_HZ
    for part, played in zip(score.parts, balanced.events, strict=True):
        plain = events_of(score, part)
        inside = [n for n, event in enumerate(plain) if edges[0] + RATE_HZ < event.start < edges[1] - RATE_HZ]
        written = np.log(np.array([plain[n].gain for n in inside]))
        heard = np.log(np.array([played[n].gain for n in inside]))
        left = 1.0 if "dynamics" in part.ruled else balanced.levels.narrowed
        moved = heard - left * written
        np.testing.assert_allclose(moved, moved[:1].repeat(len(inside)), atol=1e-9)


def test_parts_without_notes_do_no_harm() -> None:
    score = sample_score()
    empty = replace(score, parts=tuple(replace(part, notes=()) for part in score.parts))
    assert balance(empty).events == [[] for _ in score.parts]
