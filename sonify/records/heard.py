"""One rule as its key prints it, and as it comes back from a recording."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sonify.records.fact import Words
from sonify.records.timeline import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PrintedKey:
    """One rule for one part ("" for the whole piece) as the key prints it, and what the science had in each bar.

    low, high, truth: in `unit`. truth: the mean of each bar, nan where the part does not play.
    """

    quantity: str
    unit: str
    control: str
    part: str
    low: float
    high: float
    to_low: float
    to_high: float
    curve: str
    truth: FloatArray

    def value(self, sound: FloatArray) -> FloatArray:
        """The quantity that a sound stands for; beyond the ends the key runs on."""
        share = (np.asarray(sound, dtype=float) - self.to_low) / (self.to_high - self.to_low)
        if self.curve == "logarithmic":
            return np.asarray(self.low * (self.high / self.low) ** share)
        return np.asarray(self.low + share * (self.high - self.low))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HeardRule:
    """One rule as it was heard. source: "stem" or "mix".

    rank_stages, rank_bars: rank correlation with the science (nan: fewer than two that differ). error: median over the
    stages of how far the quantity that came back is from the science, in `unit`. stages: (title, science, came back).
    """

    key: PrintedKey
    source: str
    rank_stages: float
    rank_bars: float
    error: float
    stages: tuple[tuple[Words, float, float], ...]
