"""How loud a part is along the bars, as a line to draw: 0 is silent, 1 is ff."""

from __future__ import annotations

from sonify.kinds.marks import DYNAMICS
from sonify.records.score import Part, Score

Corners = list[tuple[float, float]]


def corners(part: Part, score: Score) -> Corners:
    """Corners (bar, level) from the part's marks and hairpins; two at one bar where the level jumps."""
    found: Corners = []
    marks = sorted(part.dynamics, key=lambda mark: mark.bar)
    for mark, following in zip(marks, [*marks[1:], None], strict=False):
        level = DYNAMICS[mark.mark] / DYNAMICS["ff"]
        found.append((mark.bar, level))
        if not (mark.hairpin and following):
            found.append((following.bar if following else score.bars + 1, level))
    return found


def levels(line: Corners, first: int, end: int) -> list[list[float]]:
    """The corners between two bar lines, both ends included; for a part without marks, mf throughout."""
    if not line:
        middle = DYNAMICS["mf"] / DYNAMICS["ff"]
        return [[first, middle], [end, middle]]
    inside = [[bar, level] for bar, level in line if first < bar < end]
    return [[first, _level(line, first, after=True)], *inside, [end, _level(line, end, after=False)]]


def _level(line: Corners, bar: int, *, after: bool) -> float:
    """The level at a bar line; where it jumps there, on the side asked for."""
    at = [level for corner, level in line if corner == bar]
    if at:
        return at[-1] if after else at[0]
    before = [corner for corner in line if corner[0] < bar]
    beyond = [corner for corner in line if corner[0] > bar]
    if not before:
        return beyond[0][1]
    if not beyond:
        return before[-1][1]
    (bar_0, level_0), (bar_1, level_1) = before[-1], beyond[0]
    return level_0 + (level_1 - level_0) * (bar - bar_0) / (bar_1 - bar_0)
