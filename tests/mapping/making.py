"""Small invented scenes and timelines for the mapping tests."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from sonify.mapping import map_scene as map_to_facts
from sonify.records.controls import Controls
from sonify.records.findings import Finding
from sonify.records.process import ProcessSpec, QuantitySpec, StageSpec
from sonify.records.scene import Measure, Music, PartPlan, Rule, Scene, StageNote
from sonify.records.timeline import Missing, Quantity, Stage, Timeline
from sonify.say import say
from sonify.units import split

HOUR_S = 3600.0
STAGES = ("sun warms", "evaporation", "condensation", "precipitation", "collection")


def measure(text: str) -> Measure:
    value, unit = split(text)
    return Measure(text=text, value=value, unit=unit)


def rule(
    quantity: str = "warmth",
    control: str = "tempo",
    ends: tuple[str, str] = ("5 degC", "25 degC"),
    to: tuple[float, float] = (66.0, 112.0),
    *,
    curve: str = "linear",
    part: str | None = None,
    key: str = "hear.0",
) -> Rule:
    return Rule(
        quantity=quantity,
        control=control,
        low=measure(ends[0]),
        high=measure(ends[1]),
        to_low=to[0],
        to_high=to[1],
        to_low_text=f"{to[0]:g}",
        to_high_text=f"{to[1]:g}",
        why="Because it is so.",
        curve=curve,
        part=part,
        key=key,
    )


def scene(
    *rules: Rule,
    music: Music | None = None,
    parts: Mapping[str, Sequence[str]] | None = None,
    notes: Sequence[StageNote] = (),
) -> Scene:
    plans = {"The rain": ("precipitation",), "The sea": ("all",)} if parts is None else parts
    return Scene(
        name="invented",
        title="An invented piece",
        process="invented",
        story="One drop.",
        ages=(8, 11),
        music=music or Music(),
        rules=rules,
        parts=tuple(
            PartPlan(name=name, texture="scatter", sounds=("egg shaker",), stages=tuple(stages), key=f"part.{n}")
            for n, (name, stages) in enumerate(plans.items())
        ),
        stages=tuple(notes),
    )


def quantity(
    name: str,
    values: Sequence[float],
    *,
    unit: str = "degC",
    si_unit: str = "K",
    true_zero: bool = True,
    whose: str = "",
    companion: str = "",
) -> Quantity:
    return Quantity(
        name=name,
        symbol=name[0],
        unit=unit,
        si_unit=si_unit,
        values=np.array(values, dtype=np.float64),
        true_zero=true_zero,
        whose=whose,
        companion=companion,
    )


def stepped(levels: Sequence[float], *, samples_a_stage: int = 40) -> list[float]:
    """One level for each stage, held: with no ramp, so that a stage's mean is its level."""
    return [level for level in levels for _ in range(samples_a_stage)]


def timeline(
    *quantities: Quantity, stages: Sequence[str] = STAGES, hours_each: float = 4.0, missing: Sequence[Missing] = ()
) -> Timeline:
    """Stages of equal length over samples that lie inside them: sample k of n at the middle of the k-th n-th."""
    count = len(quantities[0].values)
    whole_s = len(stages) * hours_each * HOUR_S
    return Timeline(
        process="invented",
        time_s=(np.arange(count) + 0.5) * whole_s / count,
        quantities=tuple(quantities),
        stages=tuple(
            Stage(
                name=name,
                title=name.capitalize(),
                start_s=n * hours_each * HOUR_S,
                end_s=(n + 1) * hours_each * HOUR_S,
                science=f"The science of {name}.",
            )
            for n, name in enumerate(stages)
        ),
        missing=tuple(missing),
    )


def process(found: Timeline, stages: Sequence[str] = STAGES) -> ProcessSpec:
    return ProcessSpec(
        name="invented",
        title="An invented process",
        summary="For tests.",
        conditions=(),
        stages=tuple(StageSpec(name=name, title=name.capitalize(), seen_as="by eye") for name in stages),
        quantities=tuple(
            QuantitySpec(
                name=q.name,
                symbol=q.symbol,
                unit=q.unit,
                si_unit=q.si_unit,
                true_zero=q.true_zero,
                meaning=q.meaning,
                whose=q.whose,
                companion=q.companion,
            )
            for q in found.quantities
        ),
        run=lambda conditions: found,
    )


def map_scene(
    scene: Scene, found: Timeline, spec: ProcessSpec, youngest: int = 9
) -> tuple[Controls, tuple[Finding, ...]]:
    """The scene mapped, with everything said: what a person reads."""
    controls, findings = map_to_facts(scene, found, spec, youngest=youngest)
    keys = tuple(
        replace(
            key,
            sentence=say(key.sentence),
            exaggeration_words=say(key.exaggeration_words),
            verdict=say(key.verdict),
            values=tuple((say(value), say(sound)) for value, sound in key.values),
            stages=tuple((title, say(value), say(sound)) for title, value, sound in key.stages),
        )
        for key in controls.keys
    )
    said = tuple(replace(f, message=say(f.message), fix=say(f.fix), where=say(f.where)) for f in findings)
    return replace(controls, keys=keys), said
