"""A small hand-made Score and Lesson, so that each output room is tested without the rooms before it. Invented data."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import numpy as np

from sonify.kinds.cues import ACTIONS
from sonify.records.classroom import Classroom, Stock
from sonify.records.clock import Tempo
from sonify.records.controls import ControlCurve, Controls, Key, StageBars, TimeMap
from sonify.records.fact import Words
from sonify.records.findings import Finding
from sonify.records.lesson import Lesson, Source
from sonify.records.process import ConditionSpec, ProcessSpec, QuantitySpec, StageSpec
from sonify.records.scene import (
    Measure,
    Metre,
    Misconception,
    Music,
    PartPlan,
    Question,
    Rule,
    Scale,
    Scene,
    StageNote,
    Word,
)
from sonify.records.score import (
    COUNT_IN,
    Bed,
    Blank,
    Cue,
    DynamicMark,
    Entry,
    Note,
    Part,
    Pattern,
    Reason,
    Score,
    Seat,
    Section,
    Swap,
)
from sonify.records.timeline import Conserved, Event, Quantity, Stage, Timeline
from tests.catalogue import catalogue

PENTATONIC = Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9))
BARS = 12


def cue(bar: int, part: str, action: str, why: Words = "", *, gesture: str = "", beat: F = F(1), **more: Any) -> Cue:
    """A cue with its action's usual gesture; without a `why` it is for the music."""
    usual = {"change": "change"}.get(action, ACTIONS[action].gestures[0])
    reason = Reason(words=why, music=not why)
    return Cue(bar=bar, beat=beat, part=part, action=action, gesture=gesture or usual, reason=reason, **more)


def sample_score(*, with_blank: bool = False) -> Score:
    """Twelve bars of 4/4 in three stages at 66, 104 and 80 bpm: all five textures, and the count-in."""
    rows = catalogue()
    count_in = Part(
        name=COUNT_IN,
        group=0,
        instrument="claves",
        texture="ostinato",
        notes=tuple(Note(beat=F(b), beats=F(1, 2), midi=75, velocity=89 if b % 4 == 0 else 70) for b in range(-8, 0)),
    )
    sea = Part(
        name="The sea",
        group=1,
        instrument="ocean-drum",
        texture="drone",
        notes=tuple(Note(beat=F(4 * bar), beats=F(4), midi=69, velocity=57) for bar in range(BARS)),
        seats=(Seat(instrument="ocean-drum", players=5, count=2, job="take turns, a bar each"),),
        meaning="You are the sea. You never stop.",
        entries=(Entry(bar=1, bars=12, instruction="one slow wave a bar"),),
        dynamics=(DynamicMark(bar=1, mark="mp"),),
    )
    warm = Part(
        name="Rising vapour",
        group=2,
        instrument="alto-xylophone",
        texture="ostinato",
        notes=tuple(
            Note(beat=F(8, 1) + F(k), beats=F(1), midi=(60, 64, 67, 64)[k % 4], velocity=57 + k, brightness=0.4)
            for k in range(16)
        ),
        seats=(Seat(instrument="alto-xylophone", players=6, count=3),),
        meaning="You are warm water turning into vapour.",
        entries=(Entry(bar=3, bars=4, pattern=1),),
        patterns=(Pattern(number=1, bars=1, hits=tuple((F(k), F(1), (60, 64, 67, 64)[k]) for k in range(4))),),
        dynamics=(DynamicMark(bar=3, mark="mp", hairpin="cresc"), DynamicMark(bar=6, mark="mf")),
    )
    rise = Part(
        name="The cloud",
        group=3,
        instrument="soprano-glockenspiel",
        texture="melody",
        notes=tuple(
            Note(beat=F(20) + 2 * F(k), beats=F(2), midi=(84, 88, 91, 93, 96, 93)[k], velocity=70) for k in range(6)
        ),
        seats=(Seat(instrument="soprano-glockenspiel", players=5, count=3),),
        meaning="You are tiny drops gathering.",
        entries=(Entry(bar=6, bars=3),),
        dynamics=(DynamicMark(bar=6, mark="mf"),),
        blanks=(Blank(bar=9, bars=2, ask="Invent the cloud breaking up."),) if with_blank else (),
    )
    rng = np.random.default_rng(5)
    steps = sorted({int(s) for s in rng.integers(0, 64, 40)})
    rain = Part(
        name="The rain",
        group=4,
        instrument="egg-shaker",
        texture="scatter",
        notes=tuple(Note(beat=F(24) + F(s, 4), beats=F(1, 4), midi=70, velocity=80, player=1 + s % 4) for s in steps),
        seats=(
            Seat(instrument="egg-shaker", players=4, count=4),
            Seat(instrument="suspended-cymbal", players=2, count=1),
        ),
        meaning="You are drops of rain.",
        instructions=("From a few taps to many, and back.",),
        entries=(Entry(bar=7, bars=4, instruction="from a few taps to many"),),
        dynamics=(DynamicMark(bar=7, mark="mf"),),
    )
    thunder = Part(
        name="The storm",
        group=4,
        instrument="suspended-cymbal",
        texture="tremolo",
        notes=tuple(
            Note(beat=F(32) + F(k, 2), beats=F(1, 2), midi=49, velocity=50 + 2 * k, brightness=0.2) for k in range(16)
        ),
        seats=(Seat(instrument="suspended-cymbal", players=2, count=1),),
        entries=(Entry(bar=9, bars=2, instruction="roll, growing"),),
        dynamics=(DynamicMark(bar=9, mark="p", hairpin="cresc"), DynamicMark(bar=10, mark="f")),
    )
    parts = (count_in, sea, warm, rise, rain, thunder)
    used = {p.instrument for p in parts} | {s.instrument for p in parts for s in p.seats}
    return Score(
        title="A sample piece",
        scene="sample",
        metre=Metre(beats=4),
        scale=PENTATONIC,
        bars=BARS,
        tempi=(Tempo(bar=1, bpm=66), Tempo(bar=5, bpm=104), Tempo(bar=9, bpm=80)),
        sections=(
            Section(name="evaporation", title="Evaporation", letter="A", bar=1, bars=4, caption="The sea warms."),
            Section(name="condensation", title="Condensation", letter="B", bar=5, bars=4, caption="A cloud forms."),
            Section(name="precipitation", title="Precipitation", letter="C", bar=9, bars=4, caption="Rain falls."),
        ),
        parts=parts,
        cues=(
            cue(1, "", "start", "Morning", bpm=66),
            cue(3, "Rising vapour", "enter", "The sea warms"),
            cue(5, "", "tempo", "Warmer", bpm=104),
            cue(6, "The cloud", "enter", "Vapour cools"),
            cue(7, "The rain", "enter", "Drops fall"),
            cue(9, "The storm", "enter", "Heaviest rain"),
            cue(12, "", "stop", "Back in the sea", beat=F(4)),
        ),
        instruments=tuple(row for row in rows.instruments if row.id in used),
        beds=(Bed(kind="sea", levels=((F(0), 0.3), (F(48), 0.3)), seed=1),),
        swaps=(
            Swap(part="The rain", wanted="rain stick", given="egg shaker", reason="the cupboard has no rain stick"),
        ),
    )


