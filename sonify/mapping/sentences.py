"""The key of a rule: one sentence for every sheet and screen, a table of values, what each stage sounds like."""

from __future__ import annotations

import numpy as np

from sonify.mapping.audibility import stage_sound
from sonify.mapping.companions import ValueWords
from sonify.mapping.hearing import Hearing, as_said
from sonify.mapping.rules import BoundRule
from sonify.mapping.sound_words import sound, sound_in_table
from sonify.mapping.timemap import stage_mean
from sonify.records.controls import StageBars
from sonify.records.fact import Claim, Fact, Named, Reading, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.scene import Music
from sonify.records.timeline import Timeline

#: The key's table has this many rows, evenly along the rule.
TABLE_ROWS = 5


def whose(bound: BoundRule, process: ProcessSpec) -> Fact:
    """Whose quantity it is: "the mean molecule speed of the water on its journey".

    Where the owner is in the quantity's own name ("height of the water"), it is not named twice.
    """
    name = bound.quantity.name
    spec = process.quantity(name)
    owner = (spec.whose if spec else "") or bound.quantity.whose
    quantity = Named("quantity", name)
    if not owner or f"{owner} ".startswith(f"{name.rpartition(' of ')[2]} "):
        return fact("key-quantity", quantity=quantity)
    return fact("key-quantity-of", quantity=quantity, owner=owner)


def sentence(bound: BoundRule, values: ValueWords, of_whom: Fact, music: Music) -> Fact:
    """The rule as a pupil reads it, from its low end to its high end, and which way it goes."""
    control, curve = bound.rule.control, bound.curve
    low, high = (
        sound(control, as_said(control, end, music), music.metre.beats) for end in (curve.to_low, curve.to_high)
    )
    return fact(
        "key-sentence",
        _sounds_as(bound, curve.low, curve.to_low),
        _sounds_as(bound, curve.high, curve.to_high),
        whose=of_whom,
        who="part" if bound.rule.part else "all",
        part=bound.rule.part or "",
        control=control,
        low=values.told(curve.low),
        high=values.told(curve.high),
        low_sound=low,
        high_sound=high,
        quantity=Named("quantity", bound.quantity.name),
        way="up" if curve.to_high > curve.to_low else "down",
        ratios="yes" if curve.kind == "logarithmic" else "no",
    )


def _sounds_as(bound: BoundRule, value: float, sounds: float) -> Claim:
    return Claim(
        kind="by rule",
        left=Reading(how="by rule", of=bound.rule.key, level=value),
        right=Reading(how="fixed", level=sounds),
    )


def key_table(bound: BoundRule, values: ValueWords, music: Music) -> tuple[tuple[Fact, Fact], ...]:
    """Sounds that are really played, evenly along the rule, and the values they stand for, low to high."""
    control, curve = bound.rule.control, bound.curve
    spaced = np.linspace(curve.to_low, curve.to_high, TABLE_ROWS)
    said = list(dict.fromkeys(as_said(control, float(each), music) for each in spaced))
    least, most = sorted((curve.to_low, curve.to_high))
    # A written end that is no note of the scale or no mark is played as its neighbour, which may lie just outside.
    found = curve.inverse(np.clip(said, least, most))
    return tuple(
        (values.told(float(value)), sound_in_table(control, each, music.metre.beats))
        for value, each in zip(found, said, strict=True)
    )


def stage_table(hearing: Hearing, values: ValueWords, timeline: Timeline) -> tuple[tuple[Words, Fact, Fact], ...]:
    """Each stage in which the rule sounds: title, the quantity's mean, and what is heard of it."""
    control, music = hearing.bound.rule.control, hearing.music
    found: list[tuple[Words, Fact, Fact]] = []
    for stage in hearing.stages:
        heard = sound_in_table(control, as_said(control, stage_sound(hearing, stage), music), music.metre.beats)
        found.append((stage.title, stage_told(hearing, values, stage, timeline), heard))
    return tuple(found)


def stage_told(hearing: Hearing, values: ValueWords, stage: StageBars, timeline: Timeline) -> Fact:
    """The quantity's mean over a stage, with the reading it is."""
    quantity = hearing.bound.quantity
    source = Reading(how="mean", of=quantity.name, start=stage.start_s, end=stage.end_s)
    return values.told(stage_mean(quantity, timeline, stage.start_s, stage.end_s), source)
