"""The chart to fill in, as it is drawn: its boxes read back from the page."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from typing import Any

import pytest
from pypdf import PageObject

from tests.paper.large import large_lesson
from tests.paper.sheets import made

MM = 72 / 25.4
Frame = tuple[float, float, float, float]


def rounded_frames(page: PageObject) -> list[Frame]:
    """The frames (left, bottom, right, top; points) of closed outlines with round corners on a page, each once."""
    found: set[Frame] = set()
    path: list[tuple[float, float]] = []
    curves = 0

    def visit(operator: bytes, operands: list[Any], matrix: list[float], _: list[float]) -> None:
        nonlocal curves
        if operator == b"m":
            path.clear()
            curves = 0
        if operator in (b"m", b"l", b"c"):
            x, y = (float(each) for each in operands[-2:])
            a, b, c, d, e, f = matrix
            path.append((a * x + c * y + e, b * x + d * y + f))
            curves += operator == b"c"
        if operator == b"h" and curves == 4 and path:
            xs, ys = zip(*path, strict=True)
            found.add(tuple(round(each, 1) for each in (min(xs), min(ys), max(xs), max(ys))))  # type: ignore[arg-type]

    page.extract_text(visitor_operand_before=visit)
    return sorted(found)


def boxes(stages: int, *, cycle: bool, large_print: bool, paper: str = "a4") -> list[Frame]:
    lesson = large_lesson(stages=stages, groups=2)
    lesson = replace(lesson, process=replace(lesson.process, cycle=cycle), scaffold="open")  # no bank of words
    pages = made("pupils", lesson, large_print=large_print, paper=paper).pages
    page = next(page for page in pages if "Write one stage" in page.extract_text())
    return [f for f in rounded_frames(page) if 20 * MM < f[2] - f[0] < 90 * MM and f[3] - f[1] < 26 * MM]


@pytest.mark.parametrize("large_print", [False, True])
@pytest.mark.parametrize("cycle", [True, False])
@pytest.mark.parametrize("stages", [2, 5, 8, *(pytest.param(n, marks=pytest.mark.long) for n in (3, 4, 6, 7))])
def test_no_two_boxes_of_the_chart_touch(stages: int, cycle: bool, large_print: bool) -> None:
    found = boxes(stages, cycle=cycle, large_print=large_print)
    assert len(found) == stages
    for one, other in combinations(found, 2):
        beside = max(one[0] - other[2], other[0] - one[2])
        above = max(one[1] - other[3], other[1] - one[3])
        assert max(beside, above) > 3 * MM
