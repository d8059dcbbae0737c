"""Why a cue is given: which quantity moved, which way and to what, in this piece's own figures."""

from __future__ import annotations

import re

import numpy as np

from sonify.arrange.piece import Piece
from sonify.records.controls import ControlCurve
from sonify.records.timeline import Quantity
from sonify.records.words import measure_text
from sonify.units import convert

_TEMPERATURES = ("degC", "K")
_WITH_COMPANION = re.compile(r"(.+) \((.+)\)")


def tempo_reason(piece: Piece, stage: int, *, quicker: bool, glides: bool) -> str:
    """ "Slower: the water on its journey is colder, 6 °C on average (573 m/s)."; "" where no rule sets the tempo."""
    curve = next((c for c in piece.controls.curves if c.rule.control == "tempo"), None)
    if curve is None:
        return ""
    row = piece.stages[stage]
    here = _beats(piece, curve, row.bar, row.bars)
    if glides or stage == 0:
        change = float(here[-1] - here[0])
    else:
        earlier = piece.stages[stage - 1]
        change = float(here.mean() - _beats(piece, curve, earlier.bar, earlier.bars).mean())
    quantity = piece.timeline.quantity(curve.rule.quantity)
    way = "Quicker" if quicker else "Slower"
    return f"{way}: {_moved_to(piece, quantity, change, _stage_text(piece, curve, quantity, stage))}."


def moved(piece: Piece, curve: ControlCurve, bar: int, reached: int) -> str:
    """ "The river flow falls." from a bar to the bar where the change is complete; the rule's own words if it stays."""
    way = moves(piece, curve, bar, reached)
    return f"The {curve.rule.quantity} {'rises' if way > 0 else 'falls'}." if way else curve.rule.why


def moves(piece: Piece, curve: ControlCurve, bar: int, reached: int) -> int:
    """1 where a rule's quantity rises from the bar before a change to its last bar, -1 where it falls, else 0."""
    before = _beats(piece, curve, max(bar - 1, 1), 1).mean()
    change = float(_beats(piece, curve, min(max(reached, bar), piece.bars), 1).mean() - before)
    if abs(change) <= 1e-12 * max(float(np.max(np.abs(curve.quantity_values))), 1e-300):
        return 0
    return 1 if change > 0 else -1


def _beats(piece: Piece, curve: ControlCurve, bar: int, bars: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    first = (bar - 1) * piece.beats
    return np.asarray(curve.quantity_values[first : first + bars * piece.beats], dtype=float)


def _stage_text(piece: Piece, curve: ControlCurve, quantity: Quantity, stage: int) -> str:
    """The stage's mean as the key prints it, the companion first where there is one: "6 °C on average (573 m/s)"."""
    key = next((key for key in piece.controls.keys if key.rule == curve.rule), None)
    row = piece.stages[stage]
    text = next((words for title, words, _ in key.stages if title == row.title), "") if key else ""
    if not text:
        mean = float(_beats(piece, curve, row.bar, row.bars).mean())
        text = measure_text(convert(mean, quantity.si_unit, quantity.unit), quantity.unit)
    both = _WITH_COMPANION.fullmatch(text) if quantity.companion else None
    return f"{both[2]} on average ({both[1]})" if both else f"{text} on average"


def _moved_to(piece: Piece, quantity: Quantity, change: float, text: str) -> str:
    known = piece.timeline.quantity(quantity.companion) if quantity.companion else quantity
    if change == 0.0:
        return f"the {quantity.name} is {text}"
    if known.unit in _TEMPERATURES and known.whose:
        # A companion tells the same story: molecules are faster exactly where it is warmer.
        return f"{known.whose} is {'warmer' if change > 0 else 'colder'}, {text}"
    return f"the {quantity.name} {'rises' if change > 0 else 'falls'}, {text}"
