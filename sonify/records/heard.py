"""One rule as its key prints it, and as it comes back from a recording."""

from __future__ import annotations

import math

import numpy as np

from sonify.frozen import dataclass
from sonify.records.fact import Words
from sonify.records.telling_apart import LEAST_DENSITY
from sonify.records.timeline import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PrintedKey:
    """One rule for one part ("" for the whole piece) as the key prints it, and what the science had in each bar.

    low, high, truth: in `unit`. truth: the mean of each bar, nan where the part does not play. asked: how far apart two
    sounds are to be told apart, on the scale of `height`.
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
    asked: float = 0.0

    @property
    def sign(self) -> float:
        """1 where more of the quantity is more of the sound, else -1."""
        return 1.0 if (self.to_high > self.to_low) == (self.high > self.low) else -1.0

    def value(self, sound: FloatArray) -> FloatArray:
        """The quantity that a sound stands for; beyond the ends the key runs on."""
        given = np.asarray(sound, dtype=float)
        if self.curve == "decibels":
            share = np.log(np.maximum(given, 1e-300) / self.to_low) / np.log(self.to_high / self.to_low)
        else:
            share = (given - self.to_low) / (self.to_high - self.to_low)
        if self.curve == "logarithmic":
            return np.asarray(self.low * (self.high / self.low) ** share)
        return np.asarray(self.low + share * (self.high - self.low))

    def height(self, values: FloatArray) -> FloatArray:
        """Where the key lays values of the quantity, on the scale of the ear: semitones, decibels, per cent of the way
        between beaters, or per cent of the smaller."""
        given = np.asarray(values, dtype=float)
        if self.curve == "logarithmic":
            share = np.log(np.maximum(given, 1e-300) / self.low) / np.log(self.high / self.low)
        else:
            share = (given - self.low) / (self.high - self.low)
        within = np.clip(share, 0.0, 1.0)
        if self.curve == "decibels":
            sound = self.to_low * (self.to_high / self.to_low) ** within
        else:
            sound = self.to_low + within * (self.to_high - self.to_low)
        if self.control == "dynamics":
            return np.asarray(40.0 * np.log10(np.maximum(sound, 1.0)))
        if self.control == "brightness":
            return np.asarray(100.0 * sound)
        if self.control == "pitch":
            return np.asarray(sound)
        per_cent = math.log1p(self.asked / 100.0) / max(self.asked, 1e-9)  # so that `asked` is one step anywhere
        return np.asarray(np.log(np.maximum(sound, LEAST_DENSITY)) / max(per_cent, 1e-9))


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
