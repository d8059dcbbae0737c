"""The shipped scene for both example classes, through every room before this one."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest

from sonify import lesson
from sonify.arrange import playability
from sonify.records.lesson import Lesson
from sonify.records.score import Part
from sonify.records.score_invariants import faults
from sonify.say import say

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
CLASSES = ["well-stocked", "few-instruments"]


@lru_cache(maxsize=2)
def harbour(name: str) -> Lesson:
    return lesson.study("harbour-water-cycle", EXAMPLES / f"{name}.toml")


def bars_of(p: Part) -> set[int]:
    return {bar for entry in p.entries for bar in range(entry.bar, entry.bar + entry.bars)}


@pytest.mark.parametrize("name", CLASSES)
def test_it_is_sound_and_playable(name: str) -> None:
    made = harbour(name)
    assert faults(made.score) == []
    assert [f for f in playability(made.score, made.classroom) if f.serious] == []


@pytest.mark.parametrize("name", CLASSES)
def test_the_sea_has_the_first_and_the_last_word(name: str) -> None:
    score = harbour(name).score
    assert {1, score.bars} <= bars_of(score.group_parts[0])


@pytest.mark.parametrize("name", CLASSES)
def test_every_part_plays_in_its_stages_alone_and_what_a_stage_is_given_sounds_in_it(name: str) -> None:
    """The sea, which has all stages, makes way where three others speak: no more can be followed at once."""
    made = harbour(name)
    for plan in made.scene.parts:
        played = bars_of(next(p for p in made.score.group_parts if p.name == plan.name))
        for section in made.score.sections:
            here = played & set(range(section.bar, section.bar + section.bars))
            if plan.stages != ("all",):
                assert bool(here) == (section.name in plan.stages)


@pytest.mark.parametrize("name", CLASSES)
def test_the_rain_begins_with_its_stage(name: str) -> None:
    score = harbour(name).score
    rain = next(s for s in score.sections if s.name == "precipitation")
    played = bars_of(next(p for p in score.group_parts if p.name == "The rain"))
    assert played == set(range(rain.bar, rain.bar + rain.bars))


@pytest.mark.parametrize("name", CLASSES)
def test_the_taps_follow_the_rain(name: str) -> None:
    """Rank correlation of taps a bar with the computed rain rate: not what was drawn, but what it stands for."""
    made = harbour(name)
    rain = next(p for p in made.score.group_parts if p.name == "The rain")
    bars = sorted(bars_of(rain))
    taps = [sum(int(note.beat // 4) + 1 == bar for note in rain.notes) for bar in bars]
    middles = np.array([(bar - 0.5) * 4 for bar in bars])
    rate = made.timeline.at("rain rate", made.controls.time_map.model_time_s(middles))
    ranks = [np.argsort(np.argsort(values)) for values in (taps, rate)]
    assert np.asarray(np.corrcoef(ranks))[0, 1] > 0.5


@pytest.mark.parametrize("name", CLASSES)
def test_the_journey_rises_and_comes_down_again(name: str) -> None:
    journey = next(p for p in harbour(name).score.group_parts if p.name == "The journey")
    asked = [note for note in journey.notes if note.asked is not None]
    top = max(range(len(asked)), key=lambda i: asked[i].midi)
    assert asked[0].midi == asked[-1].midi == min(note.midi for note in asked) < asked[top].midi - 9


def test_the_shallows_beaters_agree_with_the_key() -> None:
    """The key calls the first stage dark and the second bright; the card hands out the beaters to match."""
    made = harbour("well-stocked")
    key = next(key for key in made.controls.keys if key.rule.control == "brightness")
    assert [say(heard).split(" (")[0] for _, _, heard in key.stages] == ["dark", "bright"]
    shallows = next(p for p in made.score.group_parts if p.name == "The warm shallows")
    line = next(words for words in [say(words) for words in shallows.instructions] if "beaters" in words)
    assert line.startswith("Play with soft beaters. From bar ") and line.endswith(", hard beaters.")
