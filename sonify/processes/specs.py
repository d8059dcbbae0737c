"""What a process declares, in one line each: a condition that a scene may set, a quantity that it computes."""

from __future__ import annotations

from sonify.records.fact import Words
from sonify.records.process import ConditionSpec, QuantitySpec

#: (unit as people read it, SI unit)
Units = tuple[str, str]


def condition_spec(
    name: str, meaning: Words, units: Units, usual: float, ends: tuple[float, float], *, whole: bool = False
) -> ConditionSpec:
    """A condition with its usual value and the ends of its range, in SI units. whole: only whole numbers make sense."""
    unit, si_unit = units
    low, high = ends
    return ConditionSpec(
        name=name, meaning=meaning, unit=unit, si_unit=si_unit, default=usual, low=low, high=high, whole=whole
    )


def quantity_spec(
    name: str,
    symbol: str,
    units: Units,
    meaning: Words,
    *,
    whose: Words = "",
    companion: str = "",
    true_zero: bool = True,
) -> QuantitySpec:
    """A quantity. true_zero: ratios of its SI values mean something, as those of masses do and of directions do not."""
    unit, si_unit = units
    return QuantitySpec(
        name=name,
        symbol=symbol,
        unit=unit,
        si_unit=si_unit,
        true_zero=true_zero,
        meaning=meaning,
        whose=whose,
        companion=companion,
    )
