"""The units worked out beforehand are what pint makes of them, bit for bit."""

from __future__ import annotations

from sonify import units
from sonify.known_units import AFFINE, SI


def test_units_worked_out_beforehand_are_pints() -> None:
    assert {pair: units.asked(*pair) for pair in AFFINE} == AFFINE
    assert {unit: units.asked_si(unit) for unit in SI} == SI
    assert len(AFFINE) > 50 and len(SI) > 40


def test_a_unit_that_is_not_among_them_is_asked_of_pint() -> None:
    assert ("furlong", "m") not in AFFINE and "furlong" not in SI
    assert abs(units.convert(1.0, "furlong", "m") - 201.168) < 0.001  # 220 yards of 0.9144 m, by definition
    assert units.si("furlong") == "m" and units.known("furlong") and not units.known("smoots per hop")
