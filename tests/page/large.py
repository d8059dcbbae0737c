"""A lesson at the far end of what a class can be: ten groups, six stages with long names. Invented data."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import numpy as np

from sonify.records.clock import Tempo
from sonify.records.lesson import Lesson
from sonify.records.score import DynamicMark, Entry, Note, Part, Seat, Section
from tests.sample import cue, sample_lesson

STAGES = (
    "The sun warms the water",
    "Evaporation",
    "Moist air rises",
    "Condensation",
    "Precipitation",
    "Collection and run-off",
)
NAMES = ("The sea", "Sunlight", "Rising vapour", "The wind", "Cloud droplets", "Raindrops", "Thunder", "Streams")


def large_lesson(groups: int = 10) -> Lesson:
    lesson = sample_lesson()
    score = lesson.score
    parts = [score.parts[0]]
    for k in range(groups):
        first = min(1 + 2 * k, 17)
        parts.append(
            Part(
                name=NAMES[k % 8] if k < 8 else f"{NAMES[k % 8]} again",
                group=k + 1,
                instrument="soprano-glockenspiel",
                texture="ostinato",
                notes=tuple(Note(beat=F(4 * b), beats=F(1), midi=84, velocity=60) for b in range(first - 1, 24)),
                seats=(Seat(instrument="soprano-glockenspiel", players=3, count=2),),
                entries=(Entry(bar=first, bars=25 - first),),
                dynamics=(DynamicMark(bar=1, mark="mp", hairpin="cresc"),),
            )
        )
    sections = tuple(
        Section(
            name=title.lower(),
            title=title,
            letter="ABCDEF"[k],
            bar=1 + 4 * k,
            bars=4,
            caption="The air carries the moist vapour up the hill, where it is colder, and cools as it rises.",
        )
        for k, title in enumerate(STAGES)
    )
    cues = tuple(cue(p.entries[0].bar, p.name, "enter") for p in parts[1:])
    tempi = tuple(Tempo(bar=1 + 4 * k, bpm=bpm) for k, bpm in enumerate((66, 80, 96, 112, 90, 72)))
    time_map = replace(
        lesson.controls.time_map,
        stages=tuple(replace(stage, bar=1 + 8 * k, bars=8) for k, stage in enumerate(lesson.controls.time_map.stages)),
    )
    traced = lesson.controls.curves[0]
    twice_as_long = replace(
        traced, quantity_values=np.repeat(traced.quantity_values, 2), results=np.repeat(traced.results, 2)
    )
    return replace(
        lesson,
        controls=replace(lesson.controls, time_map=time_map, curves=(twice_as_long,)),
        score=replace(score, bars=24, parts=tuple(parts), sections=sections, cues=cues, tempi=tempi),
    )
