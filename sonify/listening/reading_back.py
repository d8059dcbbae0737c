"""What the class's beat says through the printed key, beside what the science says. The key undoes the exaggeration."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from sonify.records.heard import PrintedKey
from sonify.records.listened import Listened, ReadBack, Span, StageRead
from sonify.units import convert

Floats = NDArray[np.float64]


def read_back(
    found: Listened,
    rules: Sequence[Mapping[str, Any]],
    bars_s: Sequence[tuple[float, float]],
    science: Sequence[Floats],
) -> ReadBack | None:
    """The tempo's own quantity by bars and stages, in the unit of science.csv; None where no quantity sets the tempo.

    A beat beyond the key's ends is read as the end: what lies beyond stands for nothing (growth under none at all).
    rules: of pack.json. bars_s: model time in which each bar begins and ends. science: time, and the values of the
    rule's quantity as science.csv has them; its unit is `unit_of` the heading.
    """
    rule = tempo_rule(rules)
    if rule is None or not found.recognised:
        return None
    time_s, values = science
    low, high = (float(end["si"]) for end in rule["from"])
    to_low, to_high = (float(end["value"]) for end in rule["to"])
    curve = str(rule["curve"])
    unit = str(rule["shown_unit"])
    key = PrintedKey(
        quantity=str(rule["quantity"]),
        unit=unit,
        control="tempo",
        part="",
        low=float(convert(low, rule["unit"], unit)),
        high=float(convert(high, rule["unit"], unit)),
        to_low=to_low,
        to_high=to_high,
        curve=curve,
        truth=np.array([]),
    )
    by_bar = np.array([_mean(time_s, values, start, end) for start, end in bars_s])
    stages = []
    for row in found.stages:
        inside = by_bar[row.bar - 1 : row.bar - 1 + row.bars]
        ours, beyond = (None, "") if row.bpm is None else _ours(key, row.bpm)
        stages.append(
            StageRead(
                letter=row.letter,
                title=row.title,
                bar=row.bar,
                bars=row.bars,
                science=float(inside.mean()),
                ours=ours,
                beyond=beyond,
            )
        )
    return ReadBack(
        quantity=key.quantity,
        unit=unit,
        science=tuple(by_bar.tolist()),
        stages=tuple(stages),
        falls=key.sign < 0.0,
    )


def _ours(key: PrintedKey, bpm: Span) -> tuple[Span, str]:
    """What a beat stands for, and whether it is "quicker" or "slower" than the key goes."""
    slowest, quickest = sorted((key.to_low, key.to_high))
    within = np.clip([bpm.low, bpm.value, bpm.high], slowest, quickest)
    low, middle, high = (float(value) for value in key.value(within))
    beyond = "quicker" if bpm.low > quickest else "slower" if bpm.high < slowest else ""
    return Span(value=middle, low=min(low, high), high=max(low, high)), beyond


def tempo_rule(rules: Sequence[Mapping[str, Any]]) -> Mapping[str, Any] | None:
    return next((rule for rule in rules if rule["as"] == "tempo" and not rule["part"]), None)


def _mean(time_s: Floats, values: Floats, start_s: float, end_s: float) -> float:
    """Of what the science has from one model time to another."""
    at = np.linspace(start_s, max(end_s, start_s), 9)
    return float(np.interp(at, time_s, values).mean())
