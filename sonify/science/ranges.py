"""The range a formula covers, checked: a value outside it, or one that is not a number, is refused."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from sonify.errors import OutOfRange
from sonify.frozen import dataclass

FloatArray = NDArray[np.float64]
Values = float | FloatArray  # what a formula takes: one number, or many at once
_NUMBERS = (float, int)


@dataclass(frozen=True, slots=True)
class Range:
    """One argument's range: its name and unit, the least and largest value covered, and by which formula.

    above: True where `low` itself is left out (a mass of nothing has no speed).
    """

    name: str
    unit: str
    low: float
    high: float
    by: str
    above: bool = False

    def checked(self, values: Values) -> FloatArray:
        """The values as floats, the same shape. Raises OutOfRange, naming the worst of them."""
        if isinstance(values, _NUMBERS):  # one number: the models step through time with these
            value = float(values)
            if not (self.low <= value <= self.high) or (self.above and value == self.low):
                self._check(value)
            # a numpy scalar behaves as an array of no axes
            return values if type(values) is np.float64 else np.float64(value)  # type: ignore[return-value]
        array = np.asarray(values, dtype=np.float64)
        if array.size:
            self._check(float(array.min()))
            self._check(float(array.max()))
        return array

    def _check(self, value: float) -> None:
        # "not inside" rather than "outside", so that nan is refused too
        if not ((self.low < value if self.above else self.low <= value) and value <= self.high):
            raise OutOfRange(self.name, value, self.unit, self.covered, self.by)

    @property
    def covered(self) -> str:
        if math.isinf(self.high):
            return f"more than {self.low:g} {self.unit}" if self.above else f"{self.low:g} {self.unit} and above"
        return f"{self.low:g} to {self.high:g} {self.unit}"
