"""The key of a rule: one sentence for every sheet and screen, a table of values, what each stage sounds like."""

from __future__ import annotations

import numpy as np

from sonify.mapping.audibility import stage_sound, stage_value
from sonify.mapping.companions import ValueWords
from sonify.mapping.hearing import Hearing, as_said
from sonify.mapping.rules import BoundRule
from sonify.mapping.sound_words import DIRECTIONS, sound_text, table_text
from sonify.records.fact import Words, own_text
from sonify.records.process import ProcessSpec
from sonify.records.scene import Music

#: The key's table has this many rows, evenly along the rule.
TABLE_ROWS = 5

#: How a control is said of somebody who plays.
_VERBS = {"pitch": "plays around", "density": "plays", "dynamics": "plays", "brightness": "sounds"}


def subject(bound: BoundRule, process: ProcessSpec) -> str:
    """Whose quantity it is: "the mean molecule speed of the water on its journey"."""
    spec = process.quantity(bound.quantity.name)
    whose = own_text((spec.whose if spec else "") or bound.quantity.whose)
    return f"the {_joined(bound.quantity.name, whose)}" if whose else f"the {bound.quantity.name}"


def _joined(name: str, whose: str) -> str:
    """A quantity and its owner, named once: "height of the water" of "the water on its journey" is short for both."""
    head, of, tail = name.rpartition(" of ")
    return f"{head} of {whose}" if of and f"{whose} ".startswith(f"{tail} ") else f"{name} of {whose}"


def sentence(bound: BoundRule, words: ValueWords, of_whom: str, music: Music) -> str:
    """The rule as a pupil reads it, from its low end to its high end, and which way it goes."""
    control, curve = bound.rule.control, bound.curve
    ends = (as_said(control, end, music) for end in (curve.to_low, curve.to_high))
    low, high = (sound_text(control, end, music.metre.beats) for end in ends)
    who = f'the part "{bound.rule.part}"' if bound.rule.part else "everybody"
    plays = "the beat is" if control == "tempo" else f"{who} {_VERBS[control]}"
    rising, falling = DIRECTIONS[control]
    way = rising if curve.to_high > curve.to_low else falling
    ratios = " Each doubling makes the same step." if curve.kind == "logarithmic" else ""
    return (
        f"When {of_whom} is {words.text(curve.low)}, {plays} {low}; at {words.text(curve.high)}, {high}. "
        f"The higher the {bound.quantity.name}, {way}.{ratios}"
    )


def key_table(bound: BoundRule, words: ValueWords, music: Music) -> tuple[tuple[str, str], ...]:
    """Sounds that are really played, evenly along the rule, and the values they stand for, low to high."""
    control, curve = bound.rule.control, bound.curve
    spaced = np.linspace(curve.to_low, curve.to_high, TABLE_ROWS)
    said = list(dict.fromkeys(as_said(control, float(each), music) for each in spaced))
    least, most = sorted((curve.to_low, curve.to_high))
    # A written end that is no note of the scale or no mark is played as its neighbour, which may lie just outside.
    values = curve.inverse(np.clip(said, least, most))
    return tuple(
        (words.text(float(value)), table_text(control, each, music.metre.beats))
        for value, each in zip(values, said, strict=True)
    )


def stage_table(hearing: Hearing, words: ValueWords) -> tuple[tuple[Words, str, str], ...]:
    """Each stage in which the rule sounds: title, the quantity's mean, and what is heard of it."""
    control, music = hearing.bound.rule.control, hearing.music
    found: list[tuple[Words, str, str]] = []
    for stage in hearing.stages:
        heard = as_said(control, stage_sound(hearing, stage), music)
        found.append(
            (stage.title, words.text(stage_value(hearing, stage)), table_text(control, heard, music.metre.beats))
        )
    return tuple(found)
