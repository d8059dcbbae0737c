"""WCAG 2.2, definition of relative luminance and contrast ratio (w3c repository): pairs on white worked from it.

The figures are the published formula computed independently; #767676 is the well-known last grey that passes 4.5.
"""

from __future__ import annotations

import re
from itertools import product

import pytest

from sonify.page.document import style
from sonify.page.hatching import ink_on, luminance
from tests.reference.tolerance import half_last_digit

ON_WHITE = [
    ("#000000", "21.000"),
    ("#595959", "7.005"),
    ("#767676", "4.542"),
    ("#777777", "4.478"),
    ("#949494", "3.033"),
    ("#0000ff", "8.592"),
    ("#ff0000", "3.998"),
]


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize(("colour", "printed"), ON_WHITE)
def test_contrast_on_white(colour: str, printed: str) -> None:
    assert contrast(colour, "#ffffff") == pytest.approx(float(printed), rel=0, abs=half_last_digit(printed))


def test_marks_on_a_group_colour_stand_out() -> None:
    for colour in ("#0072B2", "#D55E00", "#009E73", "#CC79A7", "#E69F00", "#56B4E9", "#F0E442", "#000000"):
        assert contrast(colour, ink_on(colour)) >= 4.5


def test_page_colours_reach_the_contrast_that_text_and_controls_need() -> None:
    """1.4.3: text 4.5; 1.4.11: graphics and controls 3."""
    schemes = [dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6})", block)) for block in style().split("@media", 2)[:2]]
    for scheme in schemes:
        grounds = [scheme[name] for name in ("paper", "panel", "tint", "tint-strong")]
        for ink, ground in product((scheme["ink"], scheme["ink-soft"]), grounds):
            assert contrast(ink, ground) >= 4.5
        for mark, ground in product((scheme["accent"], scheme["lit"], scheme["line"]), grounds):
            assert contrast(mark, ground) >= 3.0
        assert contrast(scheme["accent"], scheme["accent-ink"]) >= 4.5
        assert contrast(scheme["lit"], scheme["panel"]) >= 4.5
