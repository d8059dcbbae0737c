"""Tolerances from the digits that a source prints."""

from __future__ import annotations

from decimal import Decimal


def half_last_digit(printed: str) -> float:
    """Half a unit in the last digit a source prints: "511" gives 0.5, "610.5" gives 0.05."""
    exponent = Decimal(printed).as_tuple().exponent
    assert isinstance(exponent, int), f"{printed} is no number"
    return float(0.5 * 10.0**exponent)
