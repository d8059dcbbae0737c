"""Whether a rule can be told apart by ear in the stages in which its part plays: between two of them, or within one."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import combinations

import numpy as np

from sonify.arrange.piece import Piece
from sonify.arrange.says import own_curves
from sonify.records.controls import ControlCurve, StageBars
from sonify.records.scene import PartPlan
from sonify.records.telling_apart import difference

#: The check looks at the means of a stage's quarters for what is heard within it.
_QUARTERS = 4
#: Levelling draws steps of loudness together, so that more is wanted of them (our own share).
_LEVELLED = 1.25


def untold(piece: Piece, plan: PartPlan, playing: Collection[int], *, levelled: bool = True) -> dict[int, float]:
    """Stages that would let a part's rules be told apart where those in which it plays do not, and how clearly.

    playing: numbers of the stages in which it plays. levelled: with something to spare for steps of loudness.
    Empty where all is told, and where nothing would tell it.
    """
    found: dict[int, float] = {}
    for curve in own_curves(piece, plan):
        asked = _asked(piece, curve.rule.control, levelled)
        here = {n: _heard(piece, curve, piece.stages[n]) for n in piece.stage_numbers(plan)}
        if not asked or _most(curve, (here[n] for n in playing if n in here)) >= asked:
            continue
        for other in here.keys() - set(playing):
            apart = _most(curve, [here[other], *(here[n] for n in playing if n in here)])
            if apart >= asked:
                found[other] = max(found.get(other, 0.0), apart / asked)
    return found


def _asked(piece: Piece, control: str, levelled: bool) -> float:
    """The difference that is asked for at this class's age; 0 for a control that nobody tells apart by stages."""
    row = next((row for row in piece.controls.thresholds if row.control == control), None)
    if row is None or control == "tempo":
        return 0.0
    asked = row.asked_of(piece.classroom.youngest_age)
    return _LEVELLED * asked if control == "dynamics" and levelled else asked


def _heard(piece: Piece, curve: ControlCurve, stage: StageBars) -> tuple[float, ...]:
    """The control's mean over a stage, and over each of its quarters."""
    first = (stage.bar - 1) * piece.beats
    values = np.asarray(curve.results, dtype=float)[first : first + stage.bars * piece.beats]
    quarters = [part for part in np.array_split(values, _QUARTERS) if part.size]
    return (float(values.mean()), *(float(part.mean()) for part in quarters))


def _most(curve: ControlCurve, stages: Iterable[tuple[float, ...]]) -> float:
    """The largest difference between the means of two stages, or of two quarters of one."""
    known = list(stages)
    means = [one[0] for one in known]
    pairs = [*combinations(means, 2), *(pair for one in known for pair in combinations(one[1:], 2))]
    return max((difference(curve.rule.control, *pair) for pair in pairs), default=0.0)
