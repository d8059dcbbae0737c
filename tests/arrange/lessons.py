"""Made-up scenes, computed and mapped by hand, so that arranging is tested without the rooms before it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from sonify.arrange import arrange
from sonify.records.classroom import Classroom, Stock
from sonify.records.controls import ControlCurve, Controls, StageBars, TimeMap
from sonify.records.findings import Finding
from sonify.records.own_pattern import OwnPattern
from sonify.records.scene import (
    BackgroundPlan,
    Measure,
    Metre,
    Music,
    PartPlan,
    Rule,
    Scale,
    Scene,
)
from sonify.records.score import Score
from sonify.records.timeline import Quantity, Stage, Timeline
from tests.catalogue import catalogue

HOUR_S = 3600.0
PENTATONIC = Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9))


@dataclass(frozen=True, kw_only=True)
class Sketch:
    """A piece in a few words. stages: (name, bars, bpm). curves: (control, part or None, value at each stage's start
    and at the end), straight between."""

    stages: tuple[tuple[str, int, float], ...]
    parts: tuple[PartPlan, ...]
    curves: tuple[tuple[str, str | None, tuple[float, ...]], ...] = ()
    beats: int = 4
    scale: Scale = PENTATONIC
    background: tuple[BackgroundPlan, ...] = ()
    glide: bool = False
    patterns: tuple[OwnPattern, ...] = ()
    classroom: Classroom = field(default_factory=lambda: well_stocked())

    @property
    def time_map(self) -> TimeMap:
        rows, bar = [], 1
        for i, (name, bars, bpm) in enumerate(self.stages):
            following = self.stages[min(i + 1, len(self.stages) - 1)][2]
            glide = tuple(round(bpm + (following - bpm) * k / bars) for k in range(bars)) if self.glide else ()
            rows.append(
                StageBars(
                    stage=name,
                    title=name.capitalize(),
                    bar=bar,
                    bars=bars,
                    start_s=i * HOUR_S,
                    end_s=(i + 1) * HOUR_S,
                    bpm=bpm,
                    caption=f"What happens in {name}.",
                    bar_bpms=tuple(float(b) for b in glide),
                )
            )
            bar += bars
        return TimeMap(metre=Metre(beats=self.beats), stages=tuple(rows))

    @property
    def timeline(self) -> Timeline:
        time_s = np.linspace(0.0, len(self.stages) * HOUR_S, 60 * len(self.stages) + 1)
        return Timeline(
            process="sample",
            time_s=time_s,
            quantities=(
                Quantity(
                    name="warmth",
                    symbol="T",
                    unit="degC",
                    si_unit="K",
                    values=285.0 + 5.0 * np.sin(np.pi * time_s / time_s[-1]),
                    true_zero=True,
                ),
            ),
            stages=tuple(
                Stage(name=row.stage, title=row.title, start_s=row.start_s, end_s=row.end_s, science="Science.")
                for row in self.time_map.stages
            ),
        )

    @property
    def controls(self) -> Controls:
        time_map = self.time_map
        corners = [(row.bar - 1) * self.beats for row in time_map.stages] + [time_map.beats]
        at = np.arange(time_map.beats, dtype=float)
        curves = tuple(
            ControlCurve(
                rule=rule(control, part, values),
                part=part,
                quantity_values=np.interp(at, corners, np.linspace(280.0, 290.0, len(corners))),
                results=np.interp(at, corners, values),
            )
            for control, part, values in self.curves
        )
        return Controls(time_map=time_map, curves=curves, keys=())

    @property
    def scene(self) -> Scene:
        return Scene(
            name="sketch",
            title="A sketch",
            process="sample",
            story="Made up for tests.",
            ages=(7, 11),
            music=Music(metre=Metre(beats=self.beats), scale=self.scale),
            rules=tuple(rule(control, part, values) for control, part, values in self.curves),
            parts=self.parts,
            background=self.background,
            patterns=self.patterns,
        )

    def arranged(self, *, seed: int = 0, scaffold: str = "full") -> tuple[Score, tuple[Finding, ...]]:
        return arrange(
            self.scene,
            self.timeline,
            self.controls,
            self.classroom,
            catalogue().with_own(self.classroom.own),
            seed=seed,
            scaffold=scaffold,
        )

    def score(self, *, seed: int = 0, scaffold: str = "full") -> Score:
        return self.arranged(seed=seed, scaffold=scaffold)[0]


def rule(control: str, part: str | None, values: Sequence[float]) -> Rule:
    return Rule(
        quantity="warmth",
        control=control,
        low=Measure(text="280 K", value=280.0, unit="K"),
        high=Measure(text="290 K", value=290.0, unit="K"),
        to_low=min(values),
        to_high=max(values),
        to_low_text=f"{min(values):g}",
        to_high_text=f"{max(values):g}",
        why=f"The warmer, the more {control}.",
        part=part,
    )


def part(name: str, texture: str, *sounds: str, stages: tuple[str, ...] = ("all",)) -> PartPlan:
    return PartPlan(name=name, texture=texture, sounds=sounds, meaning=f"You are {name.lower()}.", stages=stages)


def cupboard(**counts: int) -> tuple[Stock, ...]:
    return tuple(Stock(instrument=name.replace("_", "-"), count=count) for name, count in counts.items())


def well_stocked(*, pupils: int = 28, groups: int = 5, year: int = 5, needs: tuple[str, ...] = ()) -> Classroom:
    return Classroom(
        year=year,
        pupils=pupils,
        groups=groups,
        needs=needs,
        cupboard=cupboard(
            ocean_drum=1,
            egg_shaker=10,
            alto_xylophone=3,
            soprano_glockenspiel=4,
            alto_metallophone=1,
            triangle=4,
            tambourine=5,
            hand_drum=6,
            claves=6,
            rain_stick=2,
            suspended_cymbal=1,
            maracas=4,
        ),
    )


def few_instruments(*, pupils: int = 30, groups: int = 4, year: int = 4) -> Classroom:
    return Classroom(
        year=year,
        pupils=pupils,
        groups=groups,
        cupboard=cupboard(tambourine=3, egg_shaker=6, triangle=2, wood_block=2, hand_drum=2, claves=4),
    )


STAGES = (("warming", 10, 66.0), ("rising", 14, 104.0), ("cloud", 12, 80.0), ("rain", 16, 72.0), ("river", 12, 84.0))
WATER = Sketch(
    stages=STAGES,
    parts=(
        part("The sea", "drone", "ocean drum", "shaker", "voices"),
        part("Rising vapour", "ostinato", "xylophone", "claves", stages=("warming", "rising")),
        part("The cloud", "melody", "glockenspiel", "triangle", stages=("rising", "cloud")),
        part("The rain", "scatter", "tambourine", "shaker", "claps", stages=("cloud", "rain")),
        part("The river", "tremolo", "metallophone", "hand drum", stages=("rain", "river")),
    ),
    curves=(
        ("tempo", None, (66, 104, 80, 72, 84, 84)),
        ("pitch", "The cloud", (60, 62, 72, 82, 80, 80)),
        ("density", "The rain", (0, 0, 0.2, 1.0, 6.0, 0.5)),
        ("density", "Rising vapour", (0.5, 1.0, 2.0, 1.0, 0.5, 0.5)),
        ("dynamics", None, (44, 57, 70, 80, 100, 44)),
    ),
    background=(BackgroundPlan(kind="sea", quantity="warmth"),),
)
