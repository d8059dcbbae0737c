"""The listening check of every scene: each answer found again here from the notes, the tempi and the science."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
from scipy.stats import spearmanr

from sonify.facts.listening import Clip, ListeningItem, listening_items
from sonify.records.lesson import Lesson
from sonify.say import say
from tests.studies import SCENES, studied

SHAPES = {
    "It goes up.": "up",
    "It goes down.": "down",
    "It goes up, then down.": "hill",
    "It goes down, then up.": "valley",
}


def items(lesson: Lesson, kind: str) -> list[ListeningItem]:
    return [item for item in listening_items(lesson) if item.kind == kind]


def strokes(lesson: Lesson, name: str, bar: int) -> list[tuple[int, int]]:
    beats = lesson.score.metre.beats
    part = next(part for part in lesson.score.parts if part.name == name)
    return [(n.midi, n.velocity) for n in part.notes if (bar - 1) * beats <= n.beat < bar * beats]


def bpm(lesson: Lesson, bar: int) -> float:
    return max((tempo for tempo in lesson.score.tempi if tempo.bar <= bar), key=lambda tempo: tempo.bar).bpm


def science(lesson: Lesson, quantity: str, bar: int) -> float:
    """A quantity in the middle of a bar."""
    stage = next(s for s in lesson.controls.time_map.stages if s.bar <= bar < s.bar + s.bars)
    at = stage.start_s + (bar - stage.bar + 0.5) / stage.bars * (stage.end_s - stage.start_s)
    return float(np.interp(at, lesson.timeline.time_s, lesson.timeline.quantity(quantity).values))


@pytest.mark.parametrize("classroom", ["well-stocked", "few-instruments"])
@pytest.mark.parametrize("scene", SCENES)
def test_there_are_four_to_six_questions_of_at_least_two_kinds(scene: str, classroom: str) -> None:
    found = listening_items(studied(scene, classroom))
    assert 4 <= len(found) <= 6
    assert len({item.kind for item in found}) >= 2 or len({item.part for item in found if item.kind == "pair"}) >= 2
    for item in found:
        assert len({say(choice.words) for choice in item.choices}) == len(item.choices) >= 2
        assert 0 <= item.answer < len(item.choices)
        assert len(item.clips) == (2 if item.kind in ("tempo", "pair") else 1)
        for clip in item.clips:
            assert clip.bar >= 1 and clip.bar + clip.bars - 1 <= studied(scene, classroom).score.bars


@pytest.mark.parametrize("scene", SCENES)
def test_a_stage_clip_lies_in_the_stage_that_is_the_answer_and_sounds_unlike_the_others(scene: str) -> None:
    lesson = studied(scene)

    def sound(clip: Clip) -> tuple[frozenset[str], float]:
        bars = range(clip.bar, clip.bar + clip.bars)
        names = {p.name for p in lesson.score.group_parts if any(strokes(lesson, p.name, bar) for bar in bars)}
        return frozenset(names), bpm(lesson, clip.bar)

    for item in items(lesson, "stage"):
        (clip,) = item.clips
        right = next(s for s in lesson.score.sections if say(s.title) == say(item.choices[item.answer].words))
        before, after = clip.bar - right.bar, right.bar + right.bars - clip.bar - clip.bars
        assert before >= 0 and after >= 0 and abs(before - after) <= 1  # its middle: there a stage is most itself
        names, tempo = sound(clip)
        assert names
        for choice in item.choices:
            section = next(s for s in lesson.score.sections if say(s.title) == say(choice.words))
            if section is not right:
                middle = Clip(bar=section.bar + (section.bars - clip.bars) // 2, bars=min(4, section.bars))
                others, pace = sound(middle)
                assert others != names or max(tempo, pace) / min(tempo, pace) >= 1.12


@pytest.mark.parametrize("scene", SCENES)
def test_two_clips_differ_in_tempo_and_the_science_differs_as_the_answer_says(scene: str) -> None:
    lesson = studied(scene)
    for item in items(lesson, "tempo"):
        first, second = (clip.bar for clip in item.clips)
        assert max(bpm(lesson, first), bpm(lesson, second)) / min(bpm(lesson, first), bpm(lesson, second)) >= 1.12
        means = [
            np.mean([science(lesson, item.quantity, bar) for bar in range(s.bar, s.bar + s.bars)])
            for s in lesson.score.sections
            for clip in item.clips
            if s.bar <= clip.bar < s.bar + s.bars
        ]
        assert say(item.choices[item.answer].words) == ("It goes up." if means[1] > means[0] else "It goes down.")


@pytest.mark.parametrize("scene", SCENES)
def test_the_part_that_comes_in_is_silent_before_and_no_other_comes_in(scene: str) -> None:
    lesson = studied(scene)
    for item in items(lesson, "entry"):
        (clip,) = item.clips
        parts = {p.name: p for p in lesson.score.group_parts}
        first = {
            name: next((b for b in range(clip.bar, clip.bar + clip.bars) if strokes(lesson, name, b)), 0)
            for name in parts
        }
        right = item.choices[item.answer]
        assert parts[say(right.words)].group == right.group
        assert first[say(right.words)] > clip.bar
        assert all(bar <= clip.bar for name, bar in first.items() if name != say(right.words) and bar)


@pytest.mark.parametrize("classroom", ["well-stocked", "few-instruments"])
@pytest.mark.parametrize("scene", SCENES)
def test_in_a_change_the_notes_go_with_the_science_and_both_go_as_the_answer_says(scene: str, classroom: str) -> None:
    lesson = studied(scene, classroom)
    for item in items(lesson, "change"):
        (clip,) = item.clips
        bars = range(clip.bar, clip.bar + clip.bars)
        key = next(k for k in lesson.controls.keys if k.rule.part == item.part and k.rule.why in say(item.why))
        told = [strokes(lesson, item.part, bar) for bar in bars]
        place = 0 if key.rule.control == "pitch" else 1
        heard = [len(bar) if key.rule.control == "density" else np.mean([row[place] for row in bar]) for bar in told]
        values = [science(lesson, key.rule.quantity, bar) for bar in bars]
        turned = -1 if key.rule.to_low > key.rule.to_high else 1
        assert turned * spearmanr(heard, values).statistic > 0.6  # scipy's rank correlation
        shape = SHAPES[say(item.choices[item.answer].words)]
        rise = values[-1] - values[0]
        if shape in ("up", "down"):
            assert (rise > 0) is (shape == "up")
        else:
            inside = max(values) if shape == "hill" else min(values)
            assert inside not in (values[0], values[-1])


def test_a_scaffold_without_notes_asks_nothing_about_them() -> None:
    lesson = studied("harbour-water-cycle", scaffold="open")
    silent = {part.name for part in lesson.score.group_parts if not part.notes}
    kinds = Counter(item.kind for item in listening_items(lesson))
    assert silent
    assert not {item.part for item in listening_items(lesson)} & silent
    if len(silent) == len(lesson.score.group_parts):
        assert not kinds
