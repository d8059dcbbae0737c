"""The shapes that a drawn quantity may take, so that its author need not write a value for every stage."""

from __future__ import annotations

from sonify.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveShape:
    """One shape. way: which way it must go from `from` to `to`: "up", "down", "any", or "none" where it has one value.

    times: it comes round several times. at: it needs the name of a stage. closes: it ends where it began, or each stage
    has a value of its own, so that a circle of stages can have it.
    """

    id: str
    way: str = "any"
    times: bool = False
    at: bool = False
    closes: bool = False


SHAPES = {
    row.id: row
    for row in (
        CurveShape(id="steady", way="none", closes=True),
        CurveShape(id="rises", way="up"),
        CurveShape(id="falls", way="down"),
        CurveShape(id="rises and levels off", way="up"),
        CurveShape(id="decays", way="down"),
        CurveShape(id="swings", times=True, closes=True),
        CurveShape(id="repeats", times=True, closes=True),
        CurveShape(id="jumps", at=True, closes=True),
        CurveShape(id="one after another", closes=True),
    )
}