def sample_lesson() -> Lesson:
    """The Lesson around `sample_score`, with an invented day of three stages."""
    score = sample_score()
    time_s = np.linspace(0.0, 86_400.0, 145)
    warmth = 287.15 + 8.0 * np.sin(np.pi * time_s / 86_400.0)
    temperature = Quantity(
        name="journey temperature",
        symbol="T",
        unit="degC",
        si_unit="K",
        values=warmth,
        true_zero=True,
        whose="the water on its journey",
        meaning="how warm the water is, wherever it is",
    )
    rain = Quantity(
        name="rain rate",
        symbol="R",
        unit="mm/h",
        si_unit="m/s",
        values=np.clip((time_s - 50_000.0) * 1e-10, 0.0, 2e-6),
        true_zero=True,
        meaning="how fast rain falls on the town",
    )
    timeline = Timeline(
        process="sample",
        time_s=time_s,
        quantities=(temperature, rain),
        stages=(
            Stage(name="evaporation", title="Evaporation", start_s=0, end_s=30_000, science="3 mm leave the sea."),
            Stage(name="condensation", title="Condensation", start_s=30_000, end_s=50_000, science="Cloud at 620 m."),
            Stage(name="precipitation", title="Precipitation", start_s=50_000, end_s=86_400, science="2 mm of rain."),
        ),
        events=(Event(name="first rain", time_s=50_600.0, text="The first drop of rain falls."),),
        conserved=(Conserved(name="water", relative_drift=3e-16),),
        clock_start=6.0,
    )
    rule = Rule(
        quantity="journey temperature",
        control="tempo",
        low=Measure(text="14 degC", value=14.0, unit="degC"),
        high=Measure(text="22 degC", value=22.0, unit="degC"),
        to_low=66.0,
        to_high=104.0,
        to_low_text="66 bpm",
        to_high_text="104 bpm",
        why="The warmer the water, the faster its molecules move, so the beat quickens.",
    )
    time_map = TimeMap(
        metre=score.metre,
        stages=tuple(
            StageBars(
                stage=s.name,
                title=s.title,
                bar=section.bar,
                bars=section.bars,
                start_s=s.start_s,
                end_s=s.end_s,
                bpm=t.bpm,
                caption=section.caption,
            )
            for s, section, t in zip(timeline.stages, score.sections, score.tempi, strict=True)
        ),
    )
    beats = np.arange(48, dtype=float)
    values = timeline.at("journey temperature", time_map.model_time_s(beats))
    curve = ControlCurve(rule=rule, part=None, quantity_values=values, results=66 + (values - 287.15) / 8 * 38)
    key = Key(
        rule=rule,
        sentence="When the water on its journey is at 14 °C the beat is 66 a minute; at 22 °C it is 104.",
        exaggeration=16.5,
        exaggeration_words="The kelvin temperature rises by 3 %, the beat by 58 %.",
        audible=True,
        verdict="Neighbouring stages differ by at least 23 %; listeners need 6 %.",
        values=(("14 °C", "66 bpm"), ("18 °C", "85 bpm"), ("22 °C", "104 bpm")),
    )
    process = ProcessSpec(
        name="sample",
        title="A sample process",
        summary="A day at the sea, invented for tests.",
        conditions=(
            ConditionSpec(
                name="sea_temperature",
                meaning="the sea in the morning",
                unit="degC",
                si_unit="K",
                default=287.15,
                low=271.0,
                high=305.0,
            ),
        ),
        stages=tuple(StageSpec(name=s.name, title=s.title, seen_as="by eye") for s in timeline.stages),
        quantities=tuple(
            QuantitySpec(
                name=q.name,
                symbol=q.symbol,
                unit=q.unit,
                si_unit=q.si_unit,
                true_zero=q.true_zero,
                meaning=q.meaning,
                whose=q.whose,
            )
            for q in timeline.quantities
        ),
        run=lambda conditions: timeline,
        honesty=("Clouds form without hills, too.",),
        sources=("SAMPLE",),
    )
    scene = Scene(
        name="sample",
        title="A sample piece",
        process="sample",
        story="Follow one drop from the sea to the cloud and home.",
        ages=(8, 11),
        music=Music(),
        rules=(rule,),
        parts=tuple(
            PartPlan(name=p.name, texture=p.texture, sounds=(p.instrument,), meaning=p.meaning)
            for p in score.group_parts
        ),
        stages=tuple(StageNote(stage=s.name, caption=s.caption) for s in score.sections),
        curriculum=("Science, Year 4, states of matter: evaporation and condensation in the water cycle.",),
        vocabulary=(
            Word(word="evaporation", meaning="a liquid turning into a gas"),
            Word(word="condensation", meaning="a gas turning into a liquid"),
        ),
        misconceptions=(
            Misconception(
                belief="Clouds are made of water vapour.",
                correction="Clouds are tiny drops of liquid water; vapour cannot be seen.",
                ask="Can you see water vapour?",
            ),
        ),
        questions=(Question(ask="Why does the beat quicken?", answer="The water is warmer."),),
        cautions=("Hot water: teacher demonstration only; follow your employer's risk assessment.",),
        teacher_notes=("The model is one column of air.",),
    )
    classroom = Classroom(
        year=4,
        pupils=22,
        groups=4,
        cupboard=(
            Stock(instrument="ocean-drum", count=2),
            Stock(instrument="alto-xylophone", count=3),
            Stock(instrument="soprano-glockenspiel", count=3),
            Stock(instrument="egg-shaker", count=4),
            Stock(instrument="suspended-cymbal", count=1),
        ),
        name="sample class",
    )
    return Lesson(
        scene=scene,
        process=process,
        timeline=timeline,
        controls=Controls(time_map=time_map, curves=(curve,), keys=(key,)),
        classroom=classroom,
        score=score,
        findings=(
            Finding(
                kind="swap",
                message="The cupboard has no rain stick: egg shakers play instead.",
                fix="Nothing to do.",
                part="The rain",
                serious=False,
            ),
        ),
        sources=(Source(key="SAMPLE", text="Invented for tests.", checked="not at all"),),
    )
