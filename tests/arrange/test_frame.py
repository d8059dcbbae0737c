"""Count-in, sections and beds."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify.records.scene import BackgroundPlan
from sonify.records.score import COUNT_IN
from tests.arrange.lessons import WATER, Sketch, part, well_stocked


@pytest.mark.parametrize("beats", [2, 3, 4])
def test_the_count_in_is_two_bars_of_clicks_with_a_stronger_first_beat(beats: int) -> None:
    clicks = replace(WATER, beats=beats).score().parts[0]
    assert (clicks.name, clicks.group) == (COUNT_IN, 0)
    assert [note.beat for note in clicks.notes] == list(range(-2 * beats, 0))
    strong = [note.velocity > min(n.velocity for n in clicks.notes) for note in clicks.notes]
    assert strong == [True, *[False] * (beats - 1)] * 2


def test_the_clicks_do_not_drown_the_first_notes() -> None:
    """About 6 dB under forte and mezzo forte (our own choice)."""
    clicks = WATER.score().parts[0]
    assert {note.velocity for note in clicks.notes} == {70, 52}


def test_the_clicks_are_an_instrument_that_no_group_plays() -> None:
    assert WATER.score().parts[0].instrument == "claves"
    taken = Sketch(
        stages=(("one", 8, 80.0),),
        parts=(part("Rain", "scatter", "claves"),),
        classroom=well_stocked(groups=1, pupils=6),
    )
    assert taken.score().parts[0].instrument == "wood-block"


def test_stages_are_sections_with_letters() -> None:
    sections = WATER.score().sections
    assert [(s.letter, s.name, s.bar, s.bars) for s in sections][:3] == [
        ("A", "warming", 1, 10),
        ("B", "rising", 11, 14),
        ("C", "cloud", 25, 12),
    ]
    assert sections[0].caption == "What happens in warming."
    many = replace(WATER, stages=tuple((f"s{i}", 4, 80.0) for i in range(28)), curves=(), parts=WATER.parts[:1])
    assert [s.letter for s in many.score().sections][-3:] == ["Z", "AA", "AB"]


def test_a_bed_is_silent_at_the_least_and_loudest_at_the_most_of_its_quantity() -> None:
    score = replace(WATER, background=(BackgroundPlan(kind="sea", quantity="warmth", loudest=63.5),)).score()
    bed = score.beds[0]
    beats = np.array([float(beat) for beat, _ in bed.levels])
    levels = np.array([level for _, level in bed.levels])
    assert (levels.min(), levels.max()) == (0.0, 0.5)
    # Warmth is a half sine over the five stages, each an hour: its top is in the middle of the third stage, bar 31.
    assert np.interp((31 - 1) * 4.0, beats, levels) == pytest.approx(0.5, abs=1e-3)
    assert levels[0] == levels[-1] == 0.0 and beats[-1] == 256


def test_a_quantity_that_stays_the_same_is_a_steady_bed() -> None:
    sketch = replace(WATER, background=(BackgroundPlan(kind="wind", quantity="warmth"),))
    still = replace(sketch.timeline, quantities=(replace(sketch.timeline.quantities[0], values=np.full(301, 285.0)),))
    from sonify.arrange import arrange
    from tests.catalogue import catalogue

    score, _ = arrange(sketch.scene, still, sketch.controls, sketch.classroom, catalogue())
    assert {level for _, level in score.beds[0].levels} == {round(57.0 / 127.0, 4)}


def test_beds_have_seeds_of_their_own_that_follow_the_seed() -> None:
    two = (BackgroundPlan(kind="sea", quantity="warmth"), BackgroundPlan(kind="wind", quantity="warmth"))
    sketch = replace(WATER, background=two)
    first, again, other = (sketch.score(seed=seed).beds for seed in (1, 1, 2))
    assert first == again
    assert len({bed.seed for bed in (*first, *other)}) == 4
