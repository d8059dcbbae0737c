"""Values of the science as the page words them."""

from __future__ import annotations

from math import floor, log10

import numpy as np

from sonify.records.timeline import FloatArray
from sonify.say import sentence
from sonify.say.parts import number
from sonify.units import printed


def figures(values: FloatArray) -> list[str]:
    """Each value as text, all with the decimals that show about a fiftieth of their range."""
    spread = float(np.ptp(values))
    decimals = 1 - floor(log10(spread)) if spread > 0 else 1
    if decimals > 6 or float(np.max(np.abs(values))) >= 1e7:
        return [number(float(value)) for value in values]
    rounded = np.round(values, max(0, decimals)) + 0.0  # + 0.0 turns -0 into 0
    return [f"{value:.{max(0, decimals)}f}".replace("-", "−") for value in rounded]


def with_unit(figure: str, unit: str) -> str:
    """A figure and its unit, held together by a space that no line breaks at."""
    sign = "" if unit == "1" else printed(unit)
    return f"{figure}\u00a0{sign}" if sign else figure


def both(first: str, second: str) -> str:
    """A value and, in brackets, the one that goes with it: "19 °C (586 m/s)"."""
    return f"{first} ({second})" if second else first


def heading(name: str) -> str:
    """A quantity's name as a heading: "Journey temperature"."""
    return sentence(name)
