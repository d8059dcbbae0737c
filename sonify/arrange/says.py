"""What a part stands for, bar by bar: which meanings it carries, and where there is none of it."""

from __future__ import annotations

import re

import numpy as np

from sonify.arrange.piece import Piece
from sonify.records.controls import ControlCurve, StageBars
from sonify.records.scene import STAGES_ALL, PartPlan
from sonify.records.timeline import FloatArray
from sonify.units import convert

#: Controls of which less is less to hear; a low pitch or a slow beat is as present as a high one.
_AMOUNTS = ("density", "dynamics", "brightness")
#: None of a quantity: less than this share of the most there is. No stroke in a bar: fewer than half of one.
_NOUGHT, _HALF_A_STROKE = 1e-3, 0.5
#: Words of a part's name that say nothing about which part it is.
_SMALL = {"the", "and", "one", "its", "all", "other", "usually", "water", "free"}

#: (quantity, control): what is to be followed by ear.
Meaning = frozenset[tuple[str, str]]


def own_curves(piece: Piece, plan: PartPlan) -> list[ControlCurve]:
    return [curve for curve in piece.controls.curves if curve.part == plan.name]


def meaning(piece: Piece, plan: PartPlan) -> Meaning:
    """What a part stands for; nothing for one on the beat, or one that neither has a rule of its own nor a tune.

    Parts that one rule shapes alike carry one meaning together.
    """
    if plan.on_beat:
        return frozenset()
    own = own_curves(piece, plan)
    if not own and plan.texture == "melody":
        general = piece.curve("pitch", plan.name)
        return frozenset({(general.rule.quantity if general else plan.name, "pitch")})
    return frozenset((curve.rule.quantity, curve.rule.control) for curve in own)


def speaks(piece: Piece, plan: PartPlan) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """For each bar (bar 1 is index 0) whether there is any of what a part stands for; always, by the scene's wish."""
    here = np.ones(piece.bars, dtype=bool)
    if not plan.rests:
        return here
    asked = piece.asked or piece.controls  # where a rule asks for nothing, a pattern of pupils' own rests, too
    for curve in asked.curves:
        if curve.part == plan.name and curve.rule.control in _AMOUNTS:
            here &= ~_none(piece, curve)
    return here


def _none(piece: Piece, curve: ControlCurve) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Bars without a stroke by a density rule, or without any of a quantity whose nought is the rule's quiet end."""
    gone = np.zeros(piece.bars, dtype=bool)
    rule = curve.rule
    if rule.control == "density":
        gone |= piece.bar_means(curve.results) * piece.beats < _HALF_A_STROKE
    quantity = piece.timeline.quantity(rule.quantity)
    quiet = rule.low if rule.to_low <= rule.to_high else rule.high
    if quantity.true_zero and convert(quiet.value, quiet.unit, quantity.si_unit) == 0.0:
        values = np.asarray(curve.quantity_values, dtype=float)[: piece.bars * piece.beats]
        most = values.reshape(piece.bars, piece.beats).max(axis=1)
        gone |= most <= _NOUGHT * max(float(np.abs(values).max()), 1e-300)
    return gone


#: An ostinato by a density rule keeps the beat where the rule asks for so many strokes a beat at the least.
_KEEPS_BEAT = 0.75


#: A part that is the beat itself takes every second one where the beat is faster (for comfort; common practice).
EVERY_BEAT_BPM = 120.0


def halves_beat(piece: Piece, bar: int, end: int) -> bool:
    """Whether the beat is too fast, from a bar to before another, to be struck every time."""
    return float(np.mean([piece.bpm(one) for one in range(bar, end)])) > EVERY_BEAT_BPM


def keeps_beat(piece: Piece, plan: PartPlan, bar: int, end: int) -> bool:
    """Whether a part's strokes are a steady beat that others can play to, from a bar to before another."""
    if plan.texture != "ostinato":
        return False
    density = piece.results("density", plan.name)
    return plan.on_beat or density is None or float(piece.bar_means(density)[bar - 1 : end - 1].mean()) >= _KEEPS_BEAT


def names(piece: Piece, stage: StageBars, plan: PartPlan) -> bool:
    """Whether what the scene says of a stage names a part."""
    return bool(_stems(plan.lot or plan.name) & _stems(stage.caption if isinstance(stage.caption, str) else ""))


def lists(stage: StageBars, plan: PartPlan) -> bool:
    """Whether the scene gives a part to this stage in particular."""
    return plan.stages != STAGES_ALL and stage.stage in plan.stages


def _stems(text: str) -> set[str]:
    """Words of three letters and more, one and many alike.

    >>> sorted(_stems("The Nights are long, and the shadows too"))
    ['are', 'long', 'night', 'shadow', 'too']
    """
    return {word.rstrip("s") for word in re.findall(r"[a-z]{3,}", text.lower()) if word not in _SMALL}


def move(curve: ControlCurve, first: int, end: int) -> float:
    """How far a quantity goes in some beats, as a share of its way in the piece."""
    values: FloatArray = np.asarray(curve.quantity_values, dtype=float)
    whole = float(np.ptp(values))
    return float(np.ptp(values[first:end])) / whole if whole > 0.0 and end > first else 0.0
