"""What is told of a drawn quantity: true of the drawing, and never told as measured or computed."""

from __future__ import annotations

import numpy as np

from sonify.processes.telling import Stretch, source_of, told_apart
from sonify.records.fact import Claim, Fact, fact

#: A stage tells of so many quantities at most, those that change first.
MOST_TOLD = 4
#: Told as a rise or a fall from this share of the quantity's whole swing on; less is hardly anything.
CLEAR = 0.05
#: A quantity that moves by less than this share of its whole swing hardly changes (as the claim "steady" has it).
HARDLY = 0.05
#: How far back a rise may go between, as a share of its way, and be called one still.
SETBACK = 0.1


def told_stage(whole: Stretch, names: tuple[str, ...], start: float, end: float) -> tuple[Fact, ...]:
    """What the drawing does in a stage, quantity by quantity, those that change first."""
    here = whole.between(start, end)
    moving = sorted(names, key=lambda name: not np.ptp(here.values(name)))
    return tuple(_told(whole, here, name) for name in moving[:MOST_TOLD])


def _told(whole: Stretch, here: Stretch, name: str) -> Fact:
    values, swing = here.values(name), float(np.ptp(whole.values(name)))
    if np.ptp(values) == 0.0:
        return fact("drawn-stays", here.steady(name), quantity=name, value=here.figure(name, "first"))
    way = _way(values, swing)
    ends = told_apart(here.figure(name, "first"), here.figure(name, "last"))
    if way and ends:
        rises = here.rises(name) if way == "rises" else here.falls(name)
        return fact(f"drawn-{way}", rises, quantity=name, **{"from": ends[0], "to": ends[1]})
    if not way and np.ptp(values) <= HARDLY * swing:
        return fact("drawn-hardly", here.steady(name), quantity=name, value=here.figure(name, "median"))
    between = told_apart(here.figure(name, "least"), here.figure(name, "most"))
    if between and not way:
        least, most = between
        apart = Claim(kind="less", left=source_of(least), right=source_of(most), slack=1e-9)
        return fact("drawn-between", apart, quantity=name, least=least, most=most)
    return fact("drawn-about", quantity=name, value=here.figure(name, "median"))


def _way(values: np.ndarray, swing: float) -> str:
    """rises, falls, or "" where it does neither plainly."""
    gone = float(values[-1] - values[0])
    sign = 1.0 if gone > 0.0 else -1.0
    back = float(np.max(np.maximum.accumulate(sign * values) - sign * values))
    if abs(gone) < CLEAR * swing or back > SETBACK * abs(gone):
        return ""
    return "rises" if gone > 0.0 else "falls"
