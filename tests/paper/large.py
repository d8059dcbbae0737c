"""Lessons far from the sample's size, for layout: many stages, groups and quantities, or one of each. Invented."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import numpy as np

from sonify.records.clock import Tempo
from sonify.records.controls import Controls, Key, StageBars, Threshold, TimeMap
from sonify.records.lesson import Lesson
from sonify.records.scene import Word
from sonify.records.score import DynamicMark, Entry, Note, Part, Pattern, Score, Seat, Section
from sonify.records.timeline import FloatArray, Quantity, Stage, Timeline
from tests.catalogue import catalogue
from tests.sample import cue, sample_lesson

TITLES = ("Sun warms", "Evaporation", "Condensation", "Precipitation", "Running off", "Collection", "Night", "Dawn")
PARTS = ("The sea", "Sunlight on the shallows", "Rising vapour", "The cloud", "Rain on the roofs", "The river", "Wind")
INSTRUMENTS = ("ocean-drum", "alto-xylophone", "soprano-glockenspiel", "egg-shaker", "triangle", "hand-drum", "claps")
BARS = 8


def large_lesson(*, stages: int = 6, groups: int = 6, parts_a_group: int = 1, quantities: int = 14) -> Lesson:
    """A Lesson with so many of everything; each part plays in every second stage, the first all through."""
    small = sample_lesson()
    titles = [TITLES[i % len(TITLES)] + ("" if i < len(TITLES) else f" {i}") for i in range(stages)]
    score = _score(small.score, titles, groups, parts_a_group)
    timeline = _timeline(titles, quantities)
    time_map = TimeMap(
        metre=score.metre,
        stages=tuple(
            StageBars(
                stage=stage.name,
                title=stage.title,
                bar=section.bar,
                bars=section.bars,
                start_s=stage.start_s,
                end_s=stage.end_s,
                bpm=tempo.bpm,
            )
            for stage, section, tempo in zip(timeline.stages, score.sections, score.tempi, strict=True)
        ),
    )
    key = replace(
        small.controls.keys[0],
        stages=tuple((title, f"{14 + i} °C", f"{66 + 5 * i} bpm") for i, title in enumerate(titles)),
    )
    scene = replace(
        small.scene,
        vocabulary=tuple(
            Word(word=f"science word {i}", meaning="what it means, said in one sentence") for i in range(12)
        ),
        misconceptions=small.scene.misconceptions * 4,
        questions=small.scene.questions * 6,
    )
    return replace(
        small,
        scene=scene,
        process=replace(small.process, cycle=True),
        timeline=timeline,
        score=score,
        controls=Controls(time_map=time_map, curves=(), keys=(key, *_part_keys(key, score)), thresholds=(THRESHOLD,)),
    )


THRESHOLD = Threshold(
    control="tempo",
    measure="change of the beat",
    asked=6.0,
    unit="%",
    published="about 6 ms below 240 ms",
    source="A paper, invented for this test",
    status="not at all",
)


def _part_keys(key: Key, score: Score) -> list[Key]:
    rule = replace(key.rule, control="dynamics", to_low_text="p", to_high_text="f")
    return [
        replace(key, rule=replace(rule, part=part.name), values=(("0 mm/h", "soft"), ("7 mm/h", "loud")))
        for part in score.group_parts[:3]
    ]


def _timeline(titles: list[str], quantities: int) -> Timeline:
    time_s = np.linspace(0.0, 86_400.0, 145)
    step = 86_400.0 / (len(titles) + 1)
    narrow = [0.0, *[step + 600.0 * i for i in range(1, len(titles))], 86_400.0]  # all but the last are crowded
    return Timeline(
        process="sample",
        time_s=time_s,
        quantities=(sample_lesson().timeline.quantities[0], *(_wave(time_s, i) for i in range(1, quantities))),
        stages=tuple(
            Stage(name=title.lower(), title=title, start_s=a, end_s=b, science="One sentence with this run's figures.")
            for title, a, b in zip(titles, narrow, narrow[1:], strict=False)
        ),
        clock_start=4.5,
    )


def _wave(time_s: FloatArray, number: int) -> Quantity:
    """Each a thousandth of the one before, so that ticks of every size are drawn."""
    return Quantity(
        name=f"quantity of a fairly long name {number}",
        symbol="q",
        unit="mm/h",
        si_unit="m/s",
        values=10.0 ** (-3 - number) * np.sin(time_s / 9_000.0 + number),
    )


def _score(small: Score, titles: list[str], groups: int, parts_a_group: int) -> Score:
    sections = tuple(
        Section(
            name=title.lower(),
            title=title,
            letter="ABCDEFGHIJKLMNOP"[i],
            bar=1 + BARS * i,
            bars=BARS,
            caption=f"{title}: what happens here, said in one short sentence for pupils.",
        )
        for i, title in enumerate(titles)
    )
    parts = [small.parts[0]]
    for number in range(groups * parts_a_group):
        parts.append(_part(number, number // parts_a_group + 1, len(titles)))
    cues = [cue(e.bar, p.name, "enter", "It is warmer now") for p in parts[1:] for e in p.entries] + [
        cue(s.bar, "", "tempo", "Warmer", bpm=66 + 5 * i) for i, s in enumerate(sections)
    ]
    used = {p.instrument for p in parts}
    return replace(
        small,
        bars=BARS * len(titles),
        tempi=tuple(Tempo(bar=s.bar, bpm=66 + 5 * i) for i, s in enumerate(sections)),
        sections=sections,
        parts=tuple(parts),
        cues=tuple(sorted(cues, key=lambda cue: cue.bar)),
        instruments=tuple(row for row in catalogue().instruments if row.id in used),
        beds=(),
        swaps=(),
    )


def _part(number: int, group: int, stages: int) -> Part:
    instrument = catalogue()[INSTRUMENTS[number % len(INSTRUMENTS)]]
    texture = ("drone", "ostinato", "melody", "scatter")[number % 4]
    midi = instrument.low + 2 if instrument.pitched else instrument.gm_key
    first = 1 if number == 0 else 1 + BARS * (number % stages)
    bars = BARS * stages if number == 0 else BARS
    beats = range(4 * (first - 1), 4 * (first - 1 + bars))
    return Part(
        name=PARTS[number % len(PARTS)] + ("" if number < len(PARTS) else f" {number}"),
        group=group,
        instrument=instrument.id,
        texture=texture,
        notes=tuple(Note(beat=F(b), beats=F(1), midi=midi, velocity=60, player=1 + b % 3) for b in beats),
        seats=(Seat(instrument=instrument.id, players=5, count=2, at_once=2),),
        meaning="You are something in the story, and this says what in one or two sentences.",
        instructions=("Play gently.",),
        entries=(Entry(bar=first, bars=bars, pattern=1 if texture == "ostinato" else 0),),
        patterns=(
            Pattern(number=1, bars=2, hits=tuple((F(k, 2), F(1, 2), midi) for k in range(16)), words="rise up"),
            Pattern(number=2, bars=1, hits=((F(0), F(1), midi), (F(5, 4), F(1, 4), midi))),
        )
        if texture == "ostinato"
        else (),
        dynamics=tuple(
            DynamicMark(bar=first + 2 * i, mark=mark, hairpin=pin)
            for i, (mark, pin) in enumerate((("p", "cresc"), ("mf", ""), ("f", "dim"), ("mp", "")))
        ),
    )
