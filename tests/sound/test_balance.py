from __future__ import annotations

from dataclasses import replace

import numpy as np
import pyloudnorm

from sonify.records.score import COUNT_IN, Score
from sonify.sound.balance import balanced_events
from sonify.sound.events import events_of
from tests.sample import sample_score
from tests.sound.recording import read, record, without_beds


def all_mezzo_forte() -> Score:
    score = without_beds(sample_score())
    parts = tuple(replace(p, notes=tuple(replace(n, velocity=70) for n in p.notes)) for p in score.parts)
    return replace(score, parts=parts)


def test_groups_that_play_equally_strongly_are_equally_loud() -> None:
    """A drone, single bars, a scatter and a roll, measured in the stems by another meter."""
    meter = pyloudnorm.Meter(44_100, filter_class="DeMan")
    stems = record(all_mezzo_forte()).stems
    loudness = [meter.integrated_loudness(read(wav).T) for name, wav in stems.items() if name != COUNT_IN]
    assert max(loudness) - min(loudness) < 4.5, loudness


def test_within_a_part_dynamics_stay_as_written() -> None:
    score = sample_score()
    for part, balanced in zip(score.parts, balanced_events(score), strict=True):
        written = np.array([event.gain for event in events_of(score, part)])
        ratio = np.array([event.gain for event in balanced]) / written
        np.testing.assert_allclose(ratio, ratio[0])


def test_parts_without_notes_do_no_harm() -> None:
    score = sample_score()
    empty = replace(score, parts=tuple(replace(part, notes=()) for part in score.parts))
    assert balanced_events(empty) == [[] for _ in score.parts]
