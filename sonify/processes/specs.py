"""What a process declares, in one line each: a condition that a scene may set, a quantity that it computes."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from sonify.frozen import dataclass
from sonify.records.fact import Amount, Fact, Words, fact
from sonify.records.process import ConditionSpec, QuantitySpec, StageSpec

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


def always(*cautions: str) -> Callable[[Mapping[str, float]], tuple[str, ...]]:
    """Cautions that a process needs under all conditions."""
    return lambda conditions: cautions


def share_of_ours(share: float) -> Amount:
    """A share at which we chose to part two stages, in per cent."""
    return Amount(value=100.0 * share, unit="%", given="a choice of our own, above")


@dataclass(frozen=True, slots=True)
class Declared:
    """A process's declarations, whose words stand in the catalogue under names that follow from their own.

    process: the first word of its messages. The condition wind_speed of drying means `drying-condition-wind_speed`,
    the quantity "water left" `drying-quantity-water-left`.
    """

    process: str

    def condition(
        self, name: str, units: Units, usual: float, ends: tuple[float, float], *, whole: bool = False
    ) -> ConditionSpec:
        return condition_spec(name, self.words("condition", name), units, usual, ends, whole=whole)

    def quantity(
        self, name: str, symbol: str, units: Units, *, whose: str = "", companion: str = "", true_zero: bool = True
    ) -> QuantitySpec:
        """whose: the last word of the message that says whose quantity it is, "" where the name says it."""
        return quantity_spec(
            name,
            symbol,
            units,
            self.words("quantity", name),
            whose=self.words("whose", whose) if whose else "",
            companion=companion,
            true_zero=true_zero,
        )

    def stage(self, name: str, title: Words = "", *, seen_as: Words = "") -> StageSpec:
        """title, seen_as: where their messages have places to fill, or are not in the catalogue."""
        return StageSpec(
            name=name,
            title=title or self.words("stage", name),
            seen_as=seen_as or self.words("seen", name),
        )

    def honesty(self, count: int) -> tuple[Fact, ...]:
        return tuple(self.words("honesty", str(number)) for number in range(1, count + 1))

    def words(self, kind: str, name: str = "") -> Fact:
        """The message of a declaration, without places to fill."""
        return fact("-".join(filter(None, (self.process, kind, *name.split()))))
