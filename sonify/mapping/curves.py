"""How a quantity runs along its control: a share from 0 at the rule's low end to 1 at its high end, and back.

Nothing here clamps: a value outside the range is refused, and holding one at the end is the caller's open choice
(`held`).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sonify.errors import OutOfRange
from sonify.records.timeline import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """low < high of one measure, run onto to_low..to_high of another; to_low and to_high differ, either is larger.

    kind "linear": equal steps of the measure are equal steps of the control. "logarithmic": equal *ratios* of the
    measure are equal steps of the control, and low is above 0.
    """

    kind: str
    low: float
    high: float
    to_low: float
    to_high: float

    def __post_init__(self) -> None:
        if not self.low < self.high or self.to_low == self.to_high:
            raise ValueError("a curve has a low end, a high end and something to run between")
        if self.kind == "logarithmic" and not self.low > 0.0:
            raise ValueError("a logarithmic curve starts above 0")

    def share(self, values: FloatArray) -> FloatArray:
        """How far along the range, 0 at low, 1 at high; beyond the ends the curve runs on (a logarithm needs > 0)."""
        if self.kind == "logarithmic":
            return np.asarray(np.log(values / self.low) / np.log(self.high / self.low))
        return (values - self.low) / (self.high - self.low)

    def forward(self, values: FloatArray) -> FloatArray:
        """The control for each value, exact at both ends. Raises OutOfRange outside low..high."""
        _refuse(values, self.low, self.high, "value")
        return _between(self.share(values), self.to_low, self.to_high)

    def inverse(self, controls: FloatArray) -> FloatArray:
        """The value for each control, exact at both ends. Raises OutOfRange outside to_low..to_high."""
        _refuse(controls, min(self.to_low, self.to_high), max(self.to_low, self.to_high), "control")
        share = (controls - self.to_low) / (self.to_high - self.to_low)
        if self.kind == "logarithmic":
            return _within(self.low * (self.high / self.low) ** share, self.low, self.high)
        return _between(share, self.low, self.high)

    def held(self, values: FloatArray) -> tuple[FloatArray, FloatArray]:
        """The values with those outside held at the nearer end, and by how much each lay outside (0 within)."""
        kept = np.clip(values, self.low, self.high)
        return kept, values - kept


def _refuse(values: FloatArray, least: float, most: float, name: str) -> None:
    for end in (np.min(values), np.max(values)):
        if not least <= end <= most:  # "not <=", so that nan fails too
            raise OutOfRange(name, float(end), "", f"{least:g} to {most:g}", "the curve")


def _between(share: FloatArray, start: float, end: float) -> FloatArray:
    """start at 0, end at 1, exactly, and never past them by a rounding error."""
    found = np.where(share == 1.0, end, start + share * (end - start))
    return _within(found, min(start, end), max(start, end))


def _within(values: FloatArray, least: float, most: float) -> FloatArray:
    # Takes off the last bit that floating point may add at an end; values outside were refused before.
    return np.minimum(np.maximum(values, least), most)
